"""How far every part reaches in a direction, worked out once for each direction."""

from __future__ import annotations

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.solid import extent
from planlint.geometry.vector import Vec, world_axis

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
            found = self._spans[way] = self._measure(way)
        return found

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
