"""The six sides and three directions as axes: x to the right, y to the back, z up."""

from __future__ import annotations

from planlint.geometry.vector import WORLD, Vec, scale
from planlint.read.plan import Direction, Side

AXIS_OF_DIRECTION: dict[str, int] = {"left-right": 0, "front-back": 1, "up": 2}
DIRECTIONS: tuple[Direction, Direction, Direction] = ("left-right", "front-back", "up")

# Each side as (axis, sign).
OF_SIDE: dict[str, tuple[int, int]] = {
    "left": (0, -1), "right": (0, 1), "front": (1, -1), "back": (1, 1), "bottom": (2, -1), "top": (2, 1),
}  # fmt: skip
SIDES: dict[tuple[int, int], Side] = {
    (0, -1): "left", (0, 1): "right", (1, -1): "front", (1, 1): "back", (2, -1): "bottom", (2, 1): "top",
}  # fmt: skip
UP: Vec = WORLD[2]


def toward(side: str) -> Vec:
    """The unit vector that looks out of that side of the piece."""
    axis, sign = OF_SIDE[side]
    return scale(WORLD[axis], float(sign))
