"""Pieces that a join names and that meet none of its second part."""

from __future__ import annotations

import math

from planlint.build.piece import Part, Piece, Unmet
from planlint.build.sides import OF_SIDE, SIDES
from planlint.geometry.vector import EXACT, world_axis
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps
from planlint.source import Span

UNMET = Table(
    "unmet_piece",
    "a piece of a join's first name that meets none of the second",
    {
        "part": Column("word", "the piece"),
        "other": Column("word", "what it should meet, as the join names it"),
        "nearest": Column("word", "the nearest piece of that"),
        "pair": Column("word", "the two, as one word"),
        "parts": Column("words", "the two"),
        "join": Column("word", "the join line"),
        "gap": Column("length", "how far apart the two are"),
        "edge_only": Column("flag", "they touch, but along an edge or at a corner only"),
        "aslant": Column("flag", "one of the two leans"),
        "toward": Column("word", "the side to move the piece to, where one straight move closes the gap"),
        "lengthen": Column(
            "word", "the one of the two whose length runs across the gap; missing if neither's does"
        ),
    },
)

TABLES = (UNMET,)

_ALONE = Missing("there is no other piece of that name", "the name of the part it is joined to")
_NO_MOVE = Missing("no one straight move closes the gap", "")
_ASIDE = Missing("neither ends at the gap", "")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each such piece."""
    if any(step.joins for step in piece.plan.steps) and add_gaps(piece, facts, TABLES):
        facts.add(UNMET, [_row(unmet) for unmet in unmet_of(piece)])


def unmet_of(piece: Piece) -> list[Unmet]:
    """What meets nothing. Of a sub-assembly that a join names as one, it is enough that one part meets."""
    holders = _assembly_names(piece)
    met = {(meeting.join.span, meeting.first.assembly) for meeting in piece.meetings} if holders else set()
    kept: list[Unmet] = []
    nearest: dict[tuple[Span, str | None], Unmet] = {}
    for unmet in piece.unmet:
        if unmet.join.first.name not in holders:
            kept.append(unmet)
            continue
        key = (unmet.join.span, unmet.part.assembly)
        if key not in met and (key not in nearest or unmet.gap < nearest[key].gap):
            nearest[key] = unmet
    return [*kept, *nearest.values()]


def _assembly_names(piece: Piece) -> set[str]:
    placements = piece.plan.placements
    names = {placement.assembly.text for placement in placements if placement.assembly is not None}
    for placement in placements:
        if placement.subject.name in names:
            names.update([word.text for word in placement.names])
    return names


def _row(unmet: Unmet) -> Row:
    part, nearest, join = unmet.part, unmet.nearest, unmet.join
    gap: float | Missing = _ALONE if nearest is None or math.isinf(unmet.gap) else unmet.gap
    toward = ("" if nearest is None else straight_move(part, nearest)[1]) or _NO_MOVE
    values: dict[str, object] = {
        "part": part.name,
        "other": str(join.second),
        "nearest": _ALONE if nearest is None else nearest.name,
        "pair": _ALONE if nearest is None else pair_of(part, nearest),
        "parts": (part.name,) if nearest is None else (part.name, nearest.name),
        "join": join_key(join),
        "gap": gap,
        "edge_only": unmet.line_only,
        "aslant": part.leaning or (nearest is not None and nearest.leaning),
        "toward": toward,
        "lengthen": _lengthen(part, nearest, toward),
    }
    return Row(values, join.first.span)


def straight_move(part: Part, other: Part) -> tuple[float, str]:
    """How far to move a part, and toward which side, for it to lie on another; "" where no straight move does."""
    a, b = part.solid, other.solid
    found: list[tuple[float, str]] = []
    for axis in (0, 1, 2):
        if b.low[axis] - a.high[axis] > EXACT:
            found.append((b.low[axis] - a.high[axis], SIDES[axis, 1]))
        elif a.low[axis] - b.high[axis] > EXACT:
            found.append((a.low[axis] - b.high[axis], SIDES[axis, -1]))
        elif min(a.high[axis], b.high[axis]) - max(a.low[axis], b.low[axis]) < EXACT:
            return 0.0, ""  # they would only touch along an edge
    return found[0] if len(found) == 1 and not (part.leaning or other.leaning) else (0.0, "")


def _lengthen(part: Part, nearest: Part | None, toward: str | Missing) -> str | Missing:
    """The one that ends at the gap."""
    if nearest is not None and isinstance(toward, str):
        axis, _ = OF_SIDE[toward]
        for one in (part, nearest):
            if world_axis(one.along) == axis:
                return one.name
    return _ASIDE
