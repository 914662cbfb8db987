"""Where on the area of two parts the fasteners of a join sit: where the plan says, else spread evenly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planlint.build.joinery.sides import SIDES
from planlint.build.piece import Part
from planlint.geometry.outline import span_along
from planlint.geometry.vector import EXACT, Vec, dot, length, onward, scale, sub, unit
from planlint.read.plan import Spots

_FLAT = 0.1  # a side that leans less than this out of an area's plane is no side of the area


class Place:
    """One fastener's place: `at` mm along the area's direction, `abreast` 0 to 1 across it (1/2: the middle
    line).
    """

    __slots__ = ("abreast", "at", "known")

    def __init__(self, at: float, abreast: float, known: bool) -> None:
        self.at = at
        self.abreast = abreast
        self.known = known


def direction_for(outline: Sequence[Vec], normal: Vec, stated: Spots | None, part: Part) -> Vec | None:
    """The direction along the area in which its places are counted; None when the stated side is none of
    its sides.

    Toward the stated side; else along the area's longest edge, and of equal ones the one nearest to the
    width of `part`, then to its length, counted from the left, the front or the bottom.
    """
    if stated is None or stated.side == "each end":
        return _longest(outline, onward(part.across, part.along, 0.5))
    side = SIDES[stated.side]
    out = dot(side, normal)
    if out == 0.0:
        return side
    flat = sub(side, scale(normal, out))
    return unit(flat) if length(flat) > _FLAT else None


def places(number: int, stated: Spots | None, low: float, high: float) -> list[Place]:
    """The places of `number` fasteners on an area that goes from `low` to `high`; the stated side is at
    `high`.

    Fewer places than fasteners: as many side by side at each where the number allows it, else the others
    are spread evenly between the outermost two.
    """
    if stated is None:
        return [Place(low + (i + 0.5) * (high - low) / number, 0.5, False) for i in range(number)]
    away = [quantity.value for quantity in stated.distances]
    points = [high - d for d in away]
    if stated.side == "each end":
        points = [low + d for d in away] + points[::-1]
    return _filled(number, points)


def _filled(number: int, points: list[float]) -> list[Place]:
    known = [Place(at, 0.5, True) for at in points[:number]]
    extra = number - len(known)
    if extra <= 0:
        return known
    if number % len(points) == 0:
        abreast = number // len(points)
        return [Place(at, (i + 0.5) / abreast, True) for at in points for i in range(abreast)]
    first, last = min(points), max(points)
    return known + [Place(first + (i + 1) * (last - first) / (extra + 1), 0.5, False) for i in range(extra)]


def points_at(outline: Sequence[Vec], direction: Vec, places: Iterable[Place]) -> list[Vec]:
    """The points of an area at these places; one beyond the area's end lies straight on from it."""
    x, y, z = direction
    heights = [px * x + py * y + pz * z for px, py, pz in outline]
    high = max(heights) - EXACT / 2
    low = min(min(heights) + EXACT / 2, high)
    edges = _rising(outline, heights)
    found: list[Vec] = []
    for place in places:
        at, abreast = place.at, place.abreast
        inside = low if at < low else high if at > high else at
        ends: list[Vec] = []
        # The line across a convex outline, square to the direction, at this distance along it.
        for (px, py, pz), (wx, wy, wz), start, end in edges:
            if (start < inside) != (end < inside):
                part = (start - inside) / ((start - inside) - (end - inside))
                ends.append((px + wx * part, py + wy * part, pz + wz * part))
        (ax, ay, az), (bx, by, bz) = ends if len(ends) == 2 else (outline[0], outline[0])
        on = at - inside
        found.append(
            (
                ax + (bx - ax) * abreast + x * on,
                ay + (by - ay) * abreast + y * on,
                az + (bz - az) * abreast + z * on,
            )
        )
    return found


def _rising(outline: Sequence[Vec], heights: Sequence[float]) -> list[tuple[Vec, Vec, float, float]]:
    """The edges that rise or fall along a direction: start, the way to the end, and the heights of both."""
    edges: list[tuple[Vec, Vec, float, float]] = []
    before, height = outline[-1], heights[-1]
    for corner, corner_height in zip(outline, heights, strict=True):
        if height != corner_height:
            (x, y, z), (u, v, w) = corner, before
            edges.append((before, (x - u, y - v, z - w), height, corner_height))
        before, height = corner, corner_height
    return edges


def _longest(outline: Sequence[Vec], rather: Vec) -> Vec:
    best, most = rather, -1.0
    before = outline[0]
    for corner in outline[1:3] if _parallelogram(outline) else (*outline[1:], before):
        edge = sub(corner, before)
        before = corner
        if length(edge) < EXACT:
            continue
        way = unit(edge)
        low, high = span_along(outline, way)
        reach = high - low
        if reach > most + EXACT or (
            reach > most - EXACT and abs(dot(way, rather)) > abs(dot(best, rather)) + 1e-6
        ):
            best, most = way, max(reach, most)
    return best if max(best, key=abs) > 0.0 else scale(best, -1.0)


def _parallelogram(outline: Sequence[Vec]) -> bool:
    if len(outline) != 4:
        return False
    (ax, ay, az), (bx, by, bz), (cx, cy, cz), (dx, dy, dz) = outline
    return abs(ax + cx - bx - dx) + abs(ay + cy - by - dy) + abs(az + cz - bz - dz) < EXACT
