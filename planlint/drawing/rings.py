"""The findings' numbers in rings at their spots: each once, in the view that sees the spot best, none on a number."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from planlint.drawing.marks import Numbered
from planlint.drawing.picture import Picture
from planlint.drawing.placing import Box, Paper
from planlint.geometry.outline import Flat
from planlint.svg import element, group, line, words

RADIUS, SIZE = 2.0, 2.5  # mm: the ring, its number
STEP = 2.0 * RADIUS + 0.4
TOGETHER = 1.5  # mm: spots nearer than this share their rings' place
ABREAST = 4
MOST = 40  # findings that one sheet marks
DEEP = 1.0  # mm: how much less deep a spot must lie in a view for that view to be taken over an earlier


def ringed(
    marks: Sequence[Numbered], pictures: Sequence[Picture], paper: Paper, within: Box
) -> tuple[list[str], set[int]]:
    """The rings in ink, and the numbers that are placed."""
    clusters: list[tuple[Flat, list[int]]] = []
    for mark in marks[:MOST]:
        if mark.spot is None or not pictures:
            continue
        spot = _best(mark, pictures).spot(mark.spot)
        for at, numbers in clusters:
            if math.dist(at, spot) < TOGETHER:
                numbers.append(mark.number)
                break
        else:
            clusters.append((spot, [mark.number]))
    ink: list[str] = []
    placed: set[int] = set()
    for spot, numbers in clusters:
        box = _place(spot, len(numbers), paper, within)
        if box is not None:
            placed.update(numbers)
            ink += _drawn(spot, numbers, box)
    return ink, placed


def ring(number: int, at: Flat) -> str:
    """One number in its ring."""
    circle = element("circle", {"class": "mark", "cx": at[0], "cy": at[1], "r": RADIUS})
    size = SIZE if number < 100 else 1.9
    text = words(str(number), (at[0], at[1] + size * 0.36), size, "fault", "middle")
    return group({"class": "finding-mark", "data-finding": number}, [circle, text])


def _best(mark: Numbered, pictures: Sequence[Picture]) -> Picture:
    assert mark.spot is not None
    best, least = pictures[0], math.inf
    for picture in pictures:
        depth = picture.seen.depth(picture.eye.see(mark.spot))
        if depth < least - DEEP:
            best, least = picture, depth
    return best


def _place(spot: Flat, count: int, paper: Paper, within: Box) -> Box | None:
    abreast = min(count, ABREAST)
    wide, high = abreast * STEP, math.ceil(count / ABREAST) * STEP
    boxes = [Box(x - wide / 2.0, y - high / 2.0, x + wide / 2.0, y + high / 2.0) for x, y in _around(spot)]
    return paper.first_free([box for box in boxes if box.within(within)])


def _around(spot: Flat) -> Iterator[Flat]:
    """The spot itself, then rings round it, from above to the right on."""
    yield spot
    for away in (4.0, 6.0, 8.5, 11.5, 15.0, 19.0, 24.0):
        for turn in range(16):
            angle = math.radians(-60.0 + 22.5 * turn)
            yield spot[0] + away * math.cos(angle), spot[1] + away * math.sin(angle)


def _drawn(spot: Flat, numbers: Sequence[int], box: Box) -> list[str]:
    middle = ((box.left + box.right) / 2.0, (box.top + box.bottom) / 2.0)
    ink: list[str] = []
    if math.dist(spot, middle) > 0.1:
        ink = [
            line(spot, middle, "fault-leader"),
            element("circle", {"class": "fault-end", "cx": spot[0], "cy": spot[1], "r": 0.5}),
        ]
    for i, number in enumerate(numbers):
        x = box.left + STEP * (i % ABREAST + 0.5)
        y = box.top + STEP * (i // ABREAST + 0.5)
        ink.append(ring(number, (x, y)))
    return ink
