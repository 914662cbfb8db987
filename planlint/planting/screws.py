"""Screws of the wrong length, from the wrong side, in the wrong place; holes of the wrong size."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planlint.build.piece import Driven
from planlint.geometry.vector import dot
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import SIDES, Sound, across
from planlint.read.plan import Fastening, Join
from planlint.source import Span
from planlint.trade.lengths import fastener_lengths
from planlint.trade.screws import FastenerKind, kind
from planlint.trade.woods import wood

OTHER_LENGTH = (  # a screw of another length is on no shopping list, and its tip comes elsewhere
    "hardware-short", "tip-near-face", "tip-through", "fasteners-collide", "end-grain-only", "joint-overloaded",
    "screw-light-for-load", "screw-a-little-short", "too-near-edge", "screw-embedment", "no-pilot", "no-driver-room",
    "one-fastener-pivots",
)  # fmt: skip
_HOLES = (*OTHER_LENGTH, "plug-mismatch", "thin-under-head", "hole-in-view", "counterbore-too-narrow")
_INCH = 25.4


class Depth(NamedTuple):
    """How one fastener sits, in mm along it: head to the second part, that part's depth, wood there is in all."""

    held: float
    seat: float
    into: float
    leaves: float
    ends: float
    across: float


@mistake("a screw too short", "screw-embedment", also=OTHER_LENGTH)
def too_short(sound: Sound) -> Iterator[Edit]:
    """Of the lengths sold, those of which less than two and a half diameters, and a third, reach the second part."""
    for join, fastening, found, depths in _screws(sound):
        if found.pocketed or found.what != "screw":
            continue
        for length in _lengths(sound, found):
            reaching = [depth.seat + length - depth.into for depth in depths]
            little = [min(2.5 * d.across, (d.leaves - d.into) / 3, d.held) for d in depths]
            if all(-_INCH < reach < least for reach, least in zip(reaching, little, strict=True)):
                yield _other_length(sound, join, fastening, length)


@mistake("a screw a little short", "screw-a-little-short", "screw-light-for-load", also=OTHER_LENGTH)
def little_short(sound: Sound) -> Iterator[Edit]:
    """More than it takes to be stopped, less than a good screw has."""
    for join, fastening, found, depths in _screws(sound):
        if found.pocketed or found.what != "screw" or any(_is_sheet(one) for one in sound.driven(fastening)):
            continue
        least = max(
            min(4 * d.across, (d.leaves - d.into) / 2, 1.5 * d.held) + d.into - d.seat for d in depths
        )
        good = min(
            min(5 * d.across, (d.leaves - d.into) * 2 / 3, 2 * d.held) + d.into - d.seat for d in depths
        )
        if good - least > 1.5:
            yield _other_length(sound, join, fastening, (good + least) / 2)


@mistake("a screw whose tip comes out", "tip-through", also=OTHER_LENGTH)
def comes_out(sound: Sound) -> Iterator[Edit]:
    """The next two lengths sold that are longer than all the wood in their way."""
    for join, fastening, found, depths in _screws(sound):
        if found.pocketed or not found.sharp or found.what == "bolt":
            continue
        longer = [one for one in _lengths(sound, found) if all(d.seat + one > d.ends + 1 for d in depths)]
        for length in longer[:2]:
            yield _other_length(sound, join, fastening, length)


@mistake("a tip just under the surface", "tip-near-face", also=OTHER_LENGTH)
def nearly_out(sound: Sound) -> Iterator[Edit]:
    """A sixteenth of an inch of wood over the tip."""
    for join, fastening, found, depths in _screws(sound):
        ends = {round(d.ends - d.seat, 1) for d in depths}
        if (
            found.pocketed
            or not found.sharp
            or found.what == "bolt"
            or found.noun == "brads"
            or len(ends) > 1
        ):
            continue
        yield _other_length(sound, join, fastening, ends.pop() - _INCH / 16)


@mistake("a pocket screw too short", "pocket-screw-length", also=OTHER_LENGTH)
def pocket_short(sound: Sound) -> Iterator[Edit]:
    for join, fastening, found, depths in _screws(sound):
        if found.pocketed:
            for length in _lengths(sound, found):
                if all(d.seat + length - d.into < min(2 * d.across, (d.leaves - d.into) / 3) for d in depths):
                    yield _other_length(sound, join, fastening, length)


