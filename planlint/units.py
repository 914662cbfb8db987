"""Units at the border: what a written unit is worth in base units.

Base units are mm, degrees, kg, N and points of moisture. The factors stand in `rules/tables/units.txt`, in
pint's definition language; the simple lines are read here, because pint costs 0.2 s to import. A unit made of
others (`lbf/in2`), which only rules write, is left to pint when a rule is checked.
"""

from __future__ import annotations

from typing import NamedTuple

from planlint.resources import data


class Unit(NamedTuple):
    """A unit: base units in one of it, and its dimension as exponents by base dimension."""

    factor: float
    dimension: tuple[tuple[str, int], ...]  # (("length", 1),); empty for a plain number


_simple: dict[str, Unit] = {}


def simple_units() -> dict[str, Unit]:
    """The units of `units.txt` by every way to write them."""
    if not _simple:
        for line in data("rules", "tables/units.txt").decode("utf-8").splitlines():
            if line and line[0] != "#":
                _define(line)
    return _simple


def _define(line: str) -> None:
    name, worth, *others = (word.strip() for word in line.split("="))
    if worth[0] == "[":
        unit = Unit(1.0, ((worth[1:-1], 1),))
    else:
        number, _, base = (word.strip() for word in worth.partition("*"))
        of = _simple[base] if base else Unit(1.0, ())
        unit = Unit(float(number) * of.factor, of.dimension)
    for written in (name, *others):
        _simple[written] = unit


def unit(written: str) -> Unit | None:
    """The unit as a rule writes it, simple or made of others (`lbf/in2`, `lb/ft3`).

    None when it is not known.
    """
    return simple_units().get(written) or (_compound(written) if "/" in written else None)


def _compound(written: str) -> Unit | None:
    words = [_power(word) for word in written.split("/")]
    if not all(base in simple_units() and base.isalpha() for base, _ in words):
        return None
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry(None)
    registry.load_definitions(data("rules", "tables/units.txt").decode("utf-8").splitlines())
    one = registry.Quantity(1.0, "/".join(f"{base}**{power}" for base, power in words)).to_base_units()
    exponents = sorted(
        (name.strip("[]"), round(float(power.real))) for name, power in one.dimensionality.items()
    )
    return Unit(float(one.magnitude), tuple(exponents))


def _power(word: str) -> tuple[str, str]:
    """`in2` as its unit and power."""
    return (word[:-1], word[-1]) if word[-1:].isdigit() else (word, "1")
