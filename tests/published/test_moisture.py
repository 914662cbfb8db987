"""Moisture: movement, coefficients, the moisture wood comes to."""

from __future__ import annotations

import pytest

from planlint.trade.movement import by_coefficient, by_shrinkage, coefficient, equilibrium

from .rows import Published, published


def figures(row: Published) -> dict[str, float]:
    return {name: float(value) for name, value in row.inputs.items() if name != "by"}


@pytest.mark.parametrize("row", published("movement"), ids=lambda row: row.id)
def test_movement(row: Published) -> None:
    given = figures(row)
    if row.inputs["by"] == "coefficient":
        moved = by_coefficient(given["size"], given["coefficient"], given["start"], given["end"])
    else:
        moved = by_shrinkage(given["size"], given["shrinkage"], given["start"], given["end"])
    assert row.agrees(moved)


@pytest.mark.parametrize("row", published("coefficients"), ids=lambda row: row.id)
def test_coefficient_from_shrinkage(row: Published) -> None:
    given = figures(row)
    assert row.agrees(coefficient(given["shrinkage"], given["saturation"]))


@pytest.mark.parametrize("row", published("equilibrium"), ids=lambda row: row.id)
def test_equilibrium_moisture(row: Published) -> None:
    given = figures(row)
    assert row.agrees(equilibrium((given["fahrenheit"] - 32) / 1.8, given["humidity"] / 100))
