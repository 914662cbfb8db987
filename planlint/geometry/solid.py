"""Making convex solids: boards, leaning boards, round stock; cutting and carrying them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.geometry.body import (
    Axes,
    Face,
    Plane,
    Solid,
    box_corners,
    box_faces,
    face_of,
    has_area,
    is_mirror,
)
from planlint.geometry.outline import flat_axes, hull2d
from planlint.geometry.vector import EXACT, NOISE, WORLD, Vec, dot, scale, unit, world_axis

__all__ = [
    "Axes", "Face", "Plane", "Solid", "block", "clip", "extent", "mirrored", "moved", "oriented",
    "prism", "solid_of",
]  # fmt: skip


def block(low: Vec, high: Vec) -> Solid:
    """The box along the world axes between two opposite corners, given in any order."""
    return Solid(
        (min(low[0], high[0]), min(low[1], high[1]), min(low[2], high[2])),
        (max(low[0], high[0]), max(low[1], high[1]), max(low[2], high[2])),
    )


def oriented(centre: Vec, axes: Axes, size: Vec) -> Solid:
    """A box of `size` (mm) along three unit axes, square to each other; an aligned one along world axes."""
    half = (abs(size[0]) / 2.0, abs(size[1]) / 2.0, abs(size[2]) / 2.0)
    return moved(Solid(scale(half, -1.0), half), centre, axes)


def prism(centre: Vec, axis: Vec, diameter: float, length: float, sides: int = 16) -> Solid:
    """Round stock, `length` long along `axis`, as a bar whose `sides` flats touch the circle.

    Across the flats it is exactly `diameter`, and with 4, 8, 16 … sides flats look along the world axes
    where the axis lets them. Over the corners it is too wide: 2 % with 16 sides, 1.3 % in volume.
    """
    along = unit(axis)
    u, v = flat_axes(along)
    corner = diameter / 2.0 / math.cos(math.pi / sides)
    rim = [_on_circle(u, v, corner, math.pi * (2 * i + 1) / sides) for i in range(sides)]
    start, end = scale(along, -length / 2.0), scale(along, length / 2.0)
    bottom = [_sum(centre, start, p) for p in rim]
    top = [_sum(centre, end, p) for p in rim]
    outlines = [tuple(bottom[::-1]), tuple(top)]
    normals = [scale(along, -1.0), along]
    for i in range(sides):
        outlines.append((bottom[i - 1], bottom[i], top[i], top[i - 1]))
        normals.append(_on_circle(u, v, 1.0, math.pi * 2 * i / sides))
    return solid_of([face_of(normal, outline) for normal, outline in zip(normals, outlines, strict=True)])


def moved(solid: Solid, origin: Vec, axes: Axes) -> Solid:
    """The solid carried into another frame: x goes to origin + x0 axes[0] + x1 axes[1] + x2 axes[2].

    The axes are unit and square to each other; they may be a mirror's (determinant -1).
    """
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = axes
    ox, oy, oz = origin

    def place(p: Vec) -> Vec:
        x, y, z = p
        return (ox + x * ax + y * bx + z * cx, oy + x * ay + y * by + z * cy, oz + x * az + y * bz + z * cz)

    if solid.aligned and None not in (world_axis(axes[0]), world_axis(axes[1]), world_axis(axes[2])):
        return block(place(solid.low), place(solid.high))
    if solid.aligned:
        return solid_of(box_faces([place(p) for p in box_corners(solid.low, solid.high)], axes))
    placed = {p: place(p) for p in solid.vertices}
    way = -1 if is_mirror(axes) else 1
    faces: list[Face] = []
    for (normal, offset), outline in solid.faces:
        x, y, z = normal
        looks = (x * ax + y * bx + z * cx, x * ay + y * by + z * cy, x * az + y * bz + z * cz)
        faces.append(
            Face(Plane(looks, offset + dot(looks, origin)), tuple([placed[p] for p in outline[::way]]))
        )
    return solid_of(faces, tuple(placed.values()))


def mirrored(solid: Solid, axis_index: int, about: float) -> Solid:
    """The mirror image in the plane where that coordinate (0, 1, 2) is `about` mm."""
    origin = scale(WORLD[axis_index], 2.0 * about)
    x, y, z = [scale(way, -1.0) if i == axis_index else way for i, way in enumerate(WORLD)]
    return moved(solid, origin, (x, y, z))


def extent(solid: Solid, direction: Vec) -> tuple[float, float]:
    """The least and the most of direction·x over the solid (mm when direction is unit)."""
    x, y, z = direction
    if solid.aligned:
        (x0, y0, z0), (x1, y1, z1) = solid.low, solid.high
        if x < 0.0:
            x0, x1 = x1, x0
        if y < 0.0:
            y0, y1 = y1, y0
        if z < 0.0:
            z0, z1 = z1, z0
        return x * x0 + y * y0 + z * z0, x * x1 + y * y1 + z * z1
    reach = [x * px + y * py + z * pz for px, py, pz in solid.vertices]
    return min(reach), max(reach)


def clip(solid: Solid, plane: Plane) -> Solid | None:
    """What is left inside the plane: the solid itself when nothing is cut off, None below 0.01 mm."""
    normal, offset = plane
    least, most = extent(solid, normal)
    if most <= offset + NOISE:
        return solid
    if least > offset - EXACT:
        return None
    axis = world_axis(normal) if solid.aligned else None
    if axis is not None:
        return _clip_block(solid, axis, offset / normal[axis], normal[axis] > 0)
    return _clip_faces(solid, plane)


def solid_of(faces: Sequence[Face], corners: Sequence[Vec] = ()) -> Solid:
    """The solid these faces close; an aligned box where they are one.

    Faces without area are left out; their corners still count, and so do `corners`. There is at least one.
    """
    points = tuple(dict.fromkeys([*corners, *[p for face in faces for p in face.outline]]))
    xs, ys, zs = [p[0] for p in points], [p[1] for p in points], [p[2] for p in points]
    low, high = (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))
    kept = tuple([face for face in faces if has_area(face)])
    if len(kept) == 6 and all(world_axis(face.plane.normal) is not None for face in kept):
        return Solid(low, high)
    return Solid(low, high, kept, points)


def _clip_block(box: Solid, axis: int, stop: float, keep_low: bool) -> Solid:
    corner = list(box.high if keep_low else box.low)
    corner[axis] = stop
    cut = (corner[0], corner[1], corner[2])
    return block(box.low, cut) if keep_low else block(cut, box.high)


def _clip_faces(solid: Solid, plane: Plane) -> Solid | None:
    """Every face cut along the plane, and the cut closed. A corner within NOISE of the plane lies in it."""
    (nx, ny, nz), offset = plane
    heights = {p: nx * p[0] + ny * p[1] + nz * p[2] - offset for p in solid.vertices}
    rim = [p for p, height in heights.items() if abs(height) <= NOISE]
    crossings: dict[tuple[Vec, Vec], Vec] = {}
    faces: list[Face] = []
    for face in solid.faces:
        kept: list[Vec] = []
        before = face.outline[-1]
        for point in face.outline:
            was, now = heights[before], heights[point]
            if (was > NOISE and now < -NOISE) or (was < -NOISE and now > NOISE):
                kept.append(_crossing(before, point, was, now, crossings))
            if now <= NOISE:
                kept.append(point)
            before = point
        if len(kept) > 2:
            faces.append(Face(face.plane, tuple(kept)))
    cap = _cap([*rim, *crossings.values()], plane.normal)
    if cap:
        faces.append(Face(plane, cap))
    return solid_of(faces) if faces else None


def _crossing(a: Vec, b: Vec, at_a: float, at_b: float, known: dict[tuple[Vec, Vec], Vec]) -> Vec:
    """Where an edge meets the plane, the very same point for both faces that share the edge."""
    if b < a:
        a, b, at_a, at_b = b, a, at_b, at_a
    if (a, b) not in known:
        part = at_a / (at_a - at_b)
        known[(a, b)] = (
            a[0] + (b[0] - a[0]) * part,
            a[1] + (b[1] - a[1]) * part,
            a[2] + (b[2] - a[2]) * part,
        )
    return known[(a, b)]


def _cap(points: list[Vec], normal: Vec) -> tuple[Vec, ...]:
    u, v = flat_axes(normal)
    flat = {(dot(u, p), dot(v, p)): p for p in points}
    hull = hull2d(list(flat))
    return tuple([flat[p] for p in hull]) if len(hull) > 2 else ()


def _on_circle(u: Vec, v: Vec, radius: float, angle: float) -> Vec:
    c, s = radius * math.cos(angle), radius * math.sin(angle)
    return (u[0] * c + v[0] * s, u[1] * c + v[1] * s, u[2] * c + v[2] * s)


def _sum(a: Vec, b: Vec, c: Vec) -> Vec:
    return (a[0] + b[0] + c[0], a[1] + b[1] + c[1], a[2] + b[2] + c[2])
