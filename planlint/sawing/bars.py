"""A board in characters, its length to scale: pieces as blocks with their cut's number, off-cuts hatched.

┌──────────────────┬────────────────┬─────╱
│1 post            │2 front-leg     │╱╱╱╱╱│
│28                │17 1/4          │╱╱3╱╱│
└──────────────────┴────────────────┴─────┘
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from typing import NamedTuple

from planlint.sawing.order import Area, Sawn
from planlint.show.labels import Sheet
from planlint.show.strokes import Strokes
from planlint.show.wrapping import columns, printable, shortened

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_TALL = 2.0  # a character is about twice as high as it is wide
_PLAIN_ROWS = 2  # text rows of a board that is not ripped
_SHEET_ROWS = 22  # a drawing higher than this does not fit a page with its list

Words = Callable[[float], str]


class _Grid(NamedTuple):
    """Where lines run: columns for places along the board, rows for places across it."""

    along: Sequence[float]
    columns: Sequence[int]
    across: Sequence[float]
    rows: Sequence[int]

    def box(self, area: Area) -> tuple[int, int, int, int]:
        """First and last column, first and last row of the lines round an area."""
        left, right = area.along, area.along + area.length
        top, bottom = area.across, area.across + area.width
        return (
            self.columns[_nearest(self.along, left)],
            self.columns[_nearest(self.along, right)],
            self.rows[_nearest(self.across, top)],
            self.rows[_nearest(self.across, bottom)],
        )


def bar(one: Sawn, words: Words, width: int, strokes: Strokes, *, scaled: bool) -> list[str]:
    """The board at most `width` columns wide; empty where it has more pieces than columns.

    `words` writes a length. `scaled`: its width is to scale too, as far as it fits.
    """
    grid = _grid(one, width, scaled)
    if grid is None:
        return []
    lines: dict[tuple[int, int], int] = {}
    for area in [piece.area for piece in one.pieces] + list(one.offcuts):
        _frame(lines, *grid.box(area))
    sheet = Sheet(grid.rows[-1] + 1)
    for offcut in one.offcuts:
        _hatch(sheet, grid.box(offcut), strokes)
        _label(sheet, grid.box(offcut), _offcut_words(offcut, one, words), strokes.waste)
    for piece in one.pieces:
        number = f"{piece.number} " if piece.number else ""
        size = words(piece.length)
        _label(sheet, grid.box(piece.area), _piece_words(number, printable(piece.name), size), " ")
    for (row, column), sides in lines.items():
        sheet.put(row, column, _stroke(sides, strokes))
    return sheet.lines()


def _offcut_words(offcut: Area, one: Sawn, words: Words) -> list[list[str]]:
    length = words(offcut.length)
    if one.sheet or offcut.width < one.board.width - 0.01:
        return [[f"{words(offcut.width)} x {length}"], [length]]
    return [[length]]


def _piece_words(number: str, name: str, size: str) -> list[list[str]]:
    """Ways to label a piece, the fullest first."""
    return [[number + name, size], [f"{number}{name} {size}"], [number + name], [number.strip() or name]]


def _grid(one: Sawn, width: int, scaled: bool) -> _Grid | None:
    areas = [piece.area for piece in one.pieces] + list(one.offcuts)
    along = _merged([edge for area in areas for edge in (area.along, area.along + area.length)])
    across = _merged([edge for area in areas for edge in (area.across, area.across + area.width)])
    step = one.board.length / (width - 1)
    at = _columns(along, step, width - 1)
    if at is None:
        return None
    if scaled:
        tall = one.board.width / step / _TALL
        tall = min(max(tall, 2.0 * (len(across) - 1)), max(_SHEET_ROWS, 2 * (len(across) - 1)))
        rows = _columns(across, one.board.width / tall, round(tall))
    else:
        rows = None
    if rows is None:
        each = _PLAIN_ROWS + 1 if len(across) == 2 else 2
        rows = [each * index for index in range(len(across))]
    return _Grid(along, at, across, rows)


def _merged(edges: Sequence[float]) -> list[float]:
    """Places in order; the two sides of a kerf are one place."""
    found: list[float] = []
    last = -1e9
    for edge in sorted(edges):
        if edge - last > 6.0 or not found:
            found.append(edge)
        last = edge
    return found


def _nearest(places: Sequence[float], place: float) -> int:
    index = bisect_left(places, place)
    around = [one for one in (index - 1, index) if 0 <= one < len(places)]
    return min(around, key=lambda one: abs(places[one] - place))


def _columns(places: Sequence[float], step: float, most: int) -> list[int] | None:
    """Each place's column, rounded, but at least two from the last, so that something stands between."""
    gap = 2 if 2 * (len(places) - 1) <= most else 1
    if gap * (len(places) - 1) > most:
        return None
    found: list[int] = []
    for index, place in enumerate(places):
        left = gap * (len(places) - 1 - index)
        least = found[-1] + gap if found else 0
        found.append(max(least, min(round((place - places[0]) / step), most - left)))
    return found


def _frame(lines: dict[tuple[int, int], int], left: int, right: int, top: int, bottom: int) -> None:
    def mark(row: int, column: int, sides: int) -> None:
        lines[row, column] = lines.get((row, column), 0) | sides

    for row in (top, bottom):
        for column in range(left, right):
            mark(row, column, _RIGHT)
            mark(row, column + 1, _LEFT)
    for column in (left, right):
        for row in range(top, bottom):
            mark(row, column, _DOWN)
            mark(row + 1, column, _UP)


def _stroke(sides: int, strokes: Strokes) -> str:
    return {
        _UP | _DOWN: strokes.upright,
        _LEFT | _RIGHT: strokes.flat,
        _DOWN | _RIGHT: strokes.top_left,
        _DOWN | _LEFT: strokes.top_right,
        _UP | _RIGHT: strokes.bottom_left,
        _UP | _LEFT: strokes.bottom_right,
        _DOWN | _LEFT | _RIGHT: strokes.meet_top,
        _UP | _LEFT | _RIGHT: strokes.meet_bottom,
        _UP | _DOWN | _RIGHT: strokes.meet_left,
        _UP | _DOWN | _LEFT: strokes.meet_right,
    }.get(sides, strokes.meet_all)


def _hatch(sheet: Sheet, box: tuple[int, int, int, int], strokes: Strokes) -> None:
    left, right, top, bottom = box
    for row in range(top + 1, bottom):
        sheet.put(row, left + 1, strokes.waste * (right - left - 1))


def _label(sheet: Sheet, box: tuple[int, int, int, int], ways: Sequence[Sequence[str]], fill: str) -> None:
    """The fullest of these that fits into the box; the last is cut short if it must be."""
    left, right, top, bottom = box
    room, rows = right - left - 1, bottom - top - 1
    if room < 1 or rows < 1:
        return
    fitting = (way for way in ways if len(way) <= rows and max(columns(line) for line in way) <= room)
    chosen = next(fitting, None)
    if chosen is None:
        shorter = shortened(ways[-1][0], room)
        if columns(shorter) > room or fill != " ":
            return
        chosen = [shorter]
    start = top + 1 + (rows - len(chosen)) // 2
    for index, line in enumerate(chosen):
        at = left + 1 if fill == " " else left + 1 + (room - columns(line)) // 2
        sheet.put(start + index, at, line)
