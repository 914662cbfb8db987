"""Parts that do not fit: cut wrongly, moved, left without a joint, cut too deep."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.build.piece import Part
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import (
    AngleOf,
    At,
    Between,
    CutEntry,
    Join,
    Overall,
    PartFace,
    Placement,
    Quantity,
    SideOf,
    Turned,
)  # fmt: skip
from planlint.source import Span
from planlint.trade import lumber

OTHER_SIZE = (  # a part of another size is seen in many places
    "dimension-mismatch", "no-contact", "overlap", "not-enough-boards", "board-too-short", "boards-to-spare",
    "fasteners-collide", "too-near-edge", "gap-too-wide", "end-angle-mismatch", "no-driver-room", "uneven-feet",
    "wrong-side", "loose-part", "separate-pieces", "joint-cut-wrong-size", "span-mismatch", "hole-in-view",
    "seat-height", "seat-depth", "table-height", "knee-room", "entrapment", "racks-sideways", "end-grain-in-view",
    "tip-through", "tip-near-face", "screw-embedment", "foot-on-its-edge", "tips-over", "board-too-narrow",
    "pocket-screw-length", "screw-a-little-short", "cannot-go-in", "joint-overloaded", "sags", "bolt-too-short",
    "screw-light-for-load", "position-missing", "will-not-pass", "not-anchored", "missed-by-little",
)  # fmt: skip
_OPPOSITE = {
    "left": "right",
    "right": "left",
    "front": "back",
    "back": "front",
    "bottom": "top",
    "top": "bottom",
}
_AXIS = {"left": 0, "right": 0, "front": 1, "back": 1, "bottom": 2, "top": 2}
_TOWARD = {"left": -1, "right": 1, "front": -1, "back": 1, "bottom": -1, "top": 1}
_INCH = 25.4


@mistake("a part cut too long", "span-mismatch", also=OTHER_SIZE)
def too_long(sound: Sound) -> Iterator[Edit]:
    yield from _cut_by(sound, _INCH / 2)


@mistake("a part cut too short", "span-mismatch", also=OTHER_SIZE)
def too_short(sound: Sound) -> Iterator[Edit]:
    yield from _cut_by(sound, -_INCH / 2)


@mistake("a part cut as if a board measured what it is called", "span-mismatch", also=OTHER_SIZE)
def cut_to_the_nominal(sound: Sound) -> Iterator[Edit]:
    """A rail between two 4x4 legs is cut as if each measured 4 in."""
    for placement, entry in sound.entries_placed():
        length = entry.length
        for clause in placement.clauses:
            if not isinstance(clause, Between) or length is None or _in_a_corner(sound, entry):
                continue
            over = sum(_called_larger(sound, placement, face) for face in (clause.first, clause.second))
            if over > _INCH / 8:
                change = Change(length.span, sound.amount(length.value - over, length))
                yield Edit((change,), (placement.span, entry.span))


@mistake("a dimension mistyped", "dimension-mismatch")
def mistyped(sound: Sound) -> Iterator[Edit]:
    for quantity, span in _stated(sound):
        step = 3.0 if quantity.dimension == "angle" else _INCH
        for off in (-step, step):
            yield Edit((Change(quantity.span, sound.amount(quantity.value + off, quantity)),), (span,))


@mistake("two figures of a dimension change places", "dimension-mismatch")
def figures_turned(sound: Sound) -> Iterator[Edit]:
    for quantity, span in _stated(sound):
        text = sound.words(quantity.span)
        if len(text) > 1 and text[:2].isdigit() and text[0] != text[1] and text[1] >= "1":
            turned = text[1] + text[0] + text[2:]
            yield Edit((Change(quantity.span, turned),), (span,))


@mistake("a lean that contradicts a dimension", "dimension-mismatch", also=(*OTHER_SIZE, "back-angle"))
def other_lean(sound: Sound) -> Iterator[Edit]:
    for stated in sound.plan.dimensions:
        for placement in sound.plan.placements if isinstance(stated, AngleOf) else ():
            own = {word.text for word in placement.names} | {placement.subject.name}
            for clause in placement.clauses:
                if isinstance(clause, Turned) and isinstance(stated, AngleOf) and stated.ref.name in own:
                    angle = clause.angle
                    yield Edit((Change(angle.span, sound.amount(angle.value + 2, angle)),), (stated.span,))


@mistake("a part moved into another", "overlap", "span-mismatch", also=OTHER_SIZE)
def moved_into(sound: Sound) -> Iterator[Edit]:
    """It is set by half an inch into the part that it lies against."""
    for placement, clause, side, joins in _set_against(sound):
        into = -_TOWARD[side.side] * _INCH / 2
        change = Change(Span(clause.where.span.end, clause.where.span.end), _and(sound, into))
        meets = tuple(join.span for join in joins)
        yield Edit((change,), (placement.span, *_others(sound, side), *meets))


@mistake("a part moved off another", "no-contact", "span-mismatch", also=OTHER_SIZE)
def moved_off(sound: Sound) -> Iterator[Edit]:
    """An inch of air where a joint should be."""
    for _, clause, side, joins in _set_against(sound):
        if joins:
            change = Change(
                Span(clause.where.span.end, clause.where.span.end), _and(sound, _TOWARD[side.side] * _INCH)
            )
            yield Edit((change,), tuple(join.span for join in joins))


# --- sums ------------------------------------------------------------------------------------------------


def _cut_by(sound: Sound, off: float) -> Iterator[Edit]:
    """Parts whose length a `between` fixes too."""
    for entry in sound.plan.parts:
        between = [
            placement.span
            for placement, other in sound.entries_placed()
            if other is entry and any(isinstance(clause, Between) for clause in placement.clauses)
        ]
        slides = any(part.leaning for part in sound.parts_of_entry(entry.name)) and _in_a_corner(sound, entry)
        if entry.length is not None and between and not slides:
            change = Change(entry.length.span, sound.amount(entry.length.value + off, entry.length))
            yield Edit((change,), (entry.span, *between))


def _in_a_corner(sound: Sound, entry: CutEntry) -> bool:
    """Whether it lies between a part and a side or the floor: aslant, one of any length finds a place there."""
    faces = [
        face
        for placement, other in sound.entries_placed()
        for clause in placement.clauses
        if other is entry and isinstance(clause, Between)
        for face in (clause.first, clause.second)
    ]
    return any(not isinstance(face, PartFace) for face in faces)


def _called_larger(sound: Sound, near: Placement, face: object) -> float:
    """By how much a part's name says it is thicker than it is, seen along the length that it bounds."""
    if not isinstance(face, PartFace):
        return 0.0
    for part in sound.piece.parts:
        if part.name == face.ref.name and part.assembly == (near.assembly.text if near.assembly else None):
            named = lumber.nominal(part.stock.nominal) if part.stock.nominal else None
            return 0.0 if named is None else named.thickness - part.stock.thickness
    return 0.0


