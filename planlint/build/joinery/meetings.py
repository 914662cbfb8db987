"""Which pieces that a join names meet, over what areas; and the pieces that meet none."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from planlint.build.joinery.touching import Touch, Touching
from planlint.build.piece import Part, Unmet
from planlint.geometry.meeting import distance, line_contact, patches
from planlint.read.plan import Join
from planlint.trade.joinery import plate
from planlint.trade.screws import kind


class Pair:
    """Two pieces that a join names and that meet, seen from the first-named."""

    __slots__ = ("first", "join", "second", "touch")

    def __init__(self, join: Join, first: Part, second: Part, touch: Touch) -> None:
        self.join = join
        self.first = first
        self.second = second
        self.touch = touch


def reach(join: Join, fit: float) -> float:
    """How much may be between the parts of this join for them to meet: a fitting, or a stated play, spans a
    gap.
    """
    most = fit
    for fastening in join.fastenings:
        if fastening.kind == "counted":
            found = kind(fastening.noun.text)
            fitting = None if found is None else plate(found.noun)
            if fitting is not None:
                most = max(most, fitting.reach)
        elif fastening.kind == "loose" and fastening.gap is not None:
            most = max(most, fastening.gap[1].value + fit)
    return most


def pair_up(
    join: Join, firsts: Sequence[Part], seconds: Sequence[Part], touching: Touching, far: float
) -> tuple[list[Pair], list[Unmet]]:
    """Every two pieces of a join that meet, each two once; and the first-named pieces that meet none.

    `far` mm may be between them (see `reach`).
    """
    wanted = {part.order for part in seconds}
    pairs: list[Pair] = []
    taken: set[tuple[int, int]] = set()
    unmet: list[Unmet] = []
    for first in firsts:
        met = False
        for order in touching.near[first.order]:
            if order not in wanted:
                continue
            touch = _touch(first, touching.parts[order], touching, far)
            if touch is None:
                continue
            met = True
            if (order, first.order) not in taken:
                taken.add((first.order, order))
                pairs.append(Pair(join, first, touch.second, touch))
        if not met:
            unmet.append(_unmet(join, first, seconds, touching.fit))
    return pairs, unmet


def _touch(first: Part, second: Part, touching: Touching, far: float) -> Touch | None:
    touch = touching.between(first, second)
    if touch is not None or far <= touching.fit:
        return touch
    met = patches(first.solid, second.solid, far)
    return Touch(first, second, met, None, 0.0, (0.0, 0.0, 0.0)) if met else None


def _unmet(join: Join, part: Part, others: Iterable[Part], fit: float) -> Unmet:
    nearest, gap = None, math.inf
    apart = sorted([(_bounds_gap(part, other), other.order, other) for other in others if other is not part])
    for least, _, other in apart:
        if least >= gap:
            break
        found = distance(part.solid, other.solid)
        if found < gap:
            nearest, gap = other, found
    line_only = nearest is not None and line_contact(part.solid, nearest.solid, fit)
    return Unmet(join, part, nearest, gap, line_only)


def _bounds_gap(first: Part, second: Part) -> float:
    a, b = first.solid, second.solid
    gaps = [max(0.0, b.low[i] - a.high[i], a.low[i] - b.high[i]) for i in (0, 1, 2)]
    return math.sqrt(gaps[0] ** 2 + gaps[1] ** 2 + gaps[2] ** 2)
