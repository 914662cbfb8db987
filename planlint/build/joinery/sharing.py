"""Which joint explains the space that two parts share, who keeps it, and what they then meet on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planlint.build.joinery.joints import CUTTING, Joint, joint_of, meets_on, shares, unexplained_faces
from planlint.build.joinery.meetings import Pair
from planlint.build.joinery.overlaps import of_joint, unexplained
from planlint.build.joinery.remaining import Taken, remaining, taken_away
from planlint.build.joinery.sides import middle_of
from planlint.build.joinery.touching import Touching, turned
from planlint.build.piece import Meeting, Part, Piece, Share
from planlint.build.sides import OF_SIDE, toward
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import Vec, scale, sub

Key = tuple[int, int]  # the orders of two parts, the lesser first


def share_out(piece: Piece, pairs: Sequence[Pair], touching: Touching) -> dict[Key, list[Share]]:
    """Who keeps the space that parts share: fills shares, overlaps and meetings."""
    by_key: dict[Key, list[Pair]] = {}
    for pair in pairs:
        by_key.setdefault(_key(pair), []).append(pair)
    joints = _joints(pairs)
    middle = middle_of(piece.parts)
    kept: dict[Key, list[Share]] = {}
    faces: dict[Key, list[Patch]] = {}
    for key, joint in joints.items():
        touch = touching.between(joint.first, joint.second)
        if touch is None:
            continue
        piece.overlaps.append(of_joint(joint, touch))
        if touch.space is not None:
            kept[key] = shares(joint, touch.space, _driven_from(joint.first, by_key[key], middle))
            faces[key] = meets_on(joint, kept[key])
            piece.shares += kept[key]
    for touch in touching.all():
        if (touch.first.order, touch.second.order) not in kept:
            overlap = unexplained(touch, touching.fit)
            if overlap is not None:
                piece.overlaps.append(overlap)
    taken = taken_away(kept.values())
    piece.meetings = [_meeting(pair, joints, faces, taken, touching.fit) for pair in pairs]
    return kept


def _joints(pairs: Iterable[Pair]) -> dict[Key, Joint]:
    """The joint of each pair that has one; the first that the plan names."""
    found: dict[Key, Joint] = {}
    for pair in pairs:
        for fastening in pair.join.fastenings:
            if fastening.kind in CUTTING:
                joint = joint_of(pair.join, fastening, pair.first, pair.second, pair.touch.space)
                found.setdefault(_key(pair), joint)
    return found


def _driven_from(first: Part, pairs: Iterable[Pair], middle: Vec) -> Vec | None:
    """The way the first part's outside looks, by the fasteners that any join puts through this pair."""
    for pair in pairs:
        for fastening in pair.join.fastenings:
            if fastening.kind == "counted" and fastening.from_ is not None:
                head = _head(fastening.from_.text, pair.first, middle)
                return head if pair.first is first else scale(head, -1.0)
    return None


def _head(side: str, part: Part, middle: Vec) -> Vec:
    if side in OF_SIDE:
        return toward(side)
    inward = sub(middle, middle_of([part]))
    return inward if side == "inside" else scale(inward, -1.0)


def _meeting(
    pair: Pair, joints: dict[Key, Joint], faces: dict[Key, list[Patch]], taken: Taken, fit: float
) -> Meeting:
    key, touch = _key(pair), pair.touch
    if key in faces:
        met = faces[key] if joints[key].first is pair.first else [turned(patch) for patch in faces[key]]
    else:
        met = unexplained_faces(touch, fit)
    if taken:
        met = remaining(met, pair.first, pair.second, taken)
    largest = met if len(met) < 2 else [max(met, key=lambda patch: patch.area)]
    gap = largest[0].gap if largest and largest[0].gap > 0.0 else 0.0
    space = touch.space if key in faces or touch.depth > fit else None
    return Meeting(pair.join, pair.first, pair.second, met, space, gap)


def _key(pair: Pair) -> Key:
    a, b = pair.first.order, pair.second.order
    return (a, b) if a < b else (b, a)
