"""The words of the plan that findings are about, line by line, as marks that may lie over one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.sheet.noted import Noted
from planlint.source import Source, Span


class Mark(NamedTuple):
    """Words on one line, from column `first` (1 is the first) up to before `last`; equal where something is missing.

    `becomes` is what a mend makes of them ("make it 4 in"), at the last of its words.
    """

    first: int
    last: int
    number: int
    severity: str
    becomes: str


class Stretch(NamedTuple):
    """Characters of a line under the same marks (none: plain text); `becomes` stands after them."""

    text: str
    marks: tuple[Mark, ...]
    becomes: tuple[str, ...]


def marks(findings: Sequence[Noted], source: Source) -> dict[int, list[Mark]]:
    """The marks of all open findings by line."""
    by_line: dict[int, list[Mark]] = {}
    for each in findings:
        if each.number:
            for line, mark in _of(each, source):
                told = by_line.setdefault(line, [])
                if mark not in told:
                    told.append(mark)
    return by_line


def _of(each: Noted, source: Source) -> Iterator[tuple[int, Mark]]:
    """What a finding quotes, and on every further line the words of the equal faults."""
    finding = each.worded.finding
    quoted = set()
    for quote in each.worded.quoted:
        quoted.add(quote.line)
        room = len(source.line_text(quote.line)) + 1
        becomes = quote.label if finding.mend is not None and quote.label != "here" else ""
        first, last = min(quote.first, room), min(quote.last, room)
        if becomes.startswith("add "):
            last = first
        yield quote.line, Mark(first, last, each.number, finding.severity, becomes)
    for span in finding.spans:
        if source.place(span).line in quoted:
            continue  # its words have been told by what is to be changed in them
        for line, first, last in _lines(span, source):
            yield line, Mark(first, last, each.number, finding.severity, "")


def _lines(span: Span, source: Source) -> Iterator[tuple[int, int, int]]:
    """The span line by line, without the indent of those that follow: (line, first, last)."""
    place = source.place(span)
    for line in range(place.line, place.end_line + 1):
        text = source.line_text(line)
        first = place.column if line == place.line else len(text) - len(text.lstrip()) + 1
        yield line, first, place.end_column if line == place.end_line else len(text) + 1


def stretches(text: str, on_line: Sequence[Mark]) -> list[Stretch]:
    """A line cut where marks begin and end; every stretch with the marks that lie over it."""
    cuts = sorted({1, len(text) + 1, *(m.first for m in on_line), *(m.last for m in on_line)})
    told: list[Stretch] = []
    for start in cuts:
        for mark in on_line:
            if mark.first == mark.last == start:
                told.append(Stretch("", (mark,), (mark.becomes,)))
        end = next((cut for cut in cuts if cut > start), start)
        over = tuple(m for m in on_line if m.first <= start and end <= m.last and m.first < m.last)
        if start < end:
            ends = tuple(dict.fromkeys(m.becomes for m in over if m.last == end and m.becomes))
            told.append(Stretch(text[start - 1 : end - 1], over, ends))
    return told
