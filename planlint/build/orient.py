"""How a part stands: the axes of its length, width and thickness, from its `runs`, `face`, `leans`, …

The clauses say how the part stands in the end, never a motion, so each has one meaning whatever the order:
- `leans A toward S`: A off upright, the top toward S; `rises A toward S`: A off level, the S end higher.
  Where the length lies in the upright plane through S, the length is what leans or rises. A part whose length
  runs across that plane keeps its length level and is tipped about it (a back rail, a seat slat).
- `turns A toward S`, seen from above: the right end of what runs left-right, the back end of what runs
  front-back, swings toward S. It comes after a lean or a rise, which it leaves as it is.
- two `leans` are what the front view and the side view show. A part with a `face` keeps the level lines of
  that face level (a planter's sides); square or round stock is tipped straight over, without a twist.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.body import Home
from planlint.build.sides import AXIS_OF_DIRECTION, OF_SIDE, SIDES, UP, toward
from planlint.geometry.body import Axes
from planlint.geometry.vector import WORLD, Vec, cross, dot, onward, scale, turn, unit
from planlint.read.plan import Turned

Turning = tuple[Vec, float]  # about an axis by degrees
Way = tuple[int, int]  # (axis, sign)

# Which way the thickness of a square or round part looks, by the axis it runs along; nothing depends on it.
_ANY_FACE: tuple[Way, Way, Way] = ((2, 1), (2, 1), (1, -1))


class Pose(NamedTuple):
    """Unit axes of length, width and thickness, and the world axes they had before the part leaned."""

    axes: Axes
    home: Home


class Lacking(NamedTuple):
    """What the plan doesn't say about how a part stands, and two clauses that would."""

    what: str
    proposals: list[str]


def pose_of(runs: str | None, face: str | None, needs_face: bool, turned: Sequence[Turned]) -> Pose | Lacking:
    """The axes of a part. `needs_face`: its section is neither square nor round."""
    along = _runs_axis(runs, turned)
    if along is None:
        return Lacking("its length", ["runs left-right", "runs up"])
    wrong = wrong_way(turned, along)
    if wrong is not None:
        return wrong
    through = _face_way(along, face, needs_face, turned)
    if through is None:
        one, other = _others(along)
        return Lacking("its wide face", [f"face {SIDES[one, -1]}", f"face {SIDES[other, 1]}"])
    return _stand(along, through, face is not None, turned)


def wrong_way(turned: Sequence[Turned], along: int | None = None) -> Lacking | None:
    """A lean, rise or turn toward a side it can't go to: up or down, or a turn along the length itself."""
    for turn_ in turned:
        axis = OF_SIDE[turn_.toward][0]
        if axis == 2 or (turn_.how == "turns" and axis == along):
            sides = ("front", "back") if axis == 0 or (axis == 2 and along != 1) else ("left", "right")
            angle = f"{turn_.angle.value:g}"
            return Lacking(
                f"where it {turn_.how} to", [f"{turn_.how} {angle} toward {side}" for side in sides]
            )
    return None


def turnings(turned: Sequence[Turned], along: int | None = None) -> list[Turning]:
    """The turns, in order, from upright to how a thing stands; `along`: the axis of its length."""
    leans = [t for t in turned if t.how == "leans"]
    rises = [t for t in turned if t.how == "rises"]
    turns = [t for t in turned if t.how == "turns"]
    found = [_rise(t, along) for t in rises]
    if len(leans) == 1:
        found.append(_lean(leans[0], along))
    elif leans:
        found.append(_tip(_leaning_up(leans)))
    return found + [_turn(t) for t in turns]


def frame_of(turned: Sequence[Turned]) -> Axes | None:
    """The axes of a sub-assembly that leans, rises or turns; None where it stands as on the bench."""
    steps = turnings(turned)
    if not steps:
        return None
    return (_apply(WORLD[0], steps), _apply(WORLD[1], steps), _apply(WORLD[2], steps))


