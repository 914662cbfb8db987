"""What a gallon of finish covers and what a glued joint takes, computed by the product's own code."""

from __future__ import annotations

import pytest

from planlint.trade.finishing import FLUID_OUNCE, OUNCE, finish, glue_for

from .rows import Published, published

FOOT, MIL = 304.8, 25.4 / 1000
GALLON, POUND = 128 * FLUID_OUNCE, 16 * OUNCE


def computed(row: Published) -> float:
    given = row.inputs
    if "finish" in given:
        one = finish(given["finish"])
        area = 1000 * FOOT**2
        low, high = (amount / one.coats for amount in one.amount(area))
        return 1000 * GALLON / (low if given["end"] == "most" else high)
    if "film" in given:
        return GALLON / (float(given["film"]) * FOOT**2) / MIL
    if "solids" in given:
        wet = float(given["mils"]) / float(given["solids"]) * MIL
        return GALLON / wet / FOOT**2
    return glue_for(1000 * FOOT**2)[given["glue"] == "most"] / POUND


@pytest.mark.parametrize("row", published("coverage"), ids=lambda row: row.id)
def test_coverage(row: Published) -> None:
    assert row.agrees(computed(row))


def test_the_gallons_rule_for_paint_holds_what_theory_gives() -> None:
    """374 sq ft at 35 % solids and 1.5 mil lies between the two ends of the table."""
    theory = next(row for row in published("coverage") if row.id == "paint-theory")
    ends = {
        row.inputs["end"]: row.published
        for row in published("coverage")
        if row.inputs.get("finish") == "paint"
    }
    assert ends["least"] <= theory.published <= ends["most"]
