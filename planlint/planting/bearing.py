"""Pieces that bend, break, tip, fold or fall over, that nobody can carry, and that nobody sits well on."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator

from planlint.build.piece import Part
from planlint.geometry.vector import dot
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, CutEntry, Load, Measured, Nominal, Placement, SideOf, Turned
from planlint.source import Span
from planlint.trade.woods import density, wood

_LOADED = ("joint-overloaded", "sags", "overstressed", "screw-light-for-load", "end-grain-only", "tips-over")
_OTHER_FORM = (*OTHER_SIZE, "will-not-pass", "too-heavy", "not-anchored", "gap-too-tight", "gap-uneven", *_LOADED)
_INCH = 25.4
_PERSON = 113.0  # kg: heavier than nearly all
_GRAVITY = 9.81
_STIFF, _STRONG = 10000.0, 90.0  # N/mm2: what a good furniture wood has


@mistake("a load that breaks the wood", "overstressed", also=_LOADED)
def breaks(sound: Sound) -> Iterator[Edit]:
    """Spread over all that carries it between its ends, it would strain the best wood past breaking."""
    yield from _raised(sound, lambda part, span: 2 * _breaking(part, span), "mor")


@mistake("a load under which the wood sags", "sags", "overstressed", also=_LOADED)
def bends(sound: Sound) -> Iterator[Edit]:
    """It bends twice as far as a hundred and twentieth of the span; slats that share it break no sooner for that."""
    yield from _raised(sound, lambda part, span: _bending(part, span, span / 60), "moe")


@mistake("feet drawn in under the top", "tips-over", also=_OTHER_FORM)
def feet_drawn_in(sound: Sound) -> Iterator[Edit]:
    """Front and back legs stand hardly a hand apart."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("bench", "chair", "stool", "table", "coffee-table", "side-table"):
        return
    for placement, _ in sound.entries_placed():
        parts = sound.parts_of(placement)
        standing = parts and all(part.solid.low[2] < 0.1 and abs(part.along[2]) > 0.9 for part in parts)
        mirrored = any(mirror.direction == "front-back" for mirror in placement.mirrors)
        for clause in placement.clauses if standing and mirrored and len(parts) == 4 else ():
            plain = isinstance(clause, At) and clause.side == "front" and len(clause.where.terms) == 1
            if isinstance(clause, At) and plain and not isinstance(clause.where.terms[0].of, SideOf):
                middle = sum(part.solid.centroid[1] for part in parts) / 4
                deep = max(part.solid.high[1] - part.solid.low[1] for part in parts)
                at = sound.length(middle - deep - 5)
                if middle - deep - 5 > 0 and _tips(sound, 2 * deep + 10) and not _follow(sound, placement):
                    yield Edit((Change(clause.where.span, at),), _surfaces(sound))


@mistake("rails too shallow to keep it square", "racks-sideways", also=(*_OTHER_FORM, "screw-embedment"))
def shallow_rails(sound: Sound) -> Iterator[Edit]:
    """Every level part that is joined to an upright is cut down to a strip."""
    plan = sound.plan
    uprights = [part for part in sound.piece.parts if abs(part.along[2]) > 0.7]
    aslant = any(part.leaning and abs(part.along[2]) < 0.98 for part in sound.piece.parts)
    sheets = any(part.stock.sheet for part in sound.piece.parts)
    if plan.heading.fixed_to_wall or sheets or aslant or len(uprights) < 3 or plan.heading.piece is None:
        return
    entries: dict[str, CutEntry] = {}
    for m in sound.piece.meetings:
        for one, other in ((m.first, m.second), (m.second, m.first)):
            if one in uprights and abs(other.along[2]) < 0.1:
                entries[other.copy_of] = other.entry
    changes = [_narrow(sound, entry) for entry in entries.values()]
    if changes and all(changes) and max(part.solid.high[2] for part in sound.piece.parts) > 350:
        title = sound.whole_lines(plan.heading.title_span)
        yield Edit(tuple(change for change in changes if change), (Span(title.start, title.end - 1),))


