"""How far every part reaches in a direction, worked out once for each direction."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.shelves import Shelves
from planlint.geometry.solid import extent
from planlint.geometry.vector import Vec, world_axis

# By a part's order: from where to where it reaches along a direction, mm.
Spans = list[tuple[float, float]]

FEW = 60  # parts: up to here every two are asked, which is quicker than to sort them first


class Extents:
    """The parts of a piece measured along any direction."""

    __slots__ = ("_shelves", "_spans", "parts")

    def __init__(self, parts: list[Part]) -> None:
        self.parts = parts
        self._spans: dict[Vec, Spans] = {}
        self._shelves: dict[Vec, Shelves] = {}

    def along(self, way: Vec) -> Spans:
        """The spans of all parts along a unit direction."""
        found = self._spans.get(way)
        if found is None:
            found = self._spans[way] = self._measure(way)
        return found

    def reaching(self, way: Vec, low: float, high: float) -> Iterable[int]:
        """The orders of all parts that reach into an interval along a direction, and of others near it."""
        if len(self.parts) <= FEW:
            return range(len(self.parts))  # to lay them out would take longer than to look at them
        found = self._shelves.get(way)
        if found is None:
            found = self._shelves[way] = Shelves(self.along(way))
        return found.reaching(low, high)

    def _measure(self, way: Vec) -> Spans:
        axis = world_axis(way)
        solids = [part.solid for part in self.parts]
        if axis is None:
            return [extent(solid, way) for solid in solids]
        if way[axis] > 0.0:  # the bounds say it
            return [(solid.low[axis], solid.high[axis]) for solid in solids]
        return [(-solid.high[axis], -solid.low[axis]) for solid in solids]


@once_a_piece
def extents_of(piece: Piece) -> Extents:
    """The parts of a piece, to be measured along any direction."""
    return Extents(piece.parts)
