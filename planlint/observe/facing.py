"""Which two parts may have an opening between them: both touch two others, and nothing fills the way from one to
the other.

In a piece of few parts that is every two. In a large one, a row of slats on two rails, each part would be asked
with each other; there the parts that touch one are walked through from the nearest on, and the walk ends behind the
first that lies right across the whole of it: whatever comes behind that one is shut off by it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from planlint.build.piece import Part
from planlint.geometry.vector import EXACT, Vec
from planlint.observe.extents import FEW, Extents, Spans


def that_may_face(
    parts: Sequence[Part], beside: Sequence[int], measured: Extents
) -> Iterator[tuple[int, list[int]]]:
    """For each part that has some, by orders, the later ones that may face it; bit n of `beside` stands for a
    part that touches this one.
    """
    met = _Walk(parts, beside, measured).met() if len(parts) > FEW else None
    for first, mine in enumerate(beside):
        if mine & (mine - 1):
            others = range(first + 1, len(beside)) if met is None else sorted(met.get(first, ()))
            found = []
            for second in others:
                both = mine & beside[second]
                if both & (both - 1):  # two at least touch both
                    found.append(second)
            if found:
                yield first, found


class _Walk:
    """From each part, along its two axes across, through those that touch what it touches."""

    def __init__(self, parts: Sequence[Part], beside: Sequence[int], measured: Extents) -> None:
        self.parts = parts
        self.beside = beside
        self.measured = measured
        self.touching = [_orders(bits) for bits in beside]
        self.ranked: dict[tuple[int, Vec, bool], tuple[list[float], list[int]]] = {}

    def met(self) -> dict[int, set[int]]:
        """By a part's order, the later ones that it or that meet it on the way."""
        found: dict[int, set[int]] = {}
        for part in self.parts:
            for other in self._met_from(part):
                first, second = sorted((part.order, other))
                found.setdefault(first, set()).add(second)
        return found

    def _met_from(self, part: Part) -> Iterator[int]:
        along = self.measured.along(part.along)
        for way, other in ((part.across, part.through), (part.through, part.across)):
            apart, deep = self.measured.along(way), self.measured.along(other)
            for rail in self.touching[part.order]:
                for upward in (True, False):
                    yield from self._met(
                        part.order, along, deep, *self._beyond(rail, way, apart, part.order, upward)
                    )

    def _beyond(self, rail: int, way: Vec, apart: Spans, order: int, upward: bool) -> tuple[list[int], int]:
        """What touches the rail, from this part's side outward: the list, and where in it to begin."""
        places, orders = self._rank(rail, way, apart, upward)
        edge = apart[order][1] if upward else -apart[order][0]
        return orders, bisect_left(places, edge + EXACT)

    def _rank(self, rail: int, way: Vec, apart: Spans, upward: bool) -> tuple[list[float], list[int]]:
        """What touches the rail by its nearer edge along a direction, or against it."""
        found = self.ranked.get((rail, way, upward))
        if found is None:
            near = [(apart[one][0] if upward else -apart[one][1], one) for one in self.touching[rail]]
            near.sort()
            found = self.ranked[rail, way, upward] = [place for place, _ in near], [one for _, one in near]
        return found

    def _met(self, order: int, along: Spans, deep: Spans, orders: list[int], start: int) -> Iterator[int]:
        """One after another, up to the first that lies across the whole of this part."""
        (low, high), (bottom, top) = along[order], deep[order]
        for other in orders[start:]:
            yield other
            (a, b), (c, d) = along[other], deep[other]
            if a <= low and b >= high and c < top - EXACT and d > bottom + EXACT:
                return


def _orders(bits: int) -> list[int]:
    """The orders that the bits stand for, from the last."""
    found = []
    while bits:
        order = bits.bit_length() - 1
        bits ^= 1 << order
        found.append(order)
    return found
