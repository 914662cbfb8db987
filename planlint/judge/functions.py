"""The functions a rule may call: the sums of the language, and what the trade registers.

A trade function is registered once, with the kinds of its arguments and of its result, so that a rule that
gives it a weight for a length is refused before any plan is read:

    from planlint.judge.functions import register

    @register(("word", "length", "length", "length"), "length")
    def next_length_sold(noun: str, diameter: float, least: float, most: float) -> float | Missing:
        '''The shortest length sold from `least` to `most`, both counted.'''

Values are in base units (mm, degrees, kg, N, points). A function may return a `Missing`: then `known(...)` is
false, and a rule that goes on without asking is reported as not checked. It must not raise on any value of
its kinds.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple, TypeVar

from planlint.judge.kinds import OF_COLUMN


class Function(NamedTuple):
    """A registered function: the kinds it takes and gives, by column kind, and what it does."""

    takes: tuple[str, ...]
    gives: str
    call: Callable[..., object]


FUNCTIONS: dict[str, Function] = {}

F = TypeVar("F", bound=Callable[..., object])


def register(takes: tuple[str, ...], gives: str) -> Callable[[F], F]:
    """Register a trade function under its own name.

    Raises for an unknown kind and for a name that another has: our mistake.
    """
    if unknown := {*takes, gives} - OF_COLUMN.keys():
        raise ValueError(f"no such kind: {', '.join(sorted(unknown))}")

    def keep(call: F) -> F:
        name = call.__name__
        if name in BUILT_IN or (name in FUNCTIONS and FUNCTIONS[name].call.__module__ != call.__module__):
            raise ValueError(f"the function {name} is registered already")
        FUNCTIONS[name] = Function(takes, gives, call)
        return call

    return keep


# Differences below this, absolute in base units and relative, are rounding: exactly at the limit is allowed.
ROUNDING = 1e-6


def _nearest(value: float, step: float) -> float:
    return math.floor(value / step + 0.5 + ROUNDING) * step


def _down(value: float, step: float) -> float:
    return math.floor(value / step + ROUNDING) * step


def _up(value: float, step: float) -> float:
    return math.ceil(value / step - ROUNDING) * step


# The sums of the language. How their kinds go together stands in `checking.py`.
BUILT_IN: dict[str, Callable[..., object]] = {
    "min": min,
    "max": max,
    "abs": abs,
    "round": _nearest,
    "floor": _down,
    "ceil": _up,
    "sqrt": math.sqrt,
    "sin": lambda angle: math.sin(math.radians(angle)),
    "cos": lambda angle: math.cos(math.radians(angle)),
    "tan": lambda angle: math.tan(math.radians(angle)),
    "asin": lambda ratio: math.degrees(math.asin(ratio)),
    "acos": lambda ratio: math.degrees(math.acos(ratio)),
    "atan": lambda ratio: math.degrees(math.atan(ratio)),
    "count": lambda words: float(len(words)),
}
