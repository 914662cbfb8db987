"""The parser of plans: it runs the tables that lark worked out and makes the plan's records as it goes.

A stack of states says what has been read so far; each word either goes on it or completes a rule, whose function
makes one record of its words. No tree is built and walked afterwards, and lark is not needed (it takes 75 ms to
be imported, and its own loop twice as long).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, NamedTuple

from planlint.read import buying, expressions, heading, joining, placing, stating
from planlint.read.lexer import Lexeme, Lexer
from planlint.read.lines import Line
from planlint.read.notation import Gather, Notation, notation

RULES: expressions.Rules = {
    **expressions.RULES,
    **heading.RULES,
    **buying.RULES,
    **placing.RULES,
    **joining.RULES,
    **stating.RULES,
}
"""What each rule of the grammar makes, by its name (its alias where it has one)."""

_END = "$END"


class Misfit(Exception):  # noqa: N818 (not an error: a slip in the plan, which becomes a trouble)
    """A word that the grammar refuses: `lexeme` is None at the line's end."""

    def __init__(self, parser: Parser, stack: list[int], end: int, lexeme: Lexeme | None) -> None:
        self.lexeme = lexeme
        self._parser = parser
        self._stack = stack
        self._end = end

    def accepted(self) -> set[str]:
        """The terminals that could stand there."""
        words = self._parser.states[self._stack[-1]]
        return {word for word in words if word.isupper() and self._parser.takes(word, self._stack, self._end)}


class Ready(NamedTuple):
    """A reduction with its function (None for an inner rule, which only lists its children)."""

    origin: str
    size: int
    make: Callable[[list[Any]], Any] | None
    gather: Gather | None


class Parser:
    """The tables of a notation, ready to run with the functions that make records."""

    def __init__(self, made: Notation, functions: Mapping[str, Callable[[list[Any]], Any]]) -> None:
        self.states = made.states
        self.starts = made.starts
        self.ends = made.ends
        self.lexer = Lexer(made.scanner, made.keywords, made.terminals)
        self.reductions = [
            Ready(origin, size, functions[name] if name else None, gather)
            for origin, size, name, gather in made.reductions
        ]

    def parse(self, line: Line, start: str) -> Any:
        """What a line says, read by a start rule. Raises `Misfit`."""
        states, reductions, next_word = self.states, self.reductions, self.lexer.next
        end = self.ends[start]
        stack, values = [self.starts[start]], list[Any]()
        at = 0
        while True:
            accepted = states[stack[-1]]
            lexeme = next_word(line, at, accepted)
            kind = _END if lexeme is None else lexeme.type
            while True:
                action = accepted.get(kind)
                if action is None:
                    raise Misfit(self, stack, end, lexeme)
                if action >= 0:
                    break
                origin, size, make, gather = reductions[~action]
                children: list[Any] = []
                if size == 1:  # half of all
                    children = [values.pop()]
                    stack.pop()
                elif size:
                    children = values[-size:]
                    del values[-size:], stack[-size:]
                if gather is not None:
                    children = _gathered(children, gather)
                values.append(children if make is None else make(children))
                state = states[stack[-1]][origin]
                if lexeme is None and state == end:
                    return values[-1]
                stack.append(state)
                accepted = states[state]
            assert lexeme is not None, "the end of a line completes its start rule"
            stack.append(action)
            values.append(lexeme)
            at = lexeme.end - line.base

    def takes(self, word: str, stack: list[int], end: int) -> bool:
        """Whether a word, or the end of the line, can come after what is on the stack."""
        stack = list(stack)
        while True:
            action = self.states[stack[-1]].get(word)
            if action is None:
                return False
            if action >= 0:
                return True
            origin, size, _, _ = self.reductions[~action]
            if size:
                del stack[-size:]
            stack.append(self.states[stack[-1]][origin])
            if word == _END and stack[-1] == end:
                return True


def _gathered(children: list[Any], gather: Gather) -> list[Any]:
    """The children with None for optional words that are not there, and lists of children opened."""
    found: list[Any] = []
    each, last = gather
    for nones, index, is_list in each:
        found += [None] * nones
        if is_list:
            found += children[index]
        else:
            found.append(children[index])
    return found + [None] * last


@cache
def parser() -> Parser:
    """The parser, made once."""
    return Parser(notation(), RULES)


def parse(line: Line, start: str) -> Any:
    """What a logical line says, read by a start rule of the grammar. Raises `Misfit`."""
    return parser().parse(line, start)


def reads(line: Line, start: str) -> bool:
    """Whether a line reads without any trouble."""
    try:
        parse(line, start)
    except Misfit:
        return False
    return not line.troubles
