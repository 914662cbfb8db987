"""How far every part reaches in a direction, worked out once for each direction."""

from __future__ import annotations

from planlint.build.piece import Part
from planlint.geometry.solid import extent
from planlint.geometry.vector import Vec

# By a part's order: from where to where it reaches along a direction, mm.
Spans = list[tuple[float, float]]


class Extents:
    """The parts of a piece measured along any direction."""

    __slots__ = ("_spans", "parts")

    def __init__(self, parts: list[Part]) -> None:
        self.parts = parts
        self._spans: dict[Vec, Spans] = {}

    def along(self, way: Vec) -> Spans:
        """The spans of all parts along a unit direction."""
        found = self._spans.get(way)
        if found is None:
            found = self._spans[way] = [extent(part.solid, way) for part in self.parts]
        return found
