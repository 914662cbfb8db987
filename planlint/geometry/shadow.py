"""What one convex solid hides from an eye that looks from far away: the space behind it.

In a view a point has u to the right, v up and w towards the eye (mm). A point is hidden when, on its way to the eye,
it goes into the solid deeper than a graze: that is where it lies inside the outline and below the nearest surface,
both of them half-spaces, so on a straight line it is one stretch.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from planlint.geometry.outline import Flat, hull2d
from planlint.geometry.solid import Solid
from planlint.geometry.vector import EXACT, Vec, cross, dot, unit

FACING = 1e-6  # cosine from which a face is seen at all
GRAZE = 0.03  # mm: surfaces that are no further apart are one

Line3 = tuple[float, float, float, float, float, float]  # u, v, w of a start, and the way to the end


class Eye(NamedTuple):
    """How a view is looked at: unit directions on the paper to the right and up, and towards the eye."""

    right: Vec
    up: Vec
    toward: Vec

    def see(self, point: Vec) -> Vec:
        """A point as u, v, w."""
        return dot(self.right, point), dot(self.up, point), dot(self.toward, point)


def looking_from(toward: Vec) -> Eye:
    """The eye in that direction, with the world's up as near to the paper's up as may be."""
    to_eye = unit(toward)
    right = unit(cross((0.0, 0.0, 1.0), to_eye))
    return Eye(right, cross(to_eye, right), to_eye)


class Shadow:
    """A solid as a view has it: its bounds, its nearest point, outline and front.

    `walls` (a, b, c): inside the outline is a·u + b·v <= c. `front` (a, b, c): each face that looks to the eye lies at
    w = a·u + b·v + c; the surface is the least of them.
    """

    __slots__ = ("front", "high_u", "high_v", "low_u", "low_v", "near", "of", "outline", "points", "walls")

    def __init__(self, solid: Solid, eye: Eye, of: int) -> None:
        self.of = of  # the body's index
        self.points = [eye.see(point) for point in solid.vertices]
        us, vs = [p[0] for p in self.points], [p[1] for p in self.points]
        self.low_u, self.high_u, self.low_v, self.high_v = min(us), max(us), min(vs), max(vs)
        self.near = max([p[2] for p in self.points])
        self.outline = hull2d([(p[0], p[1]) for p in self.points])
        self.walls = _walls(self.outline)
        self.front = tuple([front for plane in solid.planes if (front := facing(plane, eye)) is not None])

    def hidden(self, line: Line3) -> tuple[float, float] | None:
        """The stretch (0 to 1) of a line that the solid hides; on its very outline counts, so that no line doubles."""
        return self._stretch(line, EXACT, -GRAZE)

    def carries_on(self, line: Line3) -> tuple[float, float] | None:
        """The stretch along which the solid is there and not further back than the line: no jump in depth."""
        return self._stretch(line, 0.0, 10.0 * GRAZE)

    def hides_all(self, other: Shadow) -> bool:
        """Whether nothing of another solid is to be seen beside or before this one."""
        for a, b, c in self.walls:
            for u, v, _ in other.points:
                if a * u + b * v > c + EXACT:
                    return False
        for a, b, c in self.front:
            for u, v, w in other.points:
                if a * u + b * v + c < w + GRAZE:
                    return False
        return bool(self.walls)

    def surface(self, u: float, v: float) -> float | None:
        """The w of the surface at a place; None outside the outline."""
        if not self.walls or any(a * u + b * v > c for a, b, c in self.walls):
            return None
        return min([a * u + b * v + c for a, b, c in self.front], default=self.near)

    def region_before(self, plane: Vec) -> list[Vec] | None:
        """Where the solid hides a face at w = a·u + b·v + c: half-planes as `walls`; None where nowhere."""
        p, q, r = plane
        found = list(self.walls)
        for a, b, c in self.front:
            x, y, z = p - a, q - b, c - r - GRAZE
            size = math.hypot(x, y)
            if size > 1e-9:
                found.append((x / size, y / size, z / size))
            elif z < 0.0:
                return None
        return found

    def _stretch(self, line: Line3, beyond: float, above: float) -> tuple[float, float] | None:
        u, v, w, du, dv, dw = line
        low, high = 0.0, 1.0
        for a, b, c in self.walls:
            inside, change = c + beyond - a * u - b * v, -a * du - b * dv
            if inside < 0.0:
                if inside + change <= 0.0:
                    return None
                low = max(low, -inside / change)
            elif inside + change < 0.0:
                high = min(high, -inside / change)
        for a, b, c in self.front:
            inside, change = a * u + b * v + c + above - w, a * du + b * dv - dw
            if inside < 0.0:
                if inside + change <= 0.0:
                    return None
                low = max(low, -inside / change)
            elif inside + change < 0.0:
                high = min(high, -inside / change)
        return (low, high) if high > low and self.walls else None


def facing(plane: tuple[Vec, float], eye: Eye) -> Vec | None:
    """A face that looks to the eye, as a, b, c of w = a·u + b·v + c; None for one that does not."""
    normal, offset = plane
    to_eye = dot(normal, eye.toward)
    if to_eye <= FACING:
        return None
    return -dot(normal, eye.right) / to_eye, -dot(normal, eye.up) / to_eye, offset / to_eye


def _walls(outline: Sequence[Flat]) -> tuple[Vec, ...]:
    """The half-planes of an outline that runs counter-clockwise."""
    if len(outline) < 3:
        return ()
    found: list[Vec] = []
    x0, y0 = outline[-1]
    for x1, y1 in outline:
        a, b = y1 - y0, x0 - x1
        size = math.hypot(a, b)
        found.append((a / size, b / size, (a * x0 + b * y0) / size))
        x0, y0 = x1, y1
    return tuple(found)
