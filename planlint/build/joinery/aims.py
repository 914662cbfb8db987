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


class Aim(NamedTuple):
    """The area that a join's fasteners cross; `pocket` is the face of their pockets, if they have any."""

    patch: Patch
    pocket: PocketFace | None


def aim(meeting: Meeting, fastening: Fastening, pocketed: bool, middle: Vec) -> Aim | WrongSide | None:
    """The area of a meeting that a fastening goes through; None when the two meet over none.

    Of several areas (where parts are cut round each other) the largest that the stated side leaves open, and
    rather one that the fastener reaches through the first part: a brad into a rabbet goes in from the face,
    not along the length. `middle` is the middle of the piece: `inside` looks to it.
    """
    by_area = sorted(meeting.patches, key=lambda patch: -patch.area)
    if not by_area:
        return None
    if len(by_area) > 1 and not pocketed:
        by_area.sort(key=lambda patch: not _reached(meeting.first, patch, fastening))
    side = None if fastening.from_ is None else fastening.from_.text
    for patch in by_area:
        if pocketed:
            face = pocket_face(meeting.first, patch.normal, side, middle)
            if face is not None:
                return Aim(patch, face)
        elif side is None or _from(patch, side, middle):
            return Aim(patch, None)
    return _wrong(meeting, fastening, side or "", by_area, pocketed)


def _reached(first: Part, patch: Patch, fastening: Fastening) -> bool:
    """Whether a fastener comes out of the first part in the middle of this area; so does one without a length."""
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
