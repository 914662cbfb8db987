"""Vectors as plain tuples, in mm. Right-handed axes: x to the right, y to the back, z up."""

from __future__ import annotations

import math

Vec = tuple[float, float, float]

WORLD: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
EXACT = 0.01  # mm: what is smaller than this is nothing
NOISE = 1e-6  # mm: what floats may differ by for one and the same point

_ALIKE = 1e-9  # a direction this near to a world axis is that axis


def add(a: Vec, b: Vec) -> Vec:
    """The sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """The way from b to a."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, by: float) -> Vec:
    """The vector made `by` times as long."""
    return (a[0] * by, a[1] * by, a[2] * by)


def onward(a: Vec, way: Vec, by: float) -> Vec:
    """The point `by` times `way` on from a: the most used of all, so that it is one step."""
    return (a[0] + way[0] * by, a[1] + way[1] * by, a[2] + way[2] * by)


def dot(a: Vec, b: Vec) -> float:
    """The dot product: how far a reaches along a unit b."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """The cross product, square to both by the right-hand rule."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def length(a: Vec) -> float:
    """The length, mm."""
    return math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def unit(a: Vec) -> Vec:
    """The direction of `a`, one long. Raises ValueError for a vector without length."""
    size = length(a)
    if size == 0.0:
        raise ValueError("a vector without length has no direction")
    return (a[0] / size, a[1] / size, a[2] / size)


def lerp(a: Vec, b: Vec, part: float) -> Vec:
    """The point `part` of the way from a (0) to b (1)."""
    return (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part, a[2] + (b[2] - a[2]) * part)


def turn(v: Vec, axis: Vec, degrees: float) -> Vec:
    """`v` turned about `axis` by the right-hand rule. Quarter turns are exact, so that boxes stay boxes."""
    k = unit(axis)
    cos, sin = _cos_sin(degrees)
    along = dot(k, v) * (1.0 - cos)
    side = cross(k, v)
    return (
        v[0] * cos + side[0] * sin + k[0] * along,
        v[1] * cos + side[1] * sin + k[1] * along,
        v[2] * cos + side[2] * sin + k[2] * along,
    )


def world_axis(direction: Vec) -> int | None:
    """0, 1 or 2 when the unit direction lies along that world axis, either way; else None."""
    x, y, z = abs(direction[0]), abs(direction[1]), abs(direction[2])
    if x < _ALIKE:
        if y < _ALIKE:
            return 2
        return 1 if z < _ALIKE else None
    return 0 if y < _ALIKE and z < _ALIKE else None


def _cos_sin(degrees: float) -> tuple[float, float]:
    quarters, rest = divmod(degrees, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    angle = math.radians(degrees)
    return math.cos(angle), math.sin(angle)
