"""Which point of an item a position clause means.

Of a part that stands straight: its outermost point on that side. Of one that leans: the edge where the sides
that are named meet, once every direction it leans in has one; a side named alone is the outermost point.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build.body import Body, bounds_of
from planlint.build.rows import row_block
from planlint.build.scope import Failure, Item
from planlint.build.sides import AXIS_OF_DIRECTION, OF_SIDE
from planlint.geometry.body import Plane
from planlint.geometry.vector import Vec, cross, dot, world_axis
from planlint.read.plan import At, MiddleAt, Ref

if TYPE_CHECKING:
    from planlint.build.solve import Solver


def reference(item: Item, axis: int, at: At | MiddleAt, solver: Solver) -> float | Failure:
    """The place on an axis, about the item's origin, of what the clause names."""
    held: Ref | None = at.held
    bodies = item.bodies
    if held is not None and item.listed is None:
        bodies = held_bodies(item, held)
        if not bodies:
            known = [name for body in item.bodies for name in body.levels[-1].names]
            solver.troubles.unknown(str(held), "part", held.span, known)
            return Failure(f"it is held by {held}, and there is no such part in it", [])
        low, high = bounds_of(bodies)
        bounds = (low[axis], high[axis])
    else:
        bounds = row_block(item, axis)
    if len(bodies) == 1 and not bodies[0].straight and item.row_axis != axis:
        point = _edge(item, bodies[0], axis, at)
        if point is not None:
            return point
    return _of_bounds(at, bounds)


def kind_of(at: At | MiddleAt) -> str:
    """Which end of an item a clause places: low, high or middle."""
    if isinstance(at, MiddleAt):
        return "middle"
    return "low" if OF_SIDE[at.side][1] < 0 else "high"


def held_bodies(item: Item, held: Ref) -> list[Body]:
    """The parts of a sub-assembly that a name stands for."""
    name = str(held)
    return [body for body in item.bodies if name in body.levels[-1].names]


def tilted_axes(body: Body) -> list[int]:
    """The world axes that a body leans in: those none of its own axes lies along."""
    straight = [world_axis(axis) for axis in body.axes]
    return [axis for axis in (0, 1, 2) if axis not in straight]


def intersection(a: Plane, b: Plane, c: Plane) -> Vec | None:
    """The point that three planes share (Cramer's rule); None where they have none or many."""
    (n, p), (m, q), (k, r) = a, b, c
    mk, kn, nm = cross(m, k), cross(k, n), cross(n, m)
    det = dot(n, mk)
    if abs(det) < 1e-9:
        return None
    return (
        (p * mk[0] + q * kn[0] + r * nm[0]) / det,
        (p * mk[1] + q * kn[1] + r * nm[1]) / det,
        (p * mk[2] + q * kn[2] + r * nm[2]) / det,
    )


def _edge(item: Item, body: Body, axis: int, at: At | MiddleAt) -> float | None:
    tilted = tilted_axes(body)
    if axis not in tilted:
        return None
    named = {other: _same_held(item, other, at) for other in tilted if other != axis}
    if any(clause is None for clause in named.values()):
        return None
    planes = [_plane(body, at if other == axis else named.get(other), other) for other in (0, 1, 2)]
    point = intersection(planes[0], planes[1], planes[2])
    return None if point is None else point[axis]


def _same_held(item: Item, axis: int, at: At | MiddleAt) -> At | MiddleAt | None:
    """The first clause on another axis that is about the same part."""
    for other in item.ats.get(axis, ()):
        if str(other.held) == str(at.held):
            return other
    return None


def _plane(body: Body, at: At | MiddleAt | None, axis: int) -> Plane:
    if isinstance(at, At):
        return body.side_plane(*OF_SIDE[at.side])
    return body.mid_plane(axis if at is None else AXIS_OF_DIRECTION[at.direction])


def _of_bounds(at: At | MiddleAt, bounds: tuple[float, float]) -> float:
    if isinstance(at, MiddleAt):
        return (bounds[0] + bounds[1]) / 2.0
    return bounds[0] if OF_SIDE[at.side][1] < 0 else bounds[1]