@mistake("a pocket screw too long", "pocket-screw-length", also=OTHER_LENGTH)
def pocket_long(sound: Sound) -> Iterator[Edit]:
    for join, fastening, found, depths in _screws(sound):
        if found.pocketed:
            longer = [
                one for one in _lengths(sound, found) if all(d.seat + one > d.leaves + 1 for d in depths)
            ]
            for length in longer[:1]:
                yield _other_length(sound, join, fastening, length)


@mistake("a bolt too short for its nut", "bolt-too-short", also=OTHER_LENGTH)
def bolt_short(sound: Sound) -> Iterator[Edit]:
    """It ends within the wood, or just at its surface."""
    for join, fastening, found, depths in _screws(sound):
        ends = min(d.ends - d.seat for d in depths)
        for length in (
            (ends, ends - _INCH / 2) if found.what == "bolt" and not _in_end_grain(sound, fastening) else ()
        ):
            yield _other_length(sound, join, fastening, length)


@mistake(
    "a screw driven from the wrong side", "wrong-side", also=(*OTHER_LENGTH, "hole-in-view", "loose-part")
)
def wrong_side(sound: Sound) -> Iterator[Edit]:
    """From the side that its tip points to."""
    for join, fastening, found, _ in _screws(sound):
        driven = sound.driven(fastening)
        ways = {_side_of(one.axis) for one in driven}
        apart = all(len(one.meeting.patches) == 1 and one.meeting.share is None for one in driven)
        if (
            found.what != "screw"
            or found.pocketed
            or len(ways) != 1
            or not apart
            or fastening.from_ is not None
        ):
            continue
        side = ways.pop()
        if side and fastening.size:
            end = fastening.size.span.end
            yield Edit((Change(Span(end, end), f" from {side}"),), (join.span,))


@mistake("a counterbore that the head does not enter", "counterbore-too-narrow", also=_HOLES)
def counterbore_narrow(sound: Sound) -> Iterator[Edit]:
    for join, fastening, _, depths in _screws(sound):
        if fastening.counterbore is not None:
            hole = fastening.counterbore.diameter
            yield Edit((Change(hole.span, sound.amount(depths[0].across * 1.4, hole)),), (join.span,))


@mistake("too little wood under the head", "thin-under-head", also=_HOLES)
def thin_under_head(sound: Sound) -> Iterator[Edit]:
    """An eighth of an inch is left, or nothing."""
    for join, fastening, _, depths in _screws(sound):
        if fastening.counterbore is not None:
            hole = fastening.counterbore.depth
            for left in (_INCH / 8, 0.0):
                depth = min(d.into for d in depths) - left
                if depth > hole.value:
                    yield Edit((Change(hole.span, sound.amount(depth, hole)),), (join.span,))


@mistake("a pilot as wide as the screw", "pilot-wrong-size", also=OTHER_LENGTH)
def pilot_wide(sound: Sound) -> Iterator[Edit]:
    for join, fastening, found, depths in _screws(sound):
        if not found.pilot or found.what != "screw" or not found.threaded:
            continue
        wide = sound.length(depths[0].across)
        if fastening.piloted is not None:
            yield Edit(
                (Change(fastening.piloted.span, sound.amount(depths[0].across, fastening.piloted)),),
                (join.span,),
            )
        elif fastening.size is not None:
            end = fastening.size.span.end
            yield Edit((Change(Span(end, end), f" piloted {wide}"),), (join.span,))


@mistake("no pilot in hard wood", "no-pilot", also=("too-near-edge", "screw-embedment"))
def no_pilot(sound: Sound) -> Iterator[Edit]:
    """The line that says it for all is left out, or what one line says."""
    hard = [
        join.span
        for join, fastening, found, _ in _screws(sound)
        if found.pilot and _in_hardwood(sound, fastening)
    ]
    everywhere = sound.plan.heading.pilots_everywhere
    unsaid = [
        join.span for join, fastening, found, _ in _screws(sound) if found.pilot and not fastening.piloted
    ]
    if everywhere is not None and set(hard) & set(unsaid):
        yield Edit((Change(sound.whole_lines(everywhere), ""),), tuple(unsaid))
    if everywhere is None:
        for join, fastening, found, _ in _screws(sound):
            if found.pilot and fastening.piloted is not None and _in_hardwood(sound, fastening):
                at = sound.text.rindex("piloted", 0, fastening.piloted.span.start)
                yield Edit((Change(Span(at - 1, fastening.piloted.span.end), ""),), (join.span,))


