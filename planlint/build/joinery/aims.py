"""How a fastener is aimed: the area it crosses, square to it, from the side the plan says."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.joinery.pockets import PocketFace, pocket_face, pocket_sides_named
from planlint.build.joinery.sides import looks_to, side_of
from planlint.build.piece import Meeting, Part, WrongSide
from planlint.geometry.meeting import Patch
from planlint.geometry.path import cross_line
from planlint.geometry.vector import EXACT, Vec, dot, scale, sub
from planlint.read.plan import Fastening

_ALONG = 0.7  # cos of 45 deg: an area that looks more than this along a part is at its end
_MUCH_SMALLER = 0.9


class Aim(NamedTuple):
    """The area that a join's fasteners cross; `pocket` is the face of their pockets, if they have any."""

    patch: Patch
    pocket: PocketFace | None


def aim(meeting: Meeting, fastening: Fastening, pocketed: bool, middle: Vec) -> Aim | WrongSide | None:
    """The area of a meeting that a fastening goes through; None when the two meet over none.

    Of several areas (where parts are cut round each other) the largest that the stated side leaves open. Of a
    rabbet it is the cheek, where the way to the end's area is the whole length of the first part. `middle` is
    the middle of the piece: `inside` looks to it.
    """
    by_area = meeting.patches
    if not by_area:
        return None
    if len(by_area) > 1:
        by_area = sorted(by_area, key=lambda patch: -patch.area)
        if not pocketed:
            by_area = _cheek_first(meeting.first, by_area, fastening)
    side = None if fastening.from_ is None else fastening.from_.text
    for patch in by_area:
        if pocketed:
            face = pocket_face(meeting.first, patch.normal, side, middle)
            if face is not None:
                return Aim(patch, face)
        elif side is None or _from(patch, side, middle):
            return Aim(patch, None)
    return _wrong(meeting, fastening, side or "", by_area, pocketed)


def _cheek_first(first: Part, by_area: list[Patch], fastening: Fastening) -> list[Patch]:
    """The areas, with a rabbet's cheek before its end where the fastener would run along the first part."""
    if abs(dot(by_area[0].normal, first.along)) < _ALONG or _reaches(first, by_area[0], fastening):
        return by_area
    near = [patch for patch in by_area[1:] if _reaches(first, patch, fastening)]
    if not near or (len(near) > 1 and near[1].area > _MUCH_SMALLER * near[0].area):
        return by_area  # a housing has a cheek on either side: nobody knows which is meant
    return [near[0], *[patch for patch in by_area if patch is not near[0]]]


def _reaches(first: Part, patch: Patch, fastening: Fastening) -> bool:
    """Whether a fastener comes out of the first part at the middle of an area; so does one without a length."""
    if fastening.size is None or fastening.size.length is None:
        return True
    way = cross_line(first.solid, _centre(patch.outline), patch.normal)
    sunk = 0.0 if fastening.counterbore is None else fastening.counterbore.depth.value
    return way is None or -way[0] < sunk + fastening.size.length.value - EXACT


def _from(patch: Patch, side: str, middle: Vec) -> bool:
    """Whether the first part's end of the line square to this area looks to the side."""
    head = scale(patch.normal, -1.0)
    if side in ("inside", "outside"):
        inward = dot(head, sub(middle, _centre(patch.outline)))
        return inward > -EXACT if side == "inside" else inward < EXACT
    return looks_to(head, side)


def _wrong(
    meeting: Meeting, fastening: Fastening, side: str, by_area: Sequence[Patch], pocketed: bool
) -> WrongSide:
    if pocketed:
        sides = pocket_sides_named(meeting.first, by_area[0].normal)
    else:
        sides = tuple(dict.fromkeys([side_of(scale(patch.normal, -1.0)) for patch in by_area]))
    normal = by_area[0].normal
    return WrongSide(meeting, fastening, side, sides, (side_of(scale(normal, -1.0)), side_of(normal)))


def _centre(outline: Sequence[Vec]) -> Vec:
    count = len(outline)
    return (
        sum([p[0] for p in outline]) / count,
        sum([p[1] for p in outline]) / count,
        sum([p[2] for p in outline]) / count,
    )
