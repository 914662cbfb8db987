"""Loads that plans name without a figure. Forces in N, lengths in mm."""

from __future__ import annotations

from functools import cache

from planlint.trade.tables import rows

GRAVITY = 9.80665
"""What a kilogram weighs, N (standard gravity, exact by definition)."""


@cache
def person() -> float:
    """The force of one person on a seat. Source: 2010 ADA Standards sec. 903.6, confirmed."""
    found: float = rows("loads", "person")["sitting"]["force"]
    return found


@cache
def footprint() -> float:
    """The side of the square that a sitting person takes (common practice, no source)."""
    found: float = rows("loads", "person")["place"]["footprint"]
    return found
