"""Slips of the pen: lines, names and values that do not say what they should."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import (
    At,
    Between,
    Like,
    MiddleAt,
    MiddleOf,
    PartFace,
    Placement,
    Quantity,
    Ref,
    SideOf,
)
from planlint.source import Span

_FOLLOWS = (  # a line that is left out takes a part, a joint or a board with it
    "loose-part", "separate-pieces", "never-placed", "boards-to-spare", "one-fastener-pivots", "racks-sideways",
    "gap-too-wide", "dimension-mismatch", "count-mismatch", "not-enough-boards", "cannot-go-in", "hardware-short",
    "no-contact", "position-missing", "unknown-name", "span-mismatch", "plug-mismatch", "rusting-fastener",
    "overlap", "joint-overloaded", "end-grain-in-view", "hole-in-view", "entrapment", "tips-over", "too-near-edge",
    "screw-light-for-load", "sags", "tip-through", "table-height", "seat-height", "seat-depth",
    "board-too-narrow", "board-too-thin",
)  # fmt: skip


@mistake("a line that cannot be read", "unreadable", also=_FOLLOWS)
def unreadable(sound: Sound) -> Iterator[Edit]:
    """The colon or the equals sign is left out."""
    spans = [(entry.span, ":") for entry in sound.plan.parts]
    spans += [(join.span, ":") for join in sound.joins()]
    spans += [(placement.span, ":") for placement in sound.plan.placements]
    spans += [(cover.span, ":") for cover in sound.plan.covers]
    spans += [(load.span, ":") for load in sound.plan.loads]
    spans += [(stated.span, "=") for stated in sound.plan.dimensions if "=" in sound.words(stated.span)]
    for span, mark in spans:
        at = span.start + sound.words(span).index(mark)
        yield Edit((Change(Span(at, at + 1), ""),), (span,))


@mistake("a misspelt name", "unknown-name", also=_FOLLOWS)
def misspelt(sound: Sound) -> Iterator[Edit]:
    """Two letters of a name change places."""
    known = _names(sound)
    for ref in _refs(sound):
        name = ref.name
        wrong = name[0] + name[2] + name[1] + name[3:] if len(name) > 2 else name
        if wrong != name and wrong not in known:
            span = Span(ref.span.start, ref.span.start + len(name))
            yield Edit((Change(span, wrong),), (span,))


@mistake("a weight for a length", "wrong-kind-of-unit", also=_FOLLOWS)
def weight_for_a_length(sound: Sound) -> Iterator[Edit]:
    lengths = [entry.length for entry in sound.plan.parts] + [buy.length for buy in sound.plan.purchases]
    lengths += _stated_lengths(sound)
    for length in lengths:
        if length is not None and sound.words(length.span)[-1].isdigit():
            yield Edit((Change(Span(length.span.end, length.span.end), " kg"),), (length.span,))


@mistake("a name given twice", "name-twice", also=_FOLLOWS)
def name_twice(sound: Sound) -> Iterator[Edit]:
    first = sound.plan.parts[0]
    for entry in sound.plan.parts[1:]:
        yield Edit((Change(entry.name_span, first.name),), (entry.span,))
    for placement in sound.plan.placements:
        for word in placement.names[1:]:
            yield Edit((Change(word.span, placement.names[0].text),), (placement.span,))


@mistake("a position left out", "position-missing", also=_FOLLOWS)
def position_left_out(sound: Sound) -> Iterator[Edit]:
    """Nothing else fixes that direction: a sound plan says none twice."""
    for placement in sound.plan.placements:
        if any(isinstance(clause, Like) for clause in placement.clauses) or _wedged(sound, placement):
            continue
        for clause in placement.clauses:
            if isinstance(clause, (At, MiddleAt)):
                yield Edit((Change(_with_comma(sound, clause.span), ""),), (placement.span,))


@mistake("positions in a ring", "position-circular", also=("position-missing", *_FOLLOWS))
def ring(sound: Sound) -> Iterator[Edit]:
    """What another part is measured from is measured from that part."""
    for later in sound.plan.placements:
        for clause in later.clauses:
            for side in _sides_of(clause):
                earlier = _placed_as(sound, side.ref, later)
                if earlier is None or not later_name(later):
                    continue
                for other in earlier.clauses:
                    if (
                        isinstance(other, At)
                        and other.held is None
                        and _along(other.side) == _along(side.side)
                    ):
                        text = f"{other.side} of {later_name(later)}"
                        change = Change(other.where.span, text)
                        yield Edit((change,), (earlier.span, later.span))


@mistake("fewer on the cut list than are placed", "count-mismatch", also=("gap-too-wide", "boards-to-spare"))
def fewer_listed(sound: Sound) -> Iterator[Edit]:
    for listed in sound.piece.listed:
        if listed.placed > 1:
            change = Change(listed.entry.pieces_span, str(listed.entry.pieces - 1))
            yield Edit((change,), (listed.entry.span,))


@mistake(
    "more on the cut list than are placed", "count-mismatch", also=("not-enough-boards", "board-too-short")
)
def more_listed(sound: Sound) -> Iterator[Edit]:
    for listed in sound.piece.listed:
        if listed.placed > 0:
            change = Change(listed.entry.pieces_span, str(listed.entry.pieces + 1))
            yield Edit((change,), (listed.entry.span,))


@mistake("a part of the cut list that is never placed", "never-placed", also=_FOLLOWS)
def never_placed(sound: Sound) -> Iterator[Edit]:
    """Its only place is struck out, and nothing is measured from it."""
    referred = {ref.name for ref in _refs(sound)}
    for placement, entry in sound.entries_placed():
        alone = sum(other.name == entry.name for _, other in sound.entries_placed()) == 1
        own = {word.text for word in placement.names} or {entry.name}
        used = {ref.name for other in sound.plan.placements for ref in _placement_refs(other)}
        used |= {load.on.name for load in sound.plan.loads}
        if alone and not own & used and (not placement.names or not own & referred):
            yield Edit((Change(sound.whole_lines(placement.span), ""),), (entry.span,))


@mistake(
    "a wrong end angle", "end-angle-mismatch", also=("dimension-mismatch", "span-mismatch", "no-contact")
)
def wrong_end_angle(sound: Sound) -> Iterator[Edit]:
    built = {ends.part.copy_of for ends in sound.piece.end_angles}
    for entry in sound.plan.parts:
        for angle in entry.mitred.angles if entry.mitred and entry.name in built else ():
            for off in (-2.0, 3.0):
                change = Change(angle.span, sound.amount(angle.value + off, angle))
                yield Edit((change,), (entry.span,))


@mistake("a joint left unsaid", "how-unsaid", also=_FOLLOWS)
def unsaid(sound: Sound) -> Iterator[Edit]:
    for join in sound.joins():
        span = Span(join.fastenings[0].span.start, join.span.end)
        yield Edit((Change(span, "unsaid"),), (join.span,))


@mistake("an accept entry that fits nothing", "stale-accept")
def stale_accept(sound: Sound) -> Iterator[Edit]:
    """It accepts what these plans do not have."""
    verdict = sound.audit.verdict
    taken = {each.rule for each in verdict.findings} | {each.rule for each in verdict.not_checked}
    end = Span(len(sound.text), len(sound.text))
    for rule in ("name-twice", "uneven-feet", "counterbore-too-narrow", "rusting-fastener"):
        if rule not in taken:
            text = f'accept\n  {rule} because "it was so in the drawing"\n'
            yield Edit((Change(end, text),), (end,))


# --- what a plan names -----------------------------------------------------------------------------------


def _stated_lengths(sound: Sound) -> Iterator[Quantity]:
    for stated in sound.plan.dimensions:
        quantity = getattr(stated, "stated", None)
        if quantity is not None and quantity.dimension == "length":
            yield quantity


def _names(sound: Sound) -> set[str]:
    names = {entry.name for entry in sound.plan.parts}
    for placement in sound.plan.placements:
        names |= {placement.subject.name, *(word.text for word in placement.names)}
    return names


def _refs(sound: Sound) -> Iterator[Ref]:
    """Names that must answer to something, where they stand."""
    for join in sound.joins():
        yield from (join.first, join.second)
    for placement in sound.plan.placements:
        yield from _placement_refs(placement)
    for cover in sound.plan.covers:
        yield cover.slat


def _placement_refs(placement: Placement) -> Iterator[Ref]:
    for clause in placement.clauses:
        if isinstance(clause, Like):
            yield clause.ref
        if isinstance(clause, Between):
            yield from (
                face.ref for face in (clause.first, clause.second) if isinstance(face, (PartFace, SideOf))
            )
        if isinstance(clause, (At, MiddleAt)):
            yield from (term.of.ref for term in clause.where.terms if isinstance(term.of, (SideOf, MiddleOf)))


def _sides_of(clause: object) -> Iterator[SideOf]:
    if isinstance(clause, At):
        yield from (term.of for term in clause.where.terms if isinstance(term.of, SideOf))


def _placed_as(sound: Sound, ref: Ref, near: Placement) -> Placement | None:
    """The placement on the same bench that gives a name its place, if it is one part's own."""
    if ref.of is not None or ref.number is not None:
        return None
    for placement in sound.plan.placements:
        names = {word.text for word in placement.names} or {placement.subject.name}
        if ref.name in names and placement.assembly == near.assembly and placement is not near:
            return placement
    return None


def later_name(placement: Placement) -> str:
    """One name of a placement, as others would call it; "" for a row or a sub-assembly held by a part."""
    if any(type(clause).__name__ in ("Row", "Like") for clause in placement.clauses):
        return ""
    return placement.names[0].text if placement.names else placement.subject.name


def _wedged(sound: Sound, placement: Placement) -> bool:
    """Whether it lies between faces that lean: then its length alone may find the place."""
    if not any(isinstance(clause, Between) for clause in placement.clauses):
        return False
    names = {ref.name for ref in _placement_refs(placement)}
    return any(
        part.leaning
        for part in sound.piece.parts
        if part.span == placement.span or {part.name, part.copy_of, part.assembly} & names
    )


def _along(side: str) -> str:
    for pair in (("left", "right"), ("front", "back"), ("bottom", "top")):
        if side in pair:
            return pair[0]
    return side


def _with_comma(sound: Sound, span: Span) -> Span:
    """A clause with the comma that parts it from the others."""
    before = sound.text[: span.start].rstrip()
    if before.endswith(","):
        return Span(len(before) - 1, span.end)
    after = sound.text[span.end :]
    return Span(span.start, span.end + len(after) - len(after.lstrip(", \n")))
