"""Changed lines of a plan as they were and as they are now, with what changed marked in both."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from planlint.mending.mended import Change
from planlint.show.layout import MARGIN, Line, plan_line
from planlint.show.report import Quoted
from planlint.show.strokes import Strokes
from planlint.source import Source

Mark = tuple[int, int]  # the first character of some words of a line and one past their last, from 0


class Pair(NamedTuple):
    """A line as it was and as it is, its number, and the words that differ."""

    line: int
    was: str
    was_marks: tuple[Mark, ...]
    now: str
    now_marks: tuple[Mark, ...]


def changed_lines(changes: Iterable[Change], before: Source, after: Source) -> list[Pair]:
    """The lines in which words were changed, in order. No change reaches over the end of a line."""
    by_line: dict[int, list[Change]] = {}
    for change in sorted(changes):
        by_line.setdefault(before.line_of(change.span.start), []).append(change)
    return [_pair(line, of_line, before, after) for line, of_line in by_line.items()]


def _pair(line: int, changes: Sequence[Change], before: Source, after: Source) -> Pair:
    start, grown = before.starts[line - 1], 0
    was, now = [], []
    for change in changes:
        first = change.span.start - start
        was.append((first, first + len(change.was)))
        now.append((first + grown, first + grown + len(change.now)))
        grown += len(change.now) - len(change.was)
    return Pair(line, before.line_text(line), tuple(was), after.line_text(line), tuple(now))


def shown(pair: Pair, width: int, strokes: Strokes) -> Iterator[Line]:
    """Both lines, one under the other, the first with its number in the margin."""
    yield from row_as_it_was(pair.line, pair.was, width, strokes, pair.was_marks)
    yield from row_now(pair.now, width, strokes, pair.now_marks)


def row_as_it_was(
    number: int, text: str, width: int, strokes: Strokes, marks: Sequence[Mark] = ()
) -> Iterator[Line]:
    """A line of the plan as it was, with its number."""
    yield from _one(text, marks, f"{number:>5}  ", width, strokes)


def row_now(text: str, width: int, strokes: Strokes, marks: Sequence[Mark] = ()) -> Iterator[Line]:
    """A line as it is now."""
    yield from _one(text, marks, "  now  ", width, strokes)


def _one(text: str, marks: Sequence[Mark], margin: str, width: int, strokes: Strokes) -> Iterator[Line]:
    quotes = [_quoted(text, first, last) for first, last in marks] or [Quoted(1, text, 1, 1, "")]
    for index, line in enumerate(plan_line(quotes, 1, width, strokes)):
        yield [(margin.ljust(MARGIN), "quiet"), *line[1:]] if index == 0 else line


def _quoted(text: str, first: int, last: int) -> Quoted:
    """The words; blanks round them are not marked, but where something is to be put in one mark stands."""
    words = text[first:last]
    first += len(words) - len(words.lstrip())
    last = max(first + 1, first + len(words.strip()))
    return Quoted(1, text.ljust(last), first + 1, last + 1, "")
