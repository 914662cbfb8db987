"""Amounts as they are asked for in a shop: square feet or metres, fluid ounces or millilitres, pounds or kilos."""

from __future__ import annotations

from typing import NamedTuple

from planlint.buying.shopping import Measure
from planlint.judge.finding import Value
from planlint.show.quantities import IMPERIAL, decimal, word
from planlint.trade.finishing import FLUID_OUNCE, MILLILITRE

BASE_UNITS = {
    "number": "",
    "length": "mm",
    "area": "mm2",
    "volume": "mm3",
    "timber": "mm3",
    "mass": "kg",
    "board feet": "board feet",
}


class Unit(NamedTuple):
    """Base units in one of it, its name, and the decimals of amounts under 10 and from 10 on."""

    worth: float
    name: str
    fine: int = 1
    coarse: int = 0


_NUMBER = Unit(1.0, "", 0)
_BOARD_FEET = Unit(1.0, "board feet", 1, 1)
_INCHES = {
    "length": Unit(25.4, "in", 2, 2),
    "area": Unit(304.8**2, "sq ft"),
    "volume": Unit(FLUID_OUNCE, "fl oz"),
    "timber": Unit(304.8**3, "cu ft", 2, 1),
    "mass": Unit(0.45359237, "lb"),
}
_METRIC = {
    "length": Unit(1.0, "mm", 1, 1),
    "area": Unit(1e6, "sq m", 2, 1),
    "volume": Unit(MILLILITRE, "ml"),
    "timber": Unit(1e9, "cu m", 4, 3),
    "mass": Unit(1.0, "kg"),
}
_OUNCES = Unit(0.45359237 / 16, "oz")
_GRAMS = Unit(0.001, "g")
_SMALL = 0.45359237  # kg: less than a pound is weighed in ounces, or in grams


def unit_of(measure: Measure, units: str) -> Unit:
    """The unit an amount is shown in, in a plan of these units."""
    imperial = units in IMPERIAL
    if measure.kind == "mass" and measure.high < _SMALL:
        return _OUNCES if imperial else _GRAMS
    if measure.kind == "board feet":
        return _BOARD_FEET
    return (_INCHES if imperial else _METRIC).get(measure.kind, _NUMBER)


def shown(measure: Measure, units: str) -> str:
    """`48`, `28 in`, `12.4 sq ft`, `6 to 8 fl oz`, `at least 16`."""
    unit = unit_of(measure, units)
    start = "at least " if measure.at_least else ""
    if measure.kind == "length":
        return start + word(Value(measure.low, "length"), units)
    low, high = _rounded(measure.low, unit), _rounded(measure.high, unit)
    amount = low if low == high else f"{low} to {high}"
    return start + " ".join([amount, *([unit.name] if unit.name else [])])


def plain(amount: float, measure: Measure, units: str) -> str:
    """The number alone, for a spreadsheet: no more than three decimals."""
    return decimal(amount / unit_of(measure, units).worth, 3)


def _rounded(amount: float, unit: Unit) -> str:
    """An amount that is there never reads as 0."""
    value = amount / unit.worth
    places = unit.fine if value < 9.95 else unit.coarse
    text = decimal(value, places)
    return decimal(value, places + 2) if text == "0" and amount else text
