"""A plan's text as logical lines: notes gone, an entry that goes on after a comma in one piece.

A logical line keeps the place of its first character, and every character keeps its distance to it: an offset
in the line plus `base` is an offset in the text.
"""

from __future__ import annotations

import re

from planlint.read.plan import Trouble
from planlint.read.spelling import plain
from planlint.source import Source

HEAD_WORDS = ("plan", "buy", "parts", "place", "step", "cover", "dimensions", "load", "carry", "accept")

_HEAD = re.compile(rf"(?:{'|'.join(HEAD_WORDS)})(?![\w.-])(?! *: *\S)")
_COMMA_AND = re.compile(r",(?= +and )(?=[^\"]*$)")  # `plugged, and glue` says what `plugged and glue` says
_QUOTED = re.compile(r'^ *(?:plan|step) *"|\bbecause *"')


class Line:
    """A logical line, in plain form, with what its numbers and names are read by.

    `units` is what a bare length is in; `troubles` collects what reads well but cannot be so.
    """

    __slots__ = ("base", "indented", "is_head", "source", "text", "troubles", "units")

    def __init__(self, source: Source, text: str, base: int, indented: bool) -> None:
        self.source = source
        self.text = text
        self.base = base
        self.indented = indented
        self.is_head = not indented and _HEAD.match(text) is not None
        self.units = "in"
        self.troubles: list[Trouble] = []

    def with_text(self, text: str) -> Line:
        """The same line saying something else: to see whether that would read."""
        other = Line(self.source, text, self.base, self.indented)
        other.units = self.units
        return other

    def going_on(self, other: Line) -> Line:
        """This line with a later one, as if it ended in a comma."""
        comma = " " if other.text.startswith("and ") else ","
        gap = other.base - self.base - len(self.text) - 1
        return self.with_text(self.text + comma + " " * gap + other.text)

    def rest(self, offset: int) -> Line:
        """What stands in this line from an offset on, as a line."""
        text = self.text[offset:]
        words = text.lstrip()
        other = Line(self.source, words, self.base + offset + len(text) - len(words), self.indented)
        other.units = self.units
        return other

    def written(self, start: int, end: int) -> str:
        """The original words between two offsets of the whole text."""
        return self.source.text[start:end]


def logical_lines(source: Source) -> list[Line]:
    """The logical lines of a text, in order; empty ones and notes are left out."""
    text = plain(source.text)
    odd_notes = "\u2014" in text
    found: list[Line] = []
    pieces: list[str] = []
    base = end_of_last = 0
    has_colon = False
    for start, end in zip(source.starts, [*source.starts[1:], len(text)], strict=True):
        row = text[start:end]
        if '"' in row or odd_notes:
            row = _without_note(row)
        elif (note := row.find("--")) >= 0:
            row = row[:note]
        row = row.rstrip()
        words = row.lstrip()
        if not words:
            continue
        if "and" in words:
            words = _COMMA_AND.sub(" ", words)
        indented = row[0] == " " and not (start == 0 and source.text[0] == "\ufeff" and row[1] != " ")
        first = start + len(row) - len(words)
        # A line after a comma goes on, unless it opens a section or is an entry with its own colon.
        if pieces and (not indented or (has_colon and ":" in words)):
            found.append(Line(source, "".join(pieces), base, True))
            pieces = []
        if pieces:
            if words.startswith("and "):
                pieces[-1] = pieces[-1][:-1] + " "
            pieces.append(" " * (first - end_of_last))
        else:
            base, opens_indented, has_colon = first, indented, False
        pieces.append(words)
        end_of_last = first + len(words)
        has_colon = has_colon or ":" in words
        if words[-1] != "," or not indented:
            found.append(Line(source, "".join(pieces), base, opens_indented))
            pieces = []
    if pieces:
        found.append(Line(source, "".join(pieces), base, opens_indented))
    return found


def content(row: str) -> int:
    """How much of a row of the text stands before its note and the blanks before that."""
    return len(_without_note(plain(row)).rstrip())


def _without_note(row: str) -> str:
    """The row up to its note, the quotes inside a quoted text blanked.

    A text runs to the last quote of its line, but a note that follows a quote ends it, as in
    `plan "A -- b" -- note "c"`.
    """
    opening = _QUOTED.search(row)
    if opening is None:
        return row[: _note(row, 0)]
    first = opening.end()
    closing = re.compile(r'" *(?:--|\u2014)').search(row, first)
    last = closing.start() if closing else row.rfind('"', first)
    if last < first:
        return row
    text = row[:first] + row[first:last].replace('"', " ") + row[last:]
    return text[: _note(text, last)]


def _note(row: str, start: int) -> int:
    """Where the note of a row begins; its length where it has none. A long dash opens a note too."""
    found = [at for at in (row.find("--", start), row.find("\u2014", start)) if at >= 0]
    return min(found, default=len(row))