@mistake("a screw too near an edge", "too-near-edge", also=(*OTHER_LENGTH, "hole-in-view", "tip-near-face"))
def near_edge(sound: Sound) -> Iterator[Edit]:
    """The first place is moved to within half a diameter of the side of the first part that it is measured from."""
    for join, fastening, found, depths in _screws(sound):
        spots = fastening.spots
        if spots is None or found.what not in ("screw", "bolt") or found.pocketed or spots.side == "each end":
            continue
        axis = next(axis for axis, sides in SIDES.items() if spots.side in sides)
        sign = 1 if spots.side == SIDES[axis][1] else -1
        off = min(_to_edge(one, axis, sign) for one in sound.driven(fastening))
        nearest = min(spots.distances, key=lambda each: each.value)
        wanted = nearest.value - off + 0.5 * depths[0].across
        if 0 < wanted < nearest.value and all(one.first.solid.aligned for one in sound.driven(fastening)):
            yield Edit((Change(nearest.span, sound.amount(wanted, nearest)),), (join.span,))


# --- sums --------------------------------------------------------------------------------------------------


def _screws(sound: Sound) -> Iterator[tuple[Join, Fastening, FastenerKind, list[Depth]]]:
    """Every counted fastening that is driven through one part into another, with how each of it sits."""
    for join, fastening in sound.fastenings():
        found = kind(fastening.noun.text)
        driven = [one for one in sound.driven(fastening) if one.length is not None]
        if found is None or found.what in ("pin", "plate") or not driven:
            continue
        thick = across(fastening)
        depths = [_depth(one, thick) for one in driven] if thick else []
        if thick and all(depths):
            yield join, fastening, found, [depth for depth in depths if depth]


def _depth(driven: Driven, thick: float) -> Depth | None:
    into = next((passage for passage in driven.passages if passage.part is driven.into), None)
    if into is None or not driven.passages:
        return None
    return Depth(
        into.enter - driven.seat, driven.seat, into.enter, into.leave, driven.passages[-1].leave, thick
    )


def _lengths(sound: Sound, found: FastenerKind) -> tuple[float, ...]:
    return fastener_lengths(found.noun, sound.metric)


def _other_length(sound: Sound, join: Join, fastening: Fastening, length: float) -> Edit:
    assert fastening.size is not None and fastening.size.length is not None, "it has a length"
    old = fastening.size.length
    return Edit((Change(old.span, sound.amount(length, old)),), (join.span,))


def _side_of(axis: tuple[float, float, float]) -> str:
    """The side that a direction looks to; "" for one aslant."""
    for index, (low, high) in SIDES.items():
        if abs(axis[index]) > 0.99:
            return high if axis[index] > 0 else low
    return ""


def _is_sheet(driven: Driven) -> bool:
    return driven.into.stock.sheet


def _in_hardwood(sound: Sound, fastening: Fastening) -> bool:
    """Whether it is screwed into hardwood well above the middle weight (G 0.55 at 12 %: oak, ash, maple)."""
    for one in sound.driven(fastening):
        known = wood(one.into.stock.wood) if one.into.stock.wood else None
        if known is not None and known.kind == "hardwood" and (known.g12 or 0.0) > 0.55:
            return True
    return False


def _in_end_grain(sound: Sound, fastening: Fastening) -> bool:
    """Whether it goes along the grain of what it holds in: then a nut is let in on the way."""
    return any(abs(dot(one.axis, one.into.grain)) > 0.8 for one in sound.driven(fastening))


def _to_edge(driven: Driven, axis: int, sign: int) -> float:
    solid = driven.first.solid
    return solid.high[axis] - driven.spot[axis] if sign > 0 else driven.spot[axis] - solid.low[axis]
