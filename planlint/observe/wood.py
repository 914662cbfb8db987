"""Where a piece's wood goes on: what touches what, what is glued to what, and how far it is to open air."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Passage, Piece
from planlint.geometry.path import cross_line
from planlint.geometry.vector import EXACT, NOISE, Vec, dot, onward
from planlint.observe.extents import FEW, extents_of
from planlint.trade.joinery import reach

_END_ON = 0.5  # cos of 60 deg: a face that looks more than this along the grain is an end


class Wood:
    """The parts beside each part; the pairs that are `glued` face to face, and all parts of them (`bonded`).

    `fit` mm between two parts count as none.
    """

    __slots__ = ("_extents", "_touching", "beside", "bonded", "fit", "glued")

    def __init__(self, piece: Piece) -> None:
        self._extents = extents_of(piece)
        self._touching: dict[int, dict[int, Part]] = {}
        self.fit = reach(piece.plan.heading.units not in ("in", "ft"))
        self.beside: dict[int, list[Part]] = {}
        for first, second, _ in piece.contacts:
            self.beside.setdefault(first.order, []).append(second)
            self.beside.setdefault(second.order, []).append(first)
        self.glued = {
            (meeting.first.order, meeting.second.order)
            for meeting in piece.meetings
            if "glue" in [one.kind for one in meeting.join.fastenings]
            and any(_long_grain(meeting.first, meeting.second, patch.normal) for patch in meeting.patches)
        }
        self.bonded = {order for pair in self.glued for order in pair}

    def are_glued(self, first: Part, second: Part) -> bool:
        """Whether two parts are glued face to face or edge to edge, so that they are as one."""
        return (first.order, second.order) in self.glued or (second.order, first.order) in self.glued

    def end(self, passages: tuple[Passage, ...]) -> tuple[int, float]:
        """Where the wood from the entry on ends along an axis: the last passage's index, and how far."""
        last, end = 0, 0.0
        for index, (_, enter, leave) in enumerate(passages):
            if enter > end + self.fit:
                break
            last, end = index, leave
        return last, end

    def as_one(self, passages: tuple[Passage, ...], index: int) -> float:
        """How far along the axis the wood of this passage goes, parts glued on behind it included."""
        part, _, end = passages[index]
        for behind, enter, leave in passages[index + 1 :]:
            if enter > end + self.fit or not (behind is part or self.are_glued(part, behind)):
                break
            part, end = behind, leave
        return end

    def to_open_air(
        self, part: Part, point: Vec, normal: Vec, depth: float, *, glued_only: bool = False
    ) -> float:
        """The wood from a point out through a face `depth` away, with the parts that lie on (are glued to) it."""
        foot = x, y, z = onward(point, normal, depth)
        fit = self.fit + NOISE
        for other in self._beside_at(part, foot):
            (x0, y0, z0), (x1, y1, z1) = other.solid.low, other.solid.high
            if x < x0 - fit or x > x1 + fit or y < y0 - fit or y > y1 + fit or z < z0 - fit or z > z1 + fit:
                continue
            if glued_only and not self.are_glued(part, other):
                continue
            way = cross_line(other.solid, foot, normal)
            if way is not None and way[0] <= self.fit and way[1] > EXACT:
                return depth + way[1]
        return depth

    def _beside_at(self, part: Part, point: Vec) -> Sequence[Part]:
        """The parts beside this one; of a rail with many slats, only those near the point along the rail."""
        beside = self.beside.get(part.order, ())
        if len(beside) <= FEW:
            return beside
        at, fit = dot(point, part.along), self.fit + NOISE
        touching = self._touching.get(part.order)
        if touching is None:
            touching = self._touching[part.order] = {other.order: other for other in beside}
        near = sorted(self._extents.reaching(part.along, at - fit, at + fit))
        return [touching[order] for order in near if order in touching]


@once_a_piece
def wood_of(piece: Piece) -> Wood:
    """Where a piece's wood goes on."""
    return Wood(piece)


def _long_grain(first: Part, second: Part, normal: Vec) -> bool:
    """Whether the area is an end of neither part: glue on end grain makes nothing one."""
    return abs(dot(first.grain, normal)) < _END_ON and abs(dot(second.grain, normal)) < _END_ON
