"""Numbers with units: from the words of a plan to base units (mm, degrees, kg, N, points of moisture)."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import cast

from planlint.read.lexer import Lexeme
from planlint.read.notation import notation
from planlint.read.plan import Dimension, Quantity, Trouble
from planlint.source import Span
from planlint.units import simple_units

_VULGAR = {
    "½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5,
    "⅘": 4 / 5, "⅙": 1 / 6, "⅚": 5 / 6, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8,
}  # fmt: skip

# A number is all that is no letter and no mark; `3' 6 1/2"` has a second one.
_PARTS = re.compile(r"([^a-z'\"°%]+?) *(?:([a-z'\"°%]+)(?:[ -]*([^a-z'\"°%]+?) *([a-z'\"]+))?)?")


def number(text: str) -> float:
    """`3 1/2`, `3-1/2`, `3½`, `.75`, `41` as a number."""
    if text.isdigit():
        return float(text)
    if text[-1] in _VULGAR:
        return float(text[:-1].rstrip(" -") or 0) + _VULGAR[text[-1]]
    before, slash, under = text.partition("/")
    if not slash:
        return float(text)
    *wholes, over = before.replace("-", " ").split()
    whole = int(wholes[0]) if wholes else 0
    return (whole * int(under) + int(over)) / int(under)


@lru_cache(maxsize=2048)
def written(text: str) -> tuple[float, str]:
    """The number of a text and the unit it names, by its name in units.txt ("" for none)."""
    found = _PARTS.fullmatch(text)
    assert found is not None, text
    first, unit, second, second_unit = found.groups("")
    unit = unit_named(unit)
    if not second:
        return number(first), unit
    # Feet and inches count in inches.
    inch = unit_named(second_unit)
    return number(first) * _worth()[unit][0] / _worth()[inch][0] + number(second), inch


@cache
def _worth() -> dict[str, tuple[float, Dimension]]:
    """Each unit's worth in base units and its dimension."""
    found: dict[str, tuple[float, Dimension]] = {"": (1.0, "number")}
    for name, unit in simple_units().items():
        found[name] = unit.factor, cast(Dimension, unit.dimension[0][0] if unit.dimension else "number")
    return found


def is_length_unit(name: str) -> bool:
    """Whether a unit of units.txt measures length."""
    return name in _worth() and _worth()[name][1] == "length"


def unit_named(word: str) -> str:
    """The units.txt name of a unit however it is written: `inches` is `in`."""
    name: str = notation().words["units"].get(word, word)
    return name


def quantity(lexeme: Lexeme, bare: str, *wanted: Dimension) -> Quantity:
    """A number in base units; `bare` is the unit of one that names none ("" for a plain number).

    Of another dimension than `wanted`, or in a unit nobody knows, it leaves a trouble on its line.
    """
    value, unit = written(lexeme.text)
    unit = unit or bare
    worth = _worth().get(unit)
    span = Span(lexeme.start, lexeme.end)
    if worth is None:
        name = _PARTS.fullmatch(lexeme.text)
        values: dict[str, object] = {"name": name[2] if name else unit, "what": "unit"}
        lexeme.line_of.troubles.append(Trouble("unknown-name", span, values))
        return Quantity(value, unit, wanted[0], span)
    factor, dimension = worth
    if dimension not in wanted:
        _wrong_kind(lexeme, wanted[0], dimension)
    # 96 in are 2438.4 mm, not 2438.3999999999996: two ways to write one length must not differ.
    return Quantity(round(value * factor, 9), unit, dimension, span)


def length(lexeme: Lexeme) -> Quantity:
    """A length; a bare one is in the plan's units."""
    return quantity(lexeme, lexeme.line_of.units, "length")


def angle(lexeme: Lexeme) -> Quantity:
    """An angle; a bare one is in degrees."""
    return quantity(lexeme, "deg", "angle")


def lengths(*lexemes: Lexeme) -> tuple[Quantity, ...]:
    """Lengths that belong together: the unit of the last covers those before it that have none."""
    cover = written(lexemes[-1].text)[1] or lexemes[-1].line_of.units
    return tuple(quantity(lexeme, cover, "length") for lexeme in lexemes)


def size(lexeme: Lexeme, bare: str = "") -> Quantity:
    """A length above nothing. `bare`: the unit of one that names none, if not the plan's."""
    return _more_than_nothing(lexeme, quantity(lexeme, bare or lexeme.line_of.units, "length"))


def sizes(*lexemes: Lexeme) -> tuple[Quantity, ...]:
    """Sizes that belong together: as `lengths`, each more than nothing."""
    return tuple(map(_more_than_nothing, lexemes, lengths(*lexemes)))


def _more_than_nothing(lexeme: Lexeme, found: Quantity) -> Quantity:
    if found.value <= 0:
        _does_not_fit(lexeme, "more_than_nothing")
    return found


def count(lexeme: Lexeme) -> int:
    """A whole number of people or lifters, from 1."""
    value, unit = written(lexeme.text)
    if unit:
        _wrong_kind(lexeme, "number", _worth().get(unit, (0.0, "number"))[1])
    elif value < 1 or value != int(value):
        _does_not_fit(lexeme, "whole_number")
    return int(value)


def _wrong_kind(lexeme: Lexeme, wanted: Dimension, found: Dimension) -> None:
    kinds = notation().words["kinds"]
    values: dict[str, object] = {
        "written": lexeme.line_of.written(lexeme.start, lexeme.end),
        "found": kinds[found],
        "expected": kinds[wanted],
    }
    lexeme.line_of.troubles.append(Trouble("wrong-kind-of-unit", Span(lexeme.start, lexeme.end), values))


def _does_not_fit(lexeme: Lexeme, phrase: str) -> None:
    misfit(lexeme, notation().words["phrases"][phrase])


def misfit(lexeme: Lexeme, expected: str) -> None:
    """Leave on its line that a word reads well but cannot stand there; the reader adds an example."""
    values: dict[str, object] = {
        "found": lexeme.line_of.written(lexeme.start, lexeme.end),
        "expected": expected,
    }
    lexeme.line_of.troubles.append(Trouble("unreadable", Span(lexeme.start, lexeme.end), values))
