"""Fasteners as they look from the side: outlines along their own axis, mm.

u runs along the axis from where it enters the wood, w to its left; every outline lies about w = 0.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from planlint.trade import screws, shapes
from planlint.trade.joinery import plate
from planlint.trade.screws import FastenerKind

Flat = tuple[float, float]


class Fastener(NamedTuple):
    """One fastener and its holes, all mm: the head sits at `seat`, the tip at `seat + length`.

    `bore` is the counterbore's or the pocket's diameter, `pilot` that of the hole for the threads; 0 for none.
    `wood_end` is where the wood ends along the axis, for a nut.
    """

    kind: FastenerKind
    diameter: float
    length: float
    seat: float
    bore: float
    plugged: bool
    pilot: float
    wood_end: float

    @property
    def tip(self) -> float:
        """Where the tip is, from the entry."""
        return self.seat + self.length

    @property
    def head(self) -> float:
        """The diameter of its head, or of the washer under it."""
        return self.diameter * self.kind.head


class Shape(NamedTuple):
    """An outline: closed and filled as `pen` says, or an open line."""

    pen: str  # "steel", "thread", "dowel", "fitting"
    points: tuple[Flat, ...]
    closed: bool = True


def start_of(one: Fastener) -> float:
    """How far out the head, or the fitting under it, begins."""
    return min([u for shape in shapes_of(one) for u, _ in shape.points], default=one.seat)


def shapes_of(one: Fastener) -> list[Shape]:
    """All that is drawn of a fastener, from its shank to its nut."""
    if one.kind.what == "pin":
        return [_pin(one)]
    found = [*_fitting(one), *_shank(one), *_head(one)]
    if one.kind.what == "bolt":
        found += _nut(one)
    return found


def _pin(one: Fastener) -> Shape:
    half, bevel = one.diameter / 2.0, one.diameter * shapes.chamfer()
    corners = (
        (one.seat + bevel, half), (one.tip - bevel, half), (one.tip, half - bevel), (one.tip, bevel - half),
        (one.tip - bevel, -half), (one.seat + bevel, -half), (one.seat, bevel - half), (one.seat, half - bevel),
    )  # fmt: skip
    return Shape("dowel", corners)


def _fitting(one: Fastener) -> list[Shape]:
    """The plate or block that lies between the head and the wood."""
    fitting = plate(one.kind.noun) if one.kind.what == "plate" else None
    if fitting is None or one.seat >= 0.0:
        return []
    return [Shape("fitting", _rectangle(one.seat, 0.0, 1.2 * one.head))]


def _shank(one: Fastener) -> list[Shape]:
    half = one.diameter / 2.0
    if one.kind.what == "bolt":
        return [Shape("steel", _rectangle(one.seat, one.tip, half))]
    nail = one.kind.what == "nail"
    point = min(one.diameter * shapes.point("nail" if nail else "screw"), 0.5 * one.length)
    if nail:
        return [Shape("steel", _pointed(one.seat, one.tip, half, point))]
    core = screws.root_of(one.diameter, one.kind.noun) / 2.0
    thread = one.tip - min(screws.threaded_length(one.length, one.diameter, one.kind.noun), 0.95 * one.length)
    return [
        Shape("steel", _rectangle(one.seat, thread, half)),
        Shape("steel", _pointed(thread, one.tip, core, point)),
        *_threads(thread, one.tip, half, point, one.diameter * shapes.pitch()),
    ]


def _threads(start: float, tip: float, half: float, point: float, pitch: float) -> Iterator[Shape]:
    """Slanting lines across, the last ones narrower with the point."""
    count = max(1, math.floor((tip - start) / pitch))
    step = (tip - start) / count
    for i in range(count):
        u = start + (i + 0.5) * step
        wide = half * min(1.0, (tip - u) / point)
        yield Shape("thread", ((u - 0.3 * step, wide), (u + 0.3 * step, -wide)), False)


def _head(one: Fastener) -> list[Shape]:
    head, d, seat = shapes.head_of(one.kind.noun, one.diameter), one.diameter, one.seat
    wide = one.head / 2.0
    if head.angle is not None:
        deep = min((wide - d / 2.0) / math.tan(math.radians(head.angle / 2.0)), 0.4 * one.length)
        return [
            Shape("steel", ((seat, wide), (seat + deep, d / 2.0), (seat + deep, -d / 2.0), (seat, -wide)))
        ]
    if head.shape == "none":
        return []
    under = seat - head.washer * d
    top = under - head.height * d
    across = head.across * d / 2.0
    found = [Shape("steel", _rectangle(under, seat, wide))] if head.washer else []
    if head.shape == "dome":
        neck = Shape("steel", _rectangle(seat, seat + head.neck * d, d / 2.0))
        return [Shape("steel", _dome(seat, head.height * d, wide)), neck]
    if head.shape == "washer":
        rim = seat - 0.15 * d
        return [
            Shape("steel", _rectangle(rim, seat, wide)),
            Shape("steel", _rectangle(top, rim, min(across, wide))),
        ]
    if head.shape == "disc":
        return [Shape("steel", _rectangle(seat, seat - top + seat, wide))]
    if head.shape == "pan":
        return [Shape("steel", _dome(seat, head.height * d, wide))]
    return [*found, Shape("steel", _rectangle(top, under, across))]


def _nut(one: Fastener) -> list[Shape]:
    """Washer and nut where the bolt comes out; none where it never does."""
    nut, d, out = shapes.nut(), one.diameter, one.wood_end
    if one.tip <= out:
        return []
    washer = out + nut.washer * d
    return [
        Shape("steel", _rectangle(out, washer, one.head / 2.0)),
        Shape("steel", _rectangle(washer, washer + nut.height * d, nut.across * d / 2.0)),
    ]


def _rectangle(start: float, end: float, half: float) -> tuple[Flat, ...]:
    return (start, half), (end, half), (end, -half), (start, -half)


def _pointed(start: float, tip: float, half: float, point: float) -> tuple[Flat, ...]:
    return (start, half), (tip - point, half), (tip, 0.0), (tip - point, -half), (start, -half)


def _dome(seat: float, height: float, wide: float) -> tuple[Flat, ...]:
    """A round head as a low arc over its flat side."""
    turns = [math.pi * i / 12 for i in range(13)]
    return tuple([(seat - height * math.sin(turn), wide * math.cos(turn)) for turn in turns])
