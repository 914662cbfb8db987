"""Units: planlint's own quick reading of units.txt against pint's reading of it, and its own definitions."""

from __future__ import annotations

import pint
import pytest

from planlint.resources import data
from planlint.units import simple_units, unit

OURS = pint.UnitRegistry(None)
OURS.load_definitions(data("rules", "tables/units.txt").decode("utf-8").splitlines())
WORLD = pint.UnitRegistry()

# What each base unit is in pint's own definitions; a point of moisture is no unit of the world.
BASE = {"length": "mm", "angle": "degree", "mass": "kg", "force": "N"}
IN_WORLD = {"lbf": "force_pound", "lb": "pound", "in": "inch", "ft": "foot", "deg": "degree", "°": "degree"}


@pytest.mark.parametrize("name", simple_units())
def test_factor_is_what_pint_reads_in_the_same_file(name: str) -> None:
    theirs = OURS.Quantity(1.0, OURS.Unit(name) if name not in "%°" else {"%": "percent", "°": "deg"}[name])
    assert simple_units()[name].factor == pytest.approx(theirs.to_base_units().magnitude, rel=1e-15)
    dimension = {f"[{base}]": power for base, power in simple_units()[name].dimension}
    assert dict(theirs.dimensionality) == dimension


@pytest.mark.parametrize("name", [name for name, one in simple_units().items() if one.dimension])
def test_factor_is_what_the_world_says(name: str) -> None:
    base = simple_units()[name].dimension[0][0]
    if base != "moisture":
        world = WORLD.Quantity(1.0, IN_WORLD.get(name, name)).to(BASE[base]).magnitude
        assert simple_units()[name].factor == pytest.approx(world, rel=1e-15)


@pytest.mark.parametrize(
    ("written", "factor", "dimension"),
    [
        ("lbf/in2", 4.4482216152605 / 25.4**2, (("force", 1), ("length", -2))),
        ("lb/ft3", 0.45359237 / 304.8**3, (("length", -3), ("mass", 1))),
        ("N/mm", 1.0, (("force", 1), ("length", -1))),
    ],
)
def test_a_unit_made_of_others(written: str, factor: float, dimension: tuple[tuple[str, int], ...]) -> None:
    found = unit(written)
    assert found is not None
    assert found.factor == pytest.approx(factor, rel=1e-12)
    assert found.dimension == dimension


@pytest.mark.parametrize("written", ["furlong", "lbf/inch", "in/", "", "deg/if2"])
def test_an_unknown_unit_is_no_unit(written: str) -> None:
    assert unit(written) is None