def _stated(sound: Sound) -> Iterator[tuple[Quantity, Span]]:
    for stated in sound.plan.dimensions:
        quantities = stated.sizes if isinstance(stated, Overall) else (stated.stated,)
        for quantity in quantities:
            yield quantity, stated.span


def _and(sound: Sound, amount: float) -> str:
    return f" {'+' if amount > 0 else '-'} {sound.length(abs(amount))}"


def _set_against(sound: Sound) -> Iterator[tuple[Placement, At, SideOf, list[Join]]]:
    """Placements that are set against the opposite side of a part they touch there, and the joins between them.

    Nothing is measured from them, so that nothing goes along; no cut joint lets them into each other.
    """
    for placement in sound.plan.placements:
        names = {word.text for word in placement.names} or {placement.subject.name}
        if placement.assembly or measured_from(sound, names) or sound.entry(placement.subject.name) is None:
            continue
        parts = sound.parts_of(placement)
        for clause in placement.clauses:
            if not isinstance(clause, At) or len(clause.where.terms) > 1 or clause.held:
                continue
            side = clause.where.terms[0].of
            if not isinstance(side, SideOf) or side.side != _OPPOSITE[clause.side]:
                continue
            others = [part for part in sound.piece.parts if side.ref.name in (part.name, part.copy_of)]
            touching = [
                (a, b) for a in parts for b in others if _lie_against(sound, a, b, _AXIS[clause.side])
            ]
            meetings = [
                m for m in sound.piece.meetings if any({m.first, m.second} == {a, b} for a, b in touching)
            ]
            if touching and all(m.share is None for m in meetings):
                joins = list(
                    {m.join.span: m.join for m in meetings if m.join.fastenings[0].kind != "loose"}.values()
                )
                yield placement, clause, side, joins


def _lie_against(sound: Sound, a: Part, b: Part, axis: int) -> bool:
    for first, second, patches in sound.piece.contacts:
        if {first, second} == {a, b}:
            return any(abs(patch.normal[axis]) > 0.99 and patch.area > 100 for patch in patches)
    return False


def measured_from(sound: Sound, names: set[str]) -> bool:
    """Whether any other placement names one of these."""
    for placement in sound.plan.placements:
        text = sound.words(placement.span).split(":", 1)[1]
        words = set(text.replace(",", " ").replace(".", " ").split())
        if words & names:
            return True
    return False


def _others(sound: Sound, side: SideOf) -> list[Span]:
    name = side.ref.name
    return list({part.span for part in sound.piece.parts if name in (part.name, part.copy_of)})
