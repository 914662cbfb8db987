"""A part's shape round its own centre: its box, its ends and sides cut aslant, its tapers.

Over-all lengths are tip to tip: a cut takes the end away but for the corner that reaches furthest.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.build.body import Body, Cut, Form, turn_back
from planlint.build.orient import Lacking, Pose
from planlint.build.piece import Listed
from planlint.build.scope import Item
from planlint.build.sides import OF_SIDE, SIDES, UP, toward
from planlint.geometry.body import Axes, Plane
from planlint.geometry.vector import WORLD, Vec, dot, onward, scale, sub, unit
from planlint.read.plan import EndCut, Tapered
from planlint.source import Span

_SQUARE = 1e-9  # a cut this near to the side it cuts takes nothing off
_GRAZING = 0.05  # sine: a cut nearly along the side's own normal would never end
_ORIGIN = (0.0, 0.0, 0.0)


def shape(
    listed: Listed,
    span: Span,
    pose: Pose,
    length: float,
    cuts: Sequence[EndCut] = (),
    tapers: Sequence[Tapered] = (),
    frame: Axes | None = None,
) -> Body | Lacking:
    """The body round the origin; `length` as in the cut list, `frame`: how the bench stands in the end.

    Cuts are as seen in the finished piece: a level cut of a post in a leaning back is aslant on the bench.
    """
    stock = listed.stock
    assert stock is not None, "a part without a size is never shaped"
    width, thickness = stock.width / 2.0, stock.thickness / 2.0
    plain = Body(Form(listed, span, (length / 2.0, width, thickness)), _ORIGIN, pose.axes, pose.home)
    wanted: list[tuple[int, int, Vec]] = []
    for cut in cuts:
        for k, sign in _sides_cut(plain, cut):
            normal = _normal(plain, k, sign, cut, frame)
            if normal is None:
                return Lacking(f"how its {cut.which} is cut", _other_cuts(plain, k, cut))
            wanted.append((k, sign, normal))
    halves = (_over_all(plain, length, wanted) / 2.0, width, thickness)
    return _cut(Body(Form(listed, span, halves), _ORIGIN, pose.axes, pose.home), wanted, tapers)


def shaped(item: Item, length: float, ends: bool = True) -> Body | Lacking:
    """An item's part of that length; without its end cuts where something else cuts the ends."""
    assert item.listed is not None and item.pose is not None, "only a part that stands has a shape"
    cuts = [cut for cut in item.cuts if ends or not _cuts_end(cut, item.pose)]
    return shape(item.listed, item.placement.span, item.pose, length, cuts, item.tapers, item.scope.frame)


def _cuts_end(cut: EndCut, pose: Pose) -> bool:
    return cut.which == "ends" or OF_SIDE[cut.which][0] == pose.home[0][0]


def slope_reach(normal: Vec, axes: Axes, halves: Vec) -> float:
    """How far a cut with this normal across the length runs along it, mm: 0 where it is square."""
    across = abs(dot(normal, axes[1])) * halves[1] + abs(dot(normal, axes[2])) * halves[2]
    return 2.0 * across / abs(dot(normal, axes[0]))


def over_all(listed: Listed, length: float, reaches: tuple[float, float]) -> float:
    """Tip to tip, from a length as the cut list measures it and how far each end's slope runs."""
    measure = listed.entry.length_measure
    if measure == "long to short":
        return length + max(reaches)
    if measure == "short to short":
        return length + reaches[0] + reaches[1]
    return length


def _over_all(body: Body, length: float, wanted: Sequence[tuple[int, int, Vec]]) -> float:
    reach = {-1: 0.0, 1: 0.0}
    for k, sign, normal in wanted:
        if k == 0:
            reach[sign] = max(reach[sign], slope_reach(normal, body.axes, body.form.halves))
    return over_all(body.form.listed, length, (reach[-1], reach[1]))


def _sides_cut(body: Body, cut: EndCut) -> list[tuple[int, int]]:
    if cut.which == "ends":
        return [(0, -1), (0, 1)]
    return [body.own_side(*OF_SIDE[cut.which])]


