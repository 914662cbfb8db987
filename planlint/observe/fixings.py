"""What holds each board and panel across its grain.

What holds it counts where it can't give way: along long grain and sheets a fixing keeps its place, while on a
board that grows the same way all fixings go along with that board's middle.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planlint.build.piece import Meeting, Part, Piece
from planlint.geometry.outline import span_along
from planlint.geometry.vector import EXACT, NOISE, Vec, dot
from planlint.observe.extents import Extents
from planlint.observe.panels import Panel, Some, runs_along
from planlint.read.plan import Fastening
from planlint.trade import screws

_LEANS = 0.02  # sin of 1 deg
_END_ON = 0.7  # cos of 45 deg: a face that looks more than this along a direction is an end or edge of it

# What a fastening takes hold of in the other part, not yet measured across the grain: that part, the meeting, the
# fastening, its spots in space, and whether it is rigid.
_Fixed = tuple[Part, Meeting, Fastening, list[Vec], bool]


class Fixing:
    """What one fastening between the panel and another part takes hold of: from `low` to `high` across the grain.

    `at_edge` is -1 or 1 where it lies on the panel's lower or higher edge, else 0.
    """

    __slots__ = ("at_edge", "fastening", "high", "low", "meeting", "rigid", "to")

    def __init__(
        self,
        to: Part,
        meeting: Meeting,
        fastening: Fastening,
        low: float,
        high: float,
        at_edge: int,
        rigid: bool,
    ) -> None:
        self.to = to
        self.meeting = meeting
        self.fastening = fastening
        self.low = low
        self.high = high
        self.at_edge = at_edge
        self.rigid = rigid


class Holding(NamedTuple):
    """Fixings that can't move against each other: the outermost two, and the places that they keep, mm."""

    lowest: Fixing
    highest: Fixing
    low: float
    high: float


class Fixings:
    """The fixings of every part, and what is joined to what."""

    def __init__(self, piece: Piece) -> None:
        self.parts = piece.parts
        self.loose: Some = 0  # the parts that lie loose on others, or have such on them
        self._fixed: list[list[_Fixed]] = [[] for _ in piece.parts]
        self._joined: list[Some] = [0] * len(piece.parts)
        self._along: dict[Vec, Some] = {}
        spots: dict[tuple[int, int], list[Vec]] = {}
        for driven in piece.driven:
            spots.setdefault((id(driven.meeting), id(driven.fastening)), []).append(driven.spot)
        known: dict[int, bool | None] = {}
        for meeting in piece.meetings:
            first, second, fastenings = meeting.first, meeting.second, meeting.join.fastenings
            a, b = first.order, second.order
            for one in fastenings:
                if one.kind == "loose":
                    self.loose |= 1 << a | 1 << b
                    continue
                self._joined[a] |= 1 << b
                self._joined[b] |= 1 << a
                places = spots.get((id(meeting), id(one)), [])
                if one.kind != "glue":
                    if id(one) not in known:
                        known[id(one)] = _is_rigid(meeting, one)
                    if not places or known[id(one)] is None:
                        continue
                rigid = one.kind == "glue" or bool(known[id(one)])
                self._fixed[a].append((second, meeting, one, places, rigid))
                self._fixed[b].append((first, meeting, one, places, rigid))

    def of(self, panel: Panel) -> list[Fixing]:
        """All fixings between a panel and other parts that hold it, rigid or not."""
        found: list[Fixing] = []
        x, y, z = panel.across
        for part in panel.parts:
            for to, meeting, fastening, spots, rigid in self._fixed[part.order]:
                if panel.own >> to.order & 1:
                    continue
                if fastening.kind == "glue":
                    reach = _glued(meeting, part, panel.across, fastening)
                    if reach is not None:
                        found.append(Fixing(to, meeting, fastening, *reach, 0, True))
                    continue
                places = [x * p + y * q + z * r for p, q, r in spots]
                edge = _edge(panel, meeting)
                found.append(Fixing(to, meeting, fastening, min(places), max(places), edge, rigid))
        return found

    def groups(self, orders: Iterable[int], without: Some) -> list[Some]:
        """The parts of these orders, each with all that is joined to it in whatever way that does not pass
        `without`; a group once.
        """
        found: list[Some] = []
        for order in orders:
            if not any(group >> order & 1 for group in found):
                found.append(self._group(order, without))
        return found

    def _group(self, start: int, without: Some) -> Some:
        joined = self._joined
        group, waiting = 1 << start, [start]
        while waiting:
            more = joined[waiting.pop()] & ~group & ~without
            group |= more
            while more:
                last = more.bit_length() - 1
                waiting.append(last)
                more ^= 1 << last
        return group

    def along(self, way: Vec) -> Some:
        """The parts that keep their length in a direction."""
        found = self._along.get(way)
        if found is None:
            found = sum([1 << part.order for part in self.parts if runs_along(part, way)])
            self._along[way] = found
        return found


