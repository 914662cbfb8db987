"""The faces that `between F and G` names: as intervals on an axis, or as planes where something slopes."""

from __future__ import annotations

from collections.abc import Callable

from planlint.build.body import Body
from planlint.build.expressions import Values
from planlint.build.scope import Copy, Failure, Pick
from planlint.build.sides import OF_SIDE, UP
from planlint.geometry.body import Plane
from planlint.geometry.vector import WORLD, Vec, dot, scale, sub
from planlint.read.plan import Between, Face, Floor, PartFace, SideOf

_FLOOR = Plane(UP, 0.0)
_FACING = 0.05  # sine: a face nearly along the part's length doesn't stop it
_END_GRAIN = 0.7  # an end face counts for less: a brace lands on the side of a post, not on its end


def is_flat(face: Face, axis: int, values: Values) -> bool:
    """Whether a face is square to an axis, known before anything has a place."""
    if isinstance(face, Floor):
        return True
    own = OF_SIDE[face.side][0] if isinstance(face, SideOf) else axis
    return all(_pick_is_flat(pick, own) for pick in values.scope.find(face.ref))


def needs(face: Face, axes: tuple[int, ...], values: Values) -> list[int]:
    """The nodes that give a face its place on these axes."""
    if isinstance(face, Floor):
        return []
    return [n for pick in values.scope.find(face.ref) for axis in axes for n in values.nodes(pick, axis)]


def interval(face: Face, axis: int, values: Values) -> tuple[float, float] | Failure:
    """Where a face lies on an axis; of a part, where the part begins and ends."""
    if isinstance(face, Floor):
        return (0.0, 0.0)
    if isinstance(face, PartFace):
        return values.agreed(face.ref, axis)
    own, _ = OF_SIDE[face.side]
    if own != axis:
        return values.wrong_axis(face, axis, own)
    value = values.one_value(face, axis)
    return value if isinstance(value, Failure) else (value, value)


def opening(between: Between, axis: int, values: Values) -> tuple[float, float, bool] | Failure:
    """The space between two faces square to an axis: low end, high end, whether the first is the low one."""
    first = interval(between.first, axis, values)
    if isinstance(first, Failure):
        return first
    second = interval(between.second, axis, values)
    if isinstance(second, Failure):
        return second
    if sum(first) <= sum(second):
        return first[1], second[0], True
    return second[1], first[0], False


def planes(between: Between, along: Vec, values: Values) -> tuple[Plane, Plane] | Failure:
    """The planes of both faces, their normals toward the part that lies between them along `along`."""
    bodies: list[list[Body]] = []
    for face in (between.first, between.second):
        found = _bodies(face, values)
        if isinstance(found, Failure):
            return found
        bodies.append(found)
    way = _way(bodies, along)
    first = _plane(between.first, bodies[0], bodies[1], way, values)
    if isinstance(first, Failure):
        return first
    second = _plane(between.second, bodies[1], bodies[0], scale(way, -1.0), values)
    return second if isinstance(second, Failure) else (first, second)


def neighbour_names(face: Face, values: Values) -> set[str]:
    """All the names that a face's part answers to."""
    if isinstance(face, Floor):
        return set()
    found = {str(face.ref)}
    for copy, body in values.scope.find(face.ref):
        found.update(copy.names if body is None else body.levels[-1].names)
    return found


def placed_body(copy: Copy, body: Body) -> Body:
    """A body of an item where this copy of it stands."""
    item = copy.item
    x, y, z = item.spot
    if copy.step and item.pitch:
        way = copy.step * item.pitch
        x, y, z = (
            x + WORLD[item.row_axis][0] * way,
            y + WORLD[item.row_axis][1] * way,
            z + WORLD[item.row_axis][2] * way,
        )
    if x or y or z:
        body = body.moved((x, y, z))
    for axis in copy.mirrors:
        body = body.mirrored(axis, item.mirror_at[axis])
    return body


def _pick_is_flat(pick: Pick, axis: int) -> bool:
    copy, body = pick
    if body is None:
        if copy.item.listed is None or not copy.item.bodies:
            return True
        body = copy.item.bodies[0]
        if copy.item.between is not None and body.own_side(axis, 1)[0] == 0:
            return False  # its ends may yet be cut aslant
    return body.is_flat(axis)


def _bodies(face: Face, values: Values) -> list[Body] | Failure:
    """The placed bodies behind a face; none for the floor."""
    if isinstance(face, Floor):
        return []
    picks = values.picks(face.ref)
    if isinstance(picks, Failure):
        return picks
    found: list[Body] = []
    for pick in picks:
        for axis in (0, 1, 2):
            bounds = values.bounds(pick, axis)
            if isinstance(bounds, Failure):
                return bounds
        inner = [pick.body] if pick.body is not None else pick.copy.item.bodies
        found.extend([placed_body(pick.copy, body) for body in inner])
    return found


def _way(bodies: list[list[Body]], along: Vec) -> Vec:
    """Which way along its length the part goes from the first face to the second."""
    first, second = bodies
    if not first or not second:
        other = (first or second)[0].centre if first or second else UP
        here, there = ((other[0], other[1], 0.0), other) if not first else (other, (other[0], other[1], 0.0))
    else:
        here, there = first[0].centre, second[0].centre
    return along if dot(sub(there, here), along) >= 0 else scale(along, -1.0)


def _plane(face: Face, bodies: list[Body], others: list[Body], way: Vec, values: Values) -> Plane | Failure:
    if isinstance(face, Floor):
        return _FLOOR
    if isinstance(face, SideOf):
        axis, sign = OF_SIDE[face.side]
        found = [body.side_plane(axis, sign) for body in bodies]
    else:
        found = [_facing(body, others, way) for body in bodies]
    first = found[0]
    if any(abs(p.offset - first.offset) > 0.01 or dot(p.normal, first.normal) < 0.999999 for p in found[1:]):
        return values.several(face.ref, values.scope.find(face.ref))
    return first


def _facing(body: Body, others: list[Body], way: Vec) -> Plane:
    """The side of a part that looks at the part that goes `way` from it to the others."""
    sides = [(axis, sign) for axis in (0, 1, 2) for sign in (-1, 1)]
    score: Callable[[tuple[int, int]], float] = lambda side: _faces_score(body, side, others, way)  # noqa: E731
    return body.side_plane(*max(sides, key=score))


def _faces_score(body: Body, side: tuple[int, int], others: list[Body], way: Vec) -> float:
    normal, offset = body.side_plane(*side)
    looks = dot(normal, way)
    if looks < _FACING:
        return looks - 2.0
    if body.own_side(*side)[0] == 0:
        looks *= _END_GRAIN
    if others and not any(_reach(other, normal) > offset + 1.0 for other in others):
        looks -= 1.0  # the other part is all behind this side
    return looks


def _reach(body: Body, way: Vec) -> float:
    """How far a body's box goes in a direction."""
    reach = [abs(dot(axis, way)) * half for axis, half in zip(body.axes, body.form.halves, strict=True)]
    return dot(body.centre, way) + sum(reach)
