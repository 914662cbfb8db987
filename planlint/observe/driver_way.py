"""The way of a bit and a driver out from a screw's head: a thin rod, and behind it a thicker one."""

from __future__ import annotations

import math
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.geometry.outline import flat_axes
from planlint.geometry.path import cross_line, near_box, reach
from planlint.geometry.solid import Solid, extent
from planlint.geometry.vector import EXACT, Vec, add, dot, scale, unit, world_axis
from planlint.trade.driving import Tool, lean

_ROUND = [math.pi * i / 4.0 for i in range(8)]  # the sides a tool is held aslant to


class Way(NamedTuple):
    """The line out from where a head ends up."""

    head: Vec
    out: Vec


class Room(NamedTuple):
    """What stands near, and the length by which a screw stands out when it is started."""

    near: list[Part]
    screw: float


def clear(way: Way, room: Room, one: Tool) -> bool:
    """Whether bit and driver have room, from where the screw is started until it is home."""
    near, end = room.near, one.end + room.screw
    for i, part in enumerate(near):
        if _touches(part.solid, way, one.bit + one.thick, end - one.thick, one.thick) or _touches(
            part.solid, way, one.thin, one.bit, one.thin
        ):
            near[0], near[i] = part, near[0]  # the next way is likely to meet the same one
            return False
    return True


def clear_aslant(way: Way, room: Room, one: Tool) -> bool:
    """The same for a tool that may be held a little aslant, to any side."""
    if clear(way, room, one):
        return True
    u, v = flat_axes(way.out)
    slope = math.tan(math.radians(lean()))
    aside = [add(scale(u, math.cos(turn)), scale(v, math.sin(turn))) for turn in _ROUND]
    leaning = [Way(way.head, unit(add(way.out, scale(side, slope)))) for side in aside]
    return any(clear(each, room, one) for each in leaning)


def _touches(solid: Solid, way: Way, start: float, end: float, radius: float) -> bool:
    """Whether a round bar along the way, from `start` to `end` and its radius beyond, meets a solid."""
    p = add(way.head, scale(way.out, start))
    q = add(way.head, scale(way.out, max(start, end)))
    (ax, ay, az), (bx, by, bz) = solid.low, solid.high
    gap = math.sqrt(
        max(0.0, ax - max(p[0], q[0]), min(p[0], q[0]) - bx) ** 2
        + max(0.0, ay - max(p[1], q[1]), min(p[1], q[1]) - by) ** 2
        + max(0.0, az - max(p[2], q[2]), min(p[2], q[2]) - bz) ** 2
    )
    if gap >= radius - EXACT:
        return False
    if solid.aligned:
        return world_axis(way.out) is not None or near_box(solid, p, q, radius - EXACT)
    (px, py, pz), (qx, qy, qz) = p, q
    for (x, y, z), offset in solid.planes:
        clear = offset + radius - EXACT
        if x * px + y * py + z * pz >= clear and x * qx + y * qy + z * qz >= clear:
            return False
    return reach(solid, p, q) < radius - EXACT


def begins(way: Way, solid: Solid) -> float:
    """How far out a solid begins: where the line enters it, else where it begins beside the line."""
    crossed = cross_line(solid, way.head, way.out)
    if crossed is not None and crossed[1] > 0.0:
        return max(0.0, crossed[0])
    return max(0.0, extent(solid, way.out)[0] - dot(way.head, way.out))
