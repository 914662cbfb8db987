"""Convex polygons. An outline is points in space; `project` lays it flat; flat polygons are measured here."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.geometry.body import Plane
from planlint.geometry.vector import NOISE, WORLD, Vec, cross, dot, unit, world_axis

Flat = tuple[float, float]  # mm, in a plane's own two directions


def flat_axes(normal: Vec) -> tuple[Vec, Vec]:
    """Two unit directions u, v in the plane, u x v = normal. World axes stay exact."""
    axis = world_axis(normal)
    if axis is None:
        x, y, z = abs(normal[0]), abs(normal[1]), abs(normal[2])
        across = WORLD[0 if x <= y and x <= z else 1 if y <= z else 2]
        u = unit(cross(across, normal))
        return u, cross(normal, u)
    u, v = WORLD[(axis + 1) % 3], WORLD[(axis + 2) % 3]
    return (u, v) if normal[axis] > 0 else (v, u)


def project(outline: Sequence[Vec], normal: Vec) -> tuple[Flat, ...]:
    """The outline seen straight against `normal`, in the directions of `flat_axes(normal)`."""
    u, v = flat_axes(normal)
    return tuple([(dot(u, p), dot(v, p)) for p in outline])


def lift(polygon: Sequence[Flat], normal: Vec, offset: float) -> tuple[Vec, ...]:
    """The way back from `project`: the polygon in the plane normal·x = offset."""
    (ux, uy, uz), (vx, vy, vz) = flat_axes(normal)
    x, y, z = normal[0] * offset, normal[1] * offset, normal[2] * offset
    return tuple([(x + ux * s + vx * t, y + uy * s + vy * t, z + uz * s + vz * t) for s, t in polygon])


def area(polygon: Sequence[Flat]) -> float:
    """The area of a flat polygon, mm², whichever way round it runs."""
    return abs(_signed_area(polygon))


def _signed_area(polygon: Sequence[Flat]) -> float:
    if len(polygon) < 3:
        return 0.0
    x0, y0 = polygon[0]
    twice = 0.0
    px, py = polygon[1][0] - x0, polygon[1][1] - y0
    for x, y in polygon[2:]:
        qx, qy = x - x0, y - y0
        twice += px * qy - py * qx
        px, py = qx, qy
    return twice / 2.0


def overlap(convex_a: Sequence[Flat], convex_b: Sequence[Flat]) -> tuple[Flat, ...]:
    """What two flat convex polygons share, counter-clockwise; empty when they share no area."""
    left = _counter_clockwise(convex_a)
    right = _counter_clockwise(convex_b)
    if not left or not right:
        return ()
    before = right[-1]
    for corner in right:
        left = _cut(left, before, corner)
        if not left:
            return ()
        before = corner
    return tuple(_distinct(left))


def _counter_clockwise(polygon: Sequence[Flat]) -> list[Flat]:
    signed = _signed_area(polygon)
    if signed == 0.0:
        return []
    return list(polygon) if signed > 0 else list(reversed(polygon))


def _cut(polygon: list[Flat], start: Flat, end: Flat) -> list[Flat]:
    """The part of the polygon to the left of the line from start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    sides = [dx * (y - start[1]) - dy * (x - start[0]) for x, y in polygon]
    kept: list[Flat] = []
    px, py = polygon[-1]
    before = sides[-1]
    for (x, y), side in zip(polygon, sides, strict=True):
        if (before > 0.0 > side) or (before < 0.0 < side):
            part = before / (before - side)
            kept.append((px + (x - px) * part, py + (y - py) * part))
        if side >= 0.0:
            kept.append((x, y))
        px, py, before = x, y, side
    return kept


def _distinct(polygon: list[Flat]) -> list[Flat]:
    kept: list[Flat] = []
    for x, y in polygon:
        if not kept or abs(x - kept[-1][0]) > NOISE or abs(y - kept[-1][1]) > NOISE:
            kept.append((x, y))
    while len(kept) > 1 and abs(kept[0][0] - kept[-1][0]) <= NOISE and abs(kept[0][1] - kept[-1][1]) <= NOISE:
        kept.pop()
    return kept if len(kept) > 2 else []


def hull2d(points: Sequence[Flat]) -> tuple[Flat, ...]:
    """The convex outline round flat points, counter-clockwise, nothing on a straight edge.

    Fewer than three points when all lie at one point or on one line.
    """
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return tuple(ordered)
    return tuple(_straightened(_chain(ordered)[:-1] + _chain(ordered[::-1])[:-1]))


def _chain(ordered: list[Flat]) -> list[Flat]:
    """One side of the hull. Exact: a tolerance here could drop a corner that only looks passed."""
    chain: list[Flat] = []
    for corner in ordered:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], corner) <= 0.0:
            chain.pop()
        chain.append(corner)
    return chain


def _straightened(hull: list[Flat]) -> list[Flat]:
    """The hull without the corners that stand out less than NOISE from the line past them."""
    kept: list[Flat] = []
    for i, corner in enumerate(hull):
        before = kept[-1] if kept else hull[-1]
        after = hull[i + 1] if i + 1 < len(hull) else kept[0] if kept else hull[0]
        if _turn(before, corner, after) > NOISE * math.dist(before, after):
            kept.append(corner)
    return kept


def _turn(a: Flat, b: Flat, c: Flat) -> float:
    """Twice the area of a triangle, positive when it runs counter-clockwise."""
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def least_width(convex: Sequence[Flat]) -> float:
    """The narrowest slot a flat convex polygon slips through, mm; 0 for fewer than three points."""
    if len(convex) < 3:
        return 0.0
    least = math.inf
    ax, ay = convex[-1]
    for bx, by in convex:
        run = math.hypot(bx - ax, by - ay)
        if run > 0.0:
            reach = [((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / run for x, y in convex]
            least = min(least, max(reach) - min(reach))
        ax, ay = bx, by
    return 0.0 if least == math.inf else least


def span_along(outline: Sequence[Vec], direction: Vec) -> tuple[float, float]:
    """The least and the most of direction·x over an outline in space (mm when direction is unit)."""
    x, y, z = direction
    reach = [x * p[0] + y * p[1] + z * p[2] for p in outline]
    return min(reach), max(reach)


def cut_below(outline: Sequence[Vec], plane: Plane) -> list[Vec]:
    """The part of a convex outline in space inside a plane (below it, as its normal looks)."""
    (nx, ny, nz), offset = plane
    heights = [nx * x + ny * y + nz * z - offset for x, y, z in outline]
    if not outline or min(heights) > 0.0:
        return []
    if max(heights) <= 0.0:
        return list(outline)
    kept: list[Vec] = []
    before, over_before = outline[-1], heights[-1]
    for corner, over in zip(outline, heights, strict=True):
        if (over > 0.0) != (over_before > 0.0):
            t = over_before / (over_before - over)
            (ax, ay, az), (bx, by, bz) = before, corner
            kept.append((ax + (bx - ax) * t, ay + (by - ay) * t, az + (bz - az) * t))
        if over <= 0.0:
            kept.append(corner)
        before, over_before = corner, over
    return kept
