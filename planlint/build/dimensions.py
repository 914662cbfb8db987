"""What the drawing says it measures, measured on what was built.

A distance is taken along the direction of the sides it names. Of a part that leans, a side is its outermost
point; `at top` or `at 24 up` takes the place of that face where it meets the top, or at that height.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import Union

from planlint.build.body import Body
from planlint.build.edges import intersection
from planlint.build.expressions import ALIKE, Values
from planlint.build.orient import frame_of
from planlint.build.picked import axes_of, bodies_of, part_names, said
from planlint.build.piece import Measured, Piece
from planlint.build.scope import Failure, Pick, Scope
from planlint.build.sides import DIRECTIONS, OF_SIDE, UP
from planlint.build.troubles import Troubles
from planlint.geometry.body import Plane
from planlint.geometry.vector import WORLD, Vec, dot
from planlint.read.plan import (
    AngleOf,
    Distance,
    Expression,
    Floor,
    MiddleOf,
    Overall,
    Plan,
    Quantity,
    Ref,
    SideOf,
    StatedDimension,
)

Built = Union[float, Failure]  # mm or degrees, or why it can't be measured


def measure(plan: Plan, scope: Scope, piece: Piece, troubles: Troubles) -> list[Measured]:
    """Every stated dimension with what was built; an `overall` is three."""
    values = Values(scope, troubles)
    found: list[Measured] = []
    for entry in plan.dimensions:
        if isinstance(entry, Overall):
            found += _overall(entry, piece)
        elif isinstance(entry, Distance):
            found.append(_distance(entry, values))
        else:
            found.append(_angle(entry, values))
    return found


def _measured(
    entry: StatedDimension, label: str, kind: str, stated: Quantity, built: Built, parts: Iterable[str]
) -> Measured:
    reason = built.reason if isinstance(built, Failure) else ""
    value = None if isinstance(built, Failure) else built
    return Measured(entry, label, kind, stated.value, value, reason, tuple(parts), entry.span)  # type: ignore[arg-type]


# --- over all --------------------------------------------------------------------------------------


def _overall(entry: Overall, piece: Piece) -> list[Measured]:
    lost = next(iter(piece.unplaced_names), None)
    found: list[Measured] = []
    for axis, stated in enumerate(entry.sizes):
        if not piece.parts:
            built: Built = Failure("the plan places nothing", [])
        elif lost is not None:
            built = Failure(f"{lost} has no place", [])
        else:
            solids = [part.solid for part in piece.parts]
            built = max([solid.high[axis] for solid in solids]) - min([solid.low[axis] for solid in solids])
        found.append(_measured(entry, f"overall {DIRECTIONS[axis]}", "length", stated, built, ()))
    return found


# --- distances -------------------------------------------------------------------------------------


def _distance(entry: Distance, values: Values) -> Measured:
    label = f"{said(entry.first)} to {said(entry.second)}"
    if isinstance(entry.at, str):
        label += f" at {entry.at}"
    elif entry.at is not None:
        label += " at that height"
    parts = dict.fromkeys([*_parts(entry.first, values), *_parts(entry.second, values)])
    return _measured(entry, label, "length", entry.stated, _built_distance(entry, values), parts)


def _built_distance(entry: Distance, values: Values) -> Built:
    axes = axes_of(entry.first) | axes_of(entry.second) or {2}
    if len(axes) > 1:
        return Failure("its two ends are sides of different directions", [])
    axis = axes.pop()
    first = _value(entry.first, axis, entry.at, values)
    second = _value(entry.second, axis, entry.at, values)
    if isinstance(first, Failure):
        return first
    return second if isinstance(second, Failure) else abs(second - first)


def _value(expression: Expression, axis: int, at: str | Quantity | None, values: Values) -> Built:
    if at is None:
        return values.of(expression, axis)
    total = 0.0
    for sign, what in expression.terms:
        if isinstance(what, Quantity):
            total += sign * what.value
        elif not isinstance(what, Floor):
            value = _value_at(what, axis, at, values)
            if isinstance(value, Failure):
                return value
            total += sign * value
    return total


def _value_at(what: SideOf | MiddleOf, axis: int, at: str | Quantity, values: Values) -> Built:
    picks = values.picks(what.ref)
    if isinstance(picks, Failure):
        return picks
    plain = values.one_value(what, axis)
    if isinstance(plain, Failure) and any(pick.copy.item.failed is not None for pick in picks):
        return plain
    found = [_pick_value_at(what, pick, axis, at) for pick in picks]
    known = [plain if value is None else value for value in found]
    first = known[0]
    for value in known:
        if isinstance(value, Failure) or isinstance(first, Failure):
            return value
        if abs(value - first) > ALIKE:
            return values.several(what.ref, picks)
    return first


def _pick_value_at(what: SideOf | MiddleOf, pick: Pick, axis: int, at: str | Quantity) -> float | None:
    """The place of a sloping face at another face or a height; None where the face has one place only."""
    bodies = bodies_of(pick)
    if len(bodies) != 1 or bodies[0].is_flat(axis):
        return None
    body = bodies[0]
    where = _at_plane(body, axis, at)
    if where is None:
        return None
    if isinstance(what, MiddleOf):
        return _meet(body, body.mid_plane(axis), where, axis)
    sign = OF_SIDE[what.side][1]
    found = [_meet(body, plane, where, axis) for plane in body.side_planes(axis, sign)]
    places = [place for place in found if place is not None]
    if not places:
        return None
    return min(places) if sign > 0 else max(places)


def _at_plane(body: Body, axis: int, at: str | Quantity) -> tuple[Plane, int] | None:
    """The plane that `at` stands for, and the home axis it is about."""
    if not isinstance(at, str):
        return Plane(UP, at.value), 2
    other, sign = OF_SIDE[at]
    return None if other == axis else (body.side_plane(other, sign), other)


def _meet(body: Body, face: Plane, where: tuple[Plane, int], axis: int) -> float | None:
    plane, about = where
    if about == axis:
        return None
    point = intersection(face, plane, body.mid_plane(3 - axis - about))
    return None if point is None else point[axis]


def _parts(expression: Expression, values: Values) -> list[str]:
    return [
        name
        for term in expression.terms
        if isinstance(term.of, (SideOf, MiddleOf))
        for name in _names(term.of.ref, values)
    ]


def _names(ref: Ref, values: Values) -> list[str]:
    return [name for pick in values.scope.find(ref) for name in part_names(pick)]


# --- angles ----------------------------------------------------------------------------------------


def _angle(entry: AngleOf, values: Values) -> Measured:
    label = f"{entry.how} of {entry.ref}"
    return _measured(
        entry, label, "angle", entry.stated, _built_angle(entry, values), _names(entry.ref, values)
    )


def _built_angle(entry: AngleOf, values: Values) -> Built:
    picks = values.picks(entry.ref)
    if isinstance(picks, Failure):
        return picks
    found: list[float] = []
    for pick in picks:
        if pick.copy.item.failed is not None:
            return Failure(f"{pick.copy.name} has no place", [])
        angle = _pick_angle(entry.how, pick)
        if isinstance(angle, Failure):
            return angle
        found.append(angle)
    if max(found) - min(found) > 0.01:
        return values.several(entry.ref, picks)
    return found[0]


def _pick_angle(how: str, pick: Pick) -> Built:
    copy, inner = pick
    if inner is None and copy.item.listed is None:
        return _frame_angle(how, pick)
    body = bodies_of(pick)[0]
    along = body.axes[0]
    if how == "turns":
        return _turn_of(body)
    steep = abs(along[2])
    if steep < 1e-9:
        # Its length is level: what leans or rises is the board, tipped about its length.
        upright = body.axes[body.own_side(2, 1)[0]]
        return _degrees(math.acos, abs(upright[2]))
    if how == "rises":
        return _degrees(math.asin, steep)
    if abs(along[0]) > 1e-9 and abs(along[1]) > 1e-9:
        return Failure(f"{copy.name} leans two ways at once, and one angle does not say which", [])
    return _degrees(math.acos, steep)


def _frame_angle(how: str, pick: Pick) -> Built:
    frame = frame_of(pick.copy.item.turned)
    if frame is None:
        return 0.0
    if how == "turns":
        return _plan_angle(frame[0], WORLD[0])
    return _degrees(math.acos, abs(frame[2][2]))


def _turn_of(body: Body) -> Built:
    """How far what was level is turned in plan view: the length, or the width of an upright part."""
    for axis, (home, _) in zip(body.axes, body.home, strict=True):
        if home != 2 and math.hypot(axis[0], axis[1]) > 1e-9:
            return _plan_angle(axis, WORLD[home])
    return 0.0


def _plan_angle(v: Vec, home: Vec) -> float:
    level = (v[0], v[1], 0.0)
    return _degrees(math.acos, abs(dot(level, home)) / math.hypot(v[0], v[1]))


def _degrees(of: Callable[[float], float], value: float) -> float:
    return math.degrees(of(max(-1.0, min(1.0, value))))
