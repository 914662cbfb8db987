"""Wood that is not let move with the seasons."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Part
from planlint.geometry.vector import Vec, dot
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.screws import OTHER_LENGTH
from planlint.planting.sound import Sound, across
from planlint.read.plan import Fastening, Join
from planlint.source import Span
from planlint.trade.screws import kind
from planlint.trade.woods import wood

_YEAR = 5.0  # points of moisture between the dry and the damp season, in a house as under a roof
_HELD = (
    "hardware-short",
    "one-fastener-pivots",
    "no-pilot",
    "wet-wood-indoors",
    "end-grain-only",
    *OTHER_LENGTH,
)


@mistake(
    "moving fittings swapped for plain screws",
    "top-cannot-move",
    also=(*_HELD, "wrong-side", "joint-overloaded"),
)
def plain_screws(sound: Sound) -> Iterator[Edit]:
    """Figure-8s and buttons become screws from the other part."""
    for join, fastening, panel, apart in _wide_joins(sound):
        moving = kind(fastening.noun.text)
        if moving is not None and moving.noun in ("figure-8", "buttons") and _moves(panel, apart) > 4.5:
            changes = [Change(fastening.noun.span, "wood-screws")]
            if fastening.slotted is not None:
                changes.append(_no_slot(sound, fastening))
            yield Edit(tuple(changes), (join.span,))


@mistake("a slot left out", "top-cannot-move", "slot-too-short", also=_HELD)
def no_slot(sound: Sound) -> Iterator[Edit]:
    for join, fastening, panel, apart in _wide_joins(sound):
        found = kind(fastening.noun.text)
        firm = found is not None and found.what != "plate"
        if fastening.slotted is not None and firm and _moves(panel, apart) > 4.5:
            lines = tuple(other.span for other, _, part, _ in _wide_joins(sound) if part is panel)
            yield Edit((_no_slot(sound, fastening),), (join.span, *lines))


@mistake("a slot no longer than the screw is thick", "slot-too-short", also=_HELD)
def short_slot(sound: Sound) -> Iterator[Edit]:
    for join, fastening, panel, apart in _wide_joins(sound):
        thick = across(fastening)
        if fastening.slotted is not None and thick and _moves(panel, apart) / 2 > 2.0:
            change = Change(fastening.slotted.span, sound.amount(thick + 0.3, fastening.slotted))
            yield Edit((change,), (join.span,))


@mistake(
    "a board fitted tight between two rails", "no-room-to-swell", "span-mismatch", also=(*_HELD, "loose-part")
)
def fitted_tight(sound: Sound) -> Iterator[Edit]:
    """A panel that had room at both edges is made as wide as the space."""
    for part in sound.piece.parts:
        entry, stock = part.entry, part.entry.stock
        width = getattr(stock, "width", None)
        room = _room_beside(sound, part)
        if width is None or room is None or part.stock.sheet or _moves(part, part.size.width) < 4.0:
            continue
        yield Edit((Change(width.span, sound.amount(width.value + room, width)),), (part.span, entry.span))


# --- sums --------------------------------------------------------------------------------------------------


def _wide_joins(sound: Sound) -> Iterator[tuple[Join, Fastening, Part, float]]:
    """Counted fastenings of solid parts that are held across their grain, and how far apart they hold them, mm."""
    for join, fastening in sound.fastenings():
        driven = sound.driven(fastening)
        for part in dict.fromkeys(one.first for one in driven) | dict.fromkeys(one.second for one in driven):
            if part.stock.sheet or part.entry.grain_across:
                continue
            spots = [dot(one.spot, part.across) for one in driven if part in (one.first, one.second)]
            others = {
                id(one.first if one.second is part else one.second)
                for one in driven
                if part in (one.first, one.second)
            }
            apart = max(spots) - min(spots)
            if apart > 150 and (_moves(part, apart) > 4.0) and others:
                yield join, fastening, part, apart
                break


def _moves(part: Part, width: float) -> float:
    """How far so much width moves in a year, mm, by the wood's tangential coefficient."""
    known = wood(part.stock.wood) if part.stock.wood else None
    return 0.0 if known is None or known.c_tangential is None else width * known.c_tangential * _YEAR


def _no_slot(sound: Sound, fastening: Fastening) -> Change:
    assert fastening.slotted is not None, "it has a slot"
    at = sound.text.rindex("slotted", 0, fastening.slotted.span.start)
    return Change(Span(at - 1, fastening.slotted.span.end), "")


def _room_beside(sound: Sound, part: Part) -> float | None:
    """The room at both edges of a level board between two parts that run along it; None if there is no such place."""
    if not part.solid.aligned or abs(part.across[2]) > 0.1:
        return None
    low, high = _span(part, part.across)
    lows = [high_ for other in sound.piece.parts if other is not part for low_, high_ in [_span(other, part.across)]
            if high_ <= low + 0.1 and _beside(part, other)]  # fmt: skip
    highs = [low_ for other in sound.piece.parts if other is not part for low_, high_ in [_span(other, part.across)]
             if low_ >= high - 0.1 and _beside(part, other)]  # fmt: skip
    if not lows or not highs:
        return None
    room = (low - max(lows)) + (min(highs) - high)
    return room if 1.0 < room < 12.0 else None


def _span(part: Part, way: Vec) -> tuple[float, float]:
    reaches = [dot(corner, way) for corner in part.solid.vertices]
    return min(reaches), max(reaches)


def _beside(part: Part, other: Part) -> bool:
    """Whether another part runs along this one's edge, at its height."""
    for way in (part.along, part.through):
        (a, b), (c, d) = _span(part, way), _span(other, way)
        if min(b, d) - max(a, c) < 3.0:
            return False
    return other.copy_of != part.copy_of and abs(dot(other.along, part.along)) > 0.99
