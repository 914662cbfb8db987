"""The findings by number, each with the parts it is about and the one spot in the piece to mark.

Number n is the n-th finding of the audit's report that no `accept` covers, from 1: the same on every drawing and page.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.build.naming import Naming, naming_of
from planlint.build.once import once_a_piece
from planlint.build.piece import Driven, Part, Piece, SlatRow
from planlint.drawing.held import Held, holds
from planlint.geometry.meeting import Patch
from planlint.geometry.solid import extent
from planlint.geometry.vector import WORLD, Vec, add, dot, scale
from planlint.judge.finding import Finding, Verdict
from planlint.source import Span

PAIRED = " + "  # between the names of two parts that are joined, as the facts write them
DIRECTIONS = {"left-right": WORLD[0], "front-back": WORLD[1], "up": WORLD[2]}


class Numbered(NamedTuple):
    """A finding, its number, the placed parts it is about in the plan's order, and its spot in the world (mm).

    `spot` is None where the finding has no place: it is about the list, the whole piece, or parts without one.
    """

    number: int
    finding: Finding
    parts: tuple[str, ...]
    spot: Vec | None


def numbered(audit: Audit) -> tuple[Numbered, ...]:
    """The open findings in the report's order."""
    known = _numbers(audit.piece)
    if not known or known[0].verdict is not audit.verdict:
        places = _Places(audit.piece)
        findings = [finding for finding in audit.verdict.findings if finding.accepted is None]
        told = [_numbered(number, finding, places) for number, finding in enumerate(findings, 1)]
        known[:] = [_Numbers(audit.verdict, tuple(told))]
    return known[0].findings


class _Numbers(NamedTuple):
    verdict: Verdict
    findings: tuple[Numbered, ...]


@once_a_piece
def _numbers(_: Piece) -> list[_Numbers]:
    """Where the numbers of the piece's last verdict are kept, since every drawing and chapter asks for them."""
    return []


def _numbered(number: int, finding: Finding, places: _Places) -> Numbered:
    """Names come first, since they are exact; then what the flagged words build."""
    pairs = [pair for name in finding.names if (pair := places.pair(name))]
    named = [part for name in finding.names if not places.pair(name) for part in places.named(name)]
    parts = [part for pair in pairs for part in pair] + named
    fasteners = places.driven_at(finding.span)
    spot = _fastener_spot(pairs, fasteners, places)
    if spot is None and parts and fasteners and not pairs:
        about = {part.name for part in parts}
        near = [one for one in fasteners if one.first.name in about or one.second.name in about]
        spot = near[0].spot if near else None
    if spot is None:
        spot = places.gap(finding) or places.joint_at(finding.span, parts)
    if not parts:
        parts = places.parts_at(finding.span, fasteners)
    if spot is None and parts:
        spot = parts[0].solid.centroid
    if places.is_bought(finding.span):
        spot = None  # what is bought has no place in the piece
    ordered = sorted({part.order: part for part in parts}.items())
    return Numbered(number, finding, tuple([part.name for _, part in ordered]), spot)


def _fastener_spot(
    pairs: Sequence[tuple[Part, Part]], fasteners: Sequence[Driven], places: _Places
) -> Vec | None:
    """Of the first pair named: the fastener in the flagged words, else any that joins the two, else where they meet."""
    if not pairs:
        return None
    names = frozenset((pairs[0][0].name, pairs[0][1].name))
    for driven in fasteners:
        if {driven.first.name, driven.second.name} == names:
            return driven.spot
    return places.joints.get(names)


