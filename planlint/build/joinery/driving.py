"""Every fastener as a line in space: where its axis enters the wood, where its head sits, what it passes.

Screws, nails and bolts go from the first part's far face through it into the second, square to where they
meet; pocket screws slope in from a face of the first. The screws of fittings (figure-8, hinges) start where
the parts meet, with the fitting under their head. Pins (dowels, biscuits) sit half in each part, unless the
plan says from where they are driven.
"""

from __future__ import annotations

import math

from planlint.build.joinery.aims import Aim
from planlint.build.joinery.passages import Shares, passages
from planlint.build.joinery.pockets import PocketFace, exit_point, pocket_line
from planlint.build.joinery.sides import side_of
from planlint.build.joinery.spots import Place, direction_for, places, points_at
from planlint.build.joinery.touching import Touching, turned
from planlint.build.piece import Driven, Meeting, Part
from planlint.geometry.meeting import Patch
from planlint.geometry.outline import span_along
from planlint.geometry.path import cross_line
from planlint.geometry.vector import Vec, add, cross, dot, onward, scale, world_axis
from planlint.read.plan import Fastening, Spots
from planlint.trade.caps import most
from planlint.trade.joinery import Plate, plate
from planlint.trade.screws import FastenerKind

Placed = list[tuple[Place, Vec]]  # places of an area, and where in space they are
# One fastener before its way is known: its place and spot, its entry and axis, its mouth, and how far past the
# entry its length begins.
Set = tuple[Place, Vec, Vec, Vec, Vec, float]

_SQUARE = 0.1  # sin of 6 deg: a side nearer than this to square does not say where along a pocketed end


class Driving:
    """What all fasteners of one fastening between two pieces have in common."""

    __slots__ = ("aim", "fastening", "kind", "meeting")

    def __init__(self, meeting: Meeting, fastening: Fastening, kind: FastenerKind, aim: Aim) -> None:
        self.meeting = meeting
        self.fastening = fastening
        self.kind = kind
        self.aim = aim


def drive(driving: Driving, touching: Touching, shares: Shares) -> tuple[list[Driven], bool]:
    """The fasteners of one fastening between two pieces; and whether the plan's places could be followed.

    They cannot where the stated side is none of the area's: then they are spread evenly.
    """
    fitting = plate(driving.kind.noun)
    if fitting is not None:
        return _fitted(driving, fitting, touching, shares)
    spots, followed = _spots(driving)
    make = _pocketed if driving.aim.pocket is not None else _pinned if _hidden(driving) else _straight
    sets = make(driving, spots)
    second = driving.meeting.second
    return _driven(
        driving, driving.aim.patch, second, sets, screw_length(driving), touching, shares
    ), followed


def screw_length(driving: Driving) -> float | None:
    """The fastener's length; None when the plan gives none. A fitting's bare length is its own, not its
    screw's.
    """
    size = driving.fastening.size
    if size is None or size.length is None:
        return None
    bare = size.gauge is None and size.diameter is None
    return None if bare and driving.kind.what == "plate" else size.length.value


def _hidden(driving: Driving) -> bool:
    return driving.kind.what == "pin" and driving.fastening.from_ is None


def _spots(driving: Driving) -> tuple[Placed, bool]:
    patch, face = driving.aim
    stated = driving.fastening.spots
    along = _direction(driving, patch, face, stated)
    followed = along is not None
    if along is None:
        stated = None
        along = _direction(driving, patch, face, None) or driving.meeting.first.across
    low, high = span_along(patch.outline, along)
    chosen = places(driving.fastening.number, stated, low, high)[: most("fasteners")]
    spots = points_at(patch.outline, along, chosen)
    if face is not None:
        spots = [exit_point(face, spot, patch.normal, along) for spot in spots]
    return list(zip(chosen, spots, strict=True)), followed


