"""Screws: diameters, roots, pilots, least penetration, nails."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from planlint.trade import screws

from .rows import Published, published

INCH = 25.4


def length(row: Published, name: str) -> float:
    return float(row.inputs[name]) * INCH


COMPUTED: dict[str, Callable[[Published], float | None]] = {
    "diameter": lambda row: screws.diameter(int(row.inputs["gauge"])),
    "root": lambda row: screws.root(int(row.inputs["gauge"])),
    "penetration": lambda row: screws.least_penetration(length(row, "diameter"), row.inputs["what"]),
    "pilot": lambda row: screws.pilot(length(row, "root"), row.inputs["hardwood"] == "yes"),
    "thread": lambda row: screws.threaded_length(
        length(row, "length"), length(row, "diameter"), "wood-screws"
    ),
    "nail": lambda row: screws.nail_diameter(length(row, "length")),
}


@pytest.mark.parametrize("row", published("screws"), ids=lambda row: row.id)
def test_screws(row: Published) -> None:
    computed = COMPUTED[row.inputs["of"]](row)
    assert computed is not None
    assert row.agrees(computed / INCH)
