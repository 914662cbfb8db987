"""An entry's words in one writing: as the grammar reads them, single-spaced, numbers in one way.

Taken from the words, never from the record that is made of them: nothing that was written can be lost, and the order
stays.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, NamedTuple

from planlint.read.lexer import Lexeme, Lexer
from planlint.read.lines import Line
from planlint.read.notation import notation
from planlint.read.parser import RULES, Misfit, Parser
from planlint.read.plan import FastenerSize, Quantity
from planlint.read.spelling import plain
from planlint.source import Span
from planlint.tidying.numbers import tidy_number
from planlint.tidying.same import same


class Word(NamedTuple):
    """A word as it is to be written, and where it stood."""

    text: str
    kind: str
    start: int


class Meaning(NamedTuple):
    """The unit of each amount, by where it begins; and where the sizes of screws and fittings stand: there a shop
    wants the unit."""

    units: dict[int, str]
    sizes: list[Span]


def tidy_words(line: Line, start: str, units: str) -> list[Word] | None:
    """The words of an entry that reads by this start rule; None of one that does not."""
    line.units = units
    read = _read(line, start)
    if read is None:
        return None
    lexemes, record = read
    meaning = Meaning({}, [])
    _note_amounts(record, meaning)
    for drop in (True, False):
        words = [_word(lexemes, index, meaning, units, drop=drop) for index in range(len(lexemes))]
        if _says_the_same(words, line, start, record):
            return words
    return [_word_as_it_is(lexeme) for lexeme in lexemes]


def spaced(words: list[Word]) -> str:
    """Words in a row."""
    text = ""
    last = ""
    for word in words:
        closes = word.text in (",", ":")
        text += word.text if closes or not text or last == "SIGN" else f" {word.text}"
        last = word.kind
    return text


def _word(lexemes: list[Lexeme], index: int, meaning: Meaning, units: str, *, drop: bool) -> Word:
    lexeme = lexemes[index]
    meant = meaning.units.get(lexeme.start)
    if lexeme.type != "QUANTITY" or meant is None:  # a price, too, is no amount
        return _word_as_it_is(lexeme)
    in_size = any(span.start <= lexeme.start < span.end for span in meaning.sizes)
    of_gauge = in_size and index > 1 and lexemes[index - 2].type == "GAUGE"
    text = tidy_number(lexeme.text, meant, units, drop=drop and not in_size, add=of_gauge)
    return Word(text, lexeme.type, lexeme.start)


def _word_as_it_is(lexeme: Lexeme) -> Word:
    """A word in plain form; a text as it was written; M10 with its capital."""
    text = lexeme.text
    if lexeme.type == "TEXT":
        text = lexeme.line_of.written(lexeme.start, lexeme.end)
    elif lexeme.type == "METRIC":
        text = text.upper()
    return Word(text, lexeme.type, lexeme.start)


def _says_the_same(words: list[Word], line: Line, start: str, record: object) -> bool:
    """Whether the words in their new writing make the same record. Titles and reasons are taken from the file: they
    are not written anew, and not asked."""
    if any(word.kind == "TEXT" for word in words):
        return True
    read = _read(line.with_text(plain(spaced(words))), start)
    return read is not None and same(read[1], record)


def _note_amounts(record: Any, meaning: Meaning) -> None:
    """Add what a record's amounts are in."""
    if isinstance(record, Quantity):
        meaning.units[record.span.start] = record.unit
    elif isinstance(record, (tuple, list)):
        if isinstance(record, FastenerSize):
            meaning.sizes.append(record.span)
        for one in record:
            _note_amounts(one, meaning)


# --- the words that the parser asks for -------------------------------------------------------------


class _Noting(Lexer):
    """The lexer of plans, which keeps every word it gave."""

    __slots__ = ("words",)
    words: list[Lexeme]

    def next(self, line: Line, end: int, accepted: Mapping[str, int]) -> Lexeme | None:
        found = super().next(line, end, accepted)
        if found is not None:
            self.words.append(found)
        return found


@cache
def _noting() -> tuple[Parser, _Noting]:
    made = notation()
    parser = Parser(made, RULES)
    parser.lexer = lexer = _Noting(made.scanner, made.keywords, made.terminals)
    return parser, lexer


def _read(line: Line, start: str) -> tuple[list[Lexeme], object] | None:
    """The words of a line that reads without trouble, and the record they make."""
    parser, lexer = _noting()
    lexer.words = []
    line.troubles.clear()
    try:
        record = parser.parse(line, start)
    except Misfit:
        return None
    return None if line.troubles else (lexer.words, record)
