"""A plan's rows sorted out: which entry each belongs to, its note, and the words it holds.

A row is a line of the file; an entry may go on over several. What stands between its rows (notes, blanks) is kept
with it.
"""

from __future__ import annotations

from typing import NamedTuple

from planlint.read.lines import Line, content, logical_lines
from planlint.read.plan import Trouble
from planlint.read.reader import read
from planlint.read.sections import sections
from planlint.read.unread import Unread
from planlint.source import Source
from planlint.tidying.words import Word, tidy_words


class Entry(NamedTuple):
    """A section's head or an entry: its rows, counted from 1, its section, and its words; None where it stays as it
    is written, word for word."""

    first: int
    last: int
    section: str
    is_head: bool
    words: tuple[Word, ...] | None


class Row(NamedTuple):
    """A row of the file: what stands before its note, the note, and whether the row begins in the first column."""

    text: str
    note: str
    first_column: bool


def rows_of(source: Source) -> list[Row]:
    """All rows, the first at 0; a last one that is empty is left out."""
    found = []
    for line in range(1, len(source.starts) + 1):
        text = source.line_text(line).removeprefix("\ufeff")
        end = content(text)
        found.append(Row(text[:end], text[end:].strip(), bool(text[:1].strip())))
    if source.starts[-1] == len(source.text):
        found.pop()
    return found


def entries_of(source: Source) -> list[Entry]:
    """The heads and entries in the order of the text. What has a trouble of its own stays as it is written."""
    plan, troubles = read(source)
    lines = logical_lines(source)
    where = _sections(lines)
    known = _units_are_known(troubles, plan.heading.units_span is not None, where)
    found = []
    for line in lines:
        section = where.get(id(line), "")
        start = "head" if line.is_head else f"{section}_line"
        sound = known and section and not any(_meets(line, trouble) for trouble in troubles)
        words = tidy_words(line, start, plan.heading.units) if sound else None
        first, last = (
            source.line_of(line.base),
            source.line_of(line.base + max(len(line.text) - 1, 0)),
        )
        found.append(Entry(first, last, section, line.is_head, None if words is None else tuple(words)))
    return found


def _sections(lines: list[Line]) -> dict[int, str]:
    """The section that each line opens or stands in, by the line's identity; none of a section nobody knows."""
    found: dict[int, str] = {}
    heads = {line.base: line for line in lines if line.is_head}
    for section in sections(lines, Unread()):
        if section.head is not None:
            head = heads.get(section.head.span.start)
            if head is not None:
                found[id(head)] = section.head.section
            for line in section.entries:
                if line.indented:
                    found[id(line)] = section.head.section
    return found


def _units_are_known(troubles: list[Trouble], said: bool, where: dict[int, str]) -> bool:
    """Without a readable `units` nobody knows what a bare number means: then nothing is written anew."""
    return "plan" in where.values() and (said or not troubles)


def _meets(line: Line, trouble: Trouble) -> bool:
    return trouble.span.start <= line.base + len(line.text) and trouble.span.end >= line.base