def _direction(driving: Driving, patch: Patch, face: PocketFace | None, stated: Spots | None) -> Vec | None:
    wanted = direction_for(patch.outline, patch.normal, stated, driving.meeting.first)
    if face is None or wanted is None:
        return wanted
    along = cross(patch.normal, face.normal)  # pockets lie side by side in their face
    along = scale(along, 1.0 / _length(along))
    if stated is None or stated.side == "each end":
        return along
    same_way = dot(along, wanted)
    return None if abs(same_way) < _SQUARE else along if same_way > 0.0 else scale(along, -1.0)


def _straight(driving: Driving, spots: Placed) -> list[Set]:
    axis = driving.aim.patch.normal
    first = driving.meeting.first
    bore = driving.fastening.counterbore
    seat = 0.0 if bore is None else bore.depth.value
    # A box is entered through one face, wherever that is.
    face = scale(axis, -1.0) if first.solid.aligned and world_axis(axis) is not None else None
    sets: list[Set] = []
    for place, spot in spots:
        way = cross_line(first.solid, spot, axis)
        entry = spot if way is None else onward(spot, axis, way[0])
        sets.append((place, spot, entry, axis, face or _mouth(first, entry, axis), seat))
    return sets


def _pinned(driving: Driving, spots: Placed) -> list[Set]:
    axis = driving.aim.patch.normal
    back = scale(axis, -1.0)
    down = scale(axis, -(screw_length(driving) or 0.0) / 2.0)
    return [(place, spot, add(spot, down), axis, back, 0.0) for place, spot in spots]


def _pocketed(driving: Driving, spots: Placed) -> list[Set]:
    patch, face = driving.aim
    assert face is not None
    sets: list[Set] = []
    for place, spot in spots:
        line = pocket_line(driving.meeting.first, face, spot, patch.normal)
        sets.append((place, spot, line.entry, line.axis, face.normal, line.seat))
    return sets


def _fitted(
    driving: Driving, fitting: Plate, touching: Touching, shares: Shares
) -> tuple[list[Driven], bool]:
    """A fitting's screws: one into each part, or one into the part whose wide face it lies on."""
    meeting, patch = driving.meeting, driving.aim.patch
    spots, followed = _spots(driving)
    found: list[Driven] = []
    for into, way in ((meeting.second, patch), (meeting.first, turned(patch))):
        if fitting.into == "face" and into is not _lies_on(meeting, patch):
            continue
        axis = way.normal
        # A gap is between the faces: the patch lies in the first part's.
        over = patch.gap if into is meeting.second else 0.0
        sets = [
            (place, spot, onward(spot, axis, over), axis, scale(axis, -1.0), -fitting.thickness)
            for place, spot in spots
        ]
        found += _driven(driving, patch, into, sets, screw_length(driving), touching, shares)
    return found, followed


def _lies_on(meeting: Meeting, patch: Patch) -> Part:
    flat = [part for part in (meeting.first, meeting.second) if abs(dot(part.through, patch.normal)) > 0.9]
    return flat[0] if len(flat) == 1 else meeting.first


def _driven(
    driving: Driving,
    patch: Patch,
    into: Part,
    sets: list[Set],
    length: float | None,
    touching: Touching,
    shares: Shares,
) -> list[Driven]:
    meeting, face = driving.meeting, driving.aim.pocket
    lines = [(entry, axis, None if length is None else seat + length) for _, _, entry, axis, _, seat in sets]
    ways = passages(lines, meeting.first, meeting.second, touching, shares)
    side = None if face is None else side_of(face.normal)
    return [
        Driven(
            meeting, driving.fastening, patch, into, number, place.known, spot, entry, axis, mouth, seat,
            length, way, side,
        )
        for number, ((place, spot, entry, axis, mouth, seat), way) in enumerate(zip(sets, ways, strict=True), 1)
    ]  # fmt: skip


def _mouth(part: Part, entry: Vec, axis: Vec) -> Vec:
    """The way the surface looks where the axis enters."""
    facing = [plane for plane in part.solid.planes if dot(plane.normal, axis) < 0.0]
    return min(facing, key=lambda plane: abs(plane.offset - dot(plane.normal, entry))).normal


def _length(v: Vec) -> float:
    return math.sqrt(dot(v, v))
