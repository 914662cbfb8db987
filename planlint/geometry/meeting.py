"""Where two convex solids meet: the faces that lie on each other, the space both fill, the way between.

Two aligned boxes take a quick way by comparing numbers; a test holds both ways to the same answer.
"""

from __future__ import annotations

from planlint.geometry.apart import bounds_overlap, distance, push_apart
from planlint.geometry.body import Face, Plane, Solid
from planlint.geometry.outline import Flat, area, least_width, lift, overlap, project
from planlint.geometry.solid import block, clip, extent
from planlint.geometry.vector import EXACT, NOISE, WORLD, Vec, cross, dot, length, scale

__all__ = ["Patch", "distance", "line_contact", "patches", "push_apart", "shared"]

_OPPOSITE = -0.9999619  # cos of 179.5 deg
_BACKWARD = tuple([scale(way, -1.0) for way in WORLD])


class Patch:
    """An area over which two solids meet."""

    __slots__ = ("area", "gap", "normal", "outline")

    def __init__(self, normal: Vec, area: float, outline: tuple[Vec, ...], gap: float) -> None:
        self.normal = normal  # unit, from the first solid into the second: the first's face looks this way
        self.area = area  # mm²
        self.outline = outline  # in the first's face, counter-clockwise as seen from the second
        self.gap = gap  # mm between the faces, at the patch's middle; less than 0: they sink into each other


def patches(a: Solid, b: Solid, within: float) -> list[Patch]:
    """The patches where a face of `a` and an opposite face of `b` (within 0.5 deg) lie on each other.

    The faces are no more than `within` mm apart, nor deeper than that in each other. A patch narrower than
    0.01 mm, a line or a point, is none.
    """
    if a.aligned and b.aligned:
        return _box_patches(a, b, within)
    if _bounds_apart(a, b, within):
        return []
    found: list[Patch] = []
    for first in a.faces:
        x, y, z = first.plane.normal
        for second in b.faces:
            (u, v, w), _ = second.plane
            if x * u + y * v + z * w <= _OPPOSITE:
                patch = _face_patch(first, second, within)
                if patch is not None:
                    found.append(patch)
    return found


def line_contact(a: Solid, b: Solid, within: float) -> bool:
    """Whether two solids touch (within `within` mm) along a line or at a point only, over no area."""
    if _bounds_apart(a, b, within) or patches(a, b, within):
        return False
    return distance(a, b) <= within + NOISE and push_apart(a, b)[0] <= within + NOISE


def shared(a: Solid, b: Solid) -> Solid | None:
    """The space both fill; None when that is thinner than 0.01 mm in any direction."""
    if not bounds_overlap(a, b) or a.volume <= 0.0 or b.volume <= 0.0:
        return None
    if a.aligned and b.aligned:
        return _shared_box(a, b)
    if _parted_by_a_face(a, b) or _parted_by_a_face(b, a):
        return None
    rest = a
    for plane in b.planes:
        left = clip(rest, plane)
        if left is None:
            return None
        rest = left
    return None if _is_thin(rest) else rest


def _bounds_apart(a: Solid, b: Solid, within: float) -> bool:
    reach = within + NOISE
    (ax0, ay0, az0), (ax1, ay1, az1) = a.low, a.high
    (bx0, by0, bz0), (bx1, by1, bz1) = b.low, b.high
    return (
        bx0 - ax1 > reach
        or ax0 - bx1 > reach
        or by0 - ay1 > reach
        or ay0 - by1 > reach
        or bz0 - az1 > reach
        or az0 - bz1 > reach
    )


