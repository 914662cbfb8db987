"""The way of a bit and a driver out from a screw's head: a thin rod, and behind it a thicker one."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.geometry.outline import flat_axes
from planlint.geometry.path import cross_line, near_box, reach
from planlint.geometry.solid import Solid, extent
from planlint.geometry.vector import EXACT, Vec, dot, onward, scale, unit, world_axis
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
    body = _bar(way, one.bit + one.thick, end - one.thick, one.thick)
    bit: _Bar | None = None
    for i, part in enumerate(near):
        if _touches(part.solid, body) or _touches(
            part.solid, bit := bit or _bar(way, one.thin, one.bit, one.thin)
        ):
            near[0], near[i] = part, near[0]  # the next way is likely to meet the same one
            return False
    return True


def clear_aslant(way: Way, room: Room, one: Tool) -> bool:
    """The same for a tool that may be held a little aslant, to any side."""
    if clear(way, room, one):
        return True
    first = room.near[0].solid  # it was in the way just now
    body = _bar(way, one.bit + one.thick, one.end + room.screw - one.thick, one.thick)
    if _bars_any_lean(first, way, body) or _bars_any_lean(first, way, _bar(way, one.thin, one.bit, one.thin)):
        return False
    return any(clear(Way(way.head, out), room, one) for out in _leaning(way.out))


def _bars_any_lean(solid: Solid, way: Way, bar: _Bar) -> bool:
    """Whether a block stands so far across a way along a world axis that the bar meets it however it is held.

    Leaning about the head, the bar's axis stays within a cone. Where that has come to the block, or the bar
    begins beside it, the cone's square must lie in the block, or nearer to it than the bar is thick.
    """
    axis = world_axis(way.out)
    if axis is None or not solid.aligned:
        return False
    head, low, high = way.head, solid.low, solid.high
    begins, ends = low[axis] - head[axis], high[axis] - head[axis]
    if way.out[axis] < 0.0:
        begins, ends = -ends, -begins
    angle = math.radians(lean())
    at = max(begins, math.dist(head, bar.p))
    if at > ends or at > math.dist(head, bar.q) * math.cos(angle):
        return False
    aside = at * math.tan(angle)
    gaps = [max(0.0, low[i] - head[i] + aside, head[i] + aside - high[i]) for i in (0, 1, 2) if i != axis]
    return math.hypot(*gaps) < bar.radius


@lru_cache(maxsize=64)
def _leaning(out: Vec) -> tuple[Vec, ...]:
    """The directions of a tool that is held aslant, to all sides."""
    u, v = flat_axes(out)
    slope = math.tan(math.radians(lean()))
    aside = [onward(scale(u, math.cos(turn)), v, math.sin(turn)) for turn in _ROUND]
    return tuple([unit(onward(out, side, slope)) for side in aside])


class _Bar(NamedTuple):
    """A round bar: its axis from `p` to `q` and `radius` round it, its ends rounded. `low`, `high`: the axis's
    bounds.
    """

    p: Vec
    q: Vec
    low: Vec
    high: Vec
    radius: float
    way: Vec


def _bar(way: Way, start: float, end: float, radius: float) -> _Bar:
    """The bar along the way, from `start` to `end` and its radius beyond; less EXACT, so that it may touch."""
    (hx, hy, hz), (x, y, z) = way
    end = start if start > end else end
    p = hx + x * start, hy + y * start, hz + z * start
    q = hx + x * end, hy + y * end, hz + z * end
    low = q[0] if x < 0.0 else p[0], q[1] if y < 0.0 else p[1], q[2] if z < 0.0 else p[2]
    high = p[0] if x < 0.0 else q[0], p[1] if y < 0.0 else q[1], p[2] if z < 0.0 else q[2]
    return _Bar(p, q, low, high, radius - EXACT, way.out)


def _touches(solid: Solid, bar: _Bar) -> bool:
    """Whether a bar meets a solid."""
    p, q, (px, py, pz), (qx, qy, qz), radius, way = bar
    (ax, ay, az), (bx, by, bz) = solid.low, solid.high
    x = ax - qx if ax > qx else px - bx if px > bx else 0.0
    y = ay - qy if ay > qy else py - by if py > by else 0.0
    z = az - qz if az > qz else pz - bz if pz > bz else 0.0
    if x >= radius or y >= radius or z >= radius or math.sqrt(x * x + y * y + z * z) >= radius:
        return False
    if solid.aligned:
        return world_axis(way) is not None or near_box(solid, p, q, radius)
    (px, py, pz), (qx, qy, qz) = p, q
    for (x, y, z), offset in solid.planes:
        clear = offset + radius
        if x * px + y * py + z * pz >= clear and x * qx + y * qy + z * qz >= clear:
            return False
    return reach(solid, p, q) < radius


def begins(way: Way, solid: Solid) -> float:
    """How far out a solid begins: where the line enters it, else where it begins beside the line."""
    crossed = cross_line(solid, way.head, way.out)
    if crossed is not None and crossed[1] > 0.0:
        return max(0.0, crossed[0])
    return max(0.0, extent(solid, way.out)[0] - dot(way.head, way.out))
