"""What a part, or several joined ones, lie or stand on: upward contacts under the centre of gravity."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from planlint.build.piece import Part, Piece
from planlint.geometry.outline import Flat, hull2d
from planlint.geometry.vector import EXACT, Vec
from planlint.observe.ground import hangs

_STEEP = 0.9  # cos of about 25 deg: wood slides off wood that is steeper (common practice, no source)


class Underneath:
    """What each part of a piece has under it, and where its floor is: below all, where it hangs on a wall."""

    __slots__ = ("_under", "floor")

    def __init__(self, piece: Piece) -> None:
        lowest = min([part.solid.low[2] for part in piece.parts], default=0.0)
        self.floor = -math.inf if hangs(piece) else lowest
        self._under: dict[int, list[tuple[Part, tuple[Vec, ...]]]] = {}
        for first, second, patches in piece.contacts:
            for patch in patches:
                if patch.normal[2] < -_STEEP:
                    self._under.setdefault(first.order, []).append((second, patch.outline))
                elif patch.normal[2] > _STEEP:
                    self._under.setdefault(second.order, []).append((first, patch.outline))

    def supports(self, part: Part) -> tuple[Part, ...]:
        """The parts that a part lies on, where it would stay there by its weight; none if it would fall."""
        under = self._under.get(part.order, ())
        points = [(x, y) for _, outline in under for x, y, _ in outline]
        if not _over(points, part.solid.centroid):
            return ()
        return tuple({below.order: below for below, _ in under}.values())

    def on_floor(self, part: Part) -> bool:
        """Whether a part reaches the floor."""
        return part.solid.low[2] <= self.floor + EXACT

    def stands(self, parts: Iterable[Part]) -> bool:
        """Whether parts joined into one stand on the floor without falling over (by their volume)."""
        points: list[Flat] = []
        x = y = volume = 0.0
        for part in parts:
            solid = part.solid
            x, y = x + solid.centroid[0] * solid.volume, y + solid.centroid[1] * solid.volume
            volume += solid.volume
            if self.on_floor(part):
                points += [(p[0], p[1]) for p in solid.vertices if p[2] <= self.floor + EXACT]
        return volume > 0.0 and _over(points, (x / volume, y / volume, 0.0))


def _over(points: Sequence[Flat], centre: Vec) -> bool:
    """Whether a point lies over the hull of these points, its border counted."""
    x, y, _ = centre
    if _all_round(points, x, y):
        return True
    hull = hull2d(points)
    if len(hull) < 3:
        return False
    ax, ay = hull[-1]
    for bx, by in hull:
        run = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        if ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) < -EXACT * run:
            return False
        ax, ay = bx, by
    return True


def _all_round(points: Sequence[Flat], x: float, y: float) -> bool:
    """Whether a point lies off in each of the four quarters: most things that lie on others need no hull."""
    quarters = {(px > x, py > y) for px, py in points if abs(px - x) > EXACT and abs(py - y) > EXACT}
    return len(quarters) == 4
