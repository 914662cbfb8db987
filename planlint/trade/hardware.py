"""Fittings that let wood move, and how far. Lengths in mm; all common practice without a source."""

from __future__ import annotations

from functools import cache

from planlint.trade.tables import rows


@cache
def figure_8_travel(angle: float) -> float:
    """How far a figure-8 gives to either side; `angle` is between its arm and the movement, in degrees.

    90: the arm lies square to the movement; 0: it points along it and can't swing. Between the table's
    steps the lesser one counts.
    """
    steps = rows("hardware", "figure_8").values()
    return max(float(step["travel"]) for step in steps if step.get("angle", 360) <= angle + 0.01)


def figure_8_plate() -> float:
    """How thick a figure-8 is: wood that its screws do not pass."""
    found: float = rows("hardware", "figure_8")["plate"]["plate"]
    return found


def figure_8_arm() -> float:
    """The distance between a figure-8's two screws."""
    found: float = rows("hardware", "figure_8")["plate"]["arm"]
    return found


def button_travel() -> float:
    """How far a wooden button slides, unless the plan says."""
    found: float = rows("hardware", "buttons")["button"]["travel"]
    return found
