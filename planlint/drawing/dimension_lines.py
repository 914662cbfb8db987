"""Dimension lines of a view: overall, a chain of positions, rows; with ticks, and no number on another.

A line is laid out along one axis first (mm on paper), then drawn below, left, right or above the view.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Literal, NamedTuple

from planlint.drawing.letters import ASCENT, DESCENT, width
from planlint.drawing.placing import Box
from planlint.svg import line, words

Where = Literal["below", "left", "right", "above"]

SIZE = 2.4  # mm: letters
TICK = 0.8  # mm: half a tick's reach each way
CLEAR = 0.7  # mm between letters and what is beside them
TWIN = 0.1  # mm: positions of the same weight that lie as far from either end, within this, are a pair
STUB = 1.0  # mm: how far extension lines run past the line


class Stretch(NamedTuple):
    """A length between two positions on paper, with its number.

    The number stands over the line, `beyond` it (away from the piece), or with its middle `out` past an end.
    """

    start: float
    end: float
    text: str
    beyond: bool = False
    out: float | None = None


class Rule(NamedTuple):
    """One dimension line: its place across its own direction, and the stretches along it in order."""

    at: float
    stretches: tuple[Stretch, ...]
    foot: float  # where the extension lines begin, near the piece


def fitted(
    positions: Sequence[tuple[float, float]],
    text: Callable[[float, float], str],
    has_room: Callable[[Stretch], bool],
) -> list[Stretch] | int:
    """The stretches between positions (place on paper, weight), each with its number where it can stand.

    A wide stretch has its number on the line, a narrow one beyond it, the first and last outside the line's ends.
    Where a number has no room: the index of its stretch, beside which a position must go.
    """
    found: list[Stretch] = []
    last = float("-inf")
    final = len(positions) - 2
    for i, ((start, _), (end, _)) in enumerate(pairwise(positions)):
        number = text(start, end)
        wide = width(number, SIZE)
        if wide + 2.0 * CLEAR <= end - start:
            found.append(Stretch(start, end, number))
        elif i in (0, final):
            away = TICK + CLEAR + wide / 2.0
            out = start - away if i == 0 else end + away
            found.append(Stretch(start, end, number, False, out))
            if not has_room(found[-1]):
                return i
        else:
            low = (start + end - wide) / 2.0
            if low < last or low < positions[0][0] + CLEAR or low + wide > positions[-1][0] - CLEAR:
                return i
            last = low + wide + 2.0 * CLEAR
            found.append(Stretch(start, end, number, True))
    return found


def thinned(
    positions: Sequence[tuple[float, float]],
    text: Callable[[float, float], str],
    has_room: Callable[[Stretch], bool],
) -> list[Stretch]:
    """The stretches after, where a number has no room, the lighter of the positions beside it has gone.

    The one as far from the other end goes with it, so that a frame is dimensioned evenly, unless that tells less.
    """
    evenly, singly = (_thinned(positions, text, has_room, evenly) for evenly in (True, False))
    return singly if len(singly) > len(evenly) else evenly


def _thinned(
    positions: Sequence[tuple[float, float]],
    text: Callable[[float, float], str],
    has_room: Callable[[Stretch], bool],
    evenly: bool,
) -> list[Stretch]:
    kept, ends = list(positions), positions[0][0] + positions[-1][0]
    while len(kept) > 2:
        found = fitted(kept, text, has_room)
        if not isinstance(found, int):
            return found
        gone, weight = min(kept[found : found + 2], key=lambda one: one[1])
        twin = ends - gone if evenly else gone
        kept = [
            (at, other)
            for at, other in kept
            if at != gone and not (other == weight and abs(at - twin) < TWIN)
        ]
    return [Stretch(kept[0][0], kept[-1][0], text(kept[0][0], kept[-1][0]))]


def ruled(rule: Rule, where: Where) -> tuple[list[str], list[Box]]:
    """The line in ink, with the boxes of it and its numbers."""
    upright = where in ("left", "right")
    out = -1.0 if where in ("left", "above") else 1.0
    ink: list[str] = []
    boxes: list[Box] = []
    ends = sorted({end for stretch in rule.stretches for end in (stretch.start, stretch.end)})
    ink.append(_line((ends[0], rule.at), (ends[-1], rule.at), upright))
    for end in ends:
        ink.append(_line((end, rule.foot), (end, rule.at + out * STUB), upright))
        ink.append(_tick(end, rule.at, upright))
    along = Box(ends[0], rule.at - TICK, ends[-1], rule.at + TICK)
    boxes.append(Box(along.top, along.left, along.bottom, along.right) if upright else along)
    for stretch in rule.stretches:
        text, box = number_of(stretch, rule.at, where)
        ink.append(text)
        boxes.append(box)
    return ink, boxes


def number_of(stretch: Stretch, at: float, where: Where) -> tuple[str, Box]:
    """A stretch's number in ink, and its box."""
    out = -1.0 if where in ("left", "above") else 1.0
    middle = (stretch.start + stretch.end) / 2.0 if stretch.out is None else stretch.out
    away = out * (STUB + 0.3) if stretch.beyond else -out * CLEAR
    return _lettered(stretch.text, middle, at, away, where in ("left", "right"))


def _lettered(text: str, middle: float, at: float, side: float, upright: bool) -> tuple[str, Box]:
    """A number beside a line, `side` mm from it towards greater values across (less than 0: smaller), upright ones to
    be read from the right.
    """
    high = SIZE * ASCENT
    base = at + side if side < 0 else at + side + high
    half = width(text, SIZE) / 2.0
    low, top = base - high, base + SIZE * DESCENT
    if upright:
        return words(text, (base, middle), SIZE, "measure", "middle", -90.0), Box(
            low, middle - half, top, middle + half
        )
    return words(text, (middle, base), SIZE, "measure", "middle"), Box(middle - half, low, middle + half, top)


def _line(start: tuple[float, float], end: tuple[float, float], upright: bool) -> str:
    if upright:
        start, end = (start[1], start[0]), (end[1], end[0])
    return line(start, end, "measure")


def _tick(along: float, at: float, upright: bool) -> str:
    x, y = (at, along) if upright else (along, at)
    return line((x - TICK, y + TICK), (x + TICK, y - TICK), "measure tick")
