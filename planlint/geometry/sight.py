"""What hides a point from an eye."""

from __future__ import annotations

import math
from collections.abc import Iterable

from planlint.geometry.body import Solid
from planlint.geometry.vector import Vec, length, scale, sub

_GRAZE = 0.05  # mm: a line no deeper than this below a surface sees past it
_LEVEL = 1e-12


def is_hidden(point: Vec, eye_or_direction: Vec, solids: Iterable[Solid]) -> bool:
    """Whether a solid stands between a point on a surface and an eye.

    A vector of length 1 is a direction, towards an eye far away; any other is the eye's place (mm): no eye
    stands within a millimetre of the corner a piece is measured from.
    """
    if abs(length(eye_or_direction) - 1.0) < 1e-9:
        return is_hidden_towards(point, eye_or_direction, solids)
    return is_hidden_from_eye(point, eye_or_direction, solids)


def is_hidden_from_eye(point: Vec, eye: Vec, solids: Iterable[Solid]) -> bool:
    """Whether a solid stands between a point on a surface and an eye at a place (mm)."""
    way = sub(eye, point)
    far = length(way)
    if far == 0.0:
        return False
    direction = scale(way, 1.0 / far)
    return what_hides(point, direction, far, solids) is not None


def is_hidden_towards(point: Vec, direction: Vec, solids: Iterable[Solid]) -> bool:
    """Whether a solid stands between a point on a surface and an eye far away in a unit direction."""
    return what_hides(point, direction, math.inf, solids) is not None


def what_hides(point: Vec, direction: Vec, far: float, solids: Iterable[Solid]) -> Solid | None:
    """The first of these solids that stands between a point on a surface and an eye `far` mm away in a unit
    direction; None where nothing does.
    """
    for solid in solids:
        if _blocks(solid, point, direction, far):
            return solid
    return None


def _blocks(solid: Solid, point: Vec, direction: Vec, far: float) -> bool:
    """Whether the line passes the solid deeper than a graze below every face, before it is `far`.

    The surface the point lies on is no bar to a line that leaves it, and is one to a line that goes into it.
    """
    if solid.aligned:
        return _box_blocks(solid, point, direction, far)
    px, py, pz = point
    dx, dy, dz = direction
    enter, leave = 0.0, far
    for (nx, ny, nz), offset in solid.planes:
        steep = nx * dx + ny * dy + nz * dz
        room = offset - _GRAZE - (nx * px + ny * py + nz * pz)
        if steep > _LEVEL:
            leave = min(leave, room / steep)
        elif steep < -_LEVEL:
            enter = max(enter, room / steep)
        elif room <= 0.0:
            return False
        if enter >= leave:
            return False
    return True


def _box_blocks(solid: Solid, point: Vec, direction: Vec, far: float) -> bool:
    low, high = solid.low, solid.high
    enter, leave = 0.0, far
    for axis in (0, 1, 2):
        start, way = point[axis], direction[axis]
        before, after = low[axis] + _GRAZE - start, high[axis] - _GRAZE - start
        if -_LEVEL <= way <= _LEVEL:
            if before >= 0.0 or after <= 0.0:
                return False
            continue
        if way < 0.0:
            before, after = after, before
        if before / way > enter:
            enter = before / way
        if after / way < leave:
            leave = after / way
        if enter >= leave:
            return False
    return True
