"""Words of a logical line, for the parser: whole words, and the one that fits.

lark's own contextual lexer builds one scanner for every set of words that may stand somewhere (10 ms at
every start) and cuts `off` into `of` and `f` where only `of` fits. This one scans with one pattern, made of
the grammar's own terminals, and looks at the parser's state to tell a keyword from a name and a count from a
length.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from planlint.read.lines import Line

_WORD_LIST = re.compile(r"\(\?:([a-z|-]+)\)\(\?!")
_WORDY = re.compile(r"[a-z]+(?:-[a-z]+)*")
_NUMBER = r"\.\d{1,4}"  # of `slat.2`, as NUMBERED of the grammar has it


class Lexeme:
    """A word of a plan: its terminal, its plain text, where it stands, and the line it stands on."""

    __slots__ = ("end", "line_of", "start", "text", "type")

    def __init__(self, type: str, text: str, start: int, end: int, line_of: Line) -> None:
        self.type = type
        self.text = text
        self.start = start
        self.end = end
        self.line_of = line_of


class Lexer:
    """Finds the words of lines, one at a time."""

    __slots__ = ("_count", "_keywords", "_metric", "_number", "_signs", "match")

    def __init__(
        self,
        scanner: Mapping[str, str],
        keywords: Mapping[str, tuple[str, ...]],
        terminals: Mapping[str, str],
    ) -> None:
        self.match = re.compile(scanner["any"]).match
        self._keywords = keywords
        self._signs = {sign: name for name, sign in terminals.items() if sign}
        # rarely needed, and up to 1 ms each
        self._number = cache(lambda: re.compile(scanner["QUANTITY"]).match)
        self._count = cache(lambda: re.compile(scanner["INT"]).match)
        self._metric = cache(lambda: re.compile(scanner["METRIC"]).match)

    def next(self, line: Line, end: int, accepted: Mapping[str, int]) -> Lexeme | None:
        """The first word from an offset of the line on, where these terminals fit; None at the line's end."""
        text = line.text
        found = self.match(text, end)
        if found is None:
            return None
        kind = found.lastgroup or ""
        start, end = found.span(found.lastindex or 0)
        word = text[start:end]
        if kind == "WORD":
            for kind in self._keywords.get(word, ()):
                if kind in accepted:
                    break
            else:
                kind, end = self._name(text, start, end, accepted)
                word = text[start:end]
        elif kind == "SIGNS":
            kind = self._signs[word]
        elif (kind == "QUANTITY" or kind == "NOMINAL") and kind not in accepted:
            kind, end = self._one_number(text, start, end, accepted)
            word = text[start:end]
        base = line.base
        return Lexeme(kind, word, base + start, base + end, line)

    def _name(self, text: str, start: int, end: int, accepted: Mapping[str, int]) -> tuple[str, int]:
        """A word that is no keyword here: a name, or `m10` and `x110` of a size."""
        if "METRIC" in accepted:
            found = self._metric()(text, start)
            if found:
                return "METRIC", found.end()
        if "X" in accepted and text[start] == "x" and text[start + 1].isdigit():
            return "X", start + 1
        return "NUMBERED" if "." in text[start:end] else "NAME", end

    def _one_number(self, text: str, start: int, end: int, accepted: Mapping[str, int]) -> tuple[str, int]:
        """A number where another kind fits: the count in `24 1/2 in dowels`, the first in `1x1 in`."""
        if "OF" in accepted and text[end - 1 : end].isalnum() and "x" in text[start:end]:
            return "NOMINAL", end  # `5 2x4` lacks an `of`
        if "QUANTITY" in accepted:
            found = self._number()(text, start)
            if found:
                return "QUANTITY", found.end()
        elif "INT" in accepted:
            found = self._count()(text, start)
            if found:
                return "INT", found.end()
        return "QUANTITY", end

    def words_of(self, accepted: set[str]) -> set[str]:
        """The keywords that may stand where these terminals fit."""
        return {word for word, kinds in self._keywords.items() if not accepted.isdisjoint(kinds)}


def scanner(patterns: Mapping[str, Any]) -> dict[str, str]:
    """The regular expressions of a `Lexer`, from lark's patterns of the terminals."""
    regexp = {name: pattern.to_regexp() for name, pattern in patterns.items()}
    signs = "|".join(
        re.escape(p.value) for p in patterns.values() if p.type == "str" and not _WORDY.match(p.value)
    )
    # Most words are names and keywords: no number begins with a plain letter, and a name that may or may not
    # have a number is read through once.
    word = regexp["NUMBERED"].replace(_NUMBER, f"(?:{_NUMBER})?")
    return {
        "any": rf" *(?:(?![a-z])(?:(?P<NOMINAL>{regexp['NOMINAL']})|(?P<QUANTITY>{regexp['QUANTITY']}))"
        rf"|(?P<WORD>{word})"
        rf"|(?P<SIGNS>{signs})|(?P<TEXT>{regexp['TEXT']})|(?P<GAUGE>{regexp['GAUGE']})"
        rf"|(?P<MINUS>{regexp['MINUS']})|(?P<SIGN>{regexp['SIGN']})|(?P<STRAY>[^ ]))",
        **{name: regexp[name] for name in ("QUANTITY", "INT", "METRIC")},
    }


def keywords(patterns: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """Every keyword of the grammar with the terminals it may be (`top` is a SIDE and a FROM_WHERE)."""
    found: dict[str, tuple[str, ...]] = {}
    for name, pattern in patterns.items():
        if pattern.type == "str":
            words = [pattern.value] if _WORDY.fullmatch(pattern.value) else []
        else:
            listed = _WORD_LIST.match(pattern.value)
            words = listed[1].split("|") if listed else []
        for word in words:
            found[word] = (*found.get(word, ()), name)
    return found
