"""Beams that lie free on two supports or stand out beyond one: sag, bending moment, stress.

Lengths in mm, forces in N, stiffness in N/mm2 (the wood's modulus of elasticity) times mm4. A load is spread
evenly from `start` to `end`, measured from the left support, or from the root of what stands out. The
formulas are the standard ones of every engineering handbook: 5 W L^3 / 384 E I for a load W spread evenly,
P L^3 / 48 E I for one in the middle (USDA Wood Handbook FPL-GTR-190 (2010) Table 9-1, from memory).
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows

_POINT = 1e-6  # mm: a load shorter than this is at one point


class Load(NamedTuple):
    """A force spread evenly from `start` to `end`; at one point where these are equal."""

    start: float
    end: float
    force: float


class Section(NamedTuple):
    """A cross-section: its second moment of area, mm4, and its section modulus, mm3."""

    inertia: float
    modulus: float


def rectangle(width: float, depth: float) -> Section:
    """A rectangle that bends over its depth: b d^3 / 12 and b d^2 / 6."""
    return Section(width * depth**3 / 12.0, width * depth**2 / 6.0)


def leaning_rectangle(width: float, depth: float, sine: float) -> Section:
    """A rectangle turned about its length, by the sine of the angle between its width and the level.

    The bending stays upright: what a leaning section moves aside is left out.
    """
    across, up = sine * sine, 1.0 - sine * sine
    inertia = (width * depth**3 * up + depth * width**3 * across) / 12.0
    return Section(inertia, 2.0 * inertia / (depth * math.sqrt(up) + width * abs(sine)))


def round_section(diameter: float) -> Section:
    """A round: pi d^4 / 64 and pi d^3 / 32."""
    return Section(math.pi * diameter**4 / 64.0, math.pi * diameter**3 / 32.0)


def sag(span: float, loads: Sequence[Load], stiffness: float) -> float:
    """How far the middle of a beam on two supports goes down; of an evenly spread load 5 W L^3 / 384 E I."""
    half = span / 2.0
    total = 0.0
    for start, end, force in loads:
        if end - start <= _POINT:
            middle = (start + end) / 2.0
            near = min(middle, span - middle)
            total += force * near * (3.0 * span * span - 4.0 * near * near)
            continue
        left = _share(min(end, half), span) - _share(min(start, half), span)
        right = _share(min(span - start, half), span) - _share(min(span - end, half), span)
        total += force * (left + right) / (end - start)
    return total / (48.0 * stiffness)


def _share(near: float, span: float) -> float:
    """What loads of one a mm from the support to `near` add: the integral of x (3 L^2 - 4 x^2)."""
    square = near * near
    return square * (1.5 * span * span - square)


def left_reaction(span: float, loads: Sequence[Load]) -> float:
    """What the left support carries, by the lever rule."""
    return sum([force * (span - (start + end) / 2.0) for start, end, force in loads]) / span


def most_moment(span: float, loads: Sequence[Load]) -> float:
    """The largest bending moment of a beam on two supports, N mm: P L / 4 of a load in the middle.

    Loads press down, so the shear only falls from left to right: the moment is largest where it comes to nought.
    """
    up = left_reaction(span, loads)
    if len(loads) == 1:
        start, end, force = loads[0]
        return up * (start + up * (end - start) / force / 2.0) if force else 0.0
    edges = sorted({edge for start, end, _ in loads for edge in (start, end)})
    after = bisect_left(edges, True, key=lambda edge: up <= sum([_before(load, edge) for load in loads]))
    near = edges[max(0, after - 1) : after + 1]
    near += [x for edge in near if (x := _no_shear(up, loads, edge)) is not None]
    return max([up * x - _turned(loads, x) for x in near], default=0.0)


def _no_shear(up: float, loads: Sequence[Load], edge: float) -> float | None:
    """Where the shear comes to nought right of a place, should the loads there go on as they are."""
    left = up - sum([_before(load, edge) for load in loads])
    dense = sum([force / (end - start) for start, end, force in loads if start <= edge < end - _POINT])
    if left <= 0.0 or dense <= 0.0:
        return None
    x = edge + left / dense
    return x if all(not edge < load.start < x and not edge < load.end < x for load in loads) else None


def _before(load: Load, x: float) -> float:
    """How much of a load lies left of a place."""
    start, end, force = load
    if x >= end:
        return force
    return force * (x - start) / (end - start) if x > start else 0.0


def _turned(loads: Sequence[Load], x: float) -> float:
    """The moment about a place of what lies left of it."""
    return sum(
        [part * (x - (load.start + min(x, load.end)) / 2.0) for load in loads if (part := _before(load, x))]
    )


def tip_sag(reach: float, loads: Sequence[Load], stiffness: float) -> float:
    """How far the tip of what stands out goes down: P L^3 / 3 E I at the tip, W L^3 / 8 E I spread evenly.

    The root is taken to stay level.
    """
    total = 0.0
    for start, end, force in loads:
        if end - start <= _POINT:
            total += force * start * start * (3.0 * reach - start) / 6.0
        else:
            total += force * (_tip_share(end, reach) - _tip_share(start, reach)) / (end - start)
    return total / stiffness


def _tip_share(at: float, reach: float) -> float:
    """What loads of one a mm from the root to `at` add: the integral of x^2 (3 L - x) / 6."""
    return at**3 * (4.0 * reach - at) / 24.0


def root_moment(loads: Sequence[Load]) -> float:
    """The bending moment at the root of what stands out, N mm."""
    return sum([force * (start + end) / 2.0 for start, end, force in loads])


@cache
def across_the_grain() -> float:
    """How stiff and strong wood is across its grain, as a share of along it (common practice, no source)."""
    share: float = rows("beams", "across_the_grain")["wood"]["share"]
    return share
