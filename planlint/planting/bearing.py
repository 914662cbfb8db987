"""Pieces that bend, break, tip over, or fold up sideways."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator

from planlint.build.piece import Part
from planlint.geometry.vector import dot
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, Join, Load, Placement, SideOf
from planlint.source import Span
from planlint.trade.woods import density, wood

_LOADED = ("joint-overloaded", "sags", "overstressed", "screw-light-for-load", "end-grain-only", "tips-over")
OTHER_FORM = (
    *OTHER_SIZE,
    "will-not-pass",
    "too-heavy",
    "not-anchored",
    "gap-too-tight",
    "gap-uneven",
    *_LOADED,
)
_INCH = 25.4
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


@mistake("feet drawn in under the top", "tips-over", also=OTHER_FORM)
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
                    yield Edit((Change(clause.where.span, at),), surfaces(sound))


@mistake(
    "rails that hang on one screw each",
    "racks-sideways",
    also=(*OTHER_FORM, "one-fastener-pivots", "no-driver-room"),
)
def one_screw_each(sound: Sound) -> Iterator[Edit]:
    """Nothing keeps the corners square: no glue, no cut joint, no sheet, nothing aslant."""
    uprights = [part for part in sound.piece.parts if abs(part.along[2]) > 0.7]
    joins = {m.join.span: m.join for m in sound.piece.meetings if m.first in uprights or m.second in uprights}
    cut = any(m.share is not None for m in sound.piece.meetings)
    aslant = any(part.leaning or part.stock.sheet for part in sound.piece.parts)
    if (
        cut
        or aslant
        or sound.plan.heading.fixed_to_wall
        or sound.plan.heading.piece is None
        or len(uprights) < 3
    ):
        return
    changes = [change for join in joins.values() for change in _to_one(sound, join)]
    if changes and sound.plan.heading.piece.text != "other":
        title = sound.plan.heading.title_span
        yield Edit(tuple(changes), (title,))


@mistake("a tall case that nothing holds to the wall", "not-anchored", also=("tips-over", "racks-sideways"))
def not_anchored(sound: Sound) -> Iterator[Edit]:
    kind, fixed = sound.plan.heading.piece, sound.plan.heading.fixed_to_wall
    if (
        kind is None
        or kind.text not in ("shelf", "cabinet", "chest")
        or fixed is None
        or not sound.piece.parts
    ):
        return
    floor = [part for part in sound.piece.parts if part.solid.low[2] < 0.1]
    height = max(part.solid.high[2] for part in sound.piece.parts)
    deep = max((part.solid.high[1] for part in floor), default=0.0) - min(
        (part.solid.low[1] for part in floor), default=0.0
    )
    if height > 32 * _INCH and height > 4.2 * deep > 0:
        title = sound.plan.heading.title_span
        yield Edit((Change(sound.whole_lines(fixed), ""),), (title,))


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
        if part in (first, second) and any(
            abs(dot(patch.normal, part.along)) > 0.9 or abs(patch.normal[2]) > 0.9 for patch in patches
        ):
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


def _tips(sound: Sound, base: float) -> bool:
    """Whether 400 N, two inches inside the long edge of the top, lift a piece off a base so deep, mm."""
    top = max(part.solid.high[2] for part in sound.piece.parts)
    level = [part.solid for part in sound.piece.parts if part.solid.high[2] > top - 1]
    half = (max(s.high[1] for s in level) - min(s.low[1] for s in level)) / 2
    return 400 * (half - 2 * _INCH - base / 2) > 1.3 * weight(sound) * _GRAVITY * base / 2


def _to_one(sound: Sound, join: Join) -> Iterator[Change]:
    """One fastener for each of a join, and no glue."""
    for fastening in join.fastenings:
        if fastening.kind == "glue":
            before = sound.text[: fastening.span.start].rstrip()
            yield Change(Span(len(before) - len("and"), fastening.span.end), "")
        elif fastening.number_span is not None and fastening.number > 1:
            yield Change(fastening.number_span, "1")
            if fastening.spots is not None and len(fastening.spots.distances) > 1:
                first, last = fastening.spots.distances[0], fastening.spots.distances[-1]
                yield Change(Span(first.span.end, last.span.end), "")


def _follow(sound: Sound, legs: Placement) -> bool:
    """Whether something is placed front to back from these legs, and so goes along."""
    names = {word.text for word in legs.names}
    level = [
        p for p, _ in sound.entries_placed() if any(abs(part.through[2]) > 0.9 for part in sound.parts_of(p))
    ]
    return any(
        f"{side} of {name}" in sound.words(p.span)
        for p in level
        for name in names
        for side in ("front", "back")
    )


def surfaces(sound: Sound) -> tuple[Span, ...]:
    """Where a seat or a top may be told of: its cover, or its entry on the cut list or in its place."""
    level = [part for part in sound.piece.parts if abs(part.along[2]) < 0.1 and abs(part.through[2]) > 0.9]
    spans = {span for part in level for span in (part.span, part.entry.span)}
    return (*spans, *(cover.span for cover in sound.plan.covers))


def weight(sound: Sound) -> float:
    total = 0.0
    for part in sound.piece.parts:
        known = wood(part.stock.wood) if part.stock.wood else None
        if known is None or known.g12 is None:
            return 0.0
        total += part.solid.volume * density(known.g12, 12.0)
    return total
