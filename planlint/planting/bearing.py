"""Pieces that tip over or fold up sideways."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.planting.loading import LOADED
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, Join, Quantity, SideOf
from planlint.source import Span
from planlint.trade.woods import density, wood

OTHER_FORM = (
    *OTHER_SIZE,
    "will-not-pass",
    "too-heavy",
    "not-anchored",
    "gap-too-tight",
    "gap-uneven",
    *LOADED,
)
_INCH = 25.4
_GRAVITY = 9.81


@mistake("feet drawn in under the top", "tips-over", also=OTHER_FORM)
def feet_drawn_in(sound: Sound) -> Iterator[Edit]:
    """Front and back legs stand hardly a hand apart."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("bench", "chair", "stool", "table", "desk", "workbench"):
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
                if middle - deep - 5 > 0 and _tips(sound, 2 * deep + 10) and _stays(sound):
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


def _stays(sound: Sound) -> bool:
    """Whether the top or the seat is placed front to back by figures, so that it stays when the legs are moved."""
    top = max(sound.piece.parts, key=lambda part: part.solid.high[2])
    placed = next(placement for placement in sound.plan.placements if placement.span == top.span)
    return any(
        isinstance(clause, At)
        and clause.side in ("front", "back")
        and all(isinstance(term.of, Quantity) for term in clause.where.terms)
        for clause in placed.clauses
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
