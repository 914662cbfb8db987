"""Faces along which one part is cut round another: what two parts meet on where they share space."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.joinery.touching import turned
from planlint.geometry.meeting import Patch
from planlint.geometry.outline import area, project
from planlint.geometry.solid import Face, Plane, Solid
from planlint.geometry.vector import EXACT, dot

_SAME = 1.0 - 1e-9  # cos of what two directions may differ by and still be one


def cut_faces(space: Solid, cut: Solid) -> list[Patch]:
    """The faces of `space` that lie inside the solid `cut`: they look out of the space into what is cut
    away.
    """
    return [_patch(face) for face in space.faces if not lies_on(face.plane, cut.planes)]


def shoulder(space: Solid, tenon: Solid, cut: Solid, mortised: Solid) -> Patch | None:
    """The shoulder of a tenoned end: the mouth of the shared space less the tenon. It looks into the
    mortised part.
    """
    mouths = _on(space, mortised, cut)
    if not mouths:
        return None
    mouth = max(mouths, key=lambda patch: patch.area)
    through = sum([p.area for p in _on(tenon, mortised, cut) if dot(p.normal, mouth.normal) > _SAME])
    if mouth.area - through < EXACT:
        return None
    way = turned(mouth)
    return Patch(way.normal, mouth.area - through, way.outline, way.gap)


def lies_on(plane: Plane, planes: Iterable[Plane]) -> bool:
    """Whether a plane is one of these."""
    normal, offset = plane
    return any(abs(offset - other.offset) < EXACT and dot(normal, other.normal) > _SAME for other in planes)


def _on(space: Solid, outer: Solid, not_on: Solid) -> list[Patch]:
    return [
        _patch(face)
        for face in space.faces
        if lies_on(face.plane, outer.planes) and not lies_on(face.plane, not_on.planes)
    ]


def _patch(face: Face) -> Patch:
    normal = face.plane.normal
    return Patch(normal, area(project(face.outline, normal)), face.outline, 0.0)
