"""Wood as a printed plan marks it: light lines along the grain, arcs of rings across it, layers of a sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planlint.build.piece import Part
from planlint.drawing.section import Cut, Flat, Polygon, Segment, runs_within, within
from planlint.geometry.vector import dot

_ACROSS = 0.7  # cos of 45 deg: grain that runs nearer to the eye than this shows its ends
_UNEVEN = (1.0, 0.62, 1.34, 0.81, 1.17, 0.7, 1.28)  # a ruler's even lines would read as a hatching
_PLY = 1.6  # mm, of a sheet's layers: about so thick, an odd number of them
_STEP = math.radians(4)


def is_end_grain(part: Part, cut: Cut) -> bool:
    """Whether a plane cuts across a part's grain; a sheet has none."""
    return not part.stock.sheet and abs(dot(part.grain, cut.normal)) > _ACROSS


def marks(part: Part, whole: Polygon, cut: Cut, pitch: float) -> list[list[Flat]]:
    """The lines of a part's wood over its whole outline in a plane, about `pitch` mm apart."""
    if part.stock.sheet and abs(dot(part.through, cut.normal)) < _ACROSS:
        return [list(one) for one in _layers(part, whole, cut)]
    if is_end_grain(part, cut):
        return list(rings(whole, pitch))
    way = (dot(part.grain, cut.right), dot(part.grain, cut.up))
    return [list(one) for one in along(whole, way, pitch)]


def along(whole: Polygon, way: Flat, pitch: float) -> Iterator[Segment]:
    """Lines along a way, unevenly `pitch` apart."""
    for at in _places(*_reach(whole, (-way[1], way[0])), pitch):
        yield from _line(whole, way, at)


def rings(whole: Polygon, pitch: float) -> Iterator[list[Flat]]:
    """Arcs round a heart that lies outside the board, as it was sawn from the log."""
    left, right = _reach(whole, (1.0, 0.0))
    bottom, top = _reach(whole, (0.0, 1.0))
    heart = (left + 0.4 * (right - left), bottom - 0.9 * min(top - bottom, right - left))
    far = max(math.hypot(x - heart[0], y - heart[1]) for x, y in whole)
    near = bottom - heart[1]
    for radius in _places(near, far, pitch):
        yield from _arc(whole, heart, radius)


def _arc(whole: Polygon, heart: Flat, radius: float) -> Iterator[list[Flat]]:
    """The runs of an arc that lie in the outline."""
    count = math.ceil(2.0 * math.pi / _STEP)
    points = [
        (heart[0] + radius * math.cos(i * _STEP), heart[1] + radius * math.sin(i * _STEP))
        for i in range(count + 1)
    ]
    yield from runs_within(points, whole)


def _layers(part: Part, whole: Polygon, cut: Cut) -> Iterator[Segment]:
    """The layers of a sheet, in its edge."""
    across = (dot(part.through, cut.right), dot(part.through, cut.up))
    size = math.hypot(*across)
    across = (across[0] / size, across[1] / size)
    low, high = _reach(whole, across)
    count = max(3, 2 * round((part.size.thickness / _PLY - 1) / 2) + 1)
    for i in range(1, count):
        yield from _line(whole, (across[1], -across[0]), low + (high - low) * i / count)


def _line(whole: Polygon, way: Flat, at: float) -> Iterator[Segment]:
    """The whole line along a way, `at` mm to its left, as far as it lies in the outline."""
    size = math.hypot(*way)
    dx, dy = way[0] / size, way[1] / size
    low, high = _reach(whole, (dx, dy))
    x, y = -dy * at, dx * at
    kept = within(((x + dx * low, y + dy * low), (x + dx * high, y + dy * high)), whole)
    if kept is not None:
        yield kept


def _places(low: float, high: float, pitch: float) -> Iterator[float]:
    at, index = low + 0.6 * pitch, 0
    while at < high:
        yield at
        at += pitch * _UNEVEN[index % len(_UNEVEN)]
        index += 1


def _reach(points: Sequence[Flat], way: Flat) -> tuple[float, float]:
    size = math.hypot(*way)
    along_it = [(x * way[0] + y * way[1]) / size for x, y in points]
    return min(along_it), max(along_it)
