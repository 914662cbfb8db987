"""Names beside a view, in a column on each side, with leaders to the parts they mean."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from planlint.drawing.letters import ASCENT, width
from planlint.drawing.letters import lines as broken
from planlint.drawing.placing import Box, Paper
from planlint.geometry.outline import Flat
from planlint.svg import element, group, line, words

SIZE = 2.5  # mm: letters
PITCH = 1.2  # line to line, of the size
CLEAR = 1.0  # mm between two names
WIDEST = 34.0  # mm: a longer name is broken into lines


class Named(NamedTuple):
    """A name, and the point on paper that it means. `parts`: the names of all its parts."""

    text: str
    at: Flat
    parts: tuple[str, ...] = ()


class Column(NamedTuple):
    """Names one under another: (name, its lines, the top of the first)."""

    rows: tuple[tuple[Named, tuple[str, ...], float], ...]
    left_over: tuple[Named, ...]


def widest(names: Sequence[Named]) -> float:
    """How wide the column for these names is."""
    return max([width(one, SIZE) for name in names for one in broken(name.text, WIDEST, SIZE)], default=0.0)


def sides(names: Sequence[Named], middle: float) -> tuple[list[Named], list[Named]]:
    """The names for the left and for the right column, about as many in each."""
    ordered = sorted(names, key=lambda name: name.at[0])
    left = [name for name in ordered if name.at[0] < middle]
    spare = len(ordered) // 2 + 1
    cut = min(max(len(left), len(ordered) - spare), spare)
    return ordered[:cut], ordered[cut:]


def column(names: Sequence[Named], top: float, bottom: float) -> Column:
    """The names from top to bottom, each as near as may be to the height of what it means."""
    rows: list[tuple[Named, tuple[str, ...], float]] = []
    left_over: list[Named] = []
    free = bottom - top
    for name in sorted(names, key=lambda one: (one.at[1], one.at[0])):
        told = tuple(broken(name.text, WIDEST, SIZE))
        if _high(told) > free + 1e-6:
            left_over.append(name)
            continue
        free -= _high(told) + CLEAR
        wished = name.at[1] - _high(told) / 2.0
        least = rows[-1][2] + _high(rows[-1][1]) + CLEAR if rows else top
        rows.append((name, told, max(wished, least)))
    limit = bottom
    for i in range(len(rows) - 1, -1, -1):
        name, told, at = rows[i]
        rows[i] = (name, told, min(at, limit - _high(told)))
        limit = rows[i][2] - CLEAR
    return Column(tuple(rows), tuple(left_over))


def lettered(rows: Column, edge: float, to_left: bool) -> tuple[list[str], list[Box]]:
    """A column in ink, its names ending (`to_left`) or beginning at `edge`; the boxes of names and leaders' ends."""
    ink: list[str] = []
    boxes: list[Box] = []
    anchor = "end" if to_left else "start"
    for name, told, top in rows.rows:
        boxes.append(Box(name.at[0] - 0.8, name.at[1] - 0.8, name.at[0] + 0.8, name.at[1] + 0.8))
        wide = max([width(one, SIZE) for one in told])
        left = edge - wide if to_left else edge
        boxes.append(Box(left, top, left + wide, top + _high(told)))
        out = 1.0 if to_left else -1.0
        start = (edge + out * 0.8, top + _high(told) / 2.0)
        bend = (edge + out * 2.6, start[1])
        texts = [
            words(one, (edge, top + SIZE * (ASCENT + PITCH * i)), SIZE, "name", anchor)
            for i, one in enumerate(told)
        ]
        leader = [line(start, bend, "leader"), line(bend, name.at, "leader"), dot(name.at)]
        ink.append(group({"class": "part-name", "data-part-names": "|".join(name.parts)}, [*leader, *texts]))
    return ink, boxes


def dot(at: Flat) -> str:
    """The end of a leader on a part."""
    return element("circle", {"class": "leader-end", "cx": at[0], "cy": at[1], "r": 0.45})


def _high(told: Sequence[str]) -> float:
    return SIZE * (1.0 + PITCH * (len(told) - 1))


def loose(name: Named, paper: Paper, within: Box, drawn: Sequence[Box]) -> list[str]:
    """A single name near what it means: beside what is drawn where there is room, else over it; with its leader."""
    wide, high = width(name.text, SIZE), SIZE
    boxes = [box for box in _around(name.at, wide, high) if box.within(within)]
    outside = [box for box in boxes if not any(box.over(other) for other in drawn)]
    box = paper.first_free([*outside, *boxes])
    if box is None:
        return []
    text = words(name.text, (box.left, box.top + SIZE * ASCENT), SIZE, "name over")
    x = min(max(name.at[0], box.left), box.right)
    y = box.top - 0.3 if name.at[1] < box.top else box.bottom + 0.3 if name.at[1] > box.bottom else name.at[1]
    inside = [line((x, y), name.at, "leader"), dot(name.at), text]
    return [group({"class": "part-name", "data-part-names": "|".join(name.parts)}, inside)]


def _around(at: Flat, wide: float, high: float) -> list[Box]:
    """Boxes of that size round a point, the nearest first."""
    found: list[Box] = []
    for away in (4.0, 7.0, 10.0, 14.0, 19.0, 25.0, 32.0):
        for turn in range(16):
            angle = math.radians(22.5 * turn - 90.0)
            x = at[0] + math.cos(angle) * (away + wide / 2.0)
            y = at[1] + math.sin(angle) * (away + high / 2.0)
            found.append(Box(x - wide / 2.0, y - high / 2.0, x + wide / 2.0, y + high / 2.0))
    return found
