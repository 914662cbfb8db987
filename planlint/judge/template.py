"""Texts with `{…}` in them: split when a rule is read, filled when a finding is made, worded by show."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple, Union

from planlint.judge.closures import Unknown, Values, compiled
from planlint.judge.finding import Finding, Value
from planlint.judge.rule import Piece, Rule, Saying

_HOLES = re.compile(r"\{([^{}]*)\}")

# A value that nobody knows, where a text names it.
NOT_KNOWN = Value(None, "unknown")


class Wording(NamedTuple):
    """A finding's texts as literal words and values in turn; show puts the values into the plan's units."""

    title: str
    says: tuple[Union[str, Value], ...]
    why: tuple[Union[str, Value], ...]
    fix: tuple[Union[str, Value], ...]  # empty: nothing to say
    caution: str  # "" where nobody can be hurt


def split(text: str) -> list[tuple[str, bool]]:
    """The text's pieces in order, and for each whether it is an expression."""
    pieces = [(piece, bool(i % 2)) for i, piece in enumerate(_HOLES.split(text))]
    return [(piece, hole) for piece, hole in pieces if piece or hole]


def wording(rule: Rule, finding: Finding) -> Wording:
    """The texts of a finding of this rule, with its values in them."""
    says, why, fix = (
        _filled(sayings, chosen, finding.values)
        for sayings, chosen in zip((rule.says, rule.why, rule.fix), finding.said, strict=True)
    )
    return Wording(rule.title, says, why, fix, rule.caution)


def _filled(
    sayings: tuple[Saying, ...], chosen: int, values: Mapping[str, Value]
) -> tuple[Union[str, Value], ...]:
    if chosen < 0:
        return ()
    return tuple(piece if isinstance(piece, str) else values[piece[0]] for piece in sayings[chosen][1])


def choose(
    sayings: tuple[Saying, ...], values: Values, limits: Mapping[str, float], *, must_know: bool
) -> tuple[int, dict[str, Value]]:
    """Which saying fits these values (-1: none), and the values it names, by key.

    With `must_know` a saying that names a value nobody knows is passed over; else the value is `NOT_KNOWN`.
    """
    for number, (when, pieces) in enumerate(sayings):
        if when is not None and not holds(when, values, limits):
            continue
        named = {piece[0]: _value(piece, values, limits) for piece in pieces if not isinstance(piece, str)}
        if not (must_know and NOT_KNOWN in named.values()):
            return number, named
    return -1, {}


def holds(when: tuple[object, ...], values: Values, limits: Mapping[str, float]) -> bool:
    """Whether a condition is known to be true."""
    try:
        return bool(compiled(when, limits)(values))
    except Unknown:
        return False


def _value(piece: Piece, values: Values, limits: Mapping[str, float]) -> Value:
    _, code, kind = piece
    try:
        return Value(compiled(code, limits)(values), kind)
    except Unknown:
        return NOT_KNOWN