def _box_patches(a: Solid, b: Solid, within: float) -> list[Patch]:
    # Written out: it is asked of every two parts near each other, and a call of `min` costs as much as the rest.
    (ax0, ay0, az0), (ax1, ay1, az1) = a.low, a.high
    (bx0, by0, bz0), (bx1, by1, bz1) = b.low, b.high
    low = (bx0 if bx0 > ax0 else ax0, by0 if by0 > ay0 else ay0, bz0 if bz0 > az0 else az0)
    high = (bx1 if bx1 < ax1 else ax1, by1 if by1 < ay1 else ay1, bz1 if bz1 < az1 else az1)
    size = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    reach = within + NOISE
    found: list[Patch] = []
    for axis in (0, 1, 2):
        second, third = (axis + 1) % 3, (axis + 2) % 3
        if size[second] < EXACT or size[third] < EXACT:
            continue
        ahead, behind = b.low[axis] - a.high[axis], a.low[axis] - b.high[axis]
        if -reach <= behind <= reach:
            found.append(_box_patch(axis, False, a.low[axis], low, high, behind))
        if -reach <= ahead <= reach:
            found.append(_box_patch(axis, True, a.high[axis], low, high, ahead))
    return found


def _box_patch(axis: int, ahead: bool, at: float, low: Vec, high: Vec, gap: float) -> Patch:
    (x0, y0, z0), (x1, y1, z1) = low, high
    if axis == 0:
        first, second, third, last = (at, y0, z0), (at, y1, z0), (at, y1, z1), (at, y0, z1)
        size = (y1 - y0) * (z1 - z0)
    elif axis == 1:
        first, second, third, last = (x0, at, z0), (x0, at, z1), (x1, at, z1), (x1, at, z0)
        size = (z1 - z0) * (x1 - x0)
    else:
        first, second, third, last = (x0, y0, at), (x1, y0, at), (x1, y1, at), (x0, y1, at)
        size = (x1 - x0) * (y1 - y0)
    if ahead:
        return Patch(WORLD[axis], size, (first, second, third, last), gap)
    return Patch(_BACKWARD[axis], size, (first, last, third, second), gap)


def _face_patch(first: Face, second: Face, within: float) -> Patch | None:
    normal, offset = first.plane
    heights = [dot(normal, p) - offset for p in second.outline]
    reach = within + NOISE
    if min(heights) > reach or max(heights) < -reach:
        return None
    common = overlap(project(first.outline, normal), project(second.outline, normal))
    if least_width(common) < EXACT:
        return None
    outline = lift(common, normal, offset)
    gap = _gap_at(_middle(common), first.plane, second.plane)
    return Patch(normal, area(common), outline, gap) if abs(gap) <= reach else None


def _gap_at(middle: Flat, first: Plane, second: Plane) -> float:
    """How far the second face is from the first, square to the first."""
    point = lift((middle,), first.normal, first.offset)[0]
    return (second.offset - dot(second.normal, point)) / dot(second.normal, first.normal)


def _middle(polygon: tuple[Flat, ...]) -> Flat:
    count = len(polygon)
    return (sum([p[0] for p in polygon]) / count, sum([p[1] for p in polygon]) / count)


def _shared_box(a: Solid, b: Solid) -> Solid | None:
    (ax0, ay0, az0), (ax1, ay1, az1) = a.low, a.high
    (bx0, by0, bz0), (bx1, by1, bz1) = b.low, b.high
    x0, x1 = max(ax0, bx0), min(ax1, bx1)
    y0, y1 = max(ay0, by0), min(ay1, by1)
    z0, z1 = max(az0, bz0), min(az1, bz1)
    if x1 - x0 < EXACT or y1 - y0 < EXACT or z1 - z0 < EXACT:
        return None
    return block((x0, y0, z0), (x1, y1, z1))


def _parted_by_a_face(a: Solid, b: Solid) -> bool:
    """Whether `b` lies outside a face of `a`, or less than 0.01 mm inside it. Spares the cutting."""
    return any(extent(b, normal)[0] > offset - EXACT for normal, offset in a.planes)


def _is_thin(solid: Solid) -> bool:
    """Thinner than 0.01 mm. Square to a face or to two edges is where a convex solid is thinnest."""
    least = min([_width(solid, normal) for normal in solid.normals], default=0.0)
    if least < EXACT or least > 10.0 * EXACT:
        return least < EXACT  # edges make it at most a few times thinner than faces do
    ways = [cross(p, q) for p in solid.edges for q in solid.edges]
    return any(_width(solid, way) < EXACT * length(way) for way in ways if length(way) > NOISE)


def _width(solid: Solid, direction: Vec) -> float:
    low, high = extent(solid, direction)
    return high - low
