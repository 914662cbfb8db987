"""All that holds two parts together, from every join line that names them."""

from __future__ import annotations

from planlint.build.joinery.joints import CUTTING
from planlint.build.once import once_a_piece
from planlint.build.piece import Driven, Meeting, Part, Piece
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import dot
from planlint.observe.ground import grounded
from planlint.observe.load_path import Key, key_of
from planlint.read.plan import Fastening
from planlint.trade.screws import kind

_LEVEL = 0.7  # cos of 45 deg: an area that looks more than this up or down is level


class JoinedPair:
    """Two joined parts: how their joins hold them."""

    __slots__ = ("counted", "cut", "driven", "fitted", "glued", "loose", "meetings", "pinned", "unsaid")

    def __init__(self) -> None:
        self.meetings: list[Meeting] = []
        self.driven: list[Driven] = []
        self.counted = 0  # screws, nails, bolts and fittings of all its joins
        self.glued = False
        self.cut = False  # a tenon, housing, notch or lap
        self.pinned = False  # dowels or biscuits
        self.fitted = False  # a biscuit, a hinge, a bracket or a fitting nobody knows holds over an area
        self.loose = False
        self.unsaid = False

    def add(self, meeting: Meeting) -> None:
        """One more join of the two."""
        self.meetings.append(meeting)
        for one in meeting.join.fastenings:
            self.glued = self.glued or one.kind == "glue"
            self.loose = self.loose or one.kind == "loose"
            self.unsaid = self.unsaid or one.kind == "unsaid"
            self.cut = self.cut or one.kind in CUTTING
            if one.kind == "counted":
                self._count(one)

    def _count(self, fastening: Fastening) -> None:
        found = kind(fastening.noun.text)
        self.counted += fastening.number
        pin = found is not None and found.what == "pin"
        self.pinned = self.pinned or pin
        turns = found is not None and found.what != "plate" and (not pin or found.noun == "dowels")
        self.fitted = self.fitted or not turns


@once_a_piece
def joined_pairs(piece: Piece) -> dict[Key, JoinedPair]:
    """Every two joined parts that meet."""
    found: dict[Key, JoinedPair] = {}
    of_meeting: dict[int, JoinedPair] = {}
    for meeting in piece.meetings:
        key = key_of(meeting.first, meeting.second)
        pair = found.get(key)
        if pair is None:
            pair = found[key] = JoinedPair()
        pair.add(meeting)
        of_meeting[id(meeting)] = pair
    for driven in piece.driven:
        of_meeting[id(driven.meeting)].driven.append(driven)
    return found


class Supports:
    """What lies under what: by a part's order, the parts it lies on; and what floor or wall carries."""

    __slots__ = ("_beside", "_carried", "_piece", "_touching", "on")

    def __init__(self, piece: Piece, pairs: dict[Key, JoinedPair]) -> None:
        self._piece = piece
        self._carried: set[int] | None = None
        self.on: dict[int, list[Part]] = {}
        self._touching: set[Key] = set()
        for first, second, patches in piece.contacts:
            self._touching.add(key_of(first, second))
            for patch in patches:
                if patch.normal[2] < -_LEVEL:
                    self.on.setdefault(first.order, []).append(second)
                elif patch.normal[2] > _LEVEL:
                    self.on.setdefault(second.order, []).append(first)
        self._beside: dict[int, list[int]] = {}
        for pair in pairs.values():
            for meeting in filter(_beside, pair.meetings):
                self._beside.setdefault(meeting.first.order, []).append(meeting.second.order)
                self._beside.setdefault(meeting.second.order, []).append(meeting.first.order)

    def bears(self, first: Part, second: Part) -> bool:
        """Whether a third part that touches one of two lies under the other: a cleat, a ledger."""
        for part, other in ((first, second), (second, first)):
            for under in self.on.get(part.order, ()):
                if under is not other and key_of(under, other) in self._touching:
                    return True
        return False

    def hangs(self, first: Part, second: Part, normal: tuple[float, float, float]) -> bool:
        """Whether the lower of two that meet on a level area is held up by nothing but what is above it."""
        if abs(normal[2]) < _LEVEL:
            return False
        lower = second if normal[2] < 0.0 else first
        return lower.order not in self._standing()

    def _standing(self) -> set[int]:
        """The parts that floor or wall carries: held by it, lying on such a part, or joined beside one."""
        if self._carried is None:
            upward: dict[int, list[int]] = {}
            for order, below in self.on.items():
                for part in below:
                    upward.setdefault(part.order, []).append(order)
            self._carried = grounded(self._piece, self.on)
            waiting = list(self._carried)
            while waiting:
                order = waiting.pop()
                for other in (*upward.get(order, ()), *self._beside.get(order, ())):
                    if other not in self._carried:
                        self._carried.add(other)
                        waiting.append(other)
        return self._carried


def _beside(meeting: Meeting) -> bool:
    """Whether two meet otherwise than one upon the other, so that either can hold the other up."""
    return not meeting.patches or abs(widest(meeting).normal[2]) <= _LEVEL


def widest(meeting: Meeting) -> Patch:
    """The largest area on which two parts meet; the meeting has one at least."""
    first, *more = meeting.patches
    return max(meeting.patches, key=lambda patch: patch.area) if more else first


def along_grain(part: Part, normal: tuple[float, float, float]) -> float:
    """How much a direction runs with a part's grain, 0 to 1; 0 in sheet goods, which have none."""
    return 0.0 if part.stock.sheet else min(1.0, abs(dot(part.grain, normal)))
