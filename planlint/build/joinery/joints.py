"""Joints that cut one part for another: who keeps the space both fill, and the faces they then meet on."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.joinery.interfaces import cut_faces, shoulder
from planlint.build.joinery.touching import Touch, turned
from planlint.build.piece import Part, Share
from planlint.geometry.meeting import Patch
from planlint.geometry.path import cross_line
from planlint.geometry.solid import Plane, Solid, clip, extent
from planlint.geometry.vector import EXACT, Vec, cross, dot, length, scale, unit
from planlint.read.plan import Fastening, Join

CUTTING = frozenset(("housed", "notched", "half-lap", "mortise-and-tenon"))

_PARALLEL = 0.1  # sin of 6 deg: parts nearer to parallel than that lap along their thickness


class Joint(NamedTuple):
    """A joint that the plan declares: the first part is housed, notched, lapped or has the tenon."""

    join: Join
    fastening: Fastening
    first: Part
    second: Part


def joint_of(join: Join, fastening: Fastening, first: Part, second: Part, space: Solid | None) -> Joint:
    """The joint as it is cut. A tenon is on the part whose whole end goes in, whichever is named first."""
    tenoned = fastening.kind == "mortise-and-tenon"
    if tenoned and _goes_in_whole(second, space) and not _goes_in_whole(first, space):
        return Joint(join, fastening, second, first)
    return Joint(join, fastening, first, second)


def shares(joint: Joint, space: Solid, driven_from: Vec | None) -> list[Share]:
    """Who keeps what of the space both parts of a joint fill.

    `driven_from` is the way the heads of the first part's fasteners look: of a flush half-lap, the first
    part keeps that half; without it, the half to the right, the back or the top.
    """
    kind = joint.fastening.kind
    if kind == "housed":
        return [_share(joint, space, joint.first)]
    if kind == "notched":
        return [_share(joint, space, joint.second)]
    if kind == "half-lap":
        return _halves(joint, space, driven_from)
    block = tenon_block(joint, space)
    whole = _share(joint, space, joint.second)
    return [whole] if block is None else [whole, _share(joint, block, joint.first)]


def meets_on(joint: Joint, kept: list[Share]) -> list[Patch]:
    """The areas on which the two parts of a joint meet, looking from the first into the second."""
    first, second = joint.first.solid, joint.second.solid
    if joint.fastening.kind == "half-lap":
        return _lapped_faces(joint, kept)
    if joint.fastening.kind == "mortise-and-tenon":
        if len(kept) < 2:
            return []
        space, block = kept[0].solid, kept[1].solid
        flat = shoulder(space, block, first, second)
        return cut_faces(block, second) + ([] if flat is None else [flat])
    if kept[0].keeper is joint.first:
        return cut_faces(kept[0].solid, second)
    return [turned(patch) for patch in cut_faces(kept[0].solid, first)]


def unexplained_faces(touch: Touch, fit: float) -> list[Patch]:
    """Where two parts meet that share space without a joint: as drawn, the second is whole and the first is
    cut.
    """
    if touch.space is None or (touch.depth <= fit and touch.patches):
        return touch.patches
    found = [turned(patch) for patch in cut_faces(touch.space, touch.first.solid)]
    return found or cut_faces(touch.space, touch.second.solid)


def drawn_depth(joint: Joint, touch: Touch) -> float:
    """How deep the first part is drawn in the second: a tenon by its length, a half-lap or notch by the
    least push.

    A rabbet is open on two sides and has two depths: of a housing, the one nearest to the stated depth
    counts. An end that goes in aslant has a longest and a shortest side, and may be measured on either.
    """
    if touch.space is None:
        return 0.0
    stated = stated_depth(joint.fastening)
    if joint.fastening.kind == "mortise-and-tenon":
        return _endwise(joint.first, touch.space, stated)
    if joint.fastening.kind != "housed" or stated is None:
        return touch.depth
    depths = [touch.depth, *_pushes(joint.first.solid, joint.second.solid)]
    if _goes_in_whole(joint.first, touch.space):
        depths.append(_endwise(joint.first, touch.space, stated))
    return min(depths, key=lambda depth: abs(depth - stated))


def stated_depth(fastening: Fastening) -> float | None:
    """How deep the plan says the first part goes into the second; None where the joint names no depth."""
    if fastening.kind == "housed" and fastening.depth is not None:
        return fastening.depth.value
    if fastening.kind == "mortise-and-tenon" and fastening.tenon is not None:
        return fastening.tenon[2].value
    return None


def tenon_block(joint: Joint, space: Solid) -> Solid | None:
    """The tenon: what of the first part's end in the second lies within its thickness and width, about the
    middle.
    """
    if joint.fastening.tenon is None:
        return space
    thickness, width, _ = joint.fastening.tenon
    part = joint.first
    block: Solid | None = space
    for way, size in ((part.through, thickness.value), (part.across, width.value)):
        low, high = extent(part.box, way)
        middle = (low + high) / 2.0
        for plane in (Plane(way, middle + size / 2.0), Plane(scale(way, -1.0), size / 2.0 - middle)):
            block = None if block is None else clip(block, plane)
    return block


def _endwise(part: Part, space: Solid, stated: float | None) -> float:
    """How far a part's end fills a space along its length: at the middle, or where the plan's figure fits."""
    low, high = extent(space, part.along)
    way = cross_line(space, space.centroid, part.along)
    if way is None:
        return high - low
    middle = way[1] - way[0]
    slant = high - low - middle
    return middle if stated is None else min(max(stated, middle - slant), middle + slant)


def _share(joint: Joint, space: Solid, keeper: Part) -> Share:
    return Share(joint.first, joint.second, space, keeper, joint.join, joint.fastening)


def _goes_in_whole(part: Part, space: Solid | None) -> bool:
    """Whether the space takes up all of a part's width and thickness."""
    if space is None:
        return False
    for way, size in ((part.across, part.size.width), (part.through, part.size.thickness)):
        low, high = extent(space, way)
        if high - low < size - EXACT:
            return False
    return True


