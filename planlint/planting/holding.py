"""Fastenings that hold too little: in end grain, by glue alone, by one screw."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Driven, Meeting, Part
from planlint.geometry.vector import dot
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.screws import OTHER_LENGTH
from planlint.planting.sound import Sound, across
from planlint.read.plan import Join
from planlint.source import Span
from planlint.trade.screws import kind

_LESS_HELD = (
    "end-grain-only", "glue-end-grain", "one-fastener-pivots", "hardware-short", "joint-overloaded", "racks-sideways",
    "wet-wood-indoors", "top-cannot-move", "boards-to-spare", "no-pilot", "screw-light-for-load", "tips-over",
    "plug-mismatch", "too-near-edge", "fasteners-collide", "loose-part", "no-driver-room", "screw-embedment",
)  # fmt: skip


@mistake("screws in end grain without their glue", "end-grain-only", also=_LESS_HELD)
def no_glue_in_end_grain(sound: Sound) -> Iterator[Edit]:
    """Nothing else holds or carries: the joint is a plain butt, and the parts meet at the end alone."""
    for join, fastening in sound.fastenings():
        found = kind(fastening.noun.text)
        glue = next((one for one in join.fastenings if one.kind == "glue"), None)
        if found is None or not found.threaded or found.pocketed or glue is None or len(join.fastenings) != 2:
            continue
        driven = sound.driven(fastening)
        if driven and all(
            _in_end_grain(one) and not _carried(sound, one) and _reach(one) < 8 for one in driven
        ):
            yield Edit((Change(_with_and(sound, glue.span), ""),), (join.span,))


@mistake("short screws in end grain", "end-grain-only", "screw-light-for-load", also=OTHER_LENGTH)
def short_in_end_grain(sound: Sound) -> Iterator[Edit]:
    """Seven diameters, where end grain wants ten."""
    for join, fastening in sound.fastenings():
        found = kind(fastening.noun.text)
        driven = sound.driven(fastening)
        alone = (
            found is not None and found.what == "screw" and not found.pocketed and len(join.fastenings) == 1
        )
        if not alone or not driven or fastening.size is None or fastening.size.length is None:
            continue
        if all(_in_end_grain(one) and not _carried(sound, one) and _reach(one) > 8 for one in driven):
            old = fastening.size.length
            less = old.value - max(_reach(one) - 7 for one in driven) * (across(driven[0].fastening) or 1.0)
            yield Edit((Change(old.span, sound.amount(less, old)),), (join.span,))


@mistake("glue alone on end grain", "glue-end-grain", also=_LESS_HELD)
def glue_alone(sound: Sound) -> Iterator[Edit]:
    """What stands beside the glue is left out."""
    for join in sound.joins():
        glue = next((one for one in join.fastenings if one.kind == "glue"), None)
        others = [one for one in join.fastenings if one.kind != "glue"]
        meetings = sound.meetings(join)
        butt = all(one.kind == "counted" for one in others) and all(m.share is None for m in meetings)
        once = all(_lines_between(sound, m) == 1 for m in meetings)
        if glue and others and meetings and butt and once and all(_end_meets(m) for m in meetings):
            start = join.fastenings[0].span.start
            yield Edit((Change(Span(start, join.span.end), sound.words(glue.span)),), (join.span,))


@mistake("one screw where two kept a part from turning", "one-fastener-pivots", also=_LESS_HELD)
def one_screw(sound: Sound) -> Iterator[Edit]:
    """All that holds the part is this join with one other part, and nothing stops it from turning."""
    for join, fastening in sound.fastenings():
        alone = fastening.kind == "counted" and len(join.fastenings) == 1 and fastening.number > 1
        if not alone or fastening.number_span is None or not sound.driven(fastening):
            continue
        parts = [part for part in sound.piece.parts if _held_only_by(sound, part, join)]
        if parts and not any(part.stock.diameter for part in parts):
            changes = [Change(fastening.number_span, "1")]
            if fastening.spots is not None and len(fastening.spots.distances) > 1:
                first, last = fastening.spots.distances[0], fastening.spots.distances[-1]
                changes.append(
                    Change(
                        Span(first.span.start, last.span.end),
                        sound.words(first.span) + _unit(sound, last.span),
                    )
                )
            yield Edit(tuple(changes), (join.span, *{part.span for part in parts}))


def _in_end_grain(driven: Driven) -> bool:
    into = driven.into
    return not into.stock.sheet and not into.stock.diameter and abs(dot(driven.axis, into.grain)) > 0.95


def _carried(sound: Sound, driven: Driven) -> bool:
    """Whether the part that is screwed at its end lies on a part other than the first, or on the floor."""
    part = driven.into
    for first, second, patches in sound.piece.contacts:
        if part in (first, second) and driven.first not in (first, second):
            down = 1.0 if part is first else -1.0
            if any(down * patch.normal[2] < -0.9 for patch in patches):
                return True
    return part.solid.low[2] < 0.1 or abs(driven.axis[2]) > 0.5


def _reach(driven: Driven) -> float:
    """How many diameters of it lie in the part it holds in."""
    into = next((passage for passage in driven.passages if passage.part is driven.into), None)
    if into is None or driven.tip is None:
        return 0.0
    return (min(driven.tip, into.leave) - into.enter) / (across(driven.fastening) or 1.0)


def _end_meets(meeting: Meeting) -> bool:
    for part in (meeting.first, meeting.second):
        ends = [patch for patch in meeting.patches if abs(dot(patch.normal, part.grain)) > 0.95]
        if not part.stock.sheet and len(ends) == len(meeting.patches) > 0:
            return True
    return False


def _lines_between(sound: Sound, meeting: Meeting) -> int:
    pair = {meeting.first.order, meeting.second.order}
    return sum({m.first.order, m.second.order} == pair for m in sound.piece.meetings)


def _held_only_by(sound: Sound, part: Part, join: Join) -> bool:
    """Whether this join alone holds the part, flat on one other, with no side against a third."""
    own = [m for m in sound.piece.meetings if part in (m.first, m.second)]
    axes = [one.axis for one in sound.piece.driven if part in (one.first, one.second)]
    flat = all(
        abs(dot(patch.normal, axes[0])) > 0.99
        for first, second, patches in sound.piece.contacts
        if axes and part in (first, second)
        for patch in patches
    )
    return len(own) == 1 and own[0].join.span == join.span and own[0].share is None and bool(axes) and flat


def _with_and(sound: Sound, span: Span) -> Span:
    """A fastening with the `and` that joins it to what stands before it."""
    before = sound.text[: span.start].rstrip()
    return Span(len(before) - 3 if before.endswith("and") else span.start, span.end)


def _unit(sound: Sound, span: Span) -> str:
    """The unit behind the last number of a list."""
    words = sound.words(span).split()
    return f" {words[-1]}" if words and words[-1].isalpha() else ""
