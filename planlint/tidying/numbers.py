"""One way to write a number with its unit, worth exactly what the old way was.

Inches and feet are fractions as far as a rule is marked (1/64), else decimals; all others decimals. A third, which
is no decimal, stays a fraction.
"""

from __future__ import annotations

import re

from planlint.read.amounts import number, unit_named, written
from planlint.show.quantities import decimal, mixed

FINEST = 64  # parts of an inch
PLACES = 9  # decimals that a number is read with

_PARTS = re.compile(r"([^a-z'\"°%]+?) *(?:([a-z'\"°%]+)(?:[ -]*([^a-z'\"°%]+?) *([a-z'\"]+))?)?")
_WORDS = {"points": "%"}  # units whose name in units.txt nobody writes


def tidy_number(text: str, meant: str, units: str, *, drop: bool, add: bool = False) -> str:
    """A number of a plan in `units`, in plain form, with its unit; without one it is `meant` in that unit.

    `drop` leaves the unit out where it is the plan's own, or the degree; `add` puts the plan's own behind a bare
    number. What cannot be written anew exactly stays as it is.
    """
    found = _PARTS.fullmatch(text)
    if found is None:
        return text
    first, word, second, second_word = found.groups("")
    unit = unit_named(word)
    if second:
        new = f"{_plain(first, unit)} {_word(word)} {_plain(second, 'in')} {_word(second_word)}"
    else:
        new = _plain(first, unit or meant)
        if word and not (drop and unit in (units, "deg")):
            new += f" {_word(word)}"
    if written(new)[0] != written(text)[0]:
        return text
    return f"{new} {units}" if add and not word else new


def _word(word: str) -> str:
    name = unit_named(word)
    return _WORDS.get(name, name)


def _plain(text: str, unit: str) -> str:
    x = number(text)
    if unit in ("in", "ft"):
        parts = x * FINEST
        if parts == round(parts):
            return mixed(round(parts), FINEST)
    shown = decimal(x, PLACES)
    return shown if float(shown) == x else _fraction(text)


def _fraction(text: str) -> str:
    """`3-1/3` and `3⅓` as `3 1/3`."""
    if "/" in text:
        return re.sub(r"[ -]+", " ", text).strip()
    return text
