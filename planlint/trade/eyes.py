"""From where a finished piece is looked at, and how large a pocket's mouth is. Lengths in mm, angles in degrees."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.joinery import pocket
from planlint.trade.tables import rows


class Eyes(NamedTuple):
    """A standing person's eye: its height, how far away, and the angles aside of straight on it looks from."""

    height: float
    away: float
    aside: tuple[float, ...]


@cache
def standing() -> Eyes:
    """The eye of a person who stands before the piece."""
    row = rows("sight", "eyes")["standing"]
    return Eyes(row["height"], row["away"], tuple([float(angle) for angle in row["aside"]]))


@cache
def pocket_mouth() -> tuple[float, float]:
    """How long (along the screw) and how wide the mouth of a pocket is on the face."""
    width = float(rows("sight", "pocket_mouth")["pocket"]["width"])
    return width / pocket().sin, width
