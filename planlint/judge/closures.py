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
Make = Callable[[Code], Run]


class Unknown(Exception):  # noqa: N818 (not an error: a value that nobody knows)
    """Raised where a rule meets a value that is not known."""

    def __init__(self, missing: Missing) -> None:
        self.missing = missing


def compiled(code: Code, limits: Mapping[str, float]) -> Run:
    """The function that gives an expression's value for a row; shared limits are put in as they are now."""

    def make(code: Code) -> Run:
        if code[0] == "limit":
            return _constant(("constant", limits[code[1]]), make)
        return _MAKERS[code[0]](code, make)

    return make(code)


def _constant(code: Code, make: Make) -> Run:
    value = code[1]
    return lambda values: value


def _column(code: Code, make: Make) -> Run:
    name = code[1]

    def run(values: Values) -> Any:
        value = values[name]
        if value.__class__ is Missing:
            raise Unknown(value)
        if value is None:
            raise TypeError(f"column {name} holds None; a value that is not known is a Missing")
        return value

    return run


def _known(code: Code, make: Make) -> Run:
    inner = make(code[1])

    def run(values: Values) -> bool:
        try:
            inner(values)
        except Unknown:
            return False
        return True

    return run


def _negative(code: Code, make: Make) -> Run:
    inner = make(code[1])
    return lambda values: -inner(values)


def _two(operation: Callable[[Any, Any], Any]) -> Callable[[Code, Make], Run]:
    """An operation on two values; a constant on either side is put in as it is."""

    def maker(code: Code, make: Make) -> Run:
        first, second = make(code[1]), make(code[2])
        if code[2][0] in ("constant", "limit"):
            right = second({})
            return lambda values: operation(first(values), right)
        if code[1][0] in ("constant", "limit"):
            left = first({})
            return lambda values: operation(left, second(values))
        return lambda values: operation(first(values), second(values))

    return maker


def _divided(above: float, below: float) -> float:
    if below == 0:
        raise Unknown(Missing("it would be divided by nothing", "a measure that is not 0"))
    return above / below


def _power(code: Code, make: Make) -> Run:
    inner, exponent = make(code[1]), code[2]
    return lambda values: inner(values) ** exponent


# Exactly at the limit is allowed, and floats must not decide: a difference counts when it is no rounding.


def _less(code: Code, make: Make) -> Run:
    first, second = make(code[1]), make(code[2])

    def run(values: Values) -> bool:
        a, b = first(values), second(values)
        gap = b - a
        return bool(gap > ROUNDING and gap > ROUNDING * abs(a) and gap > ROUNDING * abs(b))

    return run


def _more(code: Code, make: Make) -> Run:
    return _less((code[0], code[2], code[1]), make)


def _at_most(code: Code, make: Make) -> Run:
    more = _more(code, make)
    return lambda values: not more(values)


def _at_least(code: Code, make: Make) -> Run:
    less = _less(code, make)
    return lambda values: not less(values)


def _near_each_other(first: float, second: float) -> bool:
    return abs(first - second) <= ROUNDING * max(1.0, abs(first), abs(second))


def _apart(first: float, second: float) -> bool:
    return not _near_each_other(first, second)


def _and(code: Code, make: Make) -> Run:
    first, second = make(code[1]), make(code[2])
    return lambda values: first(values) and second(values)


def _or(code: Code, make: Make) -> Run:
    first, second = make(code[1]), make(code[2])
    return lambda values: first(values) or second(values)


def _not(code: Code, make: Make) -> Run:
    inner = make(code[1])
    return lambda values: not inner(values)


def _if(code: Code, make: Make) -> Run:
    condition, first, second = make(code[1]), make(code[2]), make(code[3])
    return lambda values: first(values) if condition(values) else second(values)


def _in(code: Code, make: Make) -> Run:
    member = make(code[1])
    if all(item[0] == "constant" for item in code[2]):
        words = frozenset(item[1] for item in code[2])
        return lambda values: member(values) in words
    items = [make(item) for item in code[2]]
    return lambda values: member(values) in [item(values) for item in items]


def _near_in(code: Code, make: Make) -> Run:
    member, items = make(code[1]), [make(item) for item in code[2]]

    def run(values: Values) -> bool:
        value = member(values)
        return any(_near_each_other(value, item(values)) for item in items)

    return run


def _call(code: Code, make: Make) -> Run:
    name, function = code[1], BUILT_IN[code[1]]
    if name in ("min", "max") and len(code) == 4:
        return _two(function)((name, code[2], code[3]), make)
    parts = [make(part) for part in code[2:]]

    def run(values: Values) -> Any:
        try:
            return function(*[part(values) for part in parts])
        except (ValueError, ZeroDivisionError, OverflowError):  # sqrt(-1), asin(2), round(x, 0)
            raise Unknown(Missing(f"`{name}` has no value here", "measures that fit together")) from None

    return run


def _trade(code: Code, make: Make) -> Run:
    function = FUNCTIONS[code[1]].call
    parts = [make(part) for part in code[2:]]

    def run(values: Values) -> Any:
        value = function(*[part(values) for part in parts])
        if isinstance(value, Missing):
            raise Unknown(value)
        return value

    return run


_MAKERS: dict[str, Callable[[Code, Make], Run]] = {
    "constant": _constant,
    "column": _column,
    "known": _known,
    "negative": _negative,
    "add": _two(add),
    "subtract": _two(sub),
    "multiply": _two(mul),
    "divide": _two(_divided),
    "power": _power,
    "<": _less,
    ">": _more,
    "<=": _at_most,
    ">=": _at_least,
    "near": _two(_near_each_other),
    "not near": _two(_apart),
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
