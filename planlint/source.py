"""The text of a plan: its lines and its spans.

The only module that turns offsets into lines and columns. A `Span` holds code-point offsets into
the text as it was read; a `Place` holds lines and columns, both counted from 1.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from typing import NamedTuple

# str.splitlines also breaks at form feeds and the like, which do not end a line here.
_LINE_END = re.compile(r"\r\n|\n|\r")


class Span(NamedTuple):
    """Where something stands in the text: `start` is its first code point, `end` is one past its last."""

    start: int
    end: int


class Place(NamedTuple):
    """A span in lines and columns, counted from 1; `end_column` is one past the last character."""

    line: int
    column: int
    end_line: int
    end_column: int


class Source:
    """A plan's text with its line starts. Lines end at LF, CRLF or CR."""

    def __init__(self, text: str, path: str = "<text>") -> None:
        self.text = text
        self.path = path
        self.starts = [0, *(found.end() for found in _LINE_END.finditer(text))]

    def line_of(self, offset: int) -> int:
        """The line, from 1, that holds this offset."""
        return bisect_right(self.starts, offset)

    def place(self, span: Span) -> Place:
        """The span in lines and columns, from 1."""
        line = self.line_of(span.start)
        last = self.line_of(max(span.start, span.end - 1))
        return Place(line, span.start - self.starts[line - 1] + 1, last, span.end - self.starts[last - 1] + 1)

    def line_text(self, line: int) -> str:
        """The text of a line, counted from 1, without its line end."""
        start = self.starts[line - 1]
        end = self.starts[line] if line < len(self.starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def line_span(self, line: int) -> Span:
        """The span of a line, counted from 1, without its line end."""
        start = self.starts[line - 1]
        return Span(start, start + len(self.line_text(line)))
