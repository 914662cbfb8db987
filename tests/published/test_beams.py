"""Beams: sag and stress as handbooks and examples have them, computed by the product's own code."""

from __future__ import annotations

import pytest

from planlint.trade.beams import Load, most_moment, rectangle, sag
from planlint.trade.woods import wood

from .rows import Published, published

INCH, POUND = 25.4, 4.4482216152605
PSI = POUND / INCH**2


def computed(row: Published) -> float:
    given = {name: float(value) for name, value in row.inputs.items() if name not in ("figure", "wood")}
    figure = row.inputs["figure"]
    if figure == "ratio":
        return given["span"] * 12 / given["over"]
    if figure == "share":
        return given["span"] * 12 / given["sag"]
    if figure == "sag":
        span = given["span"]
        return sag(span, [Load(0.0, span, given["load"])], given["modulus"] * given["inertia"])
    span, force = given["span"] * INCH, given["load"] * POUND
    section = rectangle(given["width"] * INCH, given["depth"] * INCH)
    of = wood(row.inputs["wood"])
    assert of is not None
    assert of.moe is not None
    middle = [Load(span / 2.0, span / 2.0, force)]
    if figure == "stress":
        return most_moment(span, middle) / section.modulus / PSI
    loads = [Load(0.0, span, force)] if figure == "shelf" else middle
    return sag(span, loads, of.moe * section.inertia) / INCH


@pytest.mark.parametrize("row", published("beams"), ids=lambda row: row.id)
def test_beam(row: Published) -> None:
    assert row.agrees(computed(row))
