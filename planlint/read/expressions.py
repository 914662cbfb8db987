"""Names, references and expressions: what all sections share.

Each function makes the record of the grammar rule it is listed under in `RULES`; its argument is what the
rule's words became, keywords included, None for an optional one that is not there.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from planlint.read.amounts import length, misfit
from planlint.read.lexer import Lexeme
from planlint.read.notation import notation
from planlint.read.plan import Direction, Expression, Floor, MiddleOf, Ref, Side, SideOf, Term, Word
from planlint.source import Span

Children = list[Any]
Rules = dict[str, Callable[[Children], Any]]
_Signed = tuple[Term, int]  # a term with its sign as written, and where it begins


def over(children: Children) -> Span:
    """From the first to the last of a rule's words."""
    first = children[0]
    last = children[-1]
    if last is None:
        last = next(child for child in reversed(children) if child is not None)
    return Span(
        first.start if type(first) is Lexeme else first.span.start,
        last.end if type(last) is Lexeme else last.span.end,
    )


def word(lexeme: Lexeme) -> Word:
    """A word with its span."""
    return Word(lexeme.text, Span(lexeme.start, lexeme.end))


def side(lexeme: Lexeme) -> Side:
    """One of the six sides (the grammar lets nothing else through)."""
    return lexeme.text  # type: ignore[return-value]


def direction(lexeme: Lexeme) -> Direction:
    """One of the three directions (the grammar lets nothing else through)."""
    return lexeme.text  # type: ignore[return-value]


def common_word(lexeme: Lexeme) -> Word:
    """A word of the trade (a wood, a noun): no word of the notation, which would be a slip read as a name."""
    if lexeme.text in notation().keywords:
        misfit(lexeme, notation().words["phrases"]["no_keyword"])
    return word(lexeme)


def _name(children: Children) -> Word:
    _refuse_reserved(children[0])
    return word(children[0])


def _refuse_reserved(lexeme: Lexeme) -> None:
    if lexeme.text in notation().words["reserved"]:
        misfit(lexeme, notation().words["phrases"]["reserved"])


def _ref(children: Children) -> Ref:
    lexeme = children[0]
    span = Span(lexeme.start, lexeme.end)
    if lexeme.type == "NUMBERED":
        name, _, number = lexeme.text.partition(".")
        return Ref(name, int(number), None, span)
    _refuse_reserved(lexeme)
    return Ref(lexeme.text, None, None, span)


def _ref_of(children: Children) -> Ref:
    own = _ref(children)
    return Ref(own.name, own.number, children[2], over(children))


def _whole_of(children: Children) -> Ref:
    return _ref_of([children[0], children[1], _ref(children[2:])])


def _expression(children: Children) -> Expression:
    signed: list[_Signed] = children[0]
    terms = tuple([term for term, _ in signed])
    return Expression(terms, Span(signed[0][1], terms[-1].of.span.end))


def _first_term(children: Children) -> list[_Signed]:
    return [(Term(1, children[0]), children[0].span.start)]


def _signed_term(children: Children) -> list[_Signed]:
    (sign, lexeme), term = children
    return [(Term(sign, term), lexeme.start)]


def _next_term(children: Children) -> list[_Signed]:
    before, sign, term = children
    before.append((Term(-1 if sign.type == "MINUS" else 1, term), sign.start))
    return before  # type: ignore[no-any-return]


def _sign(children: Children) -> tuple[int, Lexeme]:
    return (1 if children[0].text == "+" else -1), children[0]


def one(children: Children) -> Children:
    """The first of a list."""
    return [children[0]]


def more(children: Children) -> Children:
    """A list and, after a comma or `and`, one more."""
    children[0].append(children[2])
    return children[0]  # type: ignore[no-any-return]


RULES: Rules = {
    "name": _name,
    "ref": _ref,
    "ref_of": _ref_of,
    "whole_of": _whole_of,
    "expression": _expression,
    "first_term": _first_term,
    "signed_term": _signed_term,
    "next_term": _next_term,
    "sign": _sign,
    "amount": lambda c: length(c[0]),
    "side_of": lambda c: SideOf(side(c[0]), c[2], over(c)),
    "middle_of": lambda c: MiddleOf(direction(c[1]), c[3], over(c)),
    "floor": lambda c: Floor(over(c)),
    "one": one,
    "more": more,
    "none": lambda c: [],
}
