"""How far one fastener goes along its axis, and how much wood is left round its tip. Pure numbers in mm.

entry        seat            joint                tip          open air
  |  counterbore |   held       |    embedment      |              |
  |<------- through ----------->|<--------- wood ahead ----------->|
"""

from __future__ import annotations

import math
from typing import NamedTuple

from planlint.build.piece import Driven, Part
from planlint.geometry.vector import Vec, dot, onward
from planlint.observe.wood import Wood

_ALONG = 0.1  # cos of 84 deg: a face nearer to the axis's own direction than this is one it runs along
_AHEAD = 0.7  # cos of 45 deg: a face that looks along the axis is ahead, any other aside


class Depth:
    """A fastener's way up to the joint and beyond it.

    `receiver` is the index of the passage that must hold it, `through` where that begins, `depth` how far it
    goes on, `ahead` how far there is wood of any part. `under_head` is what is left of the part the head
    sits in.
    """

    __slots__ = ("ahead", "depth", "last", "receiver", "through", "under_head")

    def __init__(
        self, receiver: int, through: float, under_head: float, depth: float, ahead: float, last: Part
    ) -> None:
        self.receiver = receiver
        self.through = through
        self.under_head = under_head
        self.depth = depth
        self.ahead = ahead
        self.last = last


class Cover:
    """The least wood between a tip and open air (0 or less: the tip is out), the face it is nearest to, and
    the point of that face.
    """

    __slots__ = ("foot", "normal", "part", "wood")

    def __init__(self, wood: float, part: Part, normal: Vec, foot: Vec) -> None:
        self.wood = wood
        self.part = part
        self.normal = normal
        self.foot = foot


class Room(NamedTuple):
    """What is round the axis where it enters its receiver: `square` is the receiver's depth square to the
    face it enters, `aside` the way to the face that a slanted axis nears (no limit where it nears none),
    `slope` the degrees between the axis and square.
    """

    square: float
    aside: float
    slope: float


def depth_of(driven: Driven, wood: Wood) -> Depth | None:
    """How far a fastener goes; None when its axis never meets the part it should hold in."""
    passages = driven.passages
    parts = [part for part, _, _ in passages]
    if driven.into not in parts:
        return None
    receiver = parts.index(driven.into)
    through = passages[receiver].enter
    last, end = wood.end(passages)
    if last < receiver:  # a gap before the receiver: the wood ahead begins behind it
        last, end = receiver, passages[receiver].leave
    under_head = (passages[0].leave if receiver else through) - driven.seat
    depth = wood.as_one(passages, receiver) - through
    return Depth(receiver, through, under_head, depth, end - through, passages[last].part)


def meets(driven: Driven) -> bool:
    """Whether a fastener's axis meets the part it should hold in."""
    return driven.into in [part for part, _, _ in driven.passages]


def cover_of(driven: Driven, depth: Depth, wood: Wood, beside_too: bool) -> Cover | None:
    """The cover of the tip; None without a length. Of a tip that stops before the receiver, the wood ahead.

    Faces that the axis runs along count only where `beside_too`: else the place along them is free.
    """
    tip = driven.tip
    if tip is None:
        return None
    end = depth.through + depth.ahead
    if tip >= end or tip <= depth.through:
        return Cover(end - tip, depth.last, driven.axis, onward(driven.entry, driven.axis, end))
    point = onward(driven.entry, driven.axis, tip)
    within = [part for part, enter, leave in driven.passages[depth.receiver :] if enter <= tip < leave]
    part = within[0] if within else depth.last
    found = _nearest(part, point, driven.axis, wood, beside_too)
    assert found is not None  # a convex part has a face ahead of every point in it
    return found


def room_of(driven: Driven, depth: Depth) -> Room:
    """The receiver's sizes round the point where the axis enters it; only pockets are not square to it."""
    if driven.pocket_side is None:
        return Room(driven.passages[depth.receiver].leave - depth.through, math.inf, 0.0)
    point = onward(driven.entry, driven.axis, depth.through)
    ahead = [
        (dot(normal, driven.axis), offset - dot(normal, point)) for normal, offset in driven.into.solid.planes
    ]
    square = max(ahead)[1]
    aside = min([room for steep, room in ahead if _ALONG < steep < _AHEAD], default=math.inf)
    normal = driven.patch.normal
    slope = math.degrees(math.acos(min(1.0, abs(dot(normal, driven.axis)))))
    return Room(square, aside, slope)


def _nearest(part: Part, point: Vec, axis: Vec, wood: Wood, beside_too: bool) -> Cover | None:
    """The face with the least wood before it, nearest faces first; another part on a face adds its own."""
    least = -1.0 if beside_too else _ALONG
    (px, py, pz), (ax, ay, az) = point, axis
    faces: list[tuple[float, Vec]] = []
    for normal, offset in part.solid.planes:
        x, y, z = normal
        if x * ax + y * ay + z * az > least:
            faces.append((offset - (x * px + y * py + z * pz), normal))
    faces.sort()
    least_wood = math.inf
    nearest: tuple[float, Vec] | None = None
    for face in faces:
        if face[0] >= least_wood:
            break
        covered = wood.to_open_air(part, point, face[1], face[0])
        if covered < least_wood:
            least_wood, nearest = covered, face
    if nearest is None:
        return None
    distance, normal = nearest
    return Cover(least_wood, part, normal, onward(point, normal, distance))
