"""Parts left without their joint, feet that do not stand, and joints cut to a wrong size."""

from __future__ import annotations

import re
from collections.abc import Iterator

from planlint.build.piece import Part
from planlint.planting.misfit import OTHER_SIZE, measured_from
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, Between, CutEntry, EndCut, Faces, Fastening, Join, Like, Placement, Runs
from planlint.source import Span

_INCH = 25.4


@mistake(
    "a part that nothing joins", "loose-part", also=(*OTHER_SIZE, "hardware-short", "wood-rots-outdoors")
)
def not_joined(sound: Sound) -> Iterator[Edit]:
    """The only join line of a part is left out."""
    for part, join in _joined_once(sound):
        yield Edit((Change(sound.whole_lines(join.span), ""),), (part.span,))


@mistake("a piece that nothing connects", "separate-pieces", also=(*OTHER_SIZE, "one-fastener-pivots"))
def not_connected(sound: Sound) -> Iterator[Edit]:
    """Without this join line the piece falls into parts of two pieces or more."""
    if len(_groups(sound, None)) > 1:
        return
    for join in sound.joins():
        groups = sorted(_groups(sound, join), key=len)[:-1]
        if groups and all(len(group) > 1 for group in groups) and not _let_in(sound, join):
            parts = [part for part in sound.piece.parts if any(part.order in group for group in groups)]
            answers = tuple({part.span for part in parts})
            yield Edit((Change(sound.whole_lines(join.span), ""),), answers)


@mistake("a joint's line left out", "overlap", "span-mismatch", also=(*OTHER_SIZE, "racks-sideways"))
def cut_joint_left_out(sound: Sound) -> Iterator[Edit]:
    """What was let into each other is now two parts in one place."""
    for join in sound.joins():
        meetings = [m for m in sound.piece.meetings if m.join.span == join.span and m.share is not None]
        pairs = {frozenset((m.first.order, m.second.order)) for m in meetings}
        if meetings and not any(
            frozenset((m.first.order, m.second.order)) in pairs
            for m in sound.piece.meetings
            if m.join.span != join.span
        ):
            parts = [part for m in meetings for part in (m.first, m.second)]
            answers = {span for part in parts for span in (part.span, part.entry.span)}
            yield Edit((Change(sound.whole_lines(join.span), ""),), tuple(answers))


@mistake("one leg short", "uneven-feet", also=(*OTHER_SIZE, "end-grain-in-view", "glue-end-grain"))
def one_leg_short(sound: Sound) -> Iterator[Edit]:
    """The fourth of four mirrored legs is cut from another line of the cut list, half an inch shorter."""
    for placement, entry in sound.entries_placed():
        parts = sound.parts_of(placement)
        if len(parts) == 4 and len(placement.mirrors) == 2 and _are_plain_legs(parts, placement, entry):
            yield _short_leg(sound, placement, entry, parts)


@mistake("a leaning foot left square", "foot-on-its-edge", also=(*OTHER_SIZE, "rusting-fastener"))
def foot_left_square(sound: Sound) -> Iterator[Edit]:
    for placement, _ in sound.entries_placed():
        on_floor = any(part.solid.low[2] < 0.1 and part.leaning for part in sound.parts_of(placement))
        for clause in placement.clauses if on_floor else ():
            if isinstance(clause, EndCut) and clause.how == "level" and clause.which in ("ends", "bottom"):
                text = "top cut level" if clause.which == "ends" else "top cut square"
                span = clause.span if clause.which == "ends" else Span(clause.span.start, clause.span.start)
                if clause.which == "ends":
                    yield Edit((Change(span, text),), (placement.span,))


@mistake(
    "a panel let in after its frame is closed", "cannot-go-in", also=("no-driver-room", "rusting-fastener")
)
def let_in_too_late(sound: Sound) -> Iterator[Edit]:
    """What is housed all round gets a step of its own, after the joins that close the frame."""
    for step in sound.plan.steps:
        for index, join in enumerate(step.joins):
            sides = _housed_sides(sound, join.first.name)
            before = {(other.first.name, other.second.name) for other in step.joins[:index]}
            same = all(join.first.name != first for first, _ in before)
            if (
                index
                and same
                and sides >= 4
                and any(_touches(sound, join, other) for other in step.joins[:index])
            ):
                place = sound.whole_lines(join.span).start
                yield Edit(
                    (Change(Span(place, place), 'step "Later"\n'),),
                    (join.span, *_same_first(step.joins, join)),
                )


