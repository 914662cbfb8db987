"""Board feet and the weight of boards. Lengths in mm, weights in kg."""

from __future__ import annotations

from planlint.trade.lumber import nominal
from planlint.trade.woods import Wood, density

_BOARD_FOOT = 144 * 25.4**3  # 1 in x 12 in x 12 in, in cubic mm


def board_feet(thickness: float, width: float, length: float) -> float:
    """Board feet of a measured size: 144 cubic inches each."""
    return thickness * width * length / _BOARD_FOOT


def board_feet_of(name: str, length: float) -> float | None:
    """Board feet of a nominal size: softwood is counted by its name, not by what it measures."""
    size = nominal(name)
    return None if size is None else board_feet(size.thickness, size.width, length)


def weight(volume: float, wood: Wood, moisture: float) -> float | None:
    """Weight of a volume in cubic mm at that moisture; None where the wood's G is not known."""
    return None if wood.g12 is None else volume * density(wood.g12, moisture)
