"""What one section shows, and the pen that draws it.

Paper coordinates are mm, y down, the point where the axis enters the wood at (0, 0); the caller moves the panel.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from planlint.drawing.hardware import Fastener
from planlint.drawing.measures import Measure
from planlint.drawing.placing import Box, Paper, box_of
from planlint.drawing.section import Flat, Region, Window
from planlint.svg import number, rectangle, words

SIZE = 2.8  # mm: letters on the drawing, 8 points


class Aside(NamedTuple):
    """A length square to the axis: at `at` along it, from `low` to `high` beside it (mm in the piece)."""

    at: float
    low: float
    high: float
    text: str
    fault: bool


class Spot(NamedTuple):
    """A place to ring, in the plane, and what is said of it; the ring is `radius` mm in the piece."""

    place: Flat
    radius: float
    text: str


class Wood(NamedTuple):
    """The wood in the plane: `outer` is the part that the fastener enters, `passed` are all that it meets.

    `grain` gives the lines of a part's wood, `is_end` whether it shows its ends.
    """

    regions: tuple[Region, ...]
    outer: str
    passed: tuple[str, ...]
    grain: Callable[[str], list[list[Flat]]]
    is_end: Callable[[str], bool]


class Scene(NamedTuple):
    """What a panel shows, in the plane's own coordinates (mm in the piece).

    The axis enters at (0, 0) and runs along `way`. `others` are (entry, way, fastener) of fasteners that are in the
    way; one that runs towards the eye has the way (0, 0). `wanted` is where along the axis the tip should be.
    `scale` is mm on paper a mm.
    """

    wood: Wood
    window: Window
    way: Flat
    fastener: Fastener
    measures: tuple[Measure, ...]
    asides: tuple[Aside, ...]
    wanted: float | None
    others: tuple[tuple[Flat, Flat, Fastener], ...]
    spots: tuple[Spot, ...]
    scale: float


class Pen:
    """The elements drawn so far, and what lies where."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.drawn: list[str] = []
        self.paper = Paper()
        self.texts: list[Box] = []
        self.boxes: list[Box] = []
        dx, dy = scene.way
        self.turn = -math.degrees(math.atan2(dy, dx))

    def at(self, point: Flat) -> Flat:
        """A point of the plane on paper."""
        return point[0] * self.scene.scale, -point[1] * self.scene.scale

    def on(self, u: float, w: float) -> Flat:
        """A place along the axis (mm in the piece) and beside it, on paper."""
        return along(u * self.scene.scale, w * self.scene.scale, self.scene.way)

    def text(
        self, text: str, x: float, y: float, class_: str, anchor: str = "start", back: str = "sheet"
    ) -> None:
        """A text on a ground of its own, so that no line runs through it."""
        box = box_of(text, x, y, SIZE, anchor)
        self.drawn.append(rectangle((box.left, box.top), box.right - box.left, box.bottom - box.top, back))
        self.drawn.append(words(text, (x, y), SIZE, class_, anchor))
        self.texts.append(box)
        self.paper.take(box)


def along(u: float, w: float, way: Flat) -> Flat:
    """A place along an axis and to its left, on paper (y down)."""
    dx, dy = way
    return u * dx - w * dy, -(u * dy + w * dx)


def path_of(points: Sequence[Flat], *, closed: bool = False) -> str:
    steps = " ".join(f"{number(x)} {number(y)}" for x, y in points)
    return f"M{steps}{'z' if closed else ''}"


def flat_of(place: Flat, way: Flat) -> Flat:
    """A place along the axis and beside it, in the plane."""
    (u, w), (dx, dy) = place, way
    return u * dx - w * dy, u * dy + w * dx


def beside(point: Flat, way: Flat) -> Flat:
    """A point of the plane as its place along the axis and beside it."""
    (x, y), (dx, dy) = point, way
    return x * dx + y * dy, y * dx - x * dy


def box_round(points: Iterable[Flat]) -> Box:
    known = list(points)
    xs, ys = [x for x, _ in known], [y for _, y in known]
    return Box(min(xs), min(ys), max(xs), max(ys))