@mistake("a housing too deep", "joint-cut-wrong-size", also=OTHER_SIZE)
def housing_too_deep(sound: Sound) -> Iterator[Edit]:
    """The part that is let in at both ends is cut longer by as much."""
    for join, fastening in sound.fastenings():
        entry = sound.entry(join.first.name)
        thick = min((m.second.size.thickness for m in sound.meetings(join)), default=0.0)
        if fastening.kind != "housed" or fastening.depth is None or entry is None or entry.length is None:
            continue
        deeper = 0.75 * thick - fastening.depth.value
        if deeper > 1.0 and _fills_its_length(sound, entry) and _housed_at_both_ends(sound, join):
            longer = sound.amount(entry.length.value + 2 * deeper, entry.length)
            depth = sound.amount(0.75 * thick, fastening.depth)
            yield Edit((Change(fastening.depth.span, depth), Change(entry.length.span, longer)), (join.span,))


@mistake("a joint's depth mistyped", "overlap", "span-mismatch", "joint-cut-wrong-size", also=OTHER_SIZE)
def depth_mistyped(sound: Sound) -> Iterator[Edit]:
    """The parts are cut and placed for another depth."""
    for join, fastening in sound.fastenings():
        depth = fastening.depth or (fastening.tenon[2] if fastening.tenon else None)
        if depth is not None and sound.meetings(join):
            entries = {part.entry.span for m in sound.meetings(join) for part in (m.first, m.second)}
            change = Change(depth.span, sound.amount(depth.value * 1.5, depth))
            yield Edit((change,), (join.span, *entries))


@mistake("a tenon too thick", "joint-cut-wrong-size", also=OTHER_SIZE)
def tenon_too_thick(sound: Sound) -> Iterator[Edit]:
    yield from _tenons(sound, 0.75)


@mistake("a tenon too thin", "joint-cut-wrong-size", also=OTHER_SIZE)
def tenon_too_thin(sound: Sound) -> Iterator[Edit]:
    yield from _tenons(sound, 0.15)


@mistake("a bearer a little too low", "missed-by-little", "loose-part", also=OTHER_SIZE)
def missed_by_a_quarter(sound: Sound) -> Iterator[Edit]:
    """One of several that a line names together lies a quarter of an inch below what the others carry."""
    for join in sound.joins():
        entry = sound.entry(join.second.name)
        for placement, other in sound.entries_placed() if entry is not None else ():
            names = {word.text for word in placement.names} or {placement.subject.name}
            own = [m for m in sound.meetings(join) if m.second.span == placement.span]
            others = {m.first.order for m in sound.meetings(join) if m.second.span != placement.span}
            carried = all(abs(patch.normal[2]) > 0.9 for m in own for patch in m.patches)
            alone = other is not entry or not own or not carried or measured_from(sound, names)
            if alone or not {m.first.order for m in own} <= others or join.fastenings[0].kind == "loose":
                continue
            lower = _a_quarter_lower(sound, placement)
            if lower is not None:
                yield Edit((lower,), (join.span, placement.span))


# --- sums ------------------------------------------------------------------------------------------------


def _a_quarter_lower(sound: Sound, placement: Placement) -> Change | None:
    """Its height less a quarter of an inch; one `like` another that has none of its own is given one."""
    less = f" - {sound.length(_INCH / 4)}"
    for clause in placement.clauses:
        if isinstance(clause, At) and clause.side in ("top", "bottom"):
            return Change(Span(clause.where.span.end, clause.where.span.end), less)
    for clause in placement.clauses:
        if isinstance(clause, Like) and clause.ref.of is None:
            end = placement.span.end
            return Change(Span(end, end), f", top at top of {clause.ref}{less}")
    return None


def _joined_once(sound: Sound) -> Iterator[tuple[Part, Join]]:
    for part in sound.piece.parts:
        by = {m.join.span: m.join for m in sound.piece.meetings if part in (m.first, m.second)}
        lines = list(by.values())
        if len(lines) == 1 and lines[0].fastenings[0].kind != "loose" and not _let_in(sound, lines[0]):
            yield part, lines[0]


def _let_in(sound: Sound, join: Join) -> bool:
    return any(meeting.share is not None for meeting in sound.meetings(join))


def _groups(sound: Sound, without: Join | None) -> list[set[int]]:
    """The parts, by their order, that joins connect."""
    groups = [{part.order} for part in sound.piece.parts]
    for meeting in sound.piece.meetings:
        if without is None or meeting.join.span != without.span:
            ours = [group for group in groups if group & {meeting.first.order, meeting.second.order}]
            groups = [group for group in groups if group not in ours] + [set().union(*ours)]
    return groups


