"""The plane that shows a fastener best, and how much of it is shown at which scale."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Part, Piece, Share
from planlint.drawing.faulty import Case
from planlint.drawing.hardware import Fastener, start_of
from planlint.drawing.measures import Joint, Need, wanted_tip
from planlint.drawing.section import Cut, Flat, Region, Window
from planlint.geometry.vector import Vec, add, dot, length, scale, sub, unit
from planlint.show.quantities import IMPERIAL

_WIDEST, _TALLEST = 168.0, 80.0  # mm on paper, of one picture
_SCALES = {
    True: (2.0, 1.0, 0.5, 0.25, 0.125, 0.0625, 0.03125),
    False: (2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02),
}  # inches, mm
_SMALL = 70.0  # mm on paper: what is no wider at 2:1 is drawn so
_SIDEWAYS = 0.2  # sin of 12 deg: grain nearer to the axis than this gives no plane
_ROUND = 11.0  # mm on paper: at least so much is shown to either side of an axis
_AIR = 3.0  # mm on paper, of the air round wood that ends


class Reach(NamedTuple):
    """From where to where along the axis there is something to see, and how wide it is to either side (mm)."""

    start: float
    end: float
    side: float


def plane_of(case: Case) -> tuple[Cut, Flat]:
    """The plane through the axis, and the way the axis runs in it.

    It holds what the case asks for; of a pocket, what is square to the face it is in; else the grain of the first
    part, or of the second where the first's runs with the axis.
    """
    driven = case.driven
    axis = driven.axis
    origin = add(driven.entry, case.shift)
    if driven.pocket_side is not None and case.toward is None:
        right = driven.patch.normal
        up = unit(sub(driven.mouth, scale(right, dot(driven.mouth, right))))
        return Cut(origin, right, up), (dot(axis, right), dot(axis, up))
    outer = driven.first if driven.into is driven.second else driven.second
    ways = [case.toward, outer.grain, driven.into.grain, outer.across, outer.through]
    square = [sub(one, scale(axis, dot(one, axis))) for one in ways if one is not None]
    up = unit(next(one for one in square if length(one) > _SIDEWAYS))
    return Cut(origin, axis, _upright(up)), (1.0, 0.0)


def _upright(way: Vec) -> Vec:
    """The way or its opposite: what is up stays up, else what is at the back, else what is to the right."""
    x, y, z = way
    first = next(at for at in (z, y, x) if abs(at) > 0.01)
    return way if first > 0.0 else scale(way, -1.0)


def reach_of(one: Fastener, joint: Joint, need: Need) -> Reach:
    """What there is to see of a fastener."""
    tip = max(one.tip, wanted_tip(one, joint, need) or 0.0, min(joint.wood_end, 1.15 * one.tip))
    nut = 1.4 * one.diameter if one.kind.what == "bolt" and one.tip > joint.wood_end else 0.0
    start = min(start_of(one), 0.0)
    side = max(0.8 * one.bore, 0.8 * one.head, min(0.3 * (tip - start), 20.0))
    return Reach(start, max(tip, one.tip + nut), side)


def near(piece: Piece, cut: Cut, reaches: Sequence[Reach]) -> tuple[list[Part], list[Share]]:
    """The parts and shared spaces whose bounds come near enough to be seen."""
    far = 3.0 * max([one.end - one.start + one.side for one in reaches]) + 60.0
    x, y, z = cut.origin

    def is_near(low: Vec, high: Vec) -> bool:
        return (
            low[0] - far < x < high[0] + far
            and low[1] - far < y < high[1] + far
            and low[2] - far < z < high[2] + far
        )

    return (
        [part for part in piece.parts if is_near(part.solid.low, part.solid.high)],
        [share for share in piece.shares if is_near(share.solid.low, share.solid.high)],
    )


def framed(
    reaches: Sequence[Reach],
    wood: Sequence[Region],
    units: str,
    way: Flat,
    mouth: float,
    more: Sequence[Flat],
    beside: float = 0.0,
) -> tuple[Window, float]:
    """What is shown, and the largest round scale (mm on paper a mm) at which it fits.

    `mouth` is how far a slanted bore is open before the entry; `more` are points that must be seen too, and
    `beside` is what the texts at the sides take, mm on paper.
    """
    for ratio in _SCALES[units in IMPERIAL]:
        window = _window(reaches, wood, ratio, way, mouth, more)
        wide, tall = (window.right - window.left) * ratio, (window.top - window.bottom) * ratio
        if wide <= (_SMALL if ratio > 1.0 else _WIDEST - beside) and tall <= _TALLEST:
            break
    return window, ratio


def _window(
    reaches: Sequence[Reach],
    wood: Sequence[Region],
    ratio: float,
    way: Flat,
    mouth: float,
    more: Sequence[Flat],
) -> Window:
    """Wider where the wood ends soon: an edge says more than a torn line."""
    start, end = min([one.start for one in reaches]), max([one.end for one in reaches])
    side = max([_ROUND / ratio, *[one.side for one in reaches]])
    xs = [start * way[0], end * way[0], *[x for x, _ in more]]
    ys = [start * way[1], end * way[1], *[y for _, y in more]]
    left, right = min(xs) - _AIR / ratio - mouth, max(xs) + 4.0 / ratio
    corners = [point for region in wood for point in region.polygon]
    tops = [y for _, y in corners if 0.4 * side < y - max(ys) < 1.7 * side]
    lows = [y for _, y in corners if 0.4 * side < min(ys) - y < 1.7 * side]
    ends = [x + _AIR / ratio for x, _ in corners if right - 4.0 / ratio < x < right + 6.0 / ratio]
    top = max(tops, default=max(ys) + side) + 2.0 / ratio
    bottom = min(lows, default=min(ys) - side) - 2.0 / ratio
    return Window(left, bottom, max([right, *ends]), top)
