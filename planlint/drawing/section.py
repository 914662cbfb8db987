"""Cutting the piece with a plane: flat outlines of convex solids, whose wood is where, and the lines between.

Flat coordinates are mm in the plane: x along `right`, y along `up`; who looks at it looks against right x up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from math import dist
from typing import NamedTuple

from planlint.build.piece import Part, Share
from planlint.geometry.solid import Solid
from planlint.geometry.vector import EXACT, NOISE, Vec, cross, dot, length, sub

Flat = tuple[float, float]
Polygon = tuple[Flat, ...]
Segment = tuple[Flat, Flat]

_SIDE = 0.03  # mm: so far beside a line one looks whose wood is there
_SHORT = 0.02  # mm: shorter pieces of a line are nothing


class Cut(NamedTuple):
    """A plane through `origin`; `right` and `up` are unit and square to each other."""

    origin: Vec
    right: Vec
    up: Vec

    def flat(self, point: Vec) -> Flat:
        """A point of space, seen straight against the plane."""
        way = sub(point, self.origin)
        return dot(way, self.right), dot(way, self.up)

    @property
    def normal(self) -> Vec:
        """The way from the plane to who looks at it."""
        return cross(self.right, self.up)


class Window(NamedTuple):
    """What is shown of a plane."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def outline(self) -> Polygon:
        """Its corners, counter-clockwise."""
        return (
            (self.left, self.bottom),
            (self.right, self.bottom),
            (self.right, self.top),
            (self.left, self.top),
        )


class Region(NamedTuple):
    """Wood in a plane: whose it is, and its outline. Of regions that lie over each other the last has the wood."""

    name: str
    polygon: Polygon


def outline_of(solid: Solid, cut: Cut, *, touching: bool = False) -> Polygon:
    """The convex outline of a solid in a plane, counter-clockwise; empty where the plane passes it by.

    A plane in which a face lies cuts the solid only where `touching`.
    """
    far = 2.0 * max(length(sub(corner, cut.origin)) for corner in (*solid.vertices, solid.low)) + 1.0
    polygon: Polygon = ((-far, -far), (far, -far), (far, far), (-far, far))
    for normal, offset in solid.planes:
        a, b = dot(normal, cut.right), dot(normal, cut.up)
        room = offset - dot(normal, cut.origin)
        if abs(a) < 1e-12 and abs(b) < 1e-12:
            if room < (-NOISE if touching else EXACT):
                return ()
            continue
        polygon = _kept(polygon, a, b, room)
        if len(polygon) < 3:
            return ()
    return polygon


def overlap(polygon: Sequence[Flat], other: Sequence[Flat]) -> Polygon:
    """What two convex outlines, both counter-clockwise, share; empty when that is no area."""
    found = tuple(polygon)
    for (ax, ay), (bx, by) in zip(other, (*other[1:], other[0]), strict=True):
        a, b = by - ay, ax - bx
        found = _kept(found, a, b, a * ax + b * ay)
        if len(found) < 3:
            return ()
    return found


def regions(parts: Iterable[Part], shares: Iterable[Share], cut: Cut, passed: set[int]) -> list[Region]:
    """The wood of these parts in a plane, and over it the shared space of those that keep it.

    `passed` are the orders of the parts that a fastener goes through: of them a face in the plane counts too.
    """
    found = [Region(part.name, outline_of(part.solid, cut, touching=part.order in passed)) for part in parts]
    found += [Region(share.keeper.name, outline_of(share.solid, cut)) for share in shares]
    return [region for region in found if region.polygon]


def owner_at(point: Flat, all_regions: Sequence[Region]) -> str | None:
    """Whose wood is at a point; None for air."""
    return next((one.name for one in reversed(all_regions) if is_inside(point, one.polygon)), None)


