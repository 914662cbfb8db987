"""Which side of the piece a direction looks to, and where its middle is."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Part
from planlint.build.sides import OF_SIDE, toward
from planlint.build.sides import SIDES as BY_AXIS
from planlint.geometry.vector import Vec, dot

SIDES: dict[str, Vec] = {side: toward(side) for side in OF_SIDE}

_SLANTED = 0.7  # cos of about 45 deg: so far off a side, a direction still looks to it


def side_of(direction: Vec) -> str:
    """The side that a direction looks to most; of equal ones the first of left, right, front, back, bottom, top."""
    axis, most = 0, 0.0
    for i in (0, 1, 2):
        if abs(direction[i]) > most:
            axis, most = i, abs(direction[i])
    return BY_AXIS[axis, 1 if direction[axis] > 0.0 else -1]


def looks_to(direction: Vec, side: str) -> bool:
    """Whether a unit direction looks to a side: it is within about 45 deg of it, or no other side is
    nearer.
    """
    towards = dot(SIDES[side], direction)
    return towards >= _SLANTED or towards >= max([abs(along) for along in direction]) - 1e-6


def middle_of(parts: Sequence[Part]) -> Vec:
    """The middle of the box round these parts."""
    if not parts:
        return (0.0, 0.0, 0.0)
    lows, highs = [part.solid.low for part in parts], [part.solid.high for part in parts]
    x, y, z = [(min([p[i] for p in lows]) + max([p[i] for p in highs])) / 2.0 for i in (0, 1, 2)]
    return (x, y, z)
