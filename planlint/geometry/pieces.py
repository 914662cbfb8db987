"""What is left of a flat convex polygon when convex areas are taken away: convex pieces side by side."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.geometry.outline import Flat, area
from planlint.geometry.vector import Vec

LEAST = 1e-2  # mm²: what is smaller is nothing

Polygon = tuple[Flat, ...]
Taken = tuple[tuple[float, float, float, float], list[Vec]]  # bounds, half-planes a·u + b·v <= c


def pieces_left(polygon: Polygon, taken: Sequence[Taken]) -> list[Polygon]:
    """The pieces; each area is given by its bounds (low u, low v, high u, high v) and its half-planes.

    The area in the middle of the list is taken first and the others only where they still meet a piece: so a long
    board under many slats does not cost the square of the slats.
    """
    low_u, low_v, high_u, high_v = bounds(polygon)
    near = [
        one for one in taken
        if one[0][0] < high_u and one[0][2] > low_u and one[0][1] < high_v and one[0][3] > low_v
    ]  # fmt: skip
    if not near:
        return [polygon]
    middle = len(near) // 2
    left = outside(polygon, near[middle][1])
    rest = near[:middle] + near[middle + 1 :]
    return [piece for part in left for piece in pieces_left(part, rest)] if rest else left


def outside(polygon: Polygon, half_planes: Sequence[Vec]) -> list[Polygon]:
    """What of a polygon lies outside at least one of the half-planes; the polygon itself if all of it does."""
    found: list[Polygon] = []
    rest = polygon
    for a, b, c in half_planes:
        inside, beyond = _parted(rest, a, b, c)
        if not inside:
            return [polygon]
        if beyond:
            found.append(beyond)
        rest = inside
    return found


def bounds(polygon: Sequence[Flat]) -> tuple[float, float, float, float]:
    """Low u, low v, high u, high v."""
    us, vs = [p[0] for p in polygon], [p[1] for p in polygon]
    return min(us), min(vs), max(us), max(vs)


def _parted(polygon: Polygon, a: float, b: float, c: float) -> tuple[Polygon, Polygon]:
    """The polygon on the inner and the outer side of a line; empty where there is next to nothing."""
    over = [a * u + b * v - c for u, v in polygon]
    if max(over) <= 1e-6:
        return polygon, ()
    if min(over) >= -1e-6:
        return (), polygon
    inside: list[Flat] = []
    beyond: list[Flat] = []
    before, was = polygon[-1], over[-1]
    for point, now in zip(polygon, over, strict=True):
        if (was < 0.0 < now) or (now < 0.0 < was):
            part = was / (was - now)
            cut = (before[0] + (point[0] - before[0]) * part, before[1] + (point[1] - before[1]) * part)
            inside.append(cut)
            beyond.append(cut)
        if now <= 0.0:
            inside.append(point)
        if now >= 0.0:
            beyond.append(point)
        before, was = point, now
    return _worth(inside), _worth(beyond)


def _worth(polygon: list[Flat]) -> Polygon:
    return tuple(polygon) if len(polygon) > 2 and area(polygon) > LEAST else ()
