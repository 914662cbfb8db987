"""Pieces that nobody can carry or get through the door, or that nobody sits well on."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planlint.build.piece import Part
from planlint.planting.bearing import OTHER_FORM, surfaces, weight
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, Placement, SideOf, Turned
from planlint.source import Span

_INCH = 25.4


@mistake("more than one can lift", "too-heavy")
def too_heavy(sound: Sound) -> Iterator[Edit]:
    """One is to lift what weighs more than sixty pounds."""
    lift = sound.plan.carry.spans.get("lift")
    if (
        sound.plan.carry.lift_by != 1
        and weight(sound) > 28
        and not any(p.assembly for p in sound.plan.placements)
    ):
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


@mistake("legs that make a seat too tall", "seat-height", also=OTHER_FORM)
def seat_too_tall(sound: Sound) -> Iterator[Edit]:
    """Eight inches higher than it was."""
    kind = sound.plan.heading.piece
    if kind is not None and kind.text in ("bench", "chair"):
        yield from _longer_legs(sound, lambda height: height + 8 * _INCH)


@mistake("legs that make a table too tall", "table-height", also=OTHER_FORM)
def table_too_tall(sound: Sound) -> Iterator[Edit]:
    """A table at 32 in is neither for sitting nor for standing; others end well above what is usual for their kind."""
    kind = sound.plan.heading.piece
    if kind is not None and kind.text in ("table", "coffee-table", "side-table", "desk"):
        height = {"table": 32.3, "coffee-table": 24.0, "side-table": 31.0, "desk": 33.0}[kind.text] * _INCH
        yield from _longer_legs(sound, lambda _: height)


@mistake(
    "a back that leans too far", "back-angle", also=(*OTHER_FORM, "foot-on-its-edge", "position-missing")
)
def leans_too_far(sound: Sound) -> Iterator[Edit]:
    """Thirty degrees, in a chair to sit at a table."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("chair", "lounge-chair"):
        return
    for placement in sound.plan.placements:
        for clause in placement.clauses:
            if isinstance(clause, Turned) and clause.how == "leans" and clause.toward == "back":
                made = not sound.parts_of(placement)
                if made and any(
                    part.along[2] > 0.9 and part.solid.high[2] > 500 for part in _of(sound, placement)
                ):
                    change = Change(clause.angle.span, sound.amount(30.0, clause.angle))
                    yield Edit((change,), surfaces(sound))


@mistake("a rail that the knees meet", "knee-room", also=(*OTHER_FORM, "overlap"))
def knees(sound: Sound) -> Iterator[Edit]:
    """Aprons hang as low as eighteen inches above the floor."""
    kind = sound.plan.heading.piece
    if kind is None or kind.text not in ("table", "desk"):
        return
    height = max(part.solid.high[2] for part in sound.piece.parts)
    for placement, _ in sound.entries_placed():
        parts = sound.parts_of(placement)
        for clause in placement.clauses:
            under = (
                isinstance(clause, At)
                and clause.side == "top"
                and parts
                and parts[0].solid.high[2] > 0.75 * height
            )
            long = parts and parts[0].size.length > 700 and abs(parts[0].along[0]) > 0.9
            if (
                isinstance(clause, At)
                and under
                and long
                and height > 700
                and any(m.direction == "front-back" for m in placement.mirrors)
            ):
                down = parts[0].solid.low[2] - 18 * _INCH
                end = clause.where.span.end
                yield Edit((Change(Span(end, end), f" - {sound.length(down)}"),), surfaces(sound))


@mistake("a seat too deep", "seat-depth", also=(*OTHER_FORM, "loose-part", "separate-pieces"))
def too_deep(sound: Sound) -> Iterator[Edit]:
    """The back stands eight inches further back."""
    kind = sound.plan.heading.piece
    for placement in sound.plan.placements if kind is not None and kind.text == "chair" else ():
        leans = any(isinstance(clause, Turned) and clause.toward == "back" for clause in placement.clauses)
        made = not sound.parts_of(placement)  # a back made up by itself goes along whole
        tall = made and any(
            part.along[2] > 0.9 and part.solid.high[2] > 500 for part in _of(sound, placement)
        )
        for clause in placement.clauses if leans and tall else ():
            if isinstance(clause, At) and clause.side == "front":
                end = clause.where.span.end
                yield Edit((Change(Span(end, end), f" + {sound.length(8 * _INCH)}"),), surfaces(sound))


def _longer_legs(sound: Sound, wanted: Callable[[float], float]) -> Iterator[Edit]:
    """Legs on which a seat or a top lies are cut so long that it comes to the wanted height."""
    for placement, entry in sound.entries_placed():
        tops = [part for part in sound.piece.parts if _lies_on_top(sound, part, sound.parts_of(placement))]
        if entry.length is not None and tops:
            height = max(part.solid.high[2] for part in tops)
            length = entry.length.value + wanted(height) - height
            yield Edit((Change(entry.length.span, sound.amount(length, entry.length)),), surfaces(sound))


def _of(sound: Sound, placement: Placement) -> list[Part]:
    """The pieces of a placement, or of the sub-assembly that it places."""
    name = placement.subject.name
    return sound.parts_of(placement) or [
        part for part in sound.piece.parts if (part.assembly or "").startswith(name)
    ]


def _lies_on_top(sound: Sound, part: Part, legs: list[Part]) -> bool:
    """Whether a level part lies on these legs, is the highest there, and is placed on their tops."""
    if not legs or not all(
        abs(leg.along[2]) > 0.9 and leg.solid.low[2] < 0.1 and leg.solid.aligned for leg in legs
    ):
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
