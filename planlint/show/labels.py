"""Labels along a drawing that never overlap, and the sheet both are put on."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import count


class Sheet:
    """Rows of characters to draw on; grows to the right as needed."""

    def __init__(self, rows: int) -> None:
        self.rows: list[list[str]] = [[] for _ in range(rows)]

    def put(self, row: int, column: int, text: str) -> None:
        """Write over what stands there; columns count from 0."""
        line = self.rows[row]
        line.extend(" " * (column + len(text) - len(line)))
        line[column : column + len(text)] = text

    def at(self, row: int, column: int) -> str:
        line = self.rows[row]
        return line[column] if column < len(line) else " "

    def lines(self) -> list[str]:
        return ["".join(row).rstrip() for row in self.rows]


def merged(labels: Iterable[tuple[int, str]]) -> list[tuple[int, str]]:
    """(column, text) in order of columns; labels of one column share a text."""
    texts: dict[int, list[str]] = {}
    for column, text in labels:
        known = texts.setdefault(column, [])
        if text not in known:
            known.append(text)
    return [(column, ", ".join(texts[column])) for column in sorted(texts)]


def reach(labels: list[tuple[int, str]]) -> int:
    """How many columns the labels take."""
    return max((column + len(text) for column, text in labels), default=0)


def stacked(labels: list[tuple[int, str]], upright: str) -> list[str]:
    """The labels as lines, the one nearest the drawing first, each text starting in its own column.

    Taken from the right, so that nothing stands yet where the stroke of a label further away must pass.
    """
    rows: list[list[str]] = []
    for column, text in reversed(labels):
        for height in count():
            if height == len(rows):
                rows.append([])
            if not "".join(rows[height][column : column + len(text) + 2]).strip():
                break
        for row in rows[:height]:
            _write(row, column, upright)
        _write(rows[height], column, text)
    return ["".join(row).rstrip() for row in rows]


def _write(row: list[str], column: int, text: str) -> None:
    row.extend(" " * (column + len(text) - len(row)))
    row[column : column + len(text)] = text