class _Places:
    """What the words and names of a finding stand for in the piece."""

    def __init__(self, piece: Piece) -> None:
        self._piece = piece
        self._naming: Naming = naming_of(piece)
        self._by_name = {part.name: part for part in piece.parts}
        self.joints: dict[frozenset[str], Vec] = {}
        self._fasteners = Held([(one.fastening.span, one) for one in piece.driven])
        self._of_joins = Held([(one.join.span, one) for one in piece.driven])
        self._meetings = Held([(one.join.span, one) for one in piece.meetings])
        self._bought = Held([(one.span, one) for one in piece.plan.purchases])
        for meeting in piece.meetings:
            self._meet(meeting.first, meeting.second, meeting.patches)
        for first, second, patches in piece.contacts:
            self._meet(first, second, patches)

    def _meet(self, first: Part, second: Part, patches: Sequence[Patch]) -> None:
        if patches:
            largest = max(patches, key=lambda patch: patch.area)
            self.joints.setdefault(frozenset((first.name, second.name)), middle_of(largest.outline))

    def pair(self, name: str) -> tuple[Part, Part] | None:
        """The two parts of `a + b`, where both are placed."""
        first, paired, second = name.partition(PAIRED)
        if not paired or first not in self._by_name or second not in self._by_name:
            return None
        return self._by_name[first], self._by_name[second]

    def named(self, name: str) -> Sequence[Part]:
        """The parts that answer to a name; also those named in `between slat.1 and slat.2`."""
        if name in self._by_name:
            return [self._by_name[name]]
        known = self._naming.whole.get(name)
        if known is not None:
            return known
        words = name.split(" ")
        if PAIRED in name:
            return [part for word in name.split(PAIRED) for part in self._naming.whole.get(word, [])]
        return [self._by_name[word] for word in words if word in self._by_name]

    def is_bought(self, span: Span) -> bool:
        """Whether the flagged words are an entry of `buy`."""
        return bool(self._bought.at(span))

    def driven_at(self, span: Span) -> list[Driven]:
        """The fasteners that the flagged words put in: those of the fastening, else of the whole entry."""
        return self._fasteners.at(span) or self._of_joins.at(span)

    def joint_at(self, span: Span, parts: Sequence[Part]) -> Vec | None:
        """Where the parts of the flagged join meet, such that one of `parts` is in it when there are any."""
        names = {part.name for part in parts}
        for meeting in self._meetings.at(span):
            if not meeting.patches:
                continue
            if not names or meeting.first.name in names or meeting.second.name in names:
                return middle_of(max(meeting.patches, key=lambda patch: patch.area).outline)
        return None

    def parts_at(self, span: Span, fasteners: Sequence[Driven]) -> list[Part]:
        """The parts that the flagged words join, measure, place or list."""
        if fasteners:
            return [part for one in fasteners for part in (one.first, one.second)]
        joined = self._meetings.at(span)
        if joined:
            return [part for one in joined for part in (one.first, one.second)]
        for measured in self._piece.measured:
            if holds(measured.span, span):
                return [part for name in measured.parts for part in self.named(name)]
        for row in self._piece.covers:
            if holds(row.cover.span, span):
                return list(row.slats)
        placed = [part for part in self._piece.parts if holds(part.span, span)]
        return placed or [part for part in self._piece.parts if holds(part.entry.span, span)]

    def gap(self, finding: Finding) -> Vec | None:
        """The middle of the gap in a cover that a finding names by its slats: `between slat.3 and the back end`."""
        if not finding.names:
            return None
        for row in self._piece.covers:
            if holds(row.cover.span, finding.span):
                slats = self.named(finding.names[0])
                return _gap(row, slats, finding.names[0]) if slats else None
        return None


def _gap(row: SlatRow, slats: Sequence[Part], name: str) -> Vec | None:
    if len(slats) > 1:
        return scale(add(slats[0].solid.centroid, slats[1].solid.centroid), 0.5)
    if " and " not in name:
        return None
    way = DIRECTIONS[row.direction]
    low, high = extent(slats[0].solid, way)
    middle = slats[0].solid.centroid
    is_last = abs(row.end - high) < abs(low - row.start)
    at = (row.end + high) / 2.0 if is_last else (row.start + low) / 2.0
    return add(middle, scale(way, at - dot(middle, way)))


def middle_of(points: Iterable[Vec]) -> Vec:
    """The mean of some points."""
    known = list(points)
    return scale(
        (sum(p[0] for p in known), sum(p[1] for p in known), sum(p[2] for p in known)), 1.0 / len(known)
    )
