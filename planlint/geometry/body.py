"""What a convex solid is: its bounds, faces, corners, volume.

A box along the world axes (`aligned`) is kept as two corners; its faces are made when someone asks.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.geometry.vector import NOISE, WORLD, Vec, cross, dot, length, scale, sub

Axes = tuple[Vec, Vec, Vec]


class Plane(NamedTuple):
    """A half-space: what satisfies normal·x <= offset (mm) is inside. The normal is unit and looks out."""

    normal: Vec
    offset: float


class Face(NamedTuple):
    """A side of a solid; the outline runs counter-clockwise as seen from outside."""

    plane: Plane
    outline: tuple[Vec, ...]


_ALIKE = 1.0 - 1e-14  # cosine beyond which two directions are one

# The sides of a box by their corners (`box_corners`): left, right, front, back, bottom, top.
_LOOKS = tuple([(scale(axis, -1.0), axis) for axis in WORLD])
_SIDES = ((0, 4, 6, 2), (1, 3, 7, 5), (0, 1, 5, 4), (2, 6, 7, 3), (0, 2, 3, 1), (4, 5, 7, 6))


class Solid:
    """A convex solid. `low` and `high` are its bounds; the rest is worked out on demand and kept.

    Made by `planlint.geometry.solid`: from its bounds alone an aligned box, else from faces and vertices.
    A solid without thickness is allowed: it has no volume, and faces only where there is area.
    """

    __slots__ = (
        "_centroid", "_edges", "_faces", "_normals", "_planes", "_vertices", "_volume",
        "aligned", "high", "low",
    )  # fmt: skip

    def __init__(
        self,
        low: Vec,
        high: Vec,
        faces: tuple[Face, ...] | None = None,
        vertices: tuple[Vec, ...] | None = None,
    ) -> None:
        self.low = low
        self.high = high
        self.aligned = faces is None
        self._faces = faces
        self._planes: tuple[Plane, ...] | None = None
        self._vertices = vertices
        self._normals: tuple[Vec, ...] | None = None
        self._edges: tuple[Vec, ...] | None = None
        self._volume: float | None = None
        self._centroid: Vec | None = None

    @property
    def faces(self) -> tuple[Face, ...]:
        """The sides; of an aligned box in the order left, right, front, back, bottom, top."""
        if self._faces is None:
            sides = box_faces(box_corners(self.low, self.high), WORLD)
            self._faces = tuple([face for face in sides if has_area(face)])
        return self._faces

    @property
    def planes(self) -> tuple[Plane, ...]:
        """The planes of the faces, in their order."""
        if self._planes is None:
            self._planes = (
                _box_planes(self.low, self.high)
                if self.aligned
                else tuple([face.plane for face in self.faces])
            )
        return self._planes

    @property
    def vertices(self) -> tuple[Vec, ...]:
        """The corners, each once."""
        if self._vertices is None:
            self._vertices = tuple(dict.fromkeys(box_corners(self.low, self.high)))
        return self._vertices

    @property
    def normals(self) -> tuple[Vec, ...]:
        """The directions square to the faces, each once (not its opposite too)."""
        if self._normals is None:
            self._normals = WORLD if self.aligned else directions([p.normal for p in self.planes])
        return self._normals

    @property
    def edges(self) -> tuple[Vec, ...]:
        """The unit directions of the edges, each once (not its opposite too)."""
        if self._edges is None:
            self._edges = WORLD if self.aligned else directions(_edge_ways(self.faces))
        return self._edges

    @property
    def volume(self) -> float:
        """mm³."""
        if self._volume is None:
            self._volume, self._centroid = _weigh(self)
        return self._volume

    @property
    def centroid(self) -> Vec:
        """The centre of the volume; of a solid without volume, the middle of its bounds."""
        if self._centroid is None:
            self._volume, self._centroid = _weigh(self)
        return self._centroid


def box_corners(low: Vec, high: Vec) -> tuple[Vec, ...]:
    """The eight corners; corner i is at the high x, y, z where bit 0, 1, 2 of i is set."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    return (
        (x0, y0, z0), (x1, y0, z0), (x0, y1, z0), (x1, y1, z0),
        (x0, y0, z1), (x1, y0, z1), (x0, y1, z1), (x1, y1, z1),
    )  # fmt: skip