@mistake("a tall case that nothing holds to the wall", "not-anchored", also=("tips-over", "racks-sideways"))
def not_anchored(sound: Sound) -> Iterator[Edit]:
    kind, fixed = sound.plan.heading.piece, sound.plan.heading.fixed_to_wall
    if kind is None or kind.text not in ("shelf", "cabinet", "chest") or fixed is None or not sound.piece.parts:
        return
    floor = [part for part in sound.piece.parts if part.solid.low[2] < 0.1]
    height = max(part.solid.high[2] for part in sound.piece.parts)
    deep = max((part.solid.high[1] for part in floor), default=0.0) - min((part.solid.low[1] for part in floor), default=0.0)
    if height > 32 * _INCH and height > 4.2 * deep > 0:
        title = sound.plan.heading.title_span
        yield Edit((Change(sound.whole_lines(fixed), ""),), (title,))


@mistake("more than one can lift", "too-heavy")
def too_heavy(sound: Sound) -> Iterator[Edit]:
    """One is to lift what weighs more than sixty pounds."""
    lift = sound.plan.carry.spans.get("lift")
    if sound.plan.carry.lift_by != 1 and _weight(sound) > 28 and not any(p.assembly for p in sound.plan.placements):
        if lift is not None:
            yield Edit((Change(lift, "lift by 1"),), (lift,))
        elif "carry" not in sound.plan.sections:
            end = Span(len(sound.text), len(sound.text))
            yield Edit((Change(end, "carry\n  lift by 1\n"),), (end,))


@mistake("a doorway that it does not go through", "will-not-pass", also=("too-heavy",))
def narrow_door(sound: Sound) -> Iterator[Edit]:
    """Both of its measures are less than the second least of the piece."""
    if not sound.piece.parts or any(p.assembly for p in sound.plan.placements):
        return
    solids = [part.solid for part in sound.piece.parts]
    sizes = sorted(max(s.high[i] for s in solids) - min(s.low[i] for s in solids) for i in range(3))
    for share in (0.5, 0.8):
        narrow = f"doorway {sound.length(sizes[0] * share)} x {sound.length(sizes[1] * share)}"
        door = sound.plan.carry.spans.get("doorway")
        at = door or sound.plan.carry.spans.get("lift")
        if door is not None:
            yield Edit((Change(door, narrow),), (door,))
        elif at is not None:
            yield Edit((Change(Span(at.end, at.end), f"\n  {narrow}"),), (at,))


@mistake("legs that make it too tall", "seat-height", "table-height", also=_OTHER_FORM)
def too_tall(sound: Sound) -> Iterator[Edit]:
    """A seat eight inches higher; a table at 32 in, which is neither for sitting nor for standing."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("bench", "chair", "table", "coffee-table", "side-table", "desk"):
        return
    for placement, entry in sound.entries_placed():
        tops = [part for part in sound.piece.parts if _lies_on_top(sound, part, sound.parts_of(placement))]
        if entry.length is None or not tops:
            continue
        more = 32.3 * _INCH - max(part.solid.high[2] for part in tops) if kind.text == "table" else 8 * _INCH
        change = Change(entry.length.span, sound.amount(entry.length.value + more, entry.length))
        yield Edit((change,), _surfaces(sound))


@mistake("a back that leans too far", "back-angle", also=(*_OTHER_FORM, "foot-on-its-edge", "position-missing"))
def leans_too_far(sound: Sound) -> Iterator[Edit]:
    """Thirty degrees, in a chair to sit at a table."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("chair", "lounge-chair"):
        return
    for placement in sound.plan.placements:
        for clause in placement.clauses:
            if isinstance(clause, Turned) and clause.how == "leans" and clause.toward == "back":
                if any(part.along[2] > 0.9 and part.solid.high[2] > 500 for part in _of(sound, placement)):
                    change = Change(clause.angle.span, sound.amount(30.0, clause.angle))
                    yield Edit((change,), _surfaces(sound))


