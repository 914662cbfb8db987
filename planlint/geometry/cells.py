"""Solids that are not convex, as convex cells that touch: a board with its housings and mortises cut.

The edges are those of the whole: where two cells only continue each other there is none, and where they form an
inside corner there is one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from planlint.geometry.solid import Plane, Solid, clip
from planlint.geometry.vector import EXACT, Vec, dot, lerp, scale, world_axis

_FLAT, _FULL = math.pi, 2.0 * math.pi  # the angle of wood round a line in a face, and inside
_ALIKE = 0.01  # rad: wedges are summed up to this


class Edge(NamedTuple):
    """A straight edge and the directions of the two faces of its cell that meet there.

    `smooth`: between two flats of round stock, where no edge is to be seen but against what is behind.
    """

    start: Vec
    end: Vec
    first: Vec
    second: Vec
    smooth: bool


class Body(NamedTuple):
    """A part as it is cut: convex cells, touching each other, and the edges of the whole."""

    cells: tuple[Solid, ...]
    edges: tuple[Edge, ...]


def body(cells: Sequence[Solid], round_about: Vec | None = None) -> Body:
    """The body of these cells; `round_about` is the axis of round stock."""
    edges: list[Edge] = []
    for cell, others in _touching(cells):
        own = _cell_edges(cell, round_about)
        edges += own if not others else [real for edge in own for real in _real(edge, others)]
    return Body(tuple(cells), tuple(edges))


def cut(solid: Solid, holes: Sequence[Solid]) -> list[Solid]:
    """The convex cells that are left of a solid when holes are cut.

    The hole in the middle of the list is cut first and the others only where they still meet a cell: with holes in
    the order in which they lie along a board, many of them do not cost their square.
    """
    near = [hole for hole in holes if _bounds_meet(solid, hole)]
    if not near:
        return [solid]
    middle = len(near) // 2
    rest = near[:middle] + near[middle + 1 :]
    return [cell for part in _without(solid, near[middle]) for cell in cut(part, rest)]


def _without(solid: Solid, hole: Solid) -> list[Solid]:
    cells: list[Solid] = []
    rest: Solid | None = solid
    for normal, offset in hole.planes:
        if rest is None:
            return [solid]
        outside = clip(rest, Plane(scale(normal, -1.0), -offset))
        rest = clip(rest, Plane(normal, offset))
        if outside is not None and outside is not rest:
            cells.append(outside)
    return [solid] if rest is None else cells


def _bounds_meet(a: Solid, b: Solid, within: float = -EXACT) -> bool:
    """Whether the bounds share space, or are no more than `within` apart."""
    (ax0, ay0, az0), (ax1, ay1, az1) = a.low, a.high
    (bx0, by0, bz0), (bx1, by1, bz1) = b.low, b.high
    return (
        bx0 <= ax1 + within
        and ax0 <= bx1 + within
        and by0 <= ay1 + within
        and ay0 <= by1 + within
        and bz0 <= az1 + within
        and az0 <= bz1 + within
    )


def _touching(cells: Sequence[Solid]) -> Iterator[tuple[Solid, list[Solid]]]:
    """Each cell with those whose bounds touch its own, found in a sweep along the longest way."""
    reach = [max([cell.high[i] for cell in cells]) - min([cell.low[i] for cell in cells]) for i in range(3)]
    axis = reach.index(max(reach))
    others: dict[int, list[Solid]] = {id(cell): [] for cell in cells}
    open_: list[Solid] = []
    for cell in sorted(cells, key=lambda one: one.low[axis]):
        open_ = [one for one in open_ if one.high[axis] >= cell.low[axis] - EXACT]
        for one in open_:
            if _bounds_meet(cell, one, EXACT):
                others[id(cell)].append(one)
                others[id(one)].append(cell)
        open_.append(cell)
    for cell in cells:
        yield cell, others[id(cell)]


def _cell_edges(cell: Solid, round_about: Vec | None) -> list[Edge]:
    seen: dict[tuple[Vec, Vec], Vec] = {}
    found: list[Edge] = []
    for (normal, _), outline in cell.faces:
        before = outline[-1]
        for point in outline:
            key = (before, point) if before < point else (point, before)
            first = seen.pop(key, None)
            if first is None:
                seen[key] = normal
            else:
                found.append(Edge(*key, first, normal, _smooth(first, normal, round_about)))
            before = point
    return found + [Edge(*key, normal, normal, False) for key, normal in seen.items()]


def _smooth(first: Vec, second: Vec, round_about: Vec | None) -> bool:
    """Between two flats of round stock; cut with its ends off square, its flats stay flats."""
    if round_about is None:
        return False
    return abs(dot(first, round_about)) < EXACT and abs(dot(second, round_about)) < EXACT


def _real(edge: Edge, others: Sequence[Solid]) -> list[Edge]:
    """The stretches of a cell's edge that are edges of the whole."""
    beside = [(span, other) for other in others if (span := _stretch(edge, other)) is not None]
    if not beside:
        return [edge]
    stops = sorted({0.0, 1.0, *[end for span, _ in beside for end in span]})
    own = _FLAT - _angle(edge.first, edge.second)
    kept: list[Edge] = []
    for start, end in pairwise(stops):
        if end - start < 1e-9:
            continue
        middle = lerp(edge.start, edge.end, (start + end) / 2.0)
        wood = own + sum(
            [_wedge(other, middle) for span, other in beside if span[0] <= start and end <= span[1]]
        )
        if abs(wood - _FLAT) > _ALIKE and wood < _FULL - _ALIKE:
            ends = (lerp(edge.start, edge.end, start), lerp(edge.start, edge.end, end))
            kept.append(Edge(*ends, edge.first, edge.second, edge.smooth))
    return kept


def _stretch(edge: Edge, other: Solid) -> tuple[float, float] | None:
    """From where to where (0 to 1) the edge runs in or on another cell; None where it only meets it in a point."""
    low, high = 0.0, 1.0
    for normal, offset in other.planes:
        at_start = offset + EXACT / 2.0 - dot(normal, edge.start)
        at_end = offset + EXACT / 2.0 - dot(normal, edge.end)
        if at_start < 0.0 and at_end < 0.0:
            return None
        if at_start < 0.0:
            low = max(low, at_start / (at_start - at_end))
        elif at_end < 0.0:
            high = min(high, at_start / (at_start - at_end))
    return (low, high) if high - low > 1e-3 else None


def _wedge(cell: Solid, point: Vec) -> float:
    """The angle of a cell's wood round a line through this point in it, of which it has all or a part."""
    active = [normal for normal, offset in cell.planes if dot(normal, point) > offset - EXACT]
    if not active:
        return _FULL
    return _FLAT if len(active) == 1 else _FLAT - _angle(active[0], active[1])


def _angle(a: Vec, b: Vec) -> float:
    if world_axis(a) is not None and world_axis(b) is not None and a != b:
        return math.acos(round(dot(a, b)))
    return math.acos(max(-1.0, min(1.0, dot(a, b))))
