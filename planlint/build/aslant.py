"""A part between faces that slope: both ends lie in the faces, and the section goes where the plan says.

The part keeps its axes; what is unknown is where its centre line crosses the plane square to it: two
numbers, across its width and its thickness. Each position in the plan is one equation for them, and so is
the length where the faces have different slopes. All are piecewise linear, so Newton's steps end exactly.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from planlint.geometry.body import Axes, Plane
from planlint.geometry.vector import Vec, dot, onward, scale

Spot = tuple[float, float]  # mm across the width, across the thickness
Equation = Callable[[Spot], float]  # how far from right, mm

_STEP = 0.01  # mm, for slopes
_STEPS = 30
_SMALL = 1e-9
_INDEPENDENT = 1e-6


class End(NamedTuple):
    """The plane that an end is cut to, the part inside it; `sign`: at the low or high end of its length."""

    sign: int
    plane: Plane


class Bar:
    """The part as an endless bar between two end planes, placed by a `Spot`; `corners`: of its section."""

    __slots__ = ("axes", "corners", "ends")

    def __init__(self, axes: Axes, corners: Sequence[Spot], ends: tuple[End, End]) -> None:
        self.axes = axes
        self.ends = ends
        self.corners = corners

    def along(self, end: End, across: Spot) -> float:
        """Where a line along the bar meets an end, along its length."""
        (normal, offset), (length, wide, thick) = end.plane, self.axes
        return (offset - dot(normal, wide) * across[0] - dot(normal, thick) * across[1]) / dot(normal, length)

    def reach(self, spot: Spot) -> tuple[float, float]:
        """Tip to tip: the least and the most along the length."""
        low, high = sorted(self.ends, key=lambda end: end.sign)
        edges = [(v + spot[0], w + spot[1]) for v, w in self.corners]
        return min(self.along(low, e) for e in edges), max(self.along(high, e) for e in edges)

    def length(self, spot: Spot) -> float:
        """Over all, tip to tip; negative where the ends have passed each other."""
        low, high = self.reach(spot)
        return high - low

    def bounds(self, spot: Spot, axis: int) -> tuple[float, float]:
        """The outermost points on a world axis."""
        length, wide, thick = self.axes
        found = []
        for v, w in self.corners:
            across = (v + spot[0], w + spot[1])
            base = wide[axis] * across[0] + thick[axis] * across[1]
            found.extend([base + length[axis] * self.along(end, across) for end in self.ends])
        return min(found), max(found)

    def edge(self, spot: Spot, axis: int, at: Spot) -> float:
        """The place on an axis of the long edge at `at` of the section; the axis is square to the bar."""
        _, wide, thick = self.axes
        return wide[axis] * (spot[0] + at[0]) + thick[axis] * (spot[1] + at[1])

    def centre(self, spot: Spot) -> Vec:
        """The middle of the box round it, tip to tip."""
        low, high = self.reach(spot)
        length, wide, thick = self.axes
        return onward(onward(scale(length, (low + high) / 2.0), wide, spot[0]), thick, spot[1])


def end_of(face: Plane, along: Vec, square: float, deeper: float) -> End:
    """The end in a face (normal toward the part), sunk `square` to it and `deeper` along the length."""
    normal = scale(face.normal, -1.0)
    steep = dot(normal, along)
    return End(1 if steep > 0 else -1, Plane(normal, square + deeper * abs(steep) - face.offset))


def solve(equations: Sequence[Equation]) -> tuple[Spot, list[int]]:
    """The spot that the first two independent equations fix, and which they are; fewer than two fix none."""
    used: list[int] = []
    slopes: list[Spot] = []
    for i, equation in enumerate(equations):
        slope = _slope(equation, (0.0, 0.0))
        if abs(slope[0]) + abs(slope[1]) < _INDEPENDENT:
            continue
        if not used or abs(slopes[0][0] * slope[1] - slopes[0][1] * slope[0]) > _INDEPENDENT:
            used.append(i)
            slopes.append(slope)
        if len(used) == 2:
            return _newton(equations[used[0]], equations[used[1]]), used
    return (0.0, 0.0), used


def free_way(equations: Sequence[Equation]) -> Spot:
    """The way the bar can still slide when one equation holds; (1, 1) when none does."""
    for equation in equations:
        a, b = _slope(equation, (0.0, 0.0))
        if abs(a) + abs(b) >= _INDEPENDENT:
            return (-b, a)
    return (1.0, 1.0)


def _newton(first: Equation, second: Equation) -> Spot:
    spot = (0.0, 0.0)
    for _ in range(_STEPS):
        r, s = first(spot), second(spot)
        if abs(r) + abs(s) < _SMALL:
            break
        (a, b), (c, d) = _slope(first, spot), _slope(second, spot)
        det = a * d - b * c
        if abs(det) < _INDEPENDENT:
            break
        spot = (spot[0] - (r * d - s * b) / det, spot[1] - (a * s - c * r) / det)
    return spot


def _slope(equation: Equation, spot: Spot) -> Spot:
    here = equation(spot)
    return (
        (equation((spot[0] + _STEP, spot[1])) - here) / _STEP,
        (equation((spot[0], spot[1] + _STEP)) - here) / _STEP,
    )
