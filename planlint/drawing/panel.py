"""One section on paper: the cut wood, its holes, the fastener, and the numbers round it."""

from __future__ import annotations

import math
from typing import NamedTuple

from planlint.drawing.cutaway import Pen, Scene, along, box_round, path_of
from planlint.drawing.hardware import Fastener, shapes_of
from planlint.drawing.labels import keep_free, name_parts, ring_spots
from planlint.drawing.measuring import draw_across, draw_along
from planlint.drawing.placing import Box
from planlint.drawing.section import Flat
from planlint.drawing.timber import draw_holes, draw_pilot, draw_wood
from planlint.svg import element, line

_SAME = 0.01  # mm: a tip nearer than this to where it should be is there


class Panel(NamedTuple):
    """What was drawn, and the box it takes."""

    content: str
    box: Box
    texts: tuple[Box, ...]


def panel(scene: Scene) -> Panel:
    """The section drawn."""
    pen = Pen(scene)
    draw_wood(pen)
    draw_holes(pen)
    for entry, way, other in scene.others:
        _other(pen, entry, way, other)
    _fastener(pen, scene.fastener, (0.0, 0.0), scene.way, "steel")
    draw_pilot(pen)
    _wanted(pen)
    keep_free(pen)
    name_parts(pen)
    draw_across(pen)
    ring_spots(pen)
    draw_along(pen)
    boxes = [*pen.texts, *pen.boxes]
    whole = Box(
        min(one.left for one in boxes), min(one.top for one in boxes),
        max(one.right for one in boxes), max(one.bottom for one in boxes),
    )  # fmt: skip
    return Panel("".join(pen.drawn), whole, tuple(pen.texts))


def _fastener(pen: Pen, one: Fastener, entry: Flat, way: Flat, pen_of: str) -> None:
    """A fastener from the side; its steel with the pen that is asked for."""
    x, y = pen.at(entry)
    scale = pen.scene.scale
    for shape in shapes_of(one):
        points = []
        for u, w in shape.points:
            dx, dy = along(u * scale, w * scale, way)
            points.append((x + dx, y + dy))
        class_ = pen_of if shape.pen == "steel" else shape.pen
        if shape.closed:
            pen.boxes.append(box_round(points))
        pen.drawn.append(element("path", {"class": class_, "d": path_of(points, closed=shape.closed)}))


def _other(pen: Pen, entry: Flat, way: Flat, one: Fastener) -> None:
    """Another fastener: from the side, or as a circle where it runs towards the eye."""
    if math.hypot(*way) > 0.5:
        size = math.hypot(*way)
        _fastener(pen, one, entry, (way[0] / size, way[1] / size), "steel second")
        return
    x, y = pen.at(entry)
    pen.drawn.append(
        element(
            "circle", {"class": "steel second", "cx": x, "cy": y, "r": one.diameter / 2.0 * pen.scene.scale}
        )
    )


def _wanted(pen: Pen) -> None:
    """A line across where the tip should be."""
    wanted, one = pen.scene.wanted, pen.scene.fastener
    if wanted is None:
        return
    half = max(one.head, 5.0 / pen.scene.scale)
    class_ = "wanted met" if one.tip > wanted - _SAME else "wanted"
    pen.drawn.append(line(pen.on(wanted, half), pen.on(wanted, -half), class_))