def nearest_quarter(axes: Axes) -> Axes:
    """The quarter turns nearest to a frame: what leans 12 keeps its sides' names, laid flat it does not."""
    first = max((0, 1, 2), key=lambda i: round(abs(axes[0][i]), 9))
    second = max((i for i in (0, 1, 2) if i != first), key=lambda i: round(abs(axes[1][i]), 9))
    x = scale(WORLD[first], math.copysign(1.0, axes[0][first]))
    y = scale(WORLD[second], math.copysign(1.0, axes[1][second]))
    return (x, y, cross(x, y))


def _runs_axis(runs: str | None, turned: Sequence[Turned]) -> int | None:
    """The axis of the length: as said, else upright for what leans, toward S for what rises toward S."""
    if runs is not None:
        return AXIS_OF_DIRECTION[runs]
    for turn_ in turned:
        if turn_.how == "leans":
            return 2
        if turn_.how == "rises":
            return OF_SIDE[turn_.toward][0]
    return None


def _face_way(along: int, face: str | None, needs_face: bool, turned: Sequence[Turned]) -> Way | None:
    if face is None:
        return None if needs_face else _ANY_FACE[along]
    axis, sign = OF_SIDE[face]
    if axis != along:
        return axis, sign
    # `runs up, leans 60 toward back, face top`: the face that looks up once the part leans.
    for turn_ in turned:
        across = OF_SIDE[turn_.toward][0] if along == 2 else 2
        if turn_.how != "turns" and across != along:
            steps = turnings(turned, along)
            looks = dot(_apply(WORLD[across], steps), toward(face))
            return across, 1 if looks > 0 else -1
    return None


def _stand(along: int, through: Way, faced: bool, turned: Sequence[Turned]) -> Pose:
    axis, sign = through
    across = 3 - along - axis
    length, thick = WORLD[along], scale(WORLD[axis], float(sign))
    wide = cross(thick, length)
    home: Home = ((along, 1), (across, 1 if wide[across] > 0 else -1), (axis, sign))
    if not turned:
        return Pose((length, wide, thick), home)
    if faced and along == 2 and sum(t.how == "leans" for t in turned) > 1:
        return Pose(_level_face(thick, turned), home)
    steps = turnings(turned, along)
    return Pose((_apply(length, steps), _apply(wide, steps), _apply(thick, steps)), home)


def _level_face(face: Vec, turned: Sequence[Turned]) -> Axes:
    """An upright part with two leans whose wide face keeps its level lines level."""
    along = _leaning_up([t for t in turned if t.how == "leans"])
    square = unit(cross(cross(UP, face), along))
    thick = square if dot(square, face) > 0 else scale(square, -1.0)
    steps = [_turn(t) for t in turned if t.how == "turns"]
    return (_apply(along, steps), _apply(cross(thick, along), steps), _apply(thick, steps))


def _leaning_up(leans: Sequence[Turned]) -> Vec:
    """Where an upright points: each view shows its own angle off upright."""
    up = UP
    for lean in leans:
        up = onward(up, toward(lean.toward), math.tan(math.radians(lean.angle.value)))
    return unit(up)


def _lean(lean: Turned, along: int | None) -> Turning:
    side = toward(lean.toward)
    if along == OF_SIDE[lean.toward][0] and along != 2:
        return cross(side, UP), 90.0 - lean.angle.value
    return cross(UP, side), lean.angle.value


def _rise(rise: Turned, along: int | None) -> Turning:
    side = toward(rise.toward)
    if along == 2:
        return cross(UP, side), 90.0 - rise.angle.value
    return cross(side, UP), rise.angle.value


def _turn(turn_: Turned) -> Turning:
    # What runs across S swings toward S: its back end or its right end.
    end = WORLD[1] if OF_SIDE[turn_.toward][0] == 0 else WORLD[0]
    return cross(end, toward(turn_.toward)), turn_.angle.value


def _tip(up: Vec) -> Turning:
    return cross(UP, up), math.degrees(math.acos(max(-1.0, min(1.0, up[2]))))


def _apply(v: Vec, steps: Sequence[Turning]) -> Vec:
    for axis, degrees in steps:
        if degrees:
            v = turn(v, axis, degrees)
    return v


def _others(axis: int) -> tuple[int, int]:
    one, other = (i for i in (0, 1, 2) if i != axis)
    return one, other
