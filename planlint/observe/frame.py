"""What holds each part up, and where along its length: the frame a stated load goes down through.

The model: a part is held by what it lies on, and by what it is joined to at its sides or ends that is fewer
joints away from the floor. What only hangs under it holds it not. What runs along more than half of it holds
it all along: it then bends no more than that does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from planlint.build.once import once_a_piece
from planlint.build.piece import Meeting, Part, Piece
from planlint.geometry.outline import span_along
from planlint.geometry.solid import extent
from planlint.geometry.vector import Vec, dot
from planlint.observe.ground import grounded

_LEVEL = 0.7  # cos of 45 deg: an area that looks more than this up carries what lies on it


class Held:
    """Where one part holds another: from and to along the length of the one that is held (the way of its
    `along`), and along the one that holds.
    """

    __slots__ = ("by", "end", "start", "there")

    def __init__(self, start: float, end: float, by: Part, there: tuple[float, float]) -> None:
        self.start = start
        self.end = end
        self.by = by
        self.there = there


class Holders(NamedTuple):
    """All that holds a part: at places, in order; or `all_along` its length, which is what counts then."""

    places: tuple[Held, ...]
    all_along: tuple[Held, ...]


class Frame:
    """The parts of a piece and what holds them."""

    __slots__ = ("_found", "_ground", "_joined", "_on", "_steps", "_under")

    def __init__(self, piece: Piece) -> None:
        self._under: dict[int, list[tuple[Part, tuple[Vec, ...]]]] = {}
        self._on: dict[int, list[Part]] = {}
        self._joined: dict[int, list[Meeting]] = {}
        self._found: dict[int, Holders] = {}
        for first, second, patches in piece.contacts:
            for patch in patches:
                if patch.normal[2] < -_LEVEL:
                    self._lies(first, second, patch.outline)
                elif patch.normal[2] > _LEVEL:
                    self._lies(second, first, patch.outline)
        for meeting in piece.meetings:
            self._joined.setdefault(meeting.first.order, []).append(meeting)
            self._joined.setdefault(meeting.second.order, []).append(meeting)
        self._ground = grounded(piece, self._under)
        self._steps = self._from_ground()

    def stands(self, part: Part) -> bool:
        """Whether a part is a post, stands on the floor or hangs on a wall: it carries, and does not bend."""
        return abs(part.along[2]) > _LEVEL or part.order in self._ground

    def holders(self, part: Part) -> Holders:
        """What holds a part up."""
        found = self._found.get(part.order)
        if found is None:
            found = self._found[part.order] = self._holders(part)
        return found

    def downward(self, parts: Iterable[Part]) -> list[Part]:
        """These parts and all that their load goes to, each before what holds it."""
        return before_holders(parts, self._bearing)

    def _bearing(self, part: Part) -> Iterator[Part]:
        places, along = ((), ()) if self.stands(part) else self.holders(part)
        return iter([held.by for held in along or places])

    def _lies(self, upper: Part, lower: Part, outline: tuple[Vec, ...]) -> None:
        self._under.setdefault(upper.order, []).append((lower, outline))
        self._on.setdefault(lower.order, []).append(upper)

    def _holders(self, part: Part) -> Holders:
        low, high = extent(part.solid, part.along)
        half = (high - low) / 2.0
        places: list[Held] = []
        along: list[Held] = []
        for lower, outline in self._under.get(part.order, ()):
            if self._carried(lower, part):
                held = _held(part, lower, outline)
                (along if held.end - held.start > half else places).append(held)
        own = self._steps.get(part.order)
        for meeting in self._joined.get(part.order, ()):
            other = meeting.second if meeting.first is part else meeting.first
            if own is None or self._steps.get(other.order, own) >= own:
                continue
            beside = _beside(part, other, meeting)
            if beside is None or any(held.by is other for held in (*places, *along)):
                continue
            if beside.end - beside.start <= half:
                places.append(beside)
            elif _stands_out(part, meeting) <= 2.0 * _height(part):
                along.append(beside)
        return Holders(tuple(sorted(places, key=lambda held: held.start)), tuple(along))

    def _carried(self, lower: Part, upper: Part) -> bool:
        """Whether a part under another is held by something else than that one, so that it can carry."""
        if self.stands(lower) or lower.order in self._under:
            return True
        above = self._on.get(lower.order, ())
        for meeting in self._joined.get(lower.order, ()):
            other = meeting.second if meeting.first is lower else meeting.first
            if other is not upper and other not in above:
                return True
        return False

    def _from_ground(self) -> dict[int, int]:
        """How many joints each part is from one that floor or wall holds; what nothing joins is left out."""
        steps = dict.fromkeys(sorted(self._ground), 0)
        now = list(steps)
        while now:
            later: list[int] = []
            for order in now:
                joined = self._joined.get(order, ())
                beside = [one.second if one.first.order == order else one.first for one in joined]
                for other in (*self._on.get(order, ()), *beside):
                    if other.order not in steps:
                        steps[other.order] = steps[order] + 1
                        later.append(other.order)
            now = later
        return steps


def before_holders(parts: Iterable[Part], held_by: Callable[[Part], Iterator[Part]]) -> list[Part]:
    """These parts and all that holds them, each before what holds it."""
    done: set[int] = set()
    ordered: list[Part] = []
    for start in parts:
        if start.order in done:
            continue
        done.add(start.order)
        path = [(start, held_by(start))]
        while path:  # a stack of its own: what stands on each other may be deeper than Python's
            for holder in path[-1][1]:
                if holder.order not in done:
                    done.add(holder.order)
                    path.append((holder, held_by(holder)))
                    break
            else:
                ordered.append(path.pop()[0])
    return ordered[::-1]


@once_a_piece
def frame_of(piece: Piece) -> Frame:
    """What holds each part of a piece up."""
    return Frame(piece)


def _held(part: Part, lower: Part, outline: tuple[Vec, ...]) -> Held:
    start, end = span_along(outline, part.along)
    return Held(start, end, lower, span_along(outline, lower.along))


def _beside(part: Part, other: Part, meeting: Meeting) -> Held | None:
    """Where a joint at the side or end of a part holds it; None where they meet on level areas only."""
    points = [point for patch in meeting.patches if abs(patch.normal[2]) <= _LEVEL for point in patch.outline]
    if not points:
        return None
    if meeting.share is not None:
        points += meeting.share.vertices
    return _held(part, other, tuple(points))


def _stands_out(part: Part, meeting: Meeting) -> float:
    """How far a part stands out from the area on which it is joined."""
    patch = max(meeting.patches, key=lambda patch: patch.area)
    low, high = extent(part.solid, patch.normal)
    return high - low


def _height(part: Part) -> float:
    return part.solid.high[2] - part.solid.low[2]


def level(part: Part) -> bool:
    """Whether a part lies rather than stands."""
    return abs(part.along[2]) <= _LEVEL


def same_way(first: Vec, second: Vec) -> float:
    """1 or -1 where two directions are parallel, one way or the other; else 0."""
    along = dot(first, second)
    return 1.0 if along > 0.999 else -1.0 if along < -0.999 else 0.0
