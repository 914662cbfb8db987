"""Where labels go on paper so that none lies on another: boxes that are taken, and the first free one of several."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planlint.drawing.letters import ASCENT, DESCENT, width


class Box(NamedTuple):
    """A rectangle along the paper's edges, mm, y down: left, top, right, bottom."""

    left: float
    top: float
    right: float
    bottom: float

    def over(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        """Whether all of it lies in the other."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )


class Paper:
    """The boxes that are taken so far."""

    __slots__ = ("taken",)

    def __init__(self) -> None:
        self.taken: list[Box] = []

    def is_free(self, box: Box) -> bool:
        """Whether nothing lies there yet."""
        return not any(box.over(other) for other in self.taken)

    def take(self, box: Box) -> None:
        """Keep this box free from now on."""
        self.taken.append(box)

    def first_free(self, wanted: Iterable[Box]) -> Box | None:
        """The first of these that is free, taken; None where none is."""
        for box in wanted:
            if self.is_free(box):
                self.take(box)
                return box
        return None


def box_of(text: str, x: float, y: float, size: float, anchor: str = "start") -> Box:
    """The box of a text whose baseline begins, has its middle, or ends (`anchor`) at a point."""
    wide = width(text, size)
    left = x - (wide if anchor == "end" else wide / 2.0 if anchor == "middle" else 0.0)
    return Box(left, y - ASCENT * size, left + wide, y + DESCENT * size)