def _glued(meeting: Meeting, part: Part, across: Vec, glue: Fastening) -> tuple[float, float] | None:
    """How far glue takes hold across the grain. Of a tenon or a housing its cheeks count, not the end grain."""
    faces = [patch for patch in meeting.patches if abs(dot(patch.normal, across)) < _END_ON]
    cheeks = [patch for patch in faces if abs(dot(patch.normal, part.grain)) < _END_ON]
    ends = [span_along(patch.outline, across) for patch in cheeks or faces]
    if not ends:
        return None
    low, high = min(ends)[0], max([end for _, end in ends])
    if glue.middle is not None and glue.middle.value < high - low:
        middle = (low + high) / 2.0
        return middle - glue.middle.value / 2.0, middle + glue.middle.value / 2.0
    return low, high


def _is_rigid(meeting: Meeting, fastening: Fastening) -> bool | None:
    """Whether a counted fastening holds fast against moving; None for one that nobody knows, or that gives."""
    kind = screws.kind(fastening.noun.text)
    if kind is None:
        return None
    if kind.rigid_over is None:
        return False if kind.what == "plate" else None  # brads give
    if fastening.slotted is not None:
        return False
    length = fastening.size.length.value if fastening.size and fastening.size.length else None
    if kind.what == "pin":
        glued = any(one.kind == "glue" for one in meeting.join.fastenings)
        return True if glued or fastening.from_ is not None else None
    return True if kind.rigid_over == 0.0 or (length is not None and kind.rigid(length)) else None


def _edge(panel: Panel, meeting: Meeting) -> int:
    """On which edge of the panel two parts meet; 0: on a face or an end."""
    if not meeting.patches:
        return 0
    patch = meeting.patches[0]
    if len(meeting.patches) > 1:
        patch = max(meeting.patches, key=lambda one: one.area)
    (x, y, z), (u, v, w) = patch.normal, panel.across
    if abs(x * u + y * v + z * w) < _END_ON:
        return 0
    at = dot(patch.outline[0], panel.across)
    return 1 if at > (panel.low + panel.high) / 2.0 else -1


def holding(panel: Panel, fixings: list[Fixing], known: Fixings, extents: Extents) -> Holding | None:
    """What holds a panel across its grain over the greatest distance, of all groups of parts that are joined
    without it.

    A group counts only where some part of it runs across the panel's grain: else all of it grows alike.
    """
    rigid = _that_count([fixing for fixing in fixings if fixing.rigid])
    along = known.along(panel.across)
    kept = [(*_place(fixing, panel, along, extents), fixing) for fixing in rigid]
    if not kept:
        return None
    whole = _outermost(kept)
    if whole.high - whole.low < EXACT:
        return None
    if whole.lowest is whole.highest and along >> whole.lowest.to.order & 1:
        return whole  # one part alone holds it as far as all together
    found: list[Holding] = []
    for group in known.groups(dict.fromkeys([fixing.to.order for fixing in rigid]), panel.own):
        if group & along:
            found.append(_outermost([one for one in kept if group >> one[2].to.order & 1]))
    widest = max(found, key=lambda one: one.high - one.low, default=None)
    return None if widest is None or widest.high - widest.low < EXACT else widest


def _outermost(kept: list[tuple[float, float, Fixing]]) -> Holding:
    """The first of those that reach furthest down, and of those that reach furthest up."""
    first, low, last, high = kept[0][2], kept[0][0], kept[0][2], kept[0][1]
    for start, end, fixing in kept:
        if start < low - NOISE:
            first, low = fixing, start
        if end > high + NOISE:
            last, high = fixing, end
    return Holding(first, last, low, high)


def _that_count(rigid: list[Fixing]) -> list[Fixing]:
    """An edge alone may be fixed to anything: it holds the panel only against its other edge."""
    edges = {fixing.at_edge for fixing in rigid}
    if edges == {0} or (-1 in edges and 1 in edges):
        return rigid
    return [fixing for fixing in rigid if fixing.at_edge == 0]


def _place(fixing: Fixing, panel: Panel, along: Some, extents: Extents) -> tuple[float, float]:
    """The places across the grain that a fixing keeps."""
    if along >> fixing.to.order & 1 or fixing.at_edge:
        return fixing.low, fixing.high
    low, high = extents.along(panel.across)[fixing.to.order]
    if abs(dot(fixing.to.grain, panel.across)) > _LEANS:  # its middle is elsewhere at another height
        low, high = fixing.low, fixing.high
    middle = (low + high) / 2.0
    return middle, middle
