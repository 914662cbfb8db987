"""The kinds of the rule language: quantities by their dimension, flags, words.

A quantity's kind is a tuple of exponents over `BASES`; the others are named by a string. Two quantities may
be added or compared only when their kinds are equal: a length is never compared with a weight.
"""

from __future__ import annotations

from typing import Union

Quantity = tuple[int, ...]
Kind = Union[Quantity, str]

BASES = ("length", "mass", "force", "angle", "moisture")
NUMBER: Quantity = (0, 0, 0, 0, 0)
LENGTH: Quantity = (1, 0, 0, 0, 0)
ANGLE: Quantity = (0, 0, 0, 1, 0)
FLAG = "flag"
WORD = "word"
WORDS = "words"

# The kinds a column can have (observe.facts.KINDS), and the only ones a text can show.
OF_COLUMN: dict[str, Kind] = {
    "length": LENGTH,
    "area": (2, 0, 0, 0, 0),
    "volume": (3, 0, 0, 0, 0),
    "mass": (0, 1, 0, 0, 0),
    "force": (0, 0, 1, 0, 0),
    "angle": ANGLE,
    "moisture": (0, 0, 0, 0, 1),
    "number": NUMBER,
    "flag": FLAG,
    "word": WORD,
    "words": WORDS,
}
_SHOWN = {kind: name for name, kind in OF_COLUMN.items()}


def shown_as(kind: Kind) -> str | None:
    """The name a text shows this kind by, or None: a force a length has no way to be shown."""
    return _SHOWN.get(kind)


def named(kind: Kind) -> str:
    """The kind in words, for a message: `length`, `area`, `force / length2`."""
    if isinstance(kind, str) or kind in _SHOWN:
        return _SHOWN.get(kind, str(kind))
    above = [_power(base, exponent) for base, exponent in zip(BASES, kind, strict=True) if exponent > 0]
    below = [_power(base, -exponent) for base, exponent in zip(BASES, kind, strict=True) if exponent < 0]
    return " / ".join([" * ".join(above) or "1", *below])


def one(kind: Kind | None) -> str:
    """One of this kind in words: `a length`, `an angle`."""
    name = named("" if kind is None else kind)
    return f"{'an' if name[:1] in ('a', 'e', 'i', 'o', 'u') else 'a'} {name}"


def _power(base: str, exponent: int) -> str:
    return base if exponent == 1 else f"{base}{exponent}"


def quantity(dimension: tuple[tuple[str, int], ...]) -> Quantity:
    """The kind of a unit's dimension, `(("length", 2),)`."""
    by_base = dict(dimension)
    return tuple(by_base.get(base, 0) for base in BASES)


def times(first: Quantity, second: Quantity, sign: int = 1) -> Quantity:
    """The kind of a product, or with sign -1 of a quotient."""
    return tuple(a + sign * b for a, b in zip(first, second, strict=True))
