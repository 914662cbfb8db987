"""Solid boards and panels: a panel is a board, or boards glued edge to edge.

It grows and shrinks across its grain and hardly along it; so does every other board.
"""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.piece import Meeting, Part, Piece
from planlint.geometry.vector import Vec, dot
from planlint.observe.extents import Extents

_ALONG = 0.7  # cos of 45 deg: grain nearer to a direction than this runs along it
_END_ON = 0.7  # cos of 45 deg: a face that looks more than this along a direction is an end or edge of it
_PARALLEL = 0.99  # cos of 8 deg: boards nearer to parallel than this can be glued edge to edge

# Some of the parts: bit n stands for the part of order n.
Some = int


class Panel:
    """One board, or several glued edge to edge; `across` is the direction it grows in, `low` and `high` its
    edges there."""

    __slots__ = ("across", "high", "low", "own", "parts")

    def __init__(self, parts: tuple[Part, ...], across: Vec, low: float, high: float, own: Some) -> None:
        self.parts = parts
        self.across = across
        self.low = low
        self.high = high
        self.own = own


def panels(piece: Piece, extents: Extents) -> list[Panel]:
    """All that is solid and grows across its grain: sheets and round stock are left out."""
    solid = [part for part in piece.parts if not part.stock.sheet and part.stock.diameter is None]
    glued = {
        id(join)
        for step in piece.plan.steps
        for join in step.joins
        if any(one.kind == "glue" for one in join.fastenings)
    }
    meetings = [one for one in piece.meetings if id(one.join) in glued]
    return [_panel(parts, extents) for parts in _edge_glued(solid, meetings)]


def across_grain(part: Part) -> Vec:
    """The direction across the grain, in the plane of the wide faces."""
    return part.along if part.entry.grain_across else part.across


def runs_along(part: Part, way: Vec) -> bool:
    """Whether a part keeps its length in a direction: its grain runs that way, or it is a sheet that does."""
    sheet = part.stock.sheet
    (x, y, z), (u, v, w) = part.through if sheet else part.grain, way
    along = abs(x * u + y * v + z * w)
    return along < _ALONG if sheet else along > _ALONG


def _panel(parts: list[Part], extents: Extents) -> Panel:
    across = across_grain(parts[0])
    spans = extents.along(across)
    if len(parts) == 1:
        order = parts[0].order
        return Panel((parts[0],), across, *spans[order], 1 << order)
    ends = [spans[part.order] for part in parts]
    own = sum([1 << part.order for part in parts])
    return Panel(tuple(parts), across, min(ends)[0], max([high for _, high in ends]), own)


def _edge_glued(parts: list[Part], meetings: Iterable[Meeting]) -> list[list[Part]]:
    """The parts, those that are glued edge to edge together; `meetings` are those with glue."""
    group = {part.order: [part] for part in parts}
    for meeting in meetings:
        mine, other = group.get(meeting.first.order), group.get(meeting.second.order)
        if mine is not None and other is not None and mine is not other and _edge_to_edge(meeting):
            mine += other
            for part in other:
                group[part.order] = mine
    return list({id(found): found for found in group.values()}.values())


def _edge_to_edge(meeting: Meeting) -> bool:
    first, second = meeting.first, meeting.second
    across = across_grain(first)
    return (
        abs(dot(first.grain, second.grain)) > _PARALLEL
        and abs(dot(across, across_grain(second))) > _PARALLEL
        and any(abs(dot(patch.normal, across)) > _END_ON for patch in meeting.patches)
    )
