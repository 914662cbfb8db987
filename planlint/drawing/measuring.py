"""Dimension lines: along the axis in rows under the picture, and across it at its sides."""

from __future__ import annotations

import math

from planlint.drawing.chains import Dim, arranged
from planlint.drawing.cutaway import SIZE, Pen, along, beside, box_round
from planlint.drawing.letters import ASCENT, DESCENT, width
from planlint.drawing.placing import box_of
from planlint.drawing.section import Flat, overlap
from planlint.svg import line, polygon, words

ROW = 4.6  # mm from one dimension line to the next
_ARROW = 1.4
_SAMPLES = 40  # points of an edge that are looked at


def draw_across(pen: Pen) -> None:
    """Lengths square to the axis, to the left of the picture those at its start, else to its right."""
    frame = box_round([pen.at(point) for point in pen.scene.window.outline])
    middle = (frame.left + frame.right) / 2.0
    left, right = frame.left - 4.0, frame.right + 4.0
    for one in pen.scene.asides:
        at = pen.on(one.at, 0.0)[0]
        on_left = at <= middle
        x = left if on_left else right
        low, high = pen.on(one.at, one.low), pen.on(one.at, one.high)
        class_ = "fault-line" if one.fault else "measure"
        for _, y in (low, high):
            pen.drawn.append(line((at, y), (x + (-1.0 if on_left else 1.0), y), "extension"))
        room = abs(high[1] - low[1]) > 2.0 * _ARROW + 0.4
        pen.drawn.append(_measured((x, low[1]), (x, high[1]), class_, room))
        anchor, to = ("end", x - 1.6) if on_left else ("start", x + 1.6)
        y = (low[1] + high[1]) / 2.0 + 0.27 * SIZE
        box = box_of(one.text, to, y, SIZE, anchor)
        while not pen.paper.is_free(box):
            y += 1.0
            box = box_of(one.text, to, y, SIZE, anchor)
        pen.text(one.text, to, y, "fault" if one.fault else "measure", anchor)
        wide = 5.0 + width(one.text, SIZE)
        left, right = (left - wide, right) if on_left else (left, right + wide)


def draw_along(pen: Pen) -> None:
    """The lengths along the axis, in rows under the picture."""
    scene, scale = pen.scene, pen.scene.scale
    # A length that goes on beyond the picture ends at its edge.
    end_of = (scene.window.right / scene.way[0]) if scene.way[0] > 0.5 else math.inf
    dims = [
        Dim(one.start * scale, min(one.end, end_of) * scale, one.text, "fault" if one.fault else "measure")
        for one in scene.measures
        if one.start < end_of
    ]
    if not dims:
        return
    placed = arranged(dims, SIZE)
    ends = [at for one in placed for at in (one.low, one.high)]
    base = _lowest(pen, min(ends), max(ends)) + 5.4
    lows = {
        at: max([one.row for one in placed if at in (one.dim.start, one.dim.end)])
        for one in placed
        for at in (one.dim.start, one.dim.end)
    }
    for at, row in lows.items():
        pen.drawn.append(
            line(
                along(at, -base + 3.6, scene.way),
                along(at, -(base + row * ROW) - 0.8, scene.way),
                "extension",
            )
        )
    for one in placed:
        down = -(base + one.row * ROW)
        class_ = "fault-line" if one.dim.pen == "fault" else "measure"
        start, end = along(one.dim.start, down, scene.way), along(one.dim.end, down, scene.way)
        pen.drawn.append(_measured(start, end, class_, inside=one.dim.end - one.dim.start > 2 * _ARROW + 0.4))
        if not one.inside:
            under = (one.dim.end, one.right) if one.left > one.dim.start else (one.left, one.dim.start)
            pen.drawn.append(line(along(under[0], down, scene.way), along(under[1], down, scene.way), class_))
        _turned(pen, one.dim.text, one.left, down + 0.7, "fault" if one.dim.pen == "fault" else "measure")


def _lowest(pen: Pen, start: float, end: float) -> float:
    """How far below the axis there is wood (or the fastener) anywhere over a stretch of it, mm on paper."""
    scene, scale = pen.scene, pen.scene.scale
    shown = [overlap(region.polygon, scene.window.outline) for region in scene.wood.regions]
    found = [scene.fastener.head / 2.0 * scale]
    for polygon_ in shown:
        for (ax, ay), (bx, by) in zip(polygon_, (*polygon_[1:], *polygon_[:1]), strict=True):
            for i in range(_SAMPLES):
                part = i / _SAMPLES
                u, w = beside((ax + (bx - ax) * part, ay + (by - ay) * part), scene.way)
                if start - 2.0 <= u * scale <= end + 2.0:
                    found.append(-w * scale)
    return max(found)


def _turned(pen: Pen, text: str, u: float, w: float, class_: str) -> None:
    """A text that runs along the axis."""
    way = pen.scene.way
    x, y = along(u, w, way)
    wide = width(text, SIZE)
    corners = [along(u + du, w + dw, way) for du in (0.0, wide) for dw in (-DESCENT * SIZE, ASCENT * SIZE)]
    pen.drawn.append(words(text, (x, y), SIZE, class_, "start", pen.turn if way[1] else 0.0))
    box = box_round(corners)
    pen.texts.append(box)
    pen.paper.take(box)


def _measured(start: Flat, end: Flat, class_: str, inside: bool = True) -> str:
    """A dimension line with its arrowheads, from outside where there is no room between them."""
    size = math.dist(start, end) or 1.0
    dx, dy = (end[0] - start[0]) / size, (end[1] - start[1]) / size
    found = [line(start, end, class_)]
    for (x, y), sign in ((start, 1.0), (end, -1.0)):
        away = sign if inside else -sign
        back = (x + dx * _ARROW * away, y + dy * _ARROW * away)
        half = _ARROW * 0.22
        found.append(
            polygon(
                (
                    (x, y),
                    (back[0] - dy * half, back[1] + dx * half),
                    (back[0] + dy * half, back[1] - dx * half),
                ),
                class_ + "-arrow",
            )
        )
        if not inside:
            found.append(line((x, y), (x - dx * 2.2 * sign, y - dy * 2.2 * sign), class_))
    return "".join(found)
