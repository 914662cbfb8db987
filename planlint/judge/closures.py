"""Making a checked expression run: operations in, a function of a row's values out.

Compiled once a rulebook, without `eval`; each operation becomes one small closure. A value that is not known
raises `Unknown`, which the engine turns into "not checked" and `known(…)` into no.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import add, eq, mul, ne, sub
from typing import Any

from planlint.judge.functions import BUILT_IN, FUNCTIONS, ROUNDING
from planlint.observe.facts import Missing

# What flows here was checked when the rule was read: a column's kind is known, so values go untyped.
Values = Mapping[str, Any]
Run = Callable[[Values], Any]
Code = tuple[Any, ...]


class Unknown(Exception):  # noqa: N818 (not an error: a value that nobody knows)
    """Raised where a rule meets a value that is not known."""

    def __init__(self, missing: Missing) -> None:
        self.missing = missing


def compiled(code: Code, limits: Mapping[str, float]) -> Run:
    """The function that gives an expression's value for a row; shared limits are put in as they are now."""
    return _MAKERS[code[0]](code, limits)


def _constant(code: Code, limits: Mapping[str, float]) -> Run:
    value = code[1]
    return lambda values: value


def _limit(code: Code, limits: Mapping[str, float]) -> Run:
    value = limits[code[1]]
    return lambda values: value


def _column(code: Code, limits: Mapping[str, float]) -> Run:
    name = code[1]

    def run(values: Values) -> Any:
        value = values[name]
        if value.__class__ is Missing:
            raise Unknown(value)
        if value is None:
            raise TypeError(f"column {name} holds None; a value that is not known is a Missing")
        return value

    return run


def _known(code: Code, limits: Mapping[str, float]) -> Run:
    inner = compiled(code[1], limits)

    def run(values: Values) -> bool:
        try:
            inner(values)
        except Unknown:
            return False
        return True

    return run


def _negative(code: Code, limits: Mapping[str, float]) -> Run:
    inner = compiled(code[1], limits)
    return lambda values: -inner(values)


def _two(operation: Callable[[Any, Any], Any]) -> Callable[[Code, Mapping[str, float]], Run]:
    """An operation on two values; a constant on either side is put in as it is."""

    def make(code: Code, limits: Mapping[str, float]) -> Run:
        first, second = compiled(code[1], limits), compiled(code[2], limits)
        if code[2][0] in ("constant", "limit"):
            right = second({})
            return lambda values: operation(first(values), right)
        if code[1][0] in ("constant", "limit"):
            left = first({})
            return lambda values: operation(left, second(values))
        return lambda values: operation(first(values), second(values))

    return make


def _divided(above: float, below: float) -> float:
    if below == 0:
        raise Unknown(Missing("it would be divided by nothing", "a measure that is not 0"))
    return above / below


def _power(code: Code, limits: Mapping[str, float]) -> Run:
    inner, exponent = compiled(code[1], limits), code[2]
    return lambda values: inner(values) ** exponent


# Exactly at the limit is allowed, and floats must not decide: a difference counts when it is more than
# rounding.


def _less(first: float, second: float) -> bool:
    gap = second - first
    return gap > ROUNDING and gap > ROUNDING * abs(first) and gap > ROUNDING * abs(second)


def _more(first: float, second: float) -> bool:
    return _less(second, first)


def _at_most(first: float, second: float) -> bool:
    return not _less(second, first)


def _at_least(first: float, second: float) -> bool:
    return not _less(first, second)


def _near(first: float, second: float) -> bool:
    return not _less(first, second) and not _less(second, first)


def _not_near(first: float, second: float) -> bool:
    return _less(first, second) or _less(second, first)


def _and(code: Code, limits: Mapping[str, float]) -> Run:
    first, second = compiled(code[1], limits), compiled(code[2], limits)
    return lambda values: first(values) and second(values)


def _or(code: Code, limits: Mapping[str, float]) -> Run:
    first, second = compiled(code[1], limits), compiled(code[2], limits)
    return lambda values: first(values) or second(values)


def _not(code: Code, limits: Mapping[str, float]) -> Run:
    inner = compiled(code[1], limits)
    return lambda values: not inner(values)


def _if(code: Code, limits: Mapping[str, float]) -> Run:
    condition, first, second = (compiled(part, limits) for part in code[1:])
    return lambda values: first(values) if condition(values) else second(values)


def _in(code: Code, limits: Mapping[str, float]) -> Run:
    member, items = compiled(code[1], limits), [compiled(item, limits) for item in code[2]]
    if all(item[0] == "constant" for item in code[2]):
        words = frozenset(item[1] for item in code[2])
        return lambda values: member(values) in words
    return lambda values: member(values) in [item(values) for item in items]


def _near_in(code: Code, limits: Mapping[str, float]) -> Run:
    member, items = compiled(code[1], limits), [compiled(item, limits) for item in code[2]]

    def run(values: Values) -> bool:
        value = member(values)
        return any(_near(value, item(values)) for item in items)

    return run


def _call(code: Code, limits: Mapping[str, float]) -> Run:
    name, function = code[1], BUILT_IN[code[1]]
    parts = [compiled(part, limits) for part in code[2:]]

    def run(values: Values) -> Any:
        try:
            return function(*[part(values) for part in parts])
        except (ValueError, ZeroDivisionError, OverflowError):  # sqrt(-1), asin(2), round(x, 0)
            raise Unknown(Missing(f"`{name}` has no value here", "measures that fit together")) from None

    return run


def _trade(code: Code, limits: Mapping[str, float]) -> Run:
    function = FUNCTIONS[code[1]].call
    parts = [compiled(part, limits) for part in code[2:]]

    def run(values: Values) -> Any:
        value = function(*[part(values) for part in parts])
        if value.__class__ is Missing:
            raise Unknown(value)
        return value

    return run


_MAKERS: dict[str, Callable[[Code, Mapping[str, float]], Run]] = {
    "constant": _constant,
    "column": _column,
    "limit": _limit,
    "known": _known,
    "negative": _negative,
    "add": _two(add),
    "subtract": _two(sub),
    "multiply": _two(mul),
    "divide": _two(_divided),
    "power": _power,
    "<": _two(_less),
    ">": _two(_more),
    "<=": _two(_at_most),
    ">=": _two(_at_least),
    "near": _two(_near),
    "not near": _two(_not_near),
    "equal": _two(eq),
    "unequal": _two(ne),
    "holds": _two(lambda words, word: word in words),
    "and": _and,
    "or": _or,
    "not": _not,
    "if": _if,
    "in": _in,
    "near in": _near_in,
    "call": _call,
    "trade": _trade,
}
