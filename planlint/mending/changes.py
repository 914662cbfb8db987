"""A plan's text with some of its words replaced, and the way back to where each word stood before."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.mending.mended import Change
from planlint.source import Span

Replacement = tuple[Span, str]  # words of the text as it is now, and what they become


class _Piece(NamedTuple):
    """A stretch of the original, as it is now: `new` words in its place, or None where it stays."""

    start: int
    end: int
    new: str | None

    @property
    def length(self) -> int:
        return self.end - self.start if self.new is None else len(self.new)


class Draft:
    """The original text and its changes, in order and apart from each other; `text` has them made."""

    __slots__ = ("_pieces", "changes", "original", "text")

    def __init__(self, original: str, pieces: Sequence[_Piece] | None = None) -> None:
        self.original = original
        self._pieces = [_Piece(0, len(original), None)] if pieces is None else list(pieces)
        self.text = "".join(
            original[piece.start : piece.end] if piece.new is None else piece.new for piece in self._pieces
        )
        self.changes = tuple(
            Change(Span(piece.start, piece.end), original[piece.start : piece.end], piece.new)
            for piece in self._pieces
            if piece.new is not None and piece.new != original[piece.start : piece.end]
        )

    def back(self, offset: int) -> int:
        """Where what is now at this offset stood; of new words, where the old ones begin."""
        for piece in self._pieces:
            if offset < piece.length:
                return piece.start + (offset if piece.new is None else 0)
            offset -= piece.length
        return len(self.original)

    def span_back(self, span: Span) -> Span:
        """A span of the text as it is now, in the text as it was: changed words whole."""
        start = self.back(span.start)
        if span.start == span.end:
            return Span(start, start)
        offset = span.end - 1
        for piece in self._pieces:
            if offset < piece.length:
                return Span(start, piece.start + offset + 1 if piece.new is None else piece.end)
            offset -= piece.length
        return Span(start, len(self.original))

    def with_replaced(self, replacements: Iterable[Replacement]) -> Draft:
        """The draft with words of its present text replaced too; the replacements lie apart."""
        pieces = self._pieces
        for span, text in sorted(replacements, reverse=True):
            pieces = _replaced(pieces, span, text)
        return Draft(self.original, pieces)


def _replaced(pieces: list[_Piece], span: Span, text: str) -> list[_Piece]:
    """The pieces with the words of a span replaced; new words that it cuts into become one with it."""
    before: list[_Piece] = []
    touched: list[_Piece] = []
    after: list[_Piece] = []
    first = 0  # where a piece begins
    head = tail = ""
    for piece in pieces:
        last = first + piece.length
        if last <= span.start:
            before.append(piece)
        elif first >= span.end:
            after.append(piece)
        elif piece.new is None:
            low, high = (piece.start + max(span.start - first, 0), piece.end - max(last - span.end, 0))
            before += [_Piece(piece.start, low, None)] if low > piece.start else []
            touched.append(_Piece(low, high, None))
            after += [_Piece(high, piece.end, None)] if high < piece.end else []
        else:
            head += piece.new[: max(span.start - first, 0)]
            tail = piece.new[len(piece.new) - max(last - span.end, 0) :]
            touched.append(piece)
        first = last
    start = touched[0].start if touched else after[0].start if after else before[-1].end if before else 0
    end = touched[-1].end if touched else start
    return [*before, _Piece(start, end, head + text + tail), *after]


def changed(text: str, changes: Iterable[Change]) -> str:
    """The text with these changes made."""
    pieces, end = [], 0
    for change in sorted(changes):
        pieces += [text[end : change.span.start], change.now]
        end = change.span.end
    return "".join([*pieces, text[end:]])
