"""Lumber: dressed sizes, hardwood thicknesses, board feet, weights."""

from __future__ import annotations

import pytest

from planlint.trade.boards import board_feet_of, weight
from planlint.trade.lumber import dressed, quarters
from planlint.trade.woods import density, wood

from .rows import Published, published

INCH, FOOT, POUND = 25.4, 304.8, 0.45359237
VOLUMES = {"cubic foot": FOOT**3, "cubic metre": 1e9}


@pytest.mark.parametrize("row", published("lumber"), ids=lambda row: row.id)
def test_dressed_size(row: Published) -> None:
    size = dressed(row.inputs["name"])
    assert size is not None
    assert row.agrees(getattr(size, row.inputs["side"]) / INCH)


@pytest.mark.parametrize("row", published("hardwood"), ids=lambda row: row.id)
def test_hardwood_thickness(row: Published) -> None:
    assert row.agrees(quarters()[row.inputs["name"]].surfaced / INCH)


@pytest.mark.parametrize("row", published("board_feet"), ids=lambda row: row.id)
def test_board_feet(row: Published) -> None:
    assert row.agrees(board_feet_of(row.inputs["name"], float(row.inputs["feet"]) * FOOT))


@pytest.mark.parametrize("row", published("weights"), ids=lambda row: row.id)
def test_weight(row: Published) -> None:
    given = row.inputs
    moisture = float(given["moisture"])
    if "g" in given:
        kilograms: float | None = density(float(given["g"]), moisture) * VOLUMES[given["per"]]
    else:
        size, of = dressed(given["name"]), wood(given["wood"])
        assert size is not None
        assert of is not None
        kilograms = weight(size.thickness * size.width * float(given["feet"]) * FOOT, of, moisture)
    assert kilograms is not None
    assert row.agrees(kilograms / POUND if row.unit == "lb" else kilograms)
