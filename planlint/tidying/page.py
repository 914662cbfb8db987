"""What tidying does, for a reader: the rows that change, as they are and as they will be."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher

from planlint.auditing import Audit
from planlint.mending.before_after import row_as_it_was, row_now
from planlint.show.layout import NARROWEST, WIDEST, Line, head
from planlint.show.quantities import numbered
from planlint.show.strokes import Strokes
from planlint.show.wrapping import wrapped
from planlint.source import Source

BLANK = "(a blank line)"


def tidied_page(before: Audit, new: str, written: bool, width: int, strokes: Strokes) -> list[Line]:
    """The whole page; `written` says whether the plan's file holds the new text."""
    width = min(max(width, NARROWEST), WIDEST)
    source = before.source
    lines = head(before.plan.heading.title, source.path, width, strokes)
    changed = 0
    for number, was, now in _blocks(_rows(source), _rows(Source(new))):
        for offset, text in enumerate(was):
            lines += row_as_it_was(number + offset, text or BLANK, width, strokes)
        for text in now:
            lines += row_now(
                text or (BLANK if was else f"(a blank line behind line {number - 1})"), width, strokes
            )
        lines.append([])
        changed += max(len(was), len(now))
    told = _told(changed, new != source.text, written)
    return lines + [[(row, "strong")] for text in told for row in wrapped(text, width)]


def _told(changed: int, differs: bool, written: bool) -> list[str]:
    if not differs:
        return ["The plan is tidy. The file is as it was."]
    what = numbered(changed, "line") if changed else "the line ends"
    meaning = "The plan means what it meant: read again, every value is the same."
    if written:
        return [meaning, f"The file is written, {what} changed."]
    return [meaning, f"Nothing is written. --write changes {what}."]


def _rows(source: Source) -> list[str]:
    rows = [source.line_text(number) for number in range(1, len(source.starts) + 1)]
    return rows[:-1] if rows[-1] == "" else rows


def _blocks(old: list[str], new: list[str]) -> Iterator[tuple[int, list[str], list[str]]]:
    """The rows that change: the number of the first from 1, the rows as they are, the rows in their place.

    Where as many stand there as before, each goes with its own.
    """
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    for tag, first, last, now_first, now_last in matcher.get_opcodes():
        if tag == "equal":
            continue
        if last - first == now_last - now_first:
            for offset in range(last - first):
                yield first + offset + 1, [old[first + offset]], [new[now_first + offset]]
        else:
            yield first + 1, old[first:last], new[now_first:now_last]
