"""Pocket screws: from a pocket in a face of the first part, out of its end, into the second.

face  ____________________
             \\  pocket    |
               \\ seat     |  end
                 ` - .    |
                       ` -|---  axis, at `exit` of the thickness
                          |
"""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.joinery.sides import SIDES, looks_to, middle_of, side_of
from planlint.build.piece import Part
from planlint.geometry.path import cross_line
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, cross, dot, onward, scale, sub, unit
from planlint.trade.joinery import pocket

_MATING = 0.5  # cos of 60 deg: a face that looks more than this along the mating direction holds no pocket


class PocketFace(NamedTuple):
    """The face a pocket is cut into: the way it looks, its place along that, the part's thickness from it."""

    normal: Vec
    at: float
    thickness: float


class PocketLine(NamedTuple):
    """A pocket screw's axis from where it enters the wood; `seat` is how far along it the head sits."""

    entry: Vec
    axis: Vec
    seat: float


def pocket_face(first: Part, mating: Vec, from_: str | None, middle: Vec) -> PocketFace | None:
    """The face of `first` that the plan says; None when that side has no face a pocket can be in.

    `inside` (also where the plan says nothing) and `outside` are wide faces, by where the piece's middle is.
    """
    normals = pocket_sides(first, mating)
    if from_ in (None, "inside", "outside"):
        inward = sub(middle, middle_of([first]))
        wanted = inward if from_ != "outside" else scale(inward, -1.0)
        normals = normals[: 4 if _square(first) else 2]
    else:
        wanted = SIDES[str(from_)]
        normals = [normal for normal in normals if looks_to(normal, str(from_))]
    if not normals:
        return None
    normal = max(normals, key=lambda way: dot(way, wanted))
    low, high = extent(first.solid, normal)
    return PocketFace(normal, high, high - low)


def pocket_sides(first: Part, mating: Vec) -> list[Vec]:
    """The ways the faces look that can hold a pocket for an end that looks `mating`: wide faces first."""
    ways = [first.through, scale(first.through, -1.0), first.across, scale(first.across, -1.0)]
    return [way for way in ways if abs(dot(way, mating)) < _MATING]


def pocket_sides_named(first: Part, mating: Vec) -> tuple[str, ...]:
    """The sides of the piece from which a pocket can be cut."""
    return tuple(dict.fromkeys([side_of(way) for way in pocket_sides(first, mating)]))


def exit_point(face: PocketFace, spot: Vec, normal: Vec, along: Vec) -> Vec:
    """The point where the axis leaves the end: beside `spot`, square to `along`, at its share of the
    thickness.
    """
    down = cross(normal, along)
    wanted = face.at - face.thickness * pocket().exit
    return onward(spot, down, (wanted - dot(face.normal, spot)) / dot(face.normal, down))


def pocket_line(first: Part, face: PocketFace, exit_: Vec, mating: Vec) -> PocketLine:
    """The axis through `exit_`, sloping in from the face; the entry is where it meets the surface of
    `first`.
    """
    trade = pocket()
    level = unit(sub(mating, scale(face.normal, dot(mating, face.normal))))
    axis = sub(scale(level, trade.cos), scale(face.normal, trade.sin))
    way = cross_line(first.solid, exit_, axis)
    back = way[0] if way is not None else -face.thickness * trade.exit / trade.sin
    return PocketLine(onward(exit_, axis, back), axis, -back - face.thickness * trade.seat)


def _square(part: Part) -> bool:
    return abs(part.size.width - part.size.thickness) < EXACT