def _halves(joint: Joint, space: Solid, driven_from: Vec | None) -> list[Share]:
    up = _lap_direction(joint)
    low, high = extent(space, up)
    middle = (low + high) / 2.0
    upper, lower = clip(space, Plane(scale(up, -1.0), -middle)), clip(space, Plane(up, middle))
    if upper is None or lower is None:
        return [_share(joint, space, joint.first)]
    on_top, below = joint.first, joint.second
    if not _first_on_top(joint, up, driven_from):
        on_top, below = below, on_top
    return [_share(joint, upper, on_top), _share(joint, lower, below)]


def _lap_direction(joint: Joint) -> Vec:
    """Square to both parts' lengths; made to look to the right, the back or the top."""
    way = cross(joint.first.along, joint.second.along)
    way = unit(way) if length(way) > _PARALLEL else joint.first.through
    return way if max(way, key=abs) > 0.0 else scale(way, -1.0)


def _first_on_top(joint: Joint, up: Vec, driven_from: Vec | None) -> bool:
    higher = sum(extent(joint.first.solid, up)) - sum(extent(joint.second.solid, up))
    if abs(higher) > 2.0 * EXACT:
        return higher > 0.0
    return driven_from is None or dot(driven_from, up) > -EXACT


def _lapped_faces(joint: Joint, kept: list[Share]) -> list[Patch]:
    """The face between the two halves, once, and the shoulders of both parts."""
    found: list[Patch] = []
    for share in kept:
        if share.keeper is joint.first:
            found += cut_faces(share.solid, joint.second.solid)
    between = _lap_direction(joint)
    for share in kept:
        if share.keeper is joint.second:
            faces = cut_faces(share.solid, joint.first.solid)
            found += [turned(patch) for patch in faces if abs(dot(patch.normal, between)) < 0.5]
    return found


def _pushes(first: Solid, second: Solid) -> list[float]:
    found: list[float] = []
    for way in second.normals:
        first_low, first_high = extent(first, way)
        second_low, second_high = extent(second, way)
        found += [first_high - second_low, second_high - first_low]
    return found