def _normal(body: Body, k: int, sign: int, cut: EndCut, frame: Axes | None) -> Vec | None:
    """The outward normal of a cut; None where it can't be made on this side."""
    square = scale(body.axes[k], float(sign))
    up = UP if frame is None else turn_back(frame, UP)
    if cut.how == "level":
        steep = dot(square, up)
        return None if abs(steep) < _GRAZING else scale(up, math.copysign(1.0, steep))
    if cut.how == "plumb":
        level = sub(square, scale(up, dot(square, up)))
        return None if dot(level, level) < _GRAZING**2 else unit(level)
    if cut.angle is None or cut.long_at is None:
        return None
    return _aslant(body, k, square, cut.angle.value, cut.long_at, frame)


def _other_cuts(body: Body, k: int, cut: EndCut) -> list[str]:
    """What could stand in place of a cut that can't be made."""
    if cut.how != "angle" or cut.angle is None:
        return [f"{cut.which} cut {'plumb' if cut.how == 'level' else 'level'}"]
    axis, _ = body.home[2 if k != 2 else 1]
    return [f"{cut.which} cut {cut.angle.value:g} long at {SIDES[axis, sign]}" for sign in (-1, 1)]


def _aslant(body: Body, k: int, square: Vec, degrees: float, long_at: str, frame: Axes | None) -> Vec | None:
    """A off square, as the saw's scale shows: tipped about one of the body's own axes, long at that side."""
    side = toward(long_at) if frame is None else turn_back(frame, toward(long_at))
    other = max((i for i in (0, 1, 2) if i != k), key=lambda i: abs(dot(body.axes[i], side)))
    looks = dot(body.axes[other], side)
    if abs(looks) < _GRAZING or abs(degrees) >= 89.0:
        return None
    angle = math.radians(degrees)
    long = scale(body.axes[other], math.copysign(1.0, looks))
    return onward(scale(square, math.cos(angle)), long, -math.sin(angle))


def _cut(body: Body, wanted: Sequence[tuple[int, int, Vec]], tapers: Sequence[Tapered]) -> Body | Lacking:
    planed: list[Cut] = []
    for taper in tapers:
        cut = _taper(body, taper)
        if isinstance(cut, Lacking):
            return cut
        planed.append(cut)
    if planed:
        body = body.with_cuts(planed)
    slanted = []
    for k, sign, normal in wanted:
        own = turn_back(body.axes, normal)
        if own[k] * sign < 1.0 - _SQUARE:
            slanted.append(Cut(k, sign, Plane(own, _tip(body, k, sign, own)), True))
    return body.with_cuts(slanted) if slanted else body


def _tip(body: Body, k: int, sign: int, normal: Vec) -> float:
    """The offset at which the cut just leaves the corner of that side that reaches furthest (own frame)."""
    points = body.form.solid().vertices
    far = max(sign * p[k] for p in points)
    return min(dot(normal, p) for p in points if sign * p[k] > far - 0.01)


def _taper(body: Body, taper: Tapered) -> Cut | Lacking:
    """A side planed to a line: nothing at the start, `amount` at the named end."""
    k, sign = body.own_side(*OF_SIDE[taper.side])
    end, end_sign = body.own_side(*OF_SIDE[taper.at])
    if end == k:
        one, other = (name for name, (axis, _) in OF_SIDE.items() if axis == body.home[0][0])
        said = f"{taper.side} tapered … at"
        return Lacking(f"where its {taper.side} is tapered", [f"{said} {one}", f"{said} {other}"])
    halves = body.form.halves
    run = 2.0 * halves[end]
    if taper.start is not None:
        start_sign = end_sign
        if taper.start_below is not None:
            start_sign = body.own_side(*OF_SIDE[taper.start_below])[1]
        run = taper.start.value if start_sign == end_sign else run - taper.start.value
    amount = min(taper.amount.value, 2.0 * halves[k])
    square, long = scale(WORLD[k], float(sign)), scale(WORLD[end], float(end_sign))
    if run <= 0.0:
        return Lacking(f"where its {taper.side} is tapered", [])
    normal = unit(onward(scale(square, run), long, amount))
    corner = onward(scale(square, halves[k] - amount), long, halves[end])
    return Cut(k, sign, Plane(normal, dot(normal, corner)), taper.start is None)
