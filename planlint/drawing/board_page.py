"""The whole cutting layout on one sheet of paper, in as many columns as make it a handy shape. Mm on paper."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.drawing.board_labels import SIZE
from planlint.drawing.boards import WIDE, pictures
from planlint.drawing.drawing import Drawing
from planlint.drawing.letters import lines
from planlint.sawing import telling
from planlint.sawing.alike import alike
from planlint.sawing.layout import Layout
from planlint.svg import element, line, words

_MARGIN, _BETWEEN, _APART = 10.0, 10.0, 7.0  # round the page, between columns, between pictures
_ROW = 3.7
_TITLE = 5.5
_SHAPE = math.sqrt(2.0)  # height over width of a sheet of paper
_MOST = 6  # columns


def one_page(layout: Layout, title: str, units: str, notes: Sequence[str] = ()) -> Drawing:
    """All boards on one page, under the plan's title; `notes` stand over them. Never without content."""
    drawings = pictures(layout, units)
    columns = _columns(drawings)
    wide = len(columns) * (WIDE + _BETWEEN) - _BETWEEN
    content, top = _head(title, _said(layout, units, notes), wide)
    y = top
    for index, column in enumerate(columns):
        y_column = top
        for drawing in column:
            at = f"translate({_MARGIN + index * (WIDE + _BETWEEN):g} {y_column:.2f})"
            content.append(element("g", {"transform": at}, *drawing.content))
            y_column += drawing.height + _APART
        y = max(y, y_column)
    rows, y = _foot(layout, units, wide, y)
    about = " ".join([f"{drawing.title}: {drawing.about}" for drawing in drawings])
    name = f"Cutting layout of {title}" if title else "Cutting layout"
    return Drawing("boards", name, about, wide + 2 * _MARGIN, y + _MARGIN, (*content, *rows))


def _columns(drawings: Sequence[Drawing]) -> list[list[Drawing]]:
    """The pictures in columns, in order."""
    best = [list(drawings)]
    for number in range(1, min(_MOST, max(1, len(drawings))) + 1):
        filled = _filled(drawings, number)
        if abs(_off(filled)) < abs(_off(best)) - 1e-9:
            best = filled
    return best


def _off(columns: Sequence[Sequence[Drawing]]) -> float:
    """How far from the shape of a sheet of paper, upright or lying."""
    high = max([_high(column) for column in columns]) + 40.0
    shape = math.log(high / (len(columns) * (WIDE + _BETWEEN)))
    return min(abs(shape - math.log(_SHAPE)), abs(shape + math.log(_SHAPE)) + 0.2)


def _high(column: Sequence[Drawing]) -> float:
    return sum([drawing.height + _APART for drawing in column])


def _filled(drawings: Sequence[Drawing], number: int) -> list[list[Drawing]]:
    """At most so many columns, in order, the highest as low as can be."""
    low, high = max([_high([drawing]) for drawing in drawings], default=0.0), _high(drawings)
    while high - low > 1.0:
        middle = (low + high) / 2
        if len(_up_to(drawings, middle)) > number:
            low = middle
        else:
            high = middle
    return _up_to(drawings, high + 0.01)


def _up_to(drawings: Sequence[Drawing], most: float) -> list[list[Drawing]]:
    columns: list[list[Drawing]] = [[]]
    for drawing in drawings:
        if columns[-1] and _high([*columns[-1], drawing]) > most:
            columns.append([])
        columns[-1].append(drawing)
    return columns


def _said(layout: Layout, units: str, notes: Sequence[str]) -> list[str]:
    """What stands over the boards."""
    said = [note for note in notes if note]
    if any(boards.cut for boards in layout.boards):
        said.append(telling.how(layout, units))
    elif not layout.unheld:
        said.append("There is nothing to cut that this plan tells of.")
    return said


def _head(title: str, said: Sequence[str], wide: float) -> tuple[list[str], float]:
    y = _MARGIN + _TITLE
    drawn = []
    for row in lines(f"{title}: cutting layout" if title else "Cutting layout", wide, _TITLE):
        drawn.append(words(row, (_MARGIN, y), _TITLE, "title"))
        y += _TITLE * 1.2
    y -= 1.6
    drawn.append(line((_MARGIN, y - 2.0), (_MARGIN + wide, y - 2.0), "edge"))
    for text in said:
        for row in lines(text, wide, SIZE):
            drawn.append(words(row, (_MARGIN, y + 2.6), SIZE))
            y += _ROW
        y += 1.0
    return drawn, y + 4.0


def _foot(layout: Layout, units: str, wide: float, y: float) -> tuple[list[str], float]:
    """Under the boards: what could not be laid out, what is done to pieces afterwards, the cautions."""
    told = [(boards, alike(boards, layout.kerf)) for boards in layout.boards]
    said = [(f"Missing: {name}: {reason}.", "fault") for name, reason in layout.unheld]
    for entry, boards in telling.sources(layout, told):
        remarks = telling.remarks(entry, boards, units)
        if remarks:
            said.append((f"{entry.name}: {'; '.join(remarks)}.", ""))
    said += [(f"Then {text}.", "") for text in telling.panels(layout, units)]
    said += [(text, "") for text in telling.cautions(told, units)]
    drawn = []
    for text, class_ in said:
        for row in lines(text, wide, SIZE):
            drawn.append(words(row, (_MARGIN, y + 2.6), SIZE, class_))
            y += _ROW
        y += 0.8
    return drawn, y
