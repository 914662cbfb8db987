"""Words of a logical line, for lark's parser: whole words, and the one that fits.

lark's own contextual lexer builds one scanner for every set of words that may stand somewhere (10 ms at
every start) and cuts `off` into `of` and `f` where only `of` fits. This one scans with one pattern, made of
the grammar's own terminals, and looks at the parser's state to tell a keyword from a name and a count from a
length.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from lark.lexer import Lexer

from planlint.read.lines import Line

_WORD_LIST = re.compile(r"\(\?:([a-z|-]+)\)\(\?!")
_WORDY = re.compile(r"[a-z]+(?:-[a-z]+)*")


class Lexeme:
    """A word of a plan: its terminal, its plain text, where it stands, and the line it stands on."""

    __slots__ = ("end", "line_of", "start", "text", "type")
    # lark copies these from the last word to the end mark; offsets are all that planlint uses.
    start_pos = line = column = end_line = end_column = end_pos = None

    def __init__(self, type: str, text: str, start: int, end: int, line_of: Line) -> None:
        self.type = type
        self.text = text
        self.start = start
        self.end = end
        self.line_of = line_of


class WordLexer(Lexer):
    """lark's lexer for plans."""

    __future_interface__ = 2  # lark hands on the line as it is

    def __init__(self, conf: Any) -> None:
        patterns = {terminal.name: terminal.pattern for terminal in conf.terminals}
        self.keywords = keywords(patterns)
        regexp = {name: pattern.to_regexp() for name, pattern in patterns.items()}
        signs = "|".join(
            re.escape(p.value) for p in patterns.values() if p.type == "str" and not _WORDY.match(p.value)
        )
        self.signs = {p.value: name for name, p in patterns.items() if p.type == "str"}
        self.match = re.compile(
            rf" *(?:(?P<NOMINAL>{regexp['NOMINAL']})|(?P<QUANTITY>{regexp['QUANTITY']})"
            rf"|(?P<WORD>{regexp['NUMBERED']}|{regexp['NAME']})"
            rf"|(?P<SIGNS>{signs})|(?P<TEXT>{regexp['TEXT']})|(?P<GAUGE>{regexp['GAUGE']})"
            rf"|(?P<MINUS>{regexp['MINUS']})|(?P<SIGN>{regexp['SIGN']})|(?P<STRAY>[^ ]))"
        ).match
        self.count = re.compile(regexp["INT"]).match
        self.metric = re.compile(regexp["METRIC"]).match
        self.number = cache(lambda: re.compile(regexp["QUANTITY"]).match)  # rarely needed, and 1 ms

    def lex(self, lexer_state: Any, parser_state: Any) -> Iterator[Any]:
        """The words of a line, each looked at when the parser has taken the one before."""
        line: Line = lexer_state.text
        text = line.text
        base = line.base
        match = self.match
        keywords = self.keywords
        states = parser_state.parse_conf.states
        stack = parser_state.state_stack
        end = 0
        while True:
            found = match(text, end)
            if found is None:
                return
            kind = found.lastgroup or ""
            start, end = found.span(kind)
            word = text[start:end]
            if kind == "WORD":
                accepted = states[stack[-1]]
                for kind in keywords.get(word, ()):
                    if kind in accepted:
                        break
                else:
                    kind, end = self._name(text, start, end, accepted)
                    word = text[start:end]
            elif kind == "SIGNS":
                kind = self.signs[word]
            elif kind == "QUANTITY" or kind == "NOMINAL":
                accepted = states[stack[-1]]
                if kind not in accepted:
                    kind, end = self._number(text, start, end, accepted)
                    word = text[start:end]
            yield Lexeme(kind, word, base + start, base + end, line)

    def _name(self, text: str, start: int, end: int, accepted: Any) -> tuple[str, int]:
        """A word that is no keyword here: a name, or `m10` and `x110` of a size."""
        if "METRIC" in accepted:
            found = self.metric(text, start)
            if found:
                return "METRIC", found.end()
        if "X" in accepted and text[start] == "x" and text[start + 1].isdigit():
            return "X", start + 1
        return "NUMBERED" if "." in text[start:end] else "NAME", end

    def _number(self, text: str, start: int, end: int, accepted: Any) -> tuple[str, int]:
        """A number where another kind fits: the count in `24 1/2 in dowels`, the first in `1x1 in`."""
        if "OF" in accepted and text[end - 1 : end].isalnum() and "x" in text[start:end]:
            return "NOMINAL", end  # `5 2x4` lacks an `of`
        if "QUANTITY" in accepted:
            found = self.number()(text, start)
            if found:
                return "QUANTITY", found.end()
        elif "INT" in accepted:
            found = self.count(text, start)
            if found:
                return "INT", found.end()
        return "QUANTITY", end


def keywords(patterns: dict[str, Any]) -> dict[str, tuple[str, ...]]:
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