@mistake("a rail that the knees meet", "knee-room", also=(*_OTHER_FORM, "overlap"))
def knees(sound: Sound) -> Iterator[Edit]:
    """Aprons hang as low as eighteen inches above the floor."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("table", "desk"):
        return
    height = max(part.solid.high[2] for part in sound.piece.parts)
    for placement, _ in sound.entries_placed():
        parts = sound.parts_of(placement)
        for clause in placement.clauses:
            under = isinstance(clause, At) and clause.side == "top" and parts and parts[0].solid.high[2] > 0.75 * height
            long = parts and parts[0].size.length > 700 and abs(parts[0].along[0]) > 0.9
            if isinstance(clause, At) and under and long and height > 700 and any(m.direction == "front-back" for m in placement.mirrors):
                down = parts[0].solid.low[2] - 18 * _INCH
                end = clause.where.span.end
                yield Edit((Change(Span(end, end), f" - {sound.length(down)}"),), _surfaces(sound))


@mistake("a seat too deep", "seat-depth", also=(*_OTHER_FORM, "loose-part", "separate-pieces"))
def too_deep(sound: Sound) -> Iterator[Edit]:
    """The back stands eight inches further back."""
    kind = sound.plan.heading.piece
    for placement in sound.plan.placements if kind is not None and kind.text == "chair" else ():
        leans = any(isinstance(clause, Turned) and clause.toward == "back" for clause in placement.clauses)
        tall = any(part.along[2] > 0.9 and part.solid.high[2] > 500 for part in _of(sound, placement))
        for clause in placement.clauses if leans and tall else ():
            if isinstance(clause, At) and clause.side == "front":
                end = clause.where.span.end
                yield Edit((Change(Span(end, end), f" + {sound.length(8 * _INCH)}"),), _surfaces(sound))


# --- sums --------------------------------------------------------------------------------------------------


def _surfaces(sound: Sound) -> tuple[Span, ...]:
    """Where a seat or a top may be told of: its cover, or its entry on the cut list or in its place."""
    level = [part for part in sound.piece.parts if abs(part.along[2]) < 0.1 and abs(part.through[2]) > 0.9]
    spans = {span for part in level for span in (part.span, part.entry.span)}
    return (*spans, *(cover.span for cover in sound.plan.covers))


def _follow(sound: Sound, legs: Placement) -> bool:
    """Whether something is placed front to back from these legs, and so goes along."""
    names = {word.text for word in legs.names}
    level = [p for p, _ in sound.entries_placed() if any(abs(part.through[2]) > 0.9 for part in sound.parts_of(p))]
    return any(f"{side} of {name}" in sound.words(p.span) for p in level for name in names for side in ("front", "back"))


def _raised(sound: Sound, weight: Callable[[Part, float], float], figure: str) -> Iterator[Edit]:
    """Loads on parts that lie free between two supports, raised to what `weight(part, span)` says, kg.

    Woods of which no table has that figure are left out: nobody can say what they bear.
    """
    for load in sound.plan.loads:
        parts = [part for part in sound.piece.parts if load.on.name in (part.copy_of, part.name, *_rows_of(sound, load))
                 or part.copy_of in _rows_of(sound, load)]  # fmt: skip
        spans = [(part, _free_span(sound, part)) for part in parts if abs(part.along[2]) < 0.05]
        bearing = [(part, span) for part, span in spans if span > 200 and _is_known(part, figure)]
        if not bearing:
            continue
        part, span = max(bearing, key=lambda each: each[1])
        needed = weight(part, span) * len(parts)
        change = _heavier(sound, load, needed)
        if change is not None:
            yield Edit((change,), tuple({one.entry.span for one, _ in bearing}))


def _is_known(part: Part, figure: str) -> bool:
    known = wood(part.stock.wood) if part.stock.wood else None
    return known is not None and getattr(known, figure) is not None


def _rows_of(sound: Sound, load: Load) -> tuple[str, ...]:
    """What a cover of that name is laid with."""
    return tuple(cover.slat.name for cover in sound.plan.covers if cover.name.text == load.on.name)


def _heavier(sound: Sound, load: Load, needed: float) -> Change | None:
    if load.people is not None:
        number = math.ceil(needed / 60.0)
        at = re.search(r"\d+", sound.words(load.span)[len(load.on.name) :])
        if at is None or number <= load.people:
            return None
        start = load.span.start + len(load.on.name) + at.start()
        return Change(Span(start, start + len(at[0])), str(min(number, 9999)))
    if load.amount is None or needed <= load.amount.value:
        return None
    return Change(load.amount.span, sound.amount(math.ceil(needed), load.amount))


def _free_span(sound: Sound, part: Part) -> float:
    """The widest room between the parts that carry it from below or hold its ends."""
    edges: list[tuple[float, float]] = []
    for first, second, patches in sound.piece.contacts:
        if part in (first, second) and any(abs(dot(patch.normal, part.along)) > 0.9 or abs(patch.normal[2]) > 0.9 for patch in patches):
            other = second if part is first else first
            if other.solid.low[2] < part.solid.high[2] - 1:
                reaches = [dot(corner, part.along) for corner in other.solid.vertices]
                edges.append((min(reaches), max(reaches)))
    widest, end = 0.0, math.inf
    for low, high in sorted(edges):
        widest = max(widest, low - end)
        end = high if end == math.inf else max(end, high)
    return widest


def _deep(part: Part) -> tuple[float, float]:
    """Breadth and depth of a level part."""
    if abs(part.through[2]) > 0.7:
        return part.size.width, part.size.thickness
    return part.size.thickness, part.size.width


def _breaking(part: Part, span: float) -> float:
    """The spread load, kg, that breaks the strongest furniture wood: s = M / Z, M = W L / 8."""
    breadth, depth = _deep(part)
    return _STRONG * breadth * depth**2 / 6 * 8 / span / _GRAVITY


def _bending(part: Part, span: float, by: float) -> float:
    """The spread load, kg, that bends a stiff wood so far: d = 5 W L^3 / (384 E I)."""
    breadth, depth = _deep(part)
    return by * 384 * _STIFF * breadth * depth**3 / 12 / (5 * span**3) / _GRAVITY


def _weight(sound: Sound) -> float:
    total = 0.0
    for part in sound.piece.parts:
        known = wood(part.stock.wood) if part.stock.wood else None
        if known is None or known.g12 is None:
            return 0.0
        total += part.solid.volume * density(known.g12, 12.0)
    return total


def _tips(sound: Sound, base: float) -> bool:
    """Whether 400 N, two inches inside the long edge of the top, lift a piece off a base so deep, mm."""
    top = max(part.solid.high[2] for part in sound.piece.parts)
    level = [part.solid for part in sound.piece.parts if part.solid.high[2] > top - 1]
    half = (max(s.high[1] for s in level) - min(s.low[1] for s in level)) / 2
    return 400 * (half - 2 * _INCH - base / 2) > 1.3 * _weight(sound) * _GRAVITY * base / 2


def _narrow(sound: Sound, entry: CutEntry) -> Change | None:
    stock = entry.stock
    if isinstance(stock, Measured):
        return Change(stock.width.span, sound.amount(0.55 * _INCH, stock.width))
    if isinstance(stock, Nominal):
        return Change(stock.span, f"{sound.length(0.75 * _INCH)} x {sound.length(0.55 * _INCH)}")
    return None


def _of(sound: Sound, placement: Placement) -> list[Part]:
    """The pieces of a placement, or of the sub-assembly that it places."""
    name = placement.subject.name
    return sound.parts_of(placement) or [part for part in sound.piece.parts if (part.assembly or "").startswith(name)]


def _lies_on_top(sound: Sound, part: Part, legs: list[Part]) -> bool:
    """Whether a level part lies on these legs, is the highest there, and is placed on their tops."""
    if not legs or not all(abs(leg.along[2]) > 0.9 and leg.solid.low[2] < 0.1 and leg.solid.aligned for leg in legs):
        return False
    on = abs(part.solid.low[2] - legs[0].solid.high[2]) < 0.1 and abs(part.along[2]) < 0.05
    placed = next((p for p in sound.plan.placements if p.span == part.span), None)
    follows = placed is not None and any(
        isinstance(clause, At)
        and clause.side == "bottom"
        and isinstance(clause.where.terms[0].of, SideOf)
        and clause.where.terms[0].of.ref.name in {leg.name for leg in legs}
        for clause in placed.clauses
    )
    return on and follows and part.through[2] ** 2 > 0.9
