"""An entry in rows: indented, in columns where it is a list, broken at commas where it is long."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.tidying.words import Word, spaced

INDENT, FURTHER = "  ", "    "  # of an entry, and of the rows in which it goes on
WIDEST = 100
LONGEST = 28  # columns are made for names and sizes up to this; longer ones stand out


class Columns(NamedTuple):
    """How wide the first columns of a section's entries are: the name with its colon, the number, the stock."""

    name: int = 0
    number: int = 0
    stock: int = 0


def columns_of(section: str, entries: Iterable[Sequence[Word]]) -> Columns:
    """The columns of a cut list or a shopping list."""
    if section not in ("parts", "buy"):
        return Columns()
    parts = [_cells(words) for words in entries]
    return Columns(
        _widest(len(name) for name, _, _, _ in parts),
        _widest(len(count) for _, count, _, _ in parts),
        _widest(len(stock) for _, _, stock, rest in parts if rest) if section == "parts" else 0,
    )


def entry_rows(words: Sequence[Word], section: str, columns: Columns, breaks: Sequence[int]) -> list[str]:
    """The rows of an entry. `breaks` are the words (by number) that must begin a row; without any it is broken where
    it is too long."""
    if not breaks:
        return _broken(words, section, columns)
    rows = [words[first:last] for first, last in zip([0, *breaks], [*breaks, len(words)], strict=True)]
    return _closed([_row(row, section, columns, is_first=index == 0) for index, row in enumerate(rows)], rows)


def _broken(words: Sequence[Word], section: str, columns: Columns) -> list[str]:
    """As many words a row as fit, up to a comma; before an `and` where there is no comma."""
    rows: list[Sequence[Word]] = []
    rest = words
    while rest:
        taken = _fitting(rest, section, columns, is_first=not rows)
        rows.append(rest[:taken])
        rest = rest[taken:]
    return _closed([_row(row, section, columns, is_first=index == 0) for index, row in enumerate(rows)], rows)


def _fitting(words: Sequence[Word], section: str, columns: Columns, *, is_first: bool) -> int:
    """How many words this row takes."""
    if len(_row(words, section, columns, is_first=is_first)) <= WIDEST:
        return len(words)
    for is_break in (_after_comma, _before_and):
        places = [at for at in range(1, len(words)) if is_break(words, at)]
        fits = [at for at in places if len(_row(words[:at], section, columns, is_first=is_first)) < WIDEST]
        if fits:
            return fits[-1]
    places = [at for at in range(1, len(words)) if _after_comma(words, at)]
    return places[0] if places else len(words)


def _after_comma(words: Sequence[Word], at: int) -> bool:
    return words[at - 1].text == ","


def _before_and(words: Sequence[Word], at: int) -> bool:
    return words[at].text == "and"


def _closed(texts: list[str], rows: Sequence[Sequence[Word]]) -> list[str]:
    """Every row but the last ends in a comma, so that the entry goes on."""
    return [
        text if text.endswith(",") or index + 1 == len(rows) else f"{text},"
        for index, text in enumerate(texts)
    ]


def _row(words: Sequence[Word], section: str, columns: Columns, *, is_first: bool) -> str:
    return _first(words, section, columns) if is_first else _further(words)


def _further(words: Sequence[Word]) -> str:
    return FURTHER + spaced(list(words))


def _first(words: Sequence[Word], section: str, columns: Columns) -> str:
    """The first row, its name, count and stock in their columns."""
    if section not in ("parts", "buy"):
        return INDENT + spaced(list(words))
    name, count, stock, rest = _cells(words)
    text = f"{name:<{columns.name}} " if name or columns.name else ""
    text += f"{count:>{columns.number}} "
    text += f"{stock:<{columns.stock}} {rest}" if rest and columns.stock else f"{stock} {rest}"
    return (INDENT + text).rstrip()


def _cells(words: Sequence[Word]) -> tuple[str, str, str, str]:
    """A list's entry in its columns: `leg:`, `4`, `of 4x4`, `@ 16 1/2, shaped`."""
    colon = next((at for at, word in enumerate(words) if word.text == ":"), -1) + 1
    comma = next((at for at, word in enumerate(words) if word.text == ","), len(words))
    at_length = next((at for at, word in enumerate(words[:comma]) if word.text == "@"), len(words))
    return (
        spaced(list(words[:colon])),
        spaced(list(words[colon : colon + 1])),
        spaced(list(words[colon + 1 : at_length])),
        spaced(list(words[at_length:])),
    )


def _widest(lengths: Iterable[int]) -> int:
    """The widest cell that is not too long for a column."""
    return max((length for length in lengths if length <= LONGEST), default=0)