def box_faces(corners: Sequence[Vec], axes: Axes) -> tuple[Face, ...]:
    """The sides of a box whose corners stand in the order of `box_corners` along `axes` (a mirror's too)."""
    way = -1 if is_mirror(axes) else 1
    faces: list[Face] = []
    for side, picked in enumerate(_SIDES):
        normal = scale(axes[side // 2], 1.0 if side % 2 else -1.0)
        faces.append(face_of(normal, tuple([corners[i] for i in picked[::way]])))
    return tuple(faces)


def _box_planes(low: Vec, high: Vec) -> tuple[Plane, ...]:
    """The planes of an aligned box's faces: those of its sides that are more than a line or a point."""
    size = sub(high, low)
    found: list[Plane] = []
    for axis in (0, 1, 2):
        if size[(axis + 1) % 3] * size[(axis + 2) % 3] > NOISE:
            back, ahead = _LOOKS[axis]
            found += [Plane(back, -low[axis]), Plane(ahead, high[axis])]
    return tuple(found)


def face_of(normal: Vec, outline: tuple[Vec, ...]) -> Face:
    """The face with that outward normal through the outline's first point."""
    return Face(Plane(normal, dot(normal, outline[0])), outline)


def has_area(face: Face) -> bool:
    """Whether the face is more than a line or a point (1e-6 mm²)."""
    return length(_double_area(face.outline)) > 2.0 * NOISE


def is_mirror(axes: Axes) -> bool:
    """Whether the axes are left-handed, so that what is carried into them is mirrored."""
    return dot(cross(axes[0], axes[1]), axes[2]) < 0.0


def _double_area(outline: Sequence[Vec]) -> Vec:
    """Twice the area, as a vector along the normal."""
    origin = outline[0]
    x = y = z = 0.0
    before = sub(outline[1], origin)
    for point in outline[2:]:
        after = sub(point, origin)
        part = cross(before, after)
        x, y, z = x + part[0], y + part[1], z + part[2]
        before = after
    return (x, y, z)


def _weigh(solid: Solid) -> tuple[float, Vec]:
    """Volume and centre of the volume, by the pyramids from the middle of the bounds to each face."""
    (x0, y0, z0), (x1, y1, z1) = solid.low, solid.high
    middle = ((x0 + x1) / 2.0, (y0 + y1) / 2.0, (z0 + z1) / 2.0)
    if solid.aligned:
        return (x1 - x0) * (y1 - y0) * (z1 - z0), middle
    six = x = y = z = 0.0
    for face in solid.faces:
        first = sub(face.outline[0], middle)
        before = sub(face.outline[1], middle)
        for point in face.outline[2:]:
            after = sub(point, middle)
            part = dot(first, cross(before, after))
            six += part
            x += part * (first[0] + before[0] + after[0])
            y += part * (first[1] + before[1] + after[1])
            z += part * (first[2] + before[2] + after[2])
            before = after
    if six <= NOISE:
        return 0.0, middle
    return six / 6.0, (middle[0] + x / six / 4.0, middle[1] + y / six / 4.0, middle[2] + z / six / 4.0)


def _edge_ways(faces: Iterable[Face]) -> list[Vec]:
    """The unit directions of all edges, most of them many times over."""
    ways: list[Vec] = []
    for face in faces:
        before = face.outline[-1]
        for point in face.outline:
            way = sub(point, before)
            run = length(way)
            if run > NOISE:
                ways.append(scale(way, 1.0 / run))
            before = point
    return ways


def directions(ways: Iterable[Vec]) -> tuple[Vec, ...]:
    """Each unit direction once, its opposite counted as the same. Alike: within about 1e-7."""
    kept: list[Vec] = []
    for way in ways:
        x, y, z = way
        for p, q, r in kept:
            if not -_ALIKE < x * p + y * q + z * r < _ALIKE:
                break
        else:
            kept.append(way)
    return tuple(kept)
