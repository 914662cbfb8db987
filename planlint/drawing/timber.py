"""Cut wood on paper: its ground and grain, the lines round it, and the holes in it."""

from __future__ import annotations

import math

from planlint.drawing.cutaway import Pen, box_round, flat_of, path_of
from planlint.drawing.hardware import start_of
from planlint.drawing.section import Flat, borders, overlap, runs_within, within
from planlint.svg import element, group, line, number, polygon


def draw_wood(pen: Pen) -> None:
    """Every part's wood in the window, and the lines where it ends."""
    scene = pen.scene
    for region in scene.wood.regions:
        shown = overlap(region.polygon, scene.window.outline)
        if not shown:
            continue
        ground = "end-grain" if scene.wood.is_end(region.name) else "wood"
        runs = [run for each in scene.wood.grain(region.name) for run in runs_within(each, shown)]
        path = "".join(path_of([pen.at(point) for point in run]) for run in runs)
        pen.boxes.append(box_round([pen.at(point) for point in shown]))
        inside = [polygon([pen.at(point) for point in shown], ground)]
        if path:
            inside.append(element("path", {"class": "grain", "d": path}))
        pen.drawn.append(group({"data-part": region.name}, inside))
    lines, torn = borders(scene.wood.regions, scene.window)
    pen.drawn.append(
        element(
            "path", {"class": "outline", "d": "".join(path_of([pen.at(p) for p in one]) for one in lines)}
        )
    )
    pen.drawn += [_torn(pen.at(start), pen.at(end)) for start, end in torn]


def _torn(start: Flat, end: Flat) -> str:
    """A light wavy line where the wood goes on."""
    size = math.dist(start, end)
    count = max(2, 2 * round(size / 7))
    (x, y), dx, dy = start, (end[0] - start[0]) / count, (end[1] - start[1]) / count
    bulge = 0.9
    nx, ny = -dy * count / size * bulge, dx * count / size * bulge
    path = f"M{number(x)} {number(y)}"
    for i in range(count):
        sign = 1.0 if i % 2 else -1.0
        mx, my = x + dx * (i + 0.5) + nx * sign * 2, y + dy * (i + 0.5) + ny * sign * 2
        path += f"Q{number(mx)} {number(my)} {number(x + dx * (i + 1))} {number(y + dy * (i + 1))}"
    return element("path", {"class": "torn", "d": path})


def draw_holes(pen: Pen) -> None:
    """The counterbore with its plug, or the pocket."""
    scene, one = pen.scene, pen.scene.fastener
    if one.bore and one.seat > 0.0:
        half = one.bore / 2.0
        # A slanted bore is open further out on one side: clear it as far as the air.
        out = -one.bore * 4.0 if one.kind.pocketed else -0.8 / scene.scale
        pen.drawn.append(_bore_ground(pen, out, half))
        pen.drawn += _bore_lines(pen, half)
        if one.plugged:
            pen.drawn.append(_plug(pen, half))


def draw_pilot(pen: Pen) -> None:
    """The pilot hole, over the fastener that fills it."""
    one = pen.scene.fastener
    if one.pilot:
        half = one.pilot / 2.0
        for w in (half, -half):
            pen.drawn.append(line(pen.on(max(one.seat, 0.0), w), pen.on(one.tip, w), "pilot"))


def _bore_ground(pen: Pen, out: float, half: float) -> str:
    """Air where the bore is, in the wood it is drilled in; its own edge takes the line of the mouth away."""
    scene = pen.scene
    seat = scene.fastener.seat
    strip = [flat_of(place, scene.way) for place in ((out, -half), (seat, -half), (seat, half), (out, half))]
    own = next((region.polygon for region in scene.wood.regions if region.name == scene.wood.outer), ())
    hole = overlap(overlap(strip, own), scene.window.outline) if own else ()
    return polygon([pen.at(point) for point in hole], "bore") if hole else ""


def _bore_lines(pen: Pen, half: float) -> list[str]:
    """The bore's sides and bottom, as far as there is wood beside them."""
    scene = pen.scene
    seat, far = scene.fastener.seat, scene.fastener.bore * 4.0 + scene.fastener.seat
    found = []
    for start, end in (
        ((-far, half), (seat, half)),
        ((-far, -half), (seat, -half)),
        ((seat, half), (seat, -half)),
    ):
        flat = flat_of(start, scene.way), flat_of(end, scene.way)
        own = next((region for region in scene.wood.regions if region.name == scene.wood.outer), None)
        kept = None if own is None else within(flat, overlap(own.polygon, scene.window.outline))
        if kept is not None:
            found.append(line(pen.at(kept[0]), pen.at(kept[1]), "outline"))
    return found


def _plug(pen: Pen, half: float) -> str:
    """The plug over the head, its grain along the face."""
    seat = pen.scene.fastener.seat
    head = min(seat, max(start_of(pen.scene.fastener), 0.0))
    corners = [(0.0, half), (head, half), (head, -half), (0.0, -half)]
    count = max(2, round(head * pen.scene.scale / 1.6))
    lines = "".join(
        path_of([pen.on(head * i / count, half), pen.on(head * i / count, -half)]) for i in range(1, count)
    )
    return group(
        {},
        [
            polygon([pen.on(u, w) for u, w in corners], "wood"),
            element("path", {"class": "grain", "d": lines}) if lines else "",
            element("path", {"class": "edge", "d": path_of([pen.on(u, w) for u, w in corners], closed=True)}),
        ],
    )
