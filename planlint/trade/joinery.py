"""How fasteners are set in the wood: pockets, fittings that lie on faces, and what still counts as meeting.

Lengths in mm, angles in degrees; all common practice without a source.
"""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

from planlint.trade.hardware import figure_8_plate
from planlint.trade.tables import rows


class Pocket(NamedTuple):
    """The pocket's axis: `cos` and `sin` of its slope to the face; `exit` and `seat` in thicknesses of the
    part.
    """

    cos: float
    sin: float
    exit: float
    seat: float


class Plate(NamedTuple):
    """A fitting that lies where two parts meet: `into` is "both" or "face", `reach` the gap it still holds
    over.
    """

    thickness: float
    into: str
    reach: float


@cache
def pocket() -> Pocket:
    """The pocket screw of the trade: 15 deg to the face, out of the end at half the thickness."""
    row = rows("joinery", "pockets")["pocket"]
    slope = math.radians(row["slope"])
    return Pocket(math.cos(slope), math.sin(slope), row["exit"], row["seat"])


@cache
def plate(noun: str) -> Plate | None:
    """What is known of this fitting, by its noun in the plural; None for one no table has."""
    row = rows("joinery", "plates").get(noun)
    if row is None:
        return None
    thickness = figure_8_plate() if noun == "figure-8" else row["thickness"]
    return Plate(thickness, row["into"], row.get("reach", 0.0))


def reach(metric: bool) -> float:
    """How much may be between two parts that meet."""
    found: float = rows("joinery", "reach")["parts"]["metric" if metric else "inch"]
    return found
