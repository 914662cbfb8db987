"""One flat view on its sheet: its name, its parts, the dimension lines round it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.drawing.dimension_lines import CLEAR, SIZE, Rule, Stretch, Where, number_of, ruled, thinned
from planlint.drawing.letters import width
from planlint.drawing.picture import Picture, inked
from planlint.drawing.placing import Box, Paper, box_of
from planlint.drawing.positions import Row, Way, chain
from planlint.svg import group, words

FOOT, ROW, FIRST, SECOND = (
    1.0,
    4.2,
    5.3,
    12.3,
)  # mm from the piece: extension lines begin; a row's, the chain's, the overall line
TITLE_SIZE = 3.2
BESIDE = 1.4  # mm: a number past the end of its line stands so far from those of the next view

Word = Callable[[float], str]


class Flat(NamedTuple):
    """A flat view, the rows it dimensions, and on which side it has its heights."""

    picture: Picture
    rows: tuple[Row, ...]  # that are dimensioned here
    all_rows: tuple[Row, ...]  # that are to be seen here
    heights: Where  # "left" or "right"


def drawn(flat: Flat, parts: Sequence[Part], word: Word, paper: Paper, within: Box) -> list[str]:
    """The view in ink; the boxes of its texts and dimension lines, none past `within`, are taken on the paper."""
    picture = flat.picture
    ink = [group({"class": "view"}, inked(picture, parts))]
    other: Where = "right" if flat.heights == "left" else "left"
    ink += _dimensioned(flat, "across", "below", word, paper, within)
    ink += _dimensioned(flat, "up", flat.heights, word, paper, within)
    above = _rows(flat, "across", "above", word, paper)
    ink += above + _rows(flat, "up", other, word, paper)
    ink.append(named(picture, 8.6 if above else 2.2, paper))
    return ink


def named(picture: Picture, above: float, paper: Paper) -> str:
    """The view's name over it, in the first place that is free."""
    places = [(picture.left, picture.top - above - TITLE_SIZE * step) for step in (0.0, 1.0, 2.0)]
    boxes = [box_of(picture.name, x, y, TITLE_SIZE) for x, y in places]
    index = next((i for i, box in enumerate(boxes) if paper.is_free(box)), 0)
    paper.take(boxes[index])
    return words(picture.name, places[index], TITLE_SIZE, "view-name")


def _dimensioned(flat: Flat, way: Way, where: Where, word: Word, paper: Paper, within: Box) -> list[str]:
    """The chain and, beyond it, the overall line."""
    picture = flat.picture
    extent = picture.extent
    low, high = (extent.low_u, extent.high_u) if way == "across" else (extent.low_v, extent.high_v)
    places = chain(picture.seen, way, low, high, flat.all_rows)
    on_paper = sorted([(_along(picture, way, at), weight) for at, weight in places])
    if on_paper[-1][0] - on_paper[0][0] < 1.0:
        return []

    def number(start: float, end: float) -> str:
        return word((end - start) / picture.scale)

    def has_room(stretch: Stretch) -> bool:
        _, box = number_of(stretch, _off(picture, where, FIRST), where)
        clear = Box(box.left - BESIDE, box.top - BESIDE, box.right + BESIDE, box.bottom + BESIDE)
        return box.within(within) and paper.is_free(clear)

    stretches = thinned(on_paper, number, has_room)
    whole = Stretch(on_paper[0][0], on_paper[-1][0], number(on_paper[0][0], on_paper[-1][0]))
    lines = [tuple(stretches), (whole,)] if len(stretches) > 1 else [(whole,)]
    ink: list[str] = []
    for told, away in zip(lines, (FIRST, SECOND), strict=False):
        made, boxes = ruled(Rule(_off(picture, where, away), told, _off(picture, where, FOOT)), where)
        ink += made
        for box in boxes:
            paper.take(box)
    return ink


def _rows(flat: Flat, way: Way, where: Where, word: Word, paper: Paper) -> list[str]:
    """The row to be dimensioned on that side, as one length with its count, size and gap."""
    picture = flat.picture
    for row in flat.rows:
        if row.way != way:
            continue
        start, end = sorted((_along(picture, way, row.start), _along(picture, way, row.end)))
        long, short = _row_texts(row, word)
        for text in (long, short):
            wide = width(text, SIZE)
            if wide > max(end - start, _room(picture, way)):
                continue
            stretch = Stretch(start, end, text, wide + 2.0 * CLEAR > end - start)
            if text == long and not paper.is_free(number_of(stretch, _off(picture, where, ROW), where)[1]):
                continue
            ink, boxes = ruled(Rule(_off(picture, where, ROW), (stretch,), _off(picture, where, FOOT)), where)
            for box in boxes:
                paper.take(box)
            return ink
    return []


def _row_texts(row: Row, word: Word) -> tuple[str, str]:
    between = f"{word(row.gap)} apart" if row.gap > 0.05 else "side by side"
    return (
        f"{row.number} × {row.entry} {word(row.size)}, {between}",
        f"{row.number} of {word(row.size)}, {between}",
    )


def _room(picture: Picture, way: Way) -> float:
    return (picture.extent.wide if way == "across" else picture.extent.high) * picture.scale


def _along(picture: Picture, way: Way, at: float) -> float:
    extent = picture.extent
    return picture.at((at, extent.low_v))[0] if way == "across" else picture.at((extent.low_u, at))[1]


def _off(picture: Picture, where: Where, away: float) -> float:
    """The place across the line, so far from the piece on that side."""
    return {
        "below": picture.bottom + away,
        "above": picture.top - away,
        "left": picture.left - away,
        "right": picture.right + away,
    }[where]
