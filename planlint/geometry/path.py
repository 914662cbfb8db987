"""A line's way through solids: where it enters and leaves, and how much cover is left round it."""

from __future__ import annotations

import math

from planlint.geometry.apart import least_distance
from planlint.geometry.body import Plane, Solid
from planlint.geometry.vector import EXACT, NOISE, Vec, dot

_SQUARE = 1e-12  # a line less steep than this runs along the plane


def cross_line(solid: Solid, origin: Vec, direction: Vec) -> tuple[float, float] | None:
    """Where the line origin + t direction enters and leaves, as t (mm when direction is unit).

    Both may be negative. None when it misses, runs along the surface, or passes less than 0.01 mm of it.
    """
    way = (
        _way_through_box(solid, origin, direction)
        if solid.aligned
        else _way_through(solid, origin, direction)
    )
    if way is None:
        return None
    x, y, z = direction
    return None if (way[1] - way[0]) * math.sqrt(x * x + y * y + z * z) < EXACT else way


def _way_through_box(solid: Solid, origin: Vec, direction: Vec) -> tuple[float, float] | None:
    low, high = solid.low, solid.high
    enter, leave = -math.inf, math.inf
    for axis in (0, 1, 2):
        way, start = direction[axis], origin[axis]
        if way == 0.0 or -_SQUARE <= way <= _SQUARE:
            if low[axis] + NOISE < start < high[axis] - NOISE:
                continue
            return None
        near, far = (low[axis] - start) / way, (high[axis] - start) / way
        if way < 0.0:
            near, far = far, near
        if near > enter:
            enter = near
        if far < leave:
            leave = far
        if enter >= leave:
            return None
    return (enter, leave) if leave < math.inf else None


def _way_through(solid: Solid, origin: Vec, direction: Vec) -> tuple[float, float] | None:
    enter, leave = -math.inf, math.inf
    for normal, offset in solid.planes:
        steep = dot(normal, direction)
        room = offset - dot(normal, origin)
        if steep > _SQUARE:
            leave = min(leave, room / steep)
        elif steep < -_SQUARE:
            enter = max(enter, room / steep)
        elif room <= NOISE:
            return None
        if enter >= leave:
            return None
    return (enter, leave) if -math.inf < enter and leave < math.inf else None


def cover(solid: Solid, point: Vec) -> tuple[float, Plane]:
    """The least distance (mm) from a point inside to the plane of a face, and that plane; negative outside.

    The solid must have a thickness.
    """
    return min([(offset - dot(normal, point), Plane(normal, offset)) for normal, offset in solid.planes])


def axis_clearance(solid: Solid, p0: Vec, p1: Vec) -> list[tuple[float, Plane]]:
    """The least distance (mm) from the segment p0-p1 to each face's plane, least first; negative outside.

    For faces along it, a cylinder's clearance is this less its radius; a face that the axis crosses or
    reaches comes out at 0 or less.
    """
    found = [
        (offset - max(dot(normal, p0), dot(normal, p1)), Plane(normal, offset))
        for normal, offset in solid.planes
    ]
    found.sort()
    return found


def reach(solid: Solid, p0: Vec, p1: Vec) -> float:
    """The least distance (mm) from the segment p0-p1 to a solid; 0 where it touches or enters it."""
    return least_distance(solid.vertices, (p0, p1))


def between_segments(p0: Vec, p1: Vec, q0: Vec, q1: Vec) -> float:
    """The least distance (mm) of two segments; either may be a point."""
    return least_distance((p0, p1), (q0, q1))


def near_box(box: Solid, p0: Vec, p1: Vec, within: float) -> bool:
    """Whether the segment p0-p1 comes nearer than `within` mm (more than 0) to an aligned box: `reach`, quicker.

    The distance along the segment falls and then rises: where it is less can be closed in on from both ends.
    """
    (lx, ly, lz), (hx, hy, hz) = box.low, box.high
    px, py, pz = p0
    dx, dy, dz = p1[0] - px, p1[1] - py, p1[2] - pz
    start, end = 0.0, 1.0
    for low, high, at, way in ((lx, hx, px, dx), (ly, hy, py, dy), (lz, hz, pz, dz)):
        if abs(way) < _SQUARE:
            if at <= low - within or at >= high + within:
                return False
            continue
        first, last = (low - within - at) / way, (high + within - at) / way
        start, end = max(start, min(first, last)), min(end, max(first, last))
        if start >= end:
            return False

    def square(t: float) -> float:
        x, y, z = px + t * dx, py + t * dy, pz + t * dz
        x = lx - x if x < lx else x - hx if x > hx else 0.0
        y = ly - y if y < ly else y - hy if y > hy else 0.0
        z = lz - z if z < lz else z - hz if z > hz else 0.0
        return x * x + y * y + z * z

    limit = within * within
    for _ in range(_CLOSER):
        left, right = start + (end - start) / 3.0, end - (end - start) / 3.0
        at_left, at_right = square(left), square(right)
        if at_left < limit or at_right < limit:
            return True
        start, end = (start, right) if at_left < at_right else (left, end)
    return False


_CLOSER = 40  # each step takes away a third of what is left: 1e-7 of it at last