def is_inside(point: Flat, polygon: Sequence[Flat]) -> bool:
    """Whether a point lies in a convex outline that runs counter-clockwise, its edge included."""
    x, y = point
    return all(
        (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0.0
        for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    )


def borders(all_regions: Sequence[Region], window: Window) -> tuple[list[Segment], list[Segment]]:
    """The lines where the wood of one ends, and, on the window's edge, where the wood goes on unseen."""
    edges = [edge for region in all_regions for edge in _edges(region.polygon)]
    seen = [one for one in (within(edge, window.outline) for edge in edges) if one is not None]
    lines = _parted(
        seen,
        edges,
        lambda here, there: here != there,
        all_regions,
    )
    frame = window.outline
    inner = [one for one in lines if not _on_frame(one, window)]
    torn = _parted(
        list(_edges(frame)), edges, lambda here, there: here is not None and here == there, all_regions
    )
    return inner, torn


def within(segment: Segment, polygon: Sequence[Flat]) -> Segment | None:
    """The piece of a line that lies in a convex outline that runs counter-clockwise."""
    (x, y), (ex, ey) = segment
    dx, dy = ex - x, ey - y
    low, high = 0.0, 1.0
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        a, b = by - ay, ax - bx
        room, pace = a * (ax - x) + b * (ay - y), a * dx + b * dy
        if abs(pace) < 1e-12:
            if room < -1e-9:
                return None
        elif pace > 0.0:
            high = min(high, room / pace)
        else:
            low = max(low, room / pace)
    if low >= high:
        return None
    return (x + dx * low, y + dy * low), (x + dx * high, y + dy * high)


def runs_within(points: Sequence[Flat], polygon: Sequence[Flat]) -> Iterator[list[Flat]]:
    """The runs of a line of several points that lie in a convex outline."""
    run: list[Flat] = []
    for pair in pairwise(points):
        kept = within(pair, polygon)
        if kept is None or (run and dist(run[-1], kept[0]) > 1e-6):
            if len(run) > 1:
                yield run
            run = []
        if kept is not None:
            run += kept if not run else kept[1:]
    if len(run) > 1:
        yield run


def _kept(polygon: Sequence[Flat], a: float, b: float, room: float) -> Polygon:
    """The part of a convex outline where a x + b y <= room."""
    kept: list[Flat] = []
    before = polygon[-1]
    was = a * before[0] + b * before[1] - room
    for point in polygon:
        now = a * point[0] + b * point[1] - room
        if (was < 0.0 < now) or (now < 0.0 < was):
            part = was / (was - now)
            kept.append(
                (before[0] + (point[0] - before[0]) * part, before[1] + (point[1] - before[1]) * part)
            )
        if now <= 0.0:
            kept.append(point)
        before, was = point, now
    distinct = [one for i, one in enumerate(kept) if _apart(one, kept[i - 1]) > NOISE]
    return tuple(distinct) if len(distinct) > 2 else ()


def _edges(polygon: Sequence[Flat]) -> list[Segment]:
    return list(zip(polygon, (*polygon[1:], polygon[0]), strict=True))


def _parted(
    segments: Sequence[Segment],
    edges: Sequence[Segment],
    shown: Callable[[str | None, str | None], bool],
    all_regions: Sequence[Region],
) -> list[Segment]:
    """The pieces of these lines, parted wherever an edge meets them, whose two sides are to be shown."""
    found: list[Segment] = []
    told: set[tuple[int, int]] = set()
    for start, end in segments:
        size = _apart(start, end)
        if size < _SHORT:
            continue
        dx, dy = (end[0] - start[0]) / size, (end[1] - start[1]) / size
        places = sorted({0.0, size, *_meetings(start, (dx, dy), size, edges)})
        for low, high in pairwise(places):
            if high - low < _SHORT:
                continue
            half = (low + high) / 2.0
            x, y = start[0] + dx * half, start[1] + dy * half
            key = (round(x / _SHORT), round(y / _SHORT))
            here = owner_at((x - dy * _SIDE, y + dx * _SIDE), all_regions)
            there = owner_at((x + dy * _SIDE, y - dx * _SIDE), all_regions)
            if key not in told and shown(here, there):
                told.add(key)
                found.append(
                    (
                        (start[0] + dx * low, start[1] + dy * low),
                        (start[0] + dx * high, start[1] + dy * high),
                    )
                )
    return found


def _meetings(start: Flat, way: Flat, size: float, edges: Iterable[Segment]) -> list[float]:
    """How far along a line edges cross it, end on it, or begin to run with it."""
    (x, y), (dx, dy) = start, way
    found: list[float] = []
    for (ax, ay), (bx, by) in edges:
        side_a = dx * (ay - y) - dy * (ax - x)
        side_b = dx * (by - y) - dy * (bx - x)
        along_a, along_b = dx * (ax - x) + dy * (ay - y), dx * (bx - x) + dy * (by - y)
        if abs(side_a) < _SIDE and abs(side_b) < _SIDE:
            found += [along_a, along_b]
        elif min(side_a, side_b) < _SIDE and max(side_a, side_b) > -_SIDE:
            part = side_a / (side_a - side_b) if side_a != side_b else 0.0
            found.append(along_a + (along_b - along_a) * part)
    return [one for one in found if 0.0 < one < size]


def _on_frame(segment: Segment, window: Window) -> bool:
    (ax, ay), (bx, by) = segment
    return any(abs(a - at) < _SIDE and abs(b - at) < _SIDE for a, b, at in (
        (ax, bx, window.left), (ax, bx, window.right), (ay, by, window.bottom), (ay, by, window.top),
    ))  # fmt: skip


def _apart(one: Flat, other: Flat) -> float:
    dx, dy = one[0] - other[0], one[1] - other[1]
    return float((dx * dx + dy * dy) ** 0.5)
