"""The cutting layout drawn: a picture for each size of stock, its boards to scale with their cuts in order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planlint.drawing.board_bar import Scale, bar
from planlint.drawing.board_labels import SIZE
from planlint.drawing.board_steps import steps_table
from planlint.drawing.drawing import Drawing
from planlint.drawing.letters import lines, shortened, width
from planlint.sawing import telling
from planlint.sawing.alike import Alike, alike
from planlint.sawing.layout import Boards, Layout
from planlint.svg import line, polygon, words

WIDE = 190.0  # mm: what A4 and Letter both leave between their margins
HIGHEST = 240.0  # a picture that would be higher is parted, so that it prints on one page
_LEFT, _RIGHT = 11.0, 2.0  # beside the boards: the width stands at their left
_SPAN = WIDE - _LEFT - _RIGHT
_TITLE, _ROW = 3.6, 3.7
_LEAST_HIGH, _LEAST_PIECE = 8.0, 4.6  # a board and its narrowest piece are drawn so high, where
_HIGH_ENOUGH, _MOST_TIMES = 34.0, 6  # the board gets no higher than that
_SAID = 2.8  # letters of what stands over a board


def pictures(layout: Layout, units: str) -> tuple[Drawing, ...]:
    """A picture of each size of stock that something is cut from; several where it has very many boards."""
    longest = max([boards.length for boards in layout.boards if boards.cut], default=1.0)
    found: list[Drawing] = []
    for boards in layout.boards:
        if boards.cut:
            found += _Picture(boards, layout, units, longest).parted(len(found) + 1)
    return tuple(found)


class _Picture:
    """The boards of one size."""

    def __init__(self, boards: Boards, layout: Layout, units: str, longest: float) -> None:
        self.boards, self.layout, self.units = boards, layout, units
        self.told = alike(boards, layout.kerf)
        along = _SPAN / max(boards.length, longest / 2)
        self.times = _times(boards, self.told, along)
        self.scale = Scale(along, along * self.times)

    def parted(self, first: int) -> Iterator[Drawing]:
        """The picture, in as many drawings as its height asks for; `first` numbers them."""
        parts: list[list[Alike]] = []
        y = 0.0
        for one in self.told:
            high = self._board(one, 0.0, first=False)[1]
            if not parts or y + high > HIGHEST:
                parts.append([])
                y = self._head(0.0, "")[1]
            parts[-1].append(one)
            y += high
        for index, part in enumerate(parts):
            of = f" ({index + 1} of {len(parts)})" if len(parts) > 1 else ""
            yield self._drawing(part, f"boards-{first + index}", of)

    def _drawing(self, part: Sequence[Alike], name: str, of: str) -> Drawing:
        content, y = self._head(0.0, of)
        for index, one in enumerate(part):
            drawn, high = self._board(one, y, first=not index)
            content += drawn
            y += high
        title = telling.titled(self.boards) + of
        return Drawing(name, title, self._about(part), WIDE, y + 1.0, tuple(content))

    def _about(self, part: Sequence[Alike]) -> str:
        told = [f"{telling.number_of(self.boards)}."]
        for one in part:
            names = [f"{piece.name} {self._length(piece.length)}" for piece in one.sawn.pieces]
            told.append(f"{telling.which(one, self.boards)}: {', '.join(names)}.")
        return " ".join(told)

    def _length(self, x: float) -> str:
        return telling.length(x, self.units)

    def _head(self, y: float, of: str) -> tuple[list[str], float]:
        """Title, how many, the grain's way and the scale."""
        number = telling.number_of(self.boards)
        room = WIDE - width(number, _SAID) - 6.0
        drawn = [
            words(shortened(telling.titled(self.boards) + of, room, _TITLE), (0.0, y + 4.2), _TITLE, "title"),
            words(number, (WIDE - _RIGHT, y + 4.2), _SAID, "", "end"),
        ]
        y += 6.0
        for text in (telling.against_list(self.boards), telling.planing(self.boards, self.units)):
            for row in lines(text[:1].upper() + text[1:], WIDE - _RIGHT, SIZE):
                drawn.append(words(row, (0.0, y + 2.6), SIZE))
                y += _ROW
        scaled = "To scale."
        if self.times > 1:
            scaled = f"Lengths to scale; widths drawn {self.times} times as large."
        drawn.append(words(scaled, (0.0, y + 2.6), SIZE, "caption"))
        drawn += _grain(WIDE - _RIGHT, y + 1.8)
        return drawn, y + _ROW + 1.0

    def _board(self, one: Alike, y: float, *, first: bool) -> tuple[list[str], float]:
        """A board with its name above it and its cuts beneath it, and how high that is."""
        top = y
        drawn = [words(telling.which(one, self.boards), (_LEFT, y + 3.0), _SAID, "title")]
        y += 4.6
        if first:
            drawn += _measure(
                self.boards.length * self.scale.along, y, telling.measured(self.boards.length, self.units)
            )
        y += 2.4 if first else 0.0
        made = bar(one.sawn, (_LEFT, y), self.scale, self._length)
        drawn += made.content
        high = self.boards.width * self.scale.across
        drawn += _across(y, high, self._length(self.boards.width))
        y += made.height + 1.6
        told, list_high = steps_table(one, self.units, (_LEFT, y), _SPAN)
        return drawn + told, y + list_high + 3.2 - top


def _times(boards: Boards, told: Sequence[Alike], along: float) -> int:
    """How many times as large widths are drawn, so that labels find room; sheets and wide panels as they are."""
    narrowest = min([piece.area.width for one in told for piece in one.sawn.pieces], default=boards.width)
    for times in range(1, _MOST_TIMES):
        if boards.width * along * times >= _LEAST_HIGH and narrowest * along * times >= _LEAST_PIECE:
            return times
        if boards.width * along * (times + 1) > _HIGH_ENOUGH:
            return times
    return _MOST_TIMES


def _grain(right: float, y: float) -> list[str]:
    """Which way the grain runs."""
    text = width("grain", SIZE)
    left, end = right - 18.0, right
    return [
        words("grain", (left - 1.6 - text, y + 0.8), SIZE, "caption"),
        line((left, y), (end, y), "edge"),
        polygon([(left, y), (left + 2.2, y - 0.8), (left + 2.2, y + 0.8)], "tip"),
        polygon([(end, y), (end - 2.2, y - 0.8), (end - 2.2, y + 0.8)], "tip"),
    ]


def _measure(long: float, y: float, text: str) -> list[str]:
    """The board's length, over it."""
    middle, half = _LEFT + long / 2, width(text, SIZE) / 2 + 1.0
    left, right = _LEFT, _LEFT + long
    return [
        line((left, y - 1.2), (left, y + 0.8), "measure"),
        line((right, y - 1.2), (right, y + 0.8), "measure"),
        line((left, y - 0.2), (middle - half, y - 0.2), "measure"),
        line((middle + half, y - 0.2), (right, y - 0.2), "measure"),
        words(text, (middle, y + 0.7), SIZE, "measure", "middle"),
    ]


def _across(y: float, high: float, text: str) -> list[str]:
    """The board's width, at its left."""
    x = _LEFT - 1.4
    return [
        line((x - 0.8, y), (x + 0.8, y), "measure"),
        line((x - 0.8, y + high), (x + 0.8, y + high), "measure"),
        line((x, y), (x, y + high), "measure"),
        words(text, (x - 1.0, y + high / 2 + SIZE * 0.36), SIZE, "measure", "end"),
    ]
