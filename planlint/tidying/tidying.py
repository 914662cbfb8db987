"""A plan's text in one plain layout, its meaning unchanged.

Sections begin in the first column with a blank line before them; entries are indented by two, the rows in which
they go on by four; the cut list and the shopping list stand in columns; numbers are written in one way; notes stay
with the line they stand beside or above. What cannot be read stays word for word. All lines end as the first does.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planlint.auditing import Audit, audit_source
from planlint.source import Source
from planlint.tidying.entries import FURTHER, INDENT, Columns, columns_of, entry_rows
from planlint.tidying.rows import Entry, Row, entries_of, rows_of
from planlint.tidying.same import same_findings, same_plan
from planlint.tidying.words import spaced

BESIDE = 60  # notes stand in one column beside entries no longer than this


class Tidied(NamedTuple):
    """The new text; `sound` says whether it means the same. Where it does not, the fault is planlint's."""

    text: str
    sound: bool


class Line(NamedTuple):
    """A line of the new text: what is said, and the note beside it. `section` counts the sections, for columns."""

    text: str
    note: str = ""
    section: int = 0
    kind: str = "entry"  # or "head", "note", "blank", "as it is"


def tidy(audit: Audit) -> Tidied:
    """The plan's text tidied; read and audited again to see that it means the same."""
    old = audit.source
    text = tidied(old)
    if text == old.text:
        return Tidied(text, sound=True)
    new = Source(text, old.path)
    return Tidied(text, same_plan(old, new) and same_findings(audit, audit_source(new)))


def tidied(source: Source) -> str:
    """The text in its plain layout."""
    if "\0" in source.text:
        return source.text
    lines = _beside(_spaced_out(list(_lines(source))))
    usual = _line_end(source, 1) or "\n"
    text = "".join([line.text + usual for line in lines])
    if lines and not source.text.endswith(("\n", "\r")):
        text = text[: len(text) - len(usual)]
    return ("\ufeff" if source.text.startswith("\ufeff") else "") + text


def _lines(source: Source) -> Iterator[Line]:
    """The new lines, before blank lines and the notes' columns are settled."""
    rows, entries = rows_of(source), entries_of(source)
    columns = _columns(entries)
    by_first = {entry.first: entry for entry in entries}
    number, section = 1, 0
    while number <= len(rows):
        entry = by_first.get(number)
        if entry is None:
            yield _between(rows[number - 1], section)
            number += 1
            continue
        section += entry.is_head
        if entry.words is None:
            yield from _as_it_is(entry, source, section)
        elif entry.is_head:
            yield Line(_head(entry), rows[number - 1].note, section, kind="head")
        else:
            yield from _entry(entry, rows, source, columns[section], section)
        number = entry.last + 1


def _columns(entries: list[Entry]) -> dict[int, Columns]:
    """Each section's columns, by its number."""
    found: dict[int, Columns] = {}
    number = 0
    groups: dict[int, list[Entry]] = {0: []}
    for entry in entries:
        number += entry.is_head
        groups.setdefault(number, [])
        if entry.words is not None and not entry.is_head:
            groups[number].append(entry)
    for number, group in groups.items():
        words = [entry.words for entry in group if entry.words is not None]
        found[number] = columns_of(group[0].section, words) if group else Columns()
    return found


def _between(row: Row, section: int) -> Line:
    """A row that holds no entry: blank, or a note. A note in the first column stays there."""
    if not row.note:
        return Line("", section=section, kind="blank")
    return Line(("" if row.first_column else INDENT) + row.note, section=section, kind="note")


def _as_it_is(entry: Entry, source: Source, section: int) -> Iterator[Line]:
    for number in range(entry.first, entry.last + 1):
        text = source.line_text(number).removeprefix("\ufeff")
        yield Line(text, section=section, kind="as it is")


def _head(entry: Entry) -> str:
    return spaced(list(entry.words or ()))


def _entry(entry: Entry, rows: list[Row], source: Source, columns: Columns, section: int) -> Iterator[Line]:
    """An entry's rows. With a note inside it keeps its own breaks, so that the note stays beside its words."""
    assert entry.words is not None
    own = rows[entry.first - 1 : entry.last]
    if not any(row.note for row in own[:-1]):
        texts = entry_rows(entry.words, entry.section, columns, ())
        for text in texts[:-1]:
            yield Line(text, section=section)
        yield Line(texts[-1], own[-1].note, section)
        return
    breaks = _breaks(entry, source)
    texts = entry_rows(entry.words, entry.section, columns, breaks)
    filled = iter(texts)
    for row in own:
        if row.text.strip():
            yield Line(next(filled), row.note, section)
        elif row.note:
            yield Line(FURTHER + row.note, section=section, kind="note")


def _breaks(entry: Entry, source: Source) -> list[int]:
    """The words that begin a row of the file, but for the first."""
    assert entry.words is not None
    lines = [source.line_of(word.start) for word in entry.words]
    return [at for at in range(1, len(lines)) if lines[at] != lines[at - 1]]


def _spaced_out(lines: list[Line]) -> list[Line]:
    """One blank line before a section, and before the notes right above its head; none behind the head, at the
    beginning or the end; elsewhere no two in a row."""
    found: list[Line] = []
    for line in lines:
        after_blank = not found or found[-1].kind == "blank"
        if line.kind == "blank":
            if not after_blank and found[-1].kind != "head":
                found.append(line)
            continue
        if line.kind == "head":
            at = len(found)
            while at and found[at - 1].kind == "note" and not found[at - 1].text.startswith(" "):
                at -= 1
            if at and found[at - 1].kind != "blank":
                found.insert(at, Line("", section=line.section, kind="blank"))
        found.append(line)
    while found and found[-1].kind == "blank":
        found.pop()
    return found


def _beside(lines: list[Line]) -> list[Line]:
    """The notes put beside their lines, in one column a section."""
    widths: dict[int, int] = {}
    for line in lines:
        if line.note and len(line.text) <= BESIDE:
            widths[line.section] = max(widths.get(line.section, 0), len(line.text))
    return [
        line._replace(text=f"{line.text:<{widths.get(line.section, 0)}}  {line.note}") if line.note else line
        for line in lines
    ]


def _line_end(source: Source, number: int) -> str:
    """What ends a line of the file: nothing where it is the last."""
    start = source.starts[number - 1]
    end = source.starts[number] if number < len(source.starts) else len(source.text)
    return source.text[start + len(source.line_text(number)) : end]
