"""Which lengths a view is dimensioned with: the edges that matter most, and rows of equal parts as one length.

In a view "across" is to the right and "up" is up, mm of the piece.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from planlint.build.piece import Part
from planlint.geometry.outline import area
from planlint.geometry.seen import Seen
from planlint.geometry.shadow import Eye
from planlint.geometry.solid import extent

Way = Literal["across", "up"]

MOST = 9  # positions in a chain: eight lengths
WEIGHED = 64  # of very many positions, so many of the heaviest are weighed against each other
SAME = 0.8  # mm (1/32 in): edges no further apart are one position
CLOSE = 4.5  # mm: of edges no further apart the chain has one, such as of the two edges of a leaning end
STANDS = 4.0  # the ends of what leans weigh so much more on the floor, where it has no upright edge
GLIMPSED = 0.25  # of a row of which less is seen, as between the slats over it, the ends are in another view
LEAST_ROW = 3  # equal parts at equal distances that make a row
STRAIGHT = 0.01


class Row(NamedTuple):
    """Equal parts at equal distances: `number` of `size`, `gap` apart, from `start` to `end`."""

    entry: str
    way: Way
    number: int
    size: float
    gap: float
    start: float
    end: float
    parts: frozenset[int]
    shown: float  # mm² of it to be seen
    glimpsed: bool  # too little for its ends to be read here


def rows(seen: Seen, eye: Eye, parts: Sequence[Part]) -> list[Row]:
    """The rows to be seen in a view, the most visible first."""
    shown: dict[int, float] = {}
    for surface in seen.surfaces:
        shown[surface.of] = shown.get(surface.of, 0.0) + sum([area(piece) for piece in surface.pieces])
    found: list[Row] = []
    ways: tuple[tuple[Way, int], ...] = (("across", 0), ("up", 1))
    for way, axis in ways:
        alike: dict[tuple[str, float, float, float], list[tuple[float, float, int]]] = {}
        for part in parts:
            along = extent(part.solid, (eye.right, eye.up)[axis])
            cross = extent(part.solid, (eye.right, eye.up)[1 - axis])
            size = along[1] - along[0]
            alike_in = (part.copy_of, round(size, 1), round(cross[0], 1), round(cross[1], 1))
            alike.setdefault(alike_in, []).append((along[0], along[1], part.order))
        for (entry, _, *cross_way), spans in alike.items():
            row = _row(entry, way, sorted(spans), cross_way[1] - cross_way[0], shown)
            if row is not None:
                found.append(row)
    return sorted(found, key=lambda row: -row.shown)


def _row(
    entry: str, way: Way, spans: list[tuple[float, float, int]], across: float, shown: dict[int, float]
) -> Row | None:
    distinct = [spans[0]]
    for span in spans[1:]:
        if span[0] - distinct[-1][0] > SAME:
            distinct.append(span)
    gaps = [after[0] - before[1] for before, after in pairwise(distinct)]
    if len(distinct) < LEAST_ROW or max(gaps) - min(gaps) > SAME or min(gaps) < -SAME:
        return None
    orders = [order for _, _, order in spans]
    size, gap = distinct[0][1] - distinct[0][0], sum(gaps) / len(gaps)
    if 2 * sum([order in shown for order in orders]) < len(orders):
        return None
    seen_of_it = sum([shown.get(order, 0.0) for order in orders])
    return Row(
        entry,
        way,
        len(distinct),
        size,
        max(gap, 0.0),
        distinct[0][0],
        distinct[-1][1],
        frozenset(orders),
        seen_of_it,
        seen_of_it < GLIMPSED * len(distinct) * size * across,
    )


def chain(seen: Seen, way: Way, low: float, high: float, in_rows: Sequence[Row]) -> list[tuple[float, float]]:
    """Positions from end to end with their weight, the length of edge to be seen there; the ends weigh most.

    Edges within a row are left out: the row has its own dimension.
    """
    axis = 0 if way == "across" else 1
    rowed = [row for row in in_rows if row.way == way]
    glimpsed = {part for row in rowed if row.glimpsed for part in row.parts}
    weights: dict[float, float] = {}
    for line in seen.lines:
        at = line.start[axis]
        if line.of in glimpsed:
            continue
        if abs(line.end[axis] - at) < STRAIGHT and not any(_is_within(row, at) for row in rowed):
            run = abs(line.end[1 - axis] - line.start[1 - axis])
            key = round(at, 2)
            weights[key] = weights.get(key, 0.0) + run
    if way == "across":
        upright = sorted(weights)
        for at, run in _footing(seen):
            if not any(abs(at - other) < SAME for other in upright):
                weights[at] = weights.get(at, 0.0) + STANDS * run
    for row in rowed:
        for end in (row.start, row.end) if not row.glimpsed else ():
            weights[round(end, 2)] = weights.get(round(end, 2), 0.0) + row.size * row.number
    inner = _paired(_merged(weights, low, high), low + high)
    # What is as far from the middle stands together: a pair goes in whole or not at all.
    ranked = sorted(inner, key=lambda one: (-one[1], abs(2.0 * one[0] - low - high)))
    best = ranked[: MOST - 2]
    if len(ranked) > len(best) and best[-1][1] == ranked[len(best)][1]:
        best.pop()
    return [(low, float("inf")), *sorted(best), (high, float("inf"))]


def _footing(seen: Seen) -> Iterator[tuple[float, float]]:
    """Where the lines along the bottom of a view begin and end, each with the line's length."""
    floor = min([min(line.start[1], line.end[1]) for line in seen.lines], default=0.0)
    for line in seen.lines:
        if max(line.start[1], line.end[1]) < floor + STRAIGHT:
            run = abs(line.end[0] - line.start[0])
            yield round(line.start[0], 2), run
            yield round(line.end[0], 2), run


def _paired(positions: list[tuple[float, float]], ends: float) -> list[tuple[float, float]]:
    """The positions, those of a pair on either side of the middle with one weight: a frame is dimensioned evenly."""
    return [
        (at, max([weight, *[other for there, other in positions if abs(at + there - ends) < SAME]]))
        for at, weight in positions
    ]


def _is_within(row: Row, at: float) -> bool:
    """Whether a position is an edge of one of the row's parts, and not the row's end."""
    if not row.start + SAME < at < row.end - SAME:
        return False
    into = (at - row.start) % (row.size + row.gap)
    return min(into, abs(into - row.size), row.size + row.gap - into) < SAME


def _merged(weights: dict[float, float], low: float, high: float) -> list[tuple[float, float]]:
    """The positions between the ends, those that are the same added up, and of those close together the heaviest."""
    found: list[tuple[float, float]] = []
    for at, weight in sorted(weights.items()):
        if at < low + SAME or at > high - SAME:
            continue
        if found and at - found[-1][0] < SAME:
            # Of two that weigh the same, the one nearer to its end: so both sides of a piece are dimensioned alike.
            place, _ = max(found[-1], (at, weight), key=lambda one: (one[1], abs(2.0 * one[0] - low - high)))
            found[-1] = (place, found[-1][1] + weight)
        else:
            found.append((at, weight))
    kept: list[tuple[float, float]] = []
    for one in sorted(found, key=lambda one: -one[1])[:WEIGHED]:
        if all(abs(one[0] - other[0]) >= CLOSE for other in kept):
            kept.append(one)
    return sorted(kept)
