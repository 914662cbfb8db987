"""A board's cuts in order, as a table beneath it. Mm on paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.drawing.board_labels import SIZE
from planlint.drawing.letters import shortened, width
from planlint.sawing import telling
from planlint.sawing.alike import Alike, kept_whole, left_by, steps
from planlint.sawing.order import RIP
from planlint.svg import words

_ROW = 3.7
_MANY = 4  # rows; more stand in two columns
_BETWEEN = 5.0
_NUMBER, _WAY, _SIZE = 9.0, 14.0, 19.0  # columns of a row


class _Row(NamedTuple):
    number: str
    way: str
    size: str
    text: list[str]


def steps_table(one: Alike, units: str, corner: tuple[float, float], wide: float) -> tuple[list[str], float]:
    """The table with its top left corner there, and how high it is."""
    told = list(_told(one, units))
    columns = 1 if len(told) <= _MANY else 2
    each = (wide - _BETWEEN * (columns - 1)) / columns
    rows = [_row(texts, each) for texts in told]
    half = sum([len(row.text) for row in rows]) / columns
    drawn: list[str] = []
    at = highest = 0
    x = corner[0]
    for row in rows:
        if columns > 1 and at >= half and x == corner[0]:
            at, x = 0, x + each + _BETWEEN
        drawn += _drawn(row, x, corner[1] + at * _ROW + 2.6)
        at += len(row.text)
        highest = max(highest, at)
    return drawn, highest * _ROW


def _told(one: Alike, units: str) -> Iterator[tuple[str, str, str, list[str]]]:
    for name in kept_whole(one.sawn):
        yield "", "as it is", "", name.split()
    for step in steps(one.sawn):
        rest = [name for number in range(step.first, step.last + 1) for name in left_by(one.sawn, number)]
        size = telling.length(step.size, units) + (" wide" if step.way == RIP else "")
        yield telling.numbers(step), step.way, size, telling.sentence(step, rest).split()
    left = telling.left_over(one, units)
    if left:
        yield "", "left over", "", [f"{size}," for size in left[:-1]] + left[-1:]
    tight = telling.tight(one, units)
    if tight:
        yield "", "tight", "", tight.split()


def _row(texts: tuple[str, str, str, list[str]], wide: float) -> _Row:
    number, way, size, together = texts
    return _Row(number, way, size, _broken(together, wide - _NUMBER - _WAY - _SIZE))


def _broken(together: Sequence[str], room: float) -> list[str]:
    """Words in lines; a size (`3 1/8 x 16`) stays together."""
    rows: list[str] = []
    for word in together:
        if rows and width(f"{rows[-1]} {word}", SIZE) <= room:
            rows[-1] += f" {word}"
        else:
            rows.append(shortened(word, room, SIZE))
    return rows or [""]


def _drawn(row: _Row, x: float, base: float) -> Iterator[str]:
    if row.number:
        yield words(row.number, (x, base), SIZE, "cut-number")
    yield words(row.way, (x + _NUMBER, base), SIZE)
    if row.size:
        yield words(row.size, (x + _NUMBER + _WAY, base), SIZE)
    left = x + _NUMBER + _WAY + max(_SIZE, width(row.size, SIZE) + 1.5)
    for index, text in enumerate(row.text):
        yield words(text, (left, base + index * _ROW), SIZE)
