"""Openings that parts close all round.

The model: two parts that run side by side, a gap between them, and two others that both touch, one beyond each
end of the opening. Whatever else lies in that opening, or right over its mouth, closes it; the openings left
beside it are found by their own four parts. The ground closes nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.body import Axes
from planlint.geometry.vector import EXACT, Vec
from planlint.observe.circumstances import for_children, is_metric, kind_of_piece
from planlint.observe.extents import Extents, Spans, extents_of
from planlint.observe.facing import that_may_face
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.observe.unplaced import add_gaps
from planlint.trade.joinery import reach

OPENING = Table(
    "opening",
    "a rectangular opening that four parts close all round",
    {
        "part": Column("word", "one of the two parts that are the nearer to each other"),
        "parts": Column("words", "the four parts, the two nearer ones first"),
        "pair": Column("word", "the two nearer parts"),
        "first": Column("word", "one of the two nearer parts"),
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


class Opening(NamedTuple):
    """The two parts that run along it, the two across its ends, and its sides: between the first two, along them."""

    sides: tuple[Part, Part]
    ends: tuple[Part, Part]
    width: float
    length: float


class _Frame:
    """What lies where along two parts that run side by side, from one to the other, and through the opening."""

    __slots__ = ("along", "apart", "run", "through", "way", "width")

    def __init__(self, along: Spans, apart: Spans, through: Spans, run: Vec, way: Vec, width: float) -> None:
        self.along = along
        self.apart = apart
        self.through = through
        self.run = run  # the direction in which they run
        self.way = way  # the direction in which they lie apart
        self.width = width


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every opening, once."""
    if not add_gaps(piece, facts, TABLES):
        return
    kind, children = kind_of_piece(piece.plan) or "other", for_children(piece.plan)
    facts.add(OPENING, [_row(one, kind, children) for one in openings(piece)])


def _row(one: Opening, kind: str, children: bool) -> Row:
    nearer, further = (one.sides, one.ends) if one.width <= one.length else (one.ends, one.sides)
    parts = (*nearer, *further)
    first, second = sorted([part.name for part in nearer])
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


def openings(piece: Piece) -> Iterator[Opening]:
    """Every opening of the piece; one that either pair of its parts runs along is told once."""
    fit = reach(is_metric(piece.plan))
    parts, beside, measured = piece.parts, _beside(piece), extents_of(piece)
    told: set[frozenset[int]] = set()
    for a, others in that_may_face(parts, beside, measured):
        first = parts[a]
        x, y, z = first.along
        axes = first.along, first.across, first.through
        spans = measured.along(axes[0]), measured.along(axes[1]), measured.along(axes[2])
        for b in others:
            second = parts[b]
            p, q, r = second.along
            if -_PARALLEL < x * p + y * q + z * r < _PARALLEL:
                continue
            frame = _facing(a, b, axes, spans)
            if frame is None:
                continue
            for before, after, room in _between(frame.along, beside[a] & beside[b]):
                four = (a, b, before, after)
                key = frozenset(four)
                if key not in told:
                    told.add(key)
                    if not _closed(four, frame, room, fit, measured):
                        yield Opening(
                            (first, second), (parts[before], parts[after]), frame.width, room[1] - room[0]
                        )


def _beside(piece: Piece) -> list[int]:
    """By a part's order, the parts that touch it or are joined to it: bit n stands for the part of order n."""
    beside = [0] * len(piece.parts)
    for first, second, _ in piece.contacts:
        beside[first.order] |= 1 << second.order
        beside[second.order] |= 1 << first.order
    for meeting in piece.meetings:
        beside[meeting.first.order] |= 1 << meeting.second.order
        beside[meeting.second.order] |= 1 << meeting.first.order
    return beside


def _facing(a: int, b: int, axes: Axes, spans: tuple[Spans, Spans, Spans]) -> _Frame | None:
    """How one part lies straight across from another; the spans are along the axes of the first."""
    along, across, through = spans
    (low, high), (other_low, other_high) = along[a], along[b]
    if low >= other_high - EXACT or other_low >= high - EXACT:
        return None  # at no place side by side
    aside, deep = _gap(across[a], across[b]), _gap(through[a], through[b])
    if aside > EXACT and deep < -EXACT:
        return _Frame(along, across, through, axes[0], axes[1], aside)
    if deep > EXACT and aside < -EXACT:
        return _Frame(along, through, across, axes[0], axes[2], deep)
    return None


def _gap(one: tuple[float, float], other: tuple[float, float]) -> float:
    """The room between two spans; less than nought where they overlap."""
    return max(one[0] - other[1], other[0] - one[1])


def _between(along: Spans, both: int) -> Iterator[tuple[int, int, tuple[float, float]]]:
    """The room from each part that touches both to the next: the two parts, and from where to where it is open."""
    across = sorted([(*along[order], order) for order in _orders(both)])
    _, end, before = across[0]
    for low, high, order in across[1:]:
        if low - end > EXACT:
            yield before, order, (end, low)
        if high > end:
            end, before = high, order


def _orders(bits: int) -> Iterator[int]:
    """The orders of the parts that a bit stands for, from the last."""
    while bits:
        order = bits.bit_length() - 1
        bits ^= 1 << order
        yield order


def _closed(
    four: tuple[int, int, int, int], frame: _Frame, room: tuple[float, float], fit: float, measured: Extents
) -> bool:
    """Whether another part lies in the opening, `room` along its sides, or right over it."""
    first, second = sorted((frame.apart[four[0]], frame.apart[four[1]]))
    start, stop = room[0] + EXACT, room[1] - EXACT
    left, right = first[1] + EXACT, second[0] - EXACT
    deep = [frame.through[order] for order in four]
    low, high = min(deep)[0] - fit + EXACT, max([span[1] for span in deep]) + fit - EXACT
    along, apart, through = frame.along, frame.apart, frame.through
    # The narrower way in meets fewer parts.
    narrow = (frame.run, start, stop) if stop - start < right - left else (frame.way, left, right)
    for order in measured.reaching(*narrow):
        a, b = along[order]
        if a < stop and b > start and order not in four:
            (c, d), (e, f) = apart[order], through[order]
            if c < right and d > left and e < high and f > low:
                return True
    return False