def _housed_sides(sound: Sound, name: str) -> int:
    """In how many parts the first piece of a name is housed."""
    meetings = [m for m in sound.piece.meetings if name in (m.first.copy_of, m.first.name)]
    housed = [m for m in meetings if any(f.kind == "housed" for f in m.join.fastenings)]
    return len({m.second.order for m in housed if m.first is housed[0].first}) if housed else 0


def _touches(sound: Sound, join: Join, other: Join) -> bool:
    """Whether the other join holds two of the parts together that this one's part is housed in."""
    mine = {m.second.order for m in sound.piece.meetings if m.join.first.name == join.first.name}
    return any({m.first.order, m.second.order} <= mine for m in sound.meetings(other))


def _same_first(joins: tuple[Join, ...], join: Join) -> list[Span]:
    return [other.span for other in joins if other.first.name == join.first.name]


def _tenons(sound: Sound, share: float) -> Iterator[Edit]:
    """A tenon this share of its part's thickness; round stock has a round tenon."""
    for join, fastening in sound.fastenings():
        tenoned = _tenoned(sound, join, fastening)
        if fastening.tenon is not None and tenoned is not None and not tenoned.stock.diameter:
            thick = fastening.tenon[0]
            change = Change(
                thick.span, sound.amount(share * min(tenoned.size.thickness, tenoned.size.width), thick)
            )
            yield Edit((change,), (join.span,))


def _tenoned(sound: Sound, join: Join, fastening: Fastening) -> Part | None:
    """The part that keeps the tenon."""
    for share in reversed(sound.piece.shares):
        if share.fastening.span == fastening.span:
            return share.keeper
    return None


def _housed_at_both_ends(sound: Sound, join: Join) -> bool:
    """Whether all that this join houses of a part are its two ends."""
    first = sound.meetings(join)[0].first
    solids = [
        share.solid for share in sound.piece.shares if share.join.span == join.span and share.first is first
    ]
    axis = max(range(3), key=lambda i: abs(first.along[i]))
    return len(solids) == 2 and all(s.high[axis] - s.low[axis] < first.size.length / 4 for s in solids)


def _fills_its_length(sound: Sound, entry: CutEntry) -> bool:
    """Whether `between` gives every piece of an entry its place along its length."""
    placements = [placement for placement, other in sound.entries_placed() if other is entry]
    return bool(placements) and all(
        any(isinstance(clause, (Between, Like)) for clause in placement.clauses) for placement in placements
    )


# --- one leg of four --------------------------------------------------------------------------------------


def _are_plain_legs(parts: list[Part], placement: Placement, entry: CutEntry) -> bool:
    """Upright square-cut legs on the floor whose length is written."""
    plain = all(isinstance(clause, (At, Runs, Faces)) for clause in placement.clauses)
    on_floor = all(
        part.solid.low[2] < 0.1 and part.solid.aligned and abs(part.along[2]) > 0.9 for part in parts
    )
    return plain and on_floor and entry.length is not None and placement.assembly is None


def _short_leg(sound: Sound, placement: Placement, entry: CutEntry, parts: list[Part]) -> Edit:
    assert entry.length is not None, "only legs of a written length"
    names = [word.text for word in placement.names]
    body = sound.words(Span(placement.names[-1].span.end, placement.span.end))
    pairs = re.sub(
        r"mirrored\b.*$", f"mirrored {sound.words(placement.mirrors[0].span)}", body, flags=re.DOTALL
    )
    here = f"{entry.name} as {names[0]}, {names[1]}{pairs}"
    others = [
        f"\n  {name} as {own}: like {names[0]}, left at {_at(sound, part, 0)}, front at {_at(sound, part, 1)}{more}"
        for name, own, part, more in (
            (entry.name, names[2], parts[2], ""),
            ("short-leg", names[3], parts[3], f", top at top of {names[0]}"),
        )
    ]
    rest = sound.words(Span(entry.pieces_span.end, entry.span.end))
    shorter = sound.amount(entry.length.value - _INCH / 2, entry.length)
    at = entry.length.span.start - entry.pieces_span.end
    rest = rest[:at] + shorter + rest[entry.length.span.end - entry.pieces_span.end :]
    changes = (
        Change(entry.pieces_span, str(entry.pieces - 1)),
        Change(Span(entry.span.end, entry.span.end), f"\n  short-leg: 1{rest}"),
        Change(placement.span, here + "".join(others)),
    )
    return Edit(changes, (placement.span,))


def _at(sound: Sound, part: Part, axis: int) -> str:
    return sound.length(part.solid.low[axis])
