"""A line's way through solids: where it enters and leaves, and how much cover is left round it."""

from __future__ import annotations

import math

from planlint.geometry.apart import least_distance
from planlint.geometry.body import Plane, Solid
from planlint.geometry.vector import EXACT, NOISE, Vec, dot, length

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
    if way is None or (way[1] - way[0]) * length(direction) < EXACT:
        return None
    return way


def _way_through_box(solid: Solid, origin: Vec, direction: Vec) -> tuple[float, float] | None:
    low, high = solid.low, solid.high
    enter, leave = -math.inf, math.inf
    for axis in (0, 1, 2):
        way, start = direction[axis], origin[axis]
        if -_SQUARE <= way <= _SQUARE:
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
