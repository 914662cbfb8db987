"""Numbers for a reader: base units in, the plan's own unit out. Knows units; knows no rule and no layout.

An inch plan reads fractions (1/16, finer where a number needs it), a metric plan millimetres. Values that
are shown side by side and differ never read the same: a screw 1/64 in too short must not be said to be
as long as it should be.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from planlint.judge.finding import Value

INCH = 25.4  # mm, exact: the international yard and pound agreement of 1959
POUND = 0.45359237  # kg, exact: the same agreement
POUND_FORCE = 4.4482216152605  # N, exact: one pound at standard gravity, 9.80665 m/s2 (CGPM 1901)

IMPERIAL = ("in", "ft")
LINES = 12  # line numbers are listed up to so many

# The base unit of each kind, as the JSON output names it.
BASE_UNITS = {
    "length": "mm",
    "area": "mm2",
    "volume": "mm3",
    "angle": "deg",
    "mass": "kg",
    "force": "N",
    "moisture": "%",
}


class Scale(NamedTuple):
    """How one kind is written: base units a shown unit, its name, and the steps to round to, coarse to fine.

    `halving` steps are written as fractions. Values from `whole_from` on begin at the first step, smaller
    ones at the second: nobody weighs a table to the tenth of a pound.
    """

    factor: float
    unit: str
    steps: tuple[float, ...]
    halving: bool = False
    whole_from: float = 0.0


_PLAIN = Scale(1.0, "", (0.01, 0.001, 0.0001))
_BOTH = {
    "angle": Scale(1.0, " deg", (0.1, 0.01)),
    "moisture": Scale(1.0, " %", (0.1, 0.01)),
    "number": _PLAIN,
}
_INCHES = {
    "length": Scale(INCH, " in", (1 / 16, 1 / 32, 1 / 64, 0.001), halving=True),
    "area": Scale(INCH**2, " sq in", (1, 0.1, 0.01, 0.001), whole_from=100),
    "volume": Scale(INCH**3, " cu in", (1, 0.1, 0.01, 0.001), whole_from=100),
    "mass": Scale(POUND, " lb", (1, 0.1, 0.01), whole_from=100),
    "force": Scale(POUND_FORCE, " lb", (1, 0.1, 0.01), whole_from=100),
    **_BOTH,
}
_METRIC = {
    "length": Scale(1.0, " mm", (0.1, 0.01)),
    "area": Scale(100.0, " sq cm", (1, 0.1, 0.01, 0.001), whole_from=100),
    "volume": Scale(1000.0, " cu cm", (1, 0.1, 0.01, 0.001), whole_from=100),
    "mass": Scale(1.0, " kg", (1, 0.1, 0.01), whole_from=100),
    "force": Scale(1.0, " N", (1, 0.1, 0.01), whole_from=100),
    **_BOTH,
}


def word(value: Value, units: str) -> str:
    """One value in the words of a plan in `units`: `in` and `ft` read as inches; `mm`, `cm` and `m` as mm."""
    return word_all({"": value}, units)[""]


def word_all(values: Mapping[str, Value], units: str) -> dict[str, str]:
    """The values of one sentence, by name.

    Two of one kind that differ never read the same, and one that is not 0 never reads as 0.
    """
    texts: dict[str, str] = {}
    numbers: dict[str, dict[str, float]] = {}
    for name, value in values.items():
        plain = _plain(value.value)
        if plain is None:
            numbers.setdefault(value.kind, {})[name] = float(value.value)  # type: ignore[arg-type]
        else:
            texts[name] = plain
    for kind, group in numbers.items():
        texts.update(_word_group(group, scale_of(kind, units)))
    return texts


def scale_of(kind: str, units: str) -> Scale:
    """How a kind is written in a plan of these units."""
    return (_INCHES if units in IMPERIAL else _METRIC).get(kind, _PLAIN)


def listed(names: tuple[str, ...] | list[str], most: int = 0) -> str:
    """Names in a sentence: `a, b and c`; more than `most` (0: no limit) end in a count."""
    if most and len(names) > most:
        names = [*names[:most], f"{len(names) - most} more"]
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def numbered(count: int, noun: str) -> str:
    """`1 hint`, `3 hints`."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def bare(x: float, scale: Scale) -> str:
    """A base-unit number without its unit, for a scale drawing whose caption names the unit."""
    return _written(x / scale.factor, scale, _first_step(x / scale.factor, scale))


def _plain(value: object) -> str | None:
    """The words of what is no number; None for a number."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return None if math.isfinite(value) else "no limit"
    if isinstance(value, (tuple, list)):
        return listed([str(each) for each in value])
    return "not known" if value is None else str(value)


def _word_group(group: dict[str, float], scale: Scale) -> dict[str, str]:
    shown = {name: x / scale.factor for name, x in group.items()}
    steps = {name: _first_step(x, scale) for name, x in shown.items()}
    while finer := [name for name in shown if _misleads(name, shown, steps, scale)]:
        for name in finer:
            steps[name] += 1
    return {name: _written(x, scale, steps[name]) + scale.unit for name, x in shown.items()}


def _misleads(name: str, shown: dict[str, float], steps: dict[str, int], scale: Scale) -> bool:
    """Whether this number, so rounded, reads like 0 or lies on the wrong side of another."""
    least, step, x = scale.steps[-1] / 2, steps[name], shown[name]
    if step + 1 == len(scale.steps):
        return False
    rounded = _rounded(x, scale.steps[step])
    if not rounded and abs(x) > least:
        return True
    for other, y in shown.items():
        if abs(x - y) > least and step <= steps[other]:
            difference = rounded - _rounded(y, scale.steps[steps[other]])
            if abs(difference) < least or (difference > 0) != (x > y):
                return True
    return False


def _first_step(x: float, scale: Scale) -> int:
    if not scale.halving:
        return 1 if abs(x) < scale.whole_from else 0
    for index, step in enumerate(scale.steps[:-1]):
        if abs(x / step - round(x / step)) * step < 0.0005:  # an exact 1/32 or 1/64, as drills are sold
            return index
    return 0


def _rounded(x: float, step: float) -> float:
    """To the nearest step, halves away from 0."""
    return math.copysign(math.floor(abs(x) / step + 0.5 + 1e-9) * step, x)


def _written(x: float, scale: Scale, index: int) -> str:
    step = scale.steps[index]
    rounded = abs(_rounded(x, step))
    sign = "-" if x < 0 and rounded else ""
    if scale.halving and index + 1 < len(scale.steps):
        return sign + mixed(round(rounded / step), round(1 / step))
    return sign + decimal(rounded, max(0, -math.floor(math.log10(step) + 1e-9)))


def mixed(count: int, parts: int) -> str:
    """`count` of `parts` to the whole as a shop writes it: 56, 16 -> `3 1/2`."""
    whole, rest = divmod(count, parts)
    if not rest:
        return str(whole)
    shared = math.gcd(rest, parts)
    fraction = f"{rest // shared}/{parts // shared}"
    return f"{whole} {fraction}" if whole else fraction


def decimal(x: float, places: int) -> str:
    """At most so many decimals, no trailing zeros."""
    text = f"{x:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
