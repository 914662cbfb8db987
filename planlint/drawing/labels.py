"""The parts' names and what is said of a spot, each where nothing else lies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from planlint.drawing.cutaway import SIZE, Pen, along, box_round
from planlint.drawing.hardware import start_of
from planlint.drawing.letters import ASCENT, DESCENT, shortened, width
from planlint.drawing.placing import Box
from planlint.drawing.section import Flat, is_inside, overlap
from planlint.svg import element, line


def ring_spots(pen: Pen) -> None:
    """A ring round each spot, and to the right of the picture what is said of it."""
    frame = box_round([pen.at(point) for point in pen.scene.window.outline])
    for spot in pen.scene.spots:
        x, y = pen.at(spot.place)
        radius = max(2.4, spot.radius * pen.scene.scale)
        pen.drawn.append(element("circle", {"class": "fault", "cx": x, "cy": y, "r": radius}))
        if not spot.text:
            continue
        wide, high = width(spot.text, SIZE), (ASCENT + DESCENT) * SIZE
        left = frame.right + 3.0
        found = pen.paper.first_free(
            Box(left, y + down - high / 2.0, left + wide, y + down + high / 2.0) for down in _downs()
        )
        if found is not None:
            middle = (found.top + found.bottom) / 2.0
            size = math.hypot(left - 0.8 - x, middle - y)
            start = (x + (left - 0.8 - x) / size * radius, y + (middle - y) / size * radius)
            pen.drawn.append(line(start, (left - 0.8, middle), "leader"))
            pen.paper.taken.pop()
            pen.text(spot.text, left, found.bottom - DESCENT * SIZE, "fault")


def _downs() -> Iterator[float]:
    """Nearest first: how far below (or above) its spot a text may stand."""
    for step in range(20):
        yield step * 2.0
        yield -step * 2.0


def keep_free(pen: Pen) -> None:
    """Nothing is written over the fasteners, the bore and the line where the tip should be."""
    one = pen.scene.fastener
    low, high = min(start_of(one), 0.0), max(one.tip, pen.scene.wanted or 0.0)
    if one.kind.pocketed:
        low -= 2.0 * one.bore  # the mouth of its bore
    half = max(one.head, one.bore, one.diameter) / 2.0 + 1.0 / pen.scene.scale
    steps = max(1, math.ceil((high - low) * pen.scene.scale / 3.0))
    for i in range(steps):
        u, v = low + (high - low) * i / steps, low + (high - low) * (i + 1) / steps
        pen.paper.take(box_round([pen.on(u, half), pen.on(u, -half), pen.on(v, half), pen.on(v, -half)]))
    for entry, way, other in pen.scene.others:
        x, y = pen.at(entry)
        far = other.tip * pen.scene.scale
        for i in range(8):
            dx, dy = along(far * i / 7, 0.0, way)
            r = other.head / 2.0 * pen.scene.scale + 1.0
            pen.paper.take(Box(x + dx - r, y + dy - r, x + dx + r, y + dy + r))


def name_parts(pen: Pen) -> None:
    """Each part's name in its wood where there is room, else outside with a line to it."""
    frame = box_round([pen.at(point) for point in pen.scene.window.outline])
    named: set[str] = set()
    for region in pen.scene.wood.regions:
        shown = [pen.at(point) for point in overlap(region.polygon, pen.scene.window.outline)]
        if len(shown) < 3 or region.name in named:
            continue
        named.add(region.name)
        others = pen.scene.wood.regions[pen.scene.wood.regions.index(region) + 1 :]
        covers = [[pen.at(point) for point in one.polygon] for one in others if one.name != region.name]
        _name(pen, region.name, shown, covers, frame)


def _name(pen: Pen, name: str, shown: list[Flat], covers: list[list[Flat]], frame: Box) -> None:
    text = shortened(name, 60.0, SIZE)
    counter = shown[::-1]  # paper's y runs down: what ran counter-clockwise now runs the other way round
    box = box_round(shown)
    wide, high = width(text, SIZE), (ASCENT + DESCENT) * SIZE
    spots = _spots(box, wide, high)
    for spot in spots:
        corners = (
            (spot.left, spot.top),
            (spot.right, spot.top),
            (spot.left, spot.bottom),
            (spot.right, spot.bottom),
        )
        free = all(is_inside(corner, counter) for corner in corners) and pen.paper.is_free(spot)
        if free and not any(is_inside(corner, cover[::-1]) for cover in covers for corner in corners):
            ground = "end-grain" if pen.scene.wood.is_end(name) else "wood"
            pen.text(text, spot.left + 0.5, spot.bottom - DESCENT * SIZE, "", back=ground)
            return
    if name in pen.scene.wood.passed:
        _name_outside(pen, text, shown, covers, frame)


def _spots(box: Box, wide: float, high: float) -> Iterable[Box]:
    """Places in a box for a text, the upper ones first, the middle ones before those at the sides."""
    wide += 1.0
    rows = max(1, int((box.bottom - box.top) / (high / 2.0)))
    for i in range(rows):
        top = box.top + 2.4 + i * high / 2.0
        for part in (0.5, 0.3, 0.7, 0.1, 0.9, 0.0, 1.0):
            left = box.left + 1.0 + max(0.0, box.right - box.left - wide - 2.0) * part
            yield Box(left, top, left + wide, top + high)


def _name_outside(pen: Pen, text: str, shown: list[Flat], covers: list[list[Flat]], frame: Box) -> None:
    """Over the picture, a line down to the wood."""
    counter = shown[::-1]
    box = box_round(shown)
    grid = [
        (box.left + (box.right - box.left) * i / 10, box.top + (box.bottom - box.top) * j / 10)
        for j in range(1, 10)
        for i in (5, 4, 6, 3, 7, 2, 8, 1, 9)
    ]
    target = next(
        (
            point
            for point in grid
            if is_inside(point, counter)
            and not any(is_inside(point, cover[::-1]) for cover in covers)
            and pen.paper.is_free(Box(point[0] - 0.5, point[1] - 0.5, point[0] + 0.5, point[1] + 0.5))
        ),
        ((box.left + box.right) / 2, (box.top + box.bottom) / 2),
    )
    wide = width(text, SIZE)
    high = (ASCENT + DESCENT) * SIZE
    spots = (
        Box(left, frame.top - 2.0 - high - up, left + wide, frame.top - 2.0 - up)
        for up in (0.0, 4.0, 8.0, 12.0)
        for left in [
            target[0] - wide / 2.0 + way * 4.0 for way in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6)
        ]
    )
    spot = next((one for one in spots if pen.paper.is_free(one)), None)
    if spot is None:
        return
    foot = (min(max(target[0], spot.left + 1.0), spot.right - 1.0), spot.bottom + 0.3)
    pen.drawn.append(line(foot, target, "leader"))
    pen.text(text, spot.left, spot.bottom - DESCENT * SIZE, "")
