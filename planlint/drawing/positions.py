"""Which lengths a view is dimensioned with: the edges that matter most, and rows of equal parts as one length.

In a view "across" is to the right and "up" is up, mm of the piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from planlint.build.piece import Part
from planlint.geometry.outline import area
from planlint.geometry.seen import Seen
from planlint.geometry.shadow import Eye
from planlint.geometry.solid import extent

Way = Literal["across", "up"]

MOST = 9  # positions in a chain: eight lengths
SAME = 0.8  # mm (1/32 in): edges no further apart are one position
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
        for (entry, *_), spans in alike.items():
            row = _row(entry, way, sorted(spans), shown)
            if row is not None:
                found.append(row)
    return sorted(found, key=lambda row: -row.shown)


def _row(entry: str, way: Way, spans: list[tuple[float, float, int]], shown: dict[int, float]) -> Row | None:
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
    )


def chain(seen: Seen, way: Way, low: float, high: float, in_rows: Sequence[Row]) -> list[tuple[float, float]]:
    """Positions from end to end with their weight, the length of edge to be seen there; the ends weigh most.

    Edges within a row are left out: the row has its own dimension.
    """
    axis = 0 if way == "across" else 1
    rowed = [row for row in in_rows if row.way == way]
    weights: dict[float, float] = {}
    for line in seen.lines:
        at = line.start[axis]
        if abs(line.end[axis] - at) < STRAIGHT and not any(_is_within(row, at) for row in rowed):
            run = abs(line.end[1 - axis] - line.start[1 - axis])
            key = round(at, 2)
            weights[key] = weights.get(key, 0.0) + run
    for row in rowed:
        for end in (row.start, row.end):
            weights[round(end, 2)] = weights.get(round(end, 2), 0.0) + row.size * row.number
    inner = _merged(weights, low, high)
    best = sorted(inner, key=lambda one: -one[1])[: MOST - 2]
    return [(low, float("inf")), *sorted(best), (high, float("inf"))]


def _is_within(row: Row, at: float) -> bool:
    """Whether a position is an edge of one of the row's parts, and not the row's end."""
    if not row.start + SAME < at < row.end - SAME:
        return False
    into = (at - row.start) % (row.size + row.gap)
    return min(into, abs(into - row.size), row.size + row.gap - into) < SAME


def _merged(weights: dict[float, float], low: float, high: float) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for at, weight in sorted(weights.items()):
        if at < low + SAME or at > high - SAME:
            continue
        if found and at - found[-1][0] < SAME:
            found[-1] = (found[-1][0], found[-1][1] + weight)
        else:
            found.append((at, weight))
    return found
