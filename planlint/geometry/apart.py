"""How far apart two convex solids are, and how far into each other: pure distances, no faces."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.geometry.body import Solid, directions
from planlint.geometry.solid import extent
from planlint.geometry.vector import NOISE, WORLD, Vec, cross, dot, length, scale, sub

_STILL = (0.0, 0.0, 0.0)


def distance(a: Solid, b: Solid) -> float:
    """The least distance of two solids, mm; 0 when they touch or share space."""
    if a.aligned and b.aligned:
        gaps = [max(0.0, b.low[i] - a.high[i], a.low[i] - b.high[i]) for i in (0, 1, 2)]
        return math.sqrt(gaps[0] ** 2 + gaps[1] ** 2 + gaps[2] ** 2)
    return least_distance(a.vertices, b.vertices)


def push_apart(a: Solid, b: Solid) -> tuple[float, Vec]:
    """The shortest move that parts two overlapping solids: mm, and the unit direction to move `b` in.

    (0, (0, 0, 0)) when they share no space.
    """
    if not bounds_overlap(a, b) or a.volume <= 0.0 or b.volume <= 0.0:
        return 0.0, _STILL
    if a.aligned and b.aligned:
        return _least_push(a, b, WORLD)
    square = directions([*a.normals, *b.normals])
    push = _least_push(a, b, square)
    if push[0] <= 0.0:
        return push
    ways = [cross(p, q) for p in a.edges for q in b.edges]
    across = directions([*square, *[scale(way, 1.0 / length(way)) for way in ways if length(way) > NOISE]])
    between = _least_push(a, b, across[len(square) :])
    return between if between[0] < push[0] else push


def bounds_overlap(a: Solid, b: Solid) -> bool:
    """Whether the boxes round two solids share space."""
    (ax0, ay0, az0), (ax1, ay1, az1) = a.low, a.high
    (bx0, by0, bz0), (bx1, by1, bz1) = b.low, b.high
    return ax0 < bx1 and bx0 < ax1 and ay0 < by1 and by0 < ay1 and az0 < bz1 and bz0 < az1


def _least_push(a: Solid, b: Solid, ways: Sequence[Vec]) -> tuple[float, Vec]:
    best, push = math.inf, _STILL
    for way in ways:
        a_low, a_high = extent(a, way)
        b_low, b_high = extent(b, way)
        forth, back = a_high - b_low, b_high - a_low
        if forth <= NOISE or back <= NOISE:
            return 0.0, _STILL
        if forth < best:
            best, push = forth, way
        if back < best:
            best, push = back, scale(way, -1.0)
    return best, push


def least_distance(a: Sequence[Vec], b: Sequence[Vec]) -> float:
    """The least distance of the convex hulls of two sets of points, mm.

    Closes in on the nearest point of all differences a - b to the origin (after Gilbert, Johnson and
    Keerthi, 1988). Every step gives a lower bound too, so it stops when the answer is certain.
    """
    corner = sub(a[0], b[0])
    nearest, simplex = corner, [corner]
    for _ in range(_MOST_STEPS):
        far = length(nearest)
        if far <= NOISE:
            return 0.0
        corner = _furthest(a, b, nearest)
        if far - dot(nearest, corner) / far <= NOISE:
            return far
        nearest, simplex = _nearest([*simplex, corner])
        if length(nearest) >= far:
            return far
    return length(nearest)


_MOST_STEPS = 100  # a dozen is usual


def _furthest(a: Sequence[Vec], b: Sequence[Vec], against: Vec) -> Vec:
    """The difference a - b that lies furthest against a direction."""
    x, y, z = against
    first = min(a, key=lambda p: x * p[0] + y * p[1] + z * p[2])
    second = max(b, key=lambda p: x * p[0] + y * p[1] + z * p[2])
    return sub(first, second)


Nearest = tuple[Vec, list[Vec]]  # the point nearest the origin, and the corners that carry it


def _nearest(corners: list[Vec]) -> Nearest:
    """The point of a simplex (2 to 4 corners) that is nearest to the origin."""
    if len(corners) == 2:
        return _nearest_on_edge(corners[0], corners[1])
    if len(corners) == 3:
        return _nearest_on_triangle(corners[0], corners[1], corners[2])
    a, b, c, d = corners
    best: Nearest | None = None
    for p, q, r, inner in ((a, b, c, d), (a, b, d, c), (a, c, d, b), (b, c, d, a)):
        normal = cross(sub(q, p), sub(r, p))
        height, inside = -dot(p, normal), dot(sub(inner, p), normal)
        if height * inside > 0.0 and abs(inside) > NOISE * length(normal):
            continue  # the origin is on the inner side of this face
        found = _nearest_on_triangle(p, q, r)
        if best is None or length(found[0]) < length(best[0]):
            best = found
    return best if best is not None else (_STILL, corners)


def _nearest_on_edge(a: Vec, b: Vec) -> Nearest:
    way = sub(b, a)
    square = dot(way, way)
    part = -dot(a, way) / square if square > 0.0 else 0.0
    if part <= 0.0:
        return a, [a]
    if part >= 1.0:
        return b, [b]
    return (a[0] + way[0] * part, a[1] + way[1] * part, a[2] + way[2] * part), [a, b]


def _nearest_on_triangle(a: Vec, b: Vec, c: Vec) -> Nearest:
    normal = cross(sub(b, a), sub(c, a))
    square = dot(normal, normal)
    if square > 0.0 and _faces_origin(a, b, c, normal):
        return scale(normal, dot(a, normal) / square), [a, b, c]
    edges = (_nearest_on_edge(a, b), _nearest_on_edge(b, c), _nearest_on_edge(c, a))
    return min(edges, key=lambda found: dot(found[0], found[0]))


def _faces_origin(a: Vec, b: Vec, c: Vec, normal: Vec) -> bool:
    """Whether the origin lies straight above or below the inside of the triangle."""
    return (
        dot(cross(a, b), normal) >= 0.0
        and dot(cross(b, c), normal) >= 0.0
        and dot(cross(c, a), normal) >= 0.0
    )
