"""Openings that parts close all round.

The model: two parts that run side by side, a gap between them, and two others that both touch, one beyond each
end of the opening. Whatever else lies in that opening, or right over its mouth, closes it; the openings left
beside it are found by their own four parts. The ground closes nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, dot
from planlint.observe.circumstances import for_children, is_metric, kind_of_piece
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.unplaced import add_gaps
from planlint.trade.joinery import reach

OPENING = Table(
    "opening",
    "a rectangular opening that four parts close all round",
    {
        "part": Column("word", "one of the two parts that run along it"),
        "parts": Column("words", "the four parts: the two along it, then the two across its ends"),
        "pair": Column("word", "the two parts that run along it"),
        "first": Column("word", "one of the two that run along it"),
        "second": Column("word", "the other"),
        "entries": Column("words", "the cut-list entries of the four, each once"),
        "lesser": Column("length", "the lesser side of the opening"),
        "greater": Column("length", "the greater side"),
        "piece": Column("word", "the kind of piece, or other"),
        "for_children": Column("flag", "the plan names children among its users"),
    },
)

TABLES = (OPENING,)

_PARALLEL = 0.999  # cos of 2.5 deg: parts nearer to parallel than that run side by side


class _Frame(NamedTuple):
    """The directions an opening is measured in: along its two parts, from one to the other, and through."""

    along: Vec
    apart: Vec
    through: Vec


class _Opening(NamedTuple):
    sides: tuple[Part, Part]
    ends: tuple[Part, Part]
    width: float
    length: float


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every opening, once."""
    if not add_gaps(piece, facts, TABLES):
        return
    kind, children = kind_of_piece(piece.plan) or "other", for_children(piece.plan)
    facts.add(OPENING, [_row(one, kind, children) for one in openings(piece)])


def _row(one: _Opening, kind: str, children: bool) -> Row:
    parts = (*one.sides, *one.ends)
    first, second = sorted([part.name for part in one.sides])
    values: dict[str, object] = {
        "part": first,
        "parts": tuple([part.name for part in parts]),
        "pair": f"{first} + {second}",
        "first": first,
        "second": second,
        "entries": tuple(sorted({part.copy_of for part in parts})),
        "lesser": min(one.width, one.length),
        "greater": max(one.width, one.length),
        "piece": kind,
        "for_children": children,
    }
    return Row(values, max(parts, key=lambda part: part.span.start).span)


def openings(piece: Piece) -> Iterator[_Opening]:
    """Every opening of the piece; one that either pair of its parts runs along is told once."""
    fit = reach(is_metric(piece.plan))
    beside = _beside(piece)
    told: set[frozenset[int]] = set()
    for first in piece.parts:
        mine = beside[first.order]
        for second in piece.parts[first.order + 1 :]:
            both = mine & beside[second.order]
            if len(both) < 2 or abs(dot(first.along, second.along)) < _PARALLEL:
                continue
            for frame, width in _facing(first, second):
                for one in _between(piece, first, second, frame, width, both, fit):
                    key = frozenset([part.order for part in (*one.sides, *one.ends)])
                    if key not in told:
                        told.add(key)
                        yield one


def _beside(piece: Piece) -> list[set[int]]:
    """By a part's order, the orders of the parts that touch it or are joined to it."""
    beside: list[set[int]] = [set() for _ in piece.parts]
    for first, second, _ in piece.contacts:
        beside[first.order].add(second.order)
        beside[second.order].add(first.order)
    for meeting in piece.meetings:
        beside[meeting.first.order].add(meeting.second.order)
        beside[meeting.second.order].add(meeting.first.order)
    return beside


def _facing(first: Part, second: Part) -> Iterator[tuple[_Frame, float]]:
    """The directions in which one part lies straight across from the other, with the gap between them."""
    if not _overlap(first, second, first.along):
        return
    for apart, through in ((first.across, first.through), (first.through, first.across)):
        low, high = extent(first.solid, apart)
        other_low, other_high = extent(second.solid, apart)
        width = max(low - other_high, other_low - high)
        if width > EXACT and _overlap(first, second, through):
            yield _Frame(first.along, apart, through), width


def _overlap(first: Part, second: Part, way: Vec) -> bool:
    low, high = extent(first.solid, way)
    other_low, other_high = extent(second.solid, way)
    return min(high, other_high) - max(low, other_low) > EXACT


def _between(
    piece: Piece, first: Part, second: Part, frame: _Frame, width: float, both: set[int], fit: float
) -> Iterator[_Opening]:
    """The openings between two parts, from each part that touches both to the next."""
    across = sorted([(*extent(piece.parts[order].solid, frame.along), order) for order in both])
    end, before = across[0][1], piece.parts[across[0][2]]
    for low, high, order in across[1:]:
        part = piece.parts[order]
        if low - end > EXACT:
            one = _Opening((first, second), (before, part), width, low - end)
            if not _closed(piece, one, frame, (end, low), fit):
                yield one
        if high > end:
            end, before = high, part


def _closed(piece: Piece, one: _Opening, frame: _Frame, along: tuple[float, float], fit: float) -> bool:
    """Whether another part lies in the opening or right over it."""
    four = (*one.sides, *one.ends)
    ends = [extent(part.solid, frame.apart) for part in one.sides]
    apart = (min([high for _, high in ends]), max([low for low, _ in ends]))
    depths = [extent(part.solid, frame.through) for part in four]
    deep = (min([low for low, _ in depths]) - fit, max([high for _, high in depths]) + fit)
    room = ((frame.along, along), (frame.apart, apart), (frame.through, deep))
    return any(part not in four and all(_reaches(part, way, span) for way, span in room) for part in piece.parts)


def _reaches(part: Part, way: Vec, span: tuple[float, float]) -> bool:
    low, high = extent(part.solid, way)
    return low < span[1] - EXACT and high > span[0] + EXACT
