"""Slats with gaps of the wrong width, and openings that a child's head is caught in."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from planlint.build.piece import SlatRow
from planlint.planting.misfit import OTHER_SIZE
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound
from planlint.read.plan import At, Between, Like, Placement, Quantity, Row
from planlint.source import Span

_AXIS = {"left-right": 0, "front-back": 1, "up": 2}
_OTHER_ROW = (*OTHER_SIZE, "unknown-name", "hardware-short", "gap-too-tight", "gap-uneven", "boards-to-spare",
              "joint-overloaded", "sags", "overstressed", "wet-wood-indoors")  # fmt: skip


@mistake("gaps wider than the plan allows", "gap-too-wide", also=_OTHER_ROW)
def most_too_small(sound: Sound) -> Iterator[Edit]:
    """The most that is stated is three quarters of a gap there is."""
    for row in sound.piece.covers:
        cover, widest = row.cover, max(_gaps(row), default=0.0)
        if cover.least is not None and cover.most is not None and widest > 4.0:
            changes = (
                Change(cover.most.span, sound.amount(widest * 0.75 - 1.0, cover.most)),
                Change(cover.least.span, sound.amount(min(cover.least.value, widest / 4), cover.least)),
            )
            yield Edit(changes, (cover.span,))


@mistake("a missing slat", "gap-too-wide", also=_OTHER_ROW)
def missing_slat(sound: Sound) -> Iterator[Edit]:
    """One fewer on the cut list and in its row, where the others then stand too far apart."""
    for row, placement, clause in _rows(sound):
        most = row.cover.most
        gap = _even_gap(row, clause.number - 1)
        entry = sound.entry(placement.subject.name)
        if (
            most is not None
            and entry is not None
            and gap is not None
            and gap > most.value + 2.0
            and clause.number > 2
        ):
            changes = (
                Change(clause.number_span, str(clause.number - 1)),
                Change(entry.pieces_span, str(entry.pieces - 1)),
            )
            yield Edit(changes, (row.cover.span,))


@mistake("a slat too many", "gap-too-tight", "overlap", also=(*_OTHER_ROW, "not-enough-boards"))
def slat_too_many(sound: Sound) -> Iterator[Edit]:
    """The gaps are less than the least; or there are none, and the slats lie in each other."""
    for row, placement, clause in _rows(sound):
        least = row.cover.least
        gap = _even_gap(row, clause.number + 1)
        entry = sound.entry(placement.subject.name)
        if least is not None and entry is not None and gap is not None and gap < least.value - 2.0:
            changes = (
                Change(clause.number_span, str(clause.number + 1)),
                Change(entry.pieces_span, str(entry.pieces + 1)),
            )
            yield Edit(changes, (row.cover.span, placement.span))


@mistake("gaps narrower than the plan allows", "gap-too-tight", also=_OTHER_ROW)
def least_too_large(sound: Sound) -> Iterator[Edit]:
    for row in sound.piece.covers:
        cover = row.cover
        inner = _gaps(row)[1:-1]
        if cover.least is not None and cover.most is not None and inner:
            changes = (
                Change(cover.most.span, sound.amount(max(_gaps(row)) + 12.7, cover.most)),
                Change(cover.least.span, sound.amount(min(inner) + 5.0, cover.least)),
            )
            yield Edit(changes, (cover.span,))


@mistake("a row with one gap wider than the others", "gap-uneven", also=_OTHER_ROW)
def uneven(sound: Sound) -> Iterator[Edit]:
    """The last slat of a row is placed by itself, where it was; the others move together by half an inch each way."""
    for row, placement, clause in _rows(sound):
        most, gap = row.cover.most, _even_gap(row, clause.number)
        width = _width(row)
        if clause.number < 4 or most is None or gap is None or placement.names or clause.how != "from":
            continue
        side = {"left-right": "right", "front-back": "back", "up": "top"}[clause.direction]
        end = sound.words(clause.last.span) if clause.last is not None else ""
        back = f"{end} - {sound.length(width + gap + 12.7)}"
        body = sound.words(placement.span)
        own = sound.words(clause.span)
        before = own[: own.rindex(end)].replace(str(clause.number), str(clause.number - 1), 1)
        first = body.replace(own, before + back).replace(":", " as most:", 1)
        last = body.replace(own + ", ", "").replace(":", " as last:", 1) + f", {side} at {end}"
        if own + ", " in body and not _numbered(sound, placement.subject.name):
            changes = (
                Change(placement.span, f"{first}\n  {last}"),
                Change(most.span, sound.amount(gap + 25.4, most)),
            )
            yield Edit(changes, (row.cover.span,))


@mistake("rails that a child's head goes between", "entrapment", also=(*_OTHER_ROW, "dimension-mismatch"))
def rails_apart(sound: Sound) -> Iterator[Edit]:
    """Five and a half inches are left above the next lower rail between the same parts; children use the piece."""
    heading = sound.whole_lines(sound.plan.heading.title_span).end
    for rails in _stacks(sound):
        for (low, below), (high, above) in pairwise(rails):
            wanted = below + sound.parts_of(low)[0].size.width + 139.7
            clause = _bottom(high)
            if clause is not None and (high is rails[-1][0] or wanted < above):
                change = Change(clause.where.span, sound.length(wanted))
                yield Edit(
                    (change, Change(Span(heading, heading), "  users children\n")), (low.span, high.span)
                )


# --- sums --------------------------------------------------------------------------------------------------


def _gaps(row: SlatRow) -> list[float]:
    """Inside the start, between each two, inside the end."""
    axis = _AXIS[row.direction]
    edges = [row.start]
    for slat in row.slats:
        edges += [slat.solid.low[axis], slat.solid.high[axis]]
    edges.append(row.end)
    return [edges[i + 1] - edges[i] for i in range(0, len(edges), 2)]


def _width(row: SlatRow) -> float:
    axis = _AXIS[row.direction]
    return row.slats[0].solid.high[axis] - row.slats[0].solid.low[axis]


def _even_gap(row: SlatRow, number: int) -> float | None:
    """The gap between so many slats, first and last where they are; None where they are unlike."""
    axis = _AXIS[row.direction]
    if len({round(slat.solid.high[axis] - slat.solid.low[axis], 2) for slat in row.slats}) > 1 or number < 2:
        return None
    room = row.slats[-1].solid.high[axis] - row.slats[0].solid.low[axis]
    return (room - number * _width(row)) / (number - 1)


def _rows(sound: Sound) -> Iterator[tuple[SlatRow, Placement, Row]]:
    """Covers whose slats are all of one row, set between two flush ends."""
    for row in sound.piece.covers:
        for placement in sound.plan.placements:
            for clause in placement.clauses:
                flush = isinstance(clause, Row) and clause.how == "from" and clause.number == len(row.slats)
                if (
                    isinstance(clause, Row)
                    and flush
                    and all(slat.span == placement.span for slat in row.slats)
                ):
                    yield row, placement, clause


def _numbered(sound: Sound, name: str) -> bool:
    """Whether the plan names single slats."""
    return f"{name}." in sound.text


def _stacks(sound: Sound) -> Iterator[list[tuple[Placement, float]]]:
    """Level rails one above the other between the same parts, each with its height, from the lowest."""
    for low in sound.plan.placements:
        names = {word.text for word in low.names}
        parts = sound.parts_of(low)
        rail = parts[0] if parts else None
        between = any(isinstance(clause, Between) for clause in low.clauses)
        if (
            rail is None
            or not between
            or abs(rail.along[2]) > 0.05
            or abs(rail.across[2]) < 0.9
            or rail.size.length < 180
        ):
            continue
        like = [
            p
            for p in sound.plan.placements
            if any(isinstance(c, Like) and c.ref.name in names for c in p.clauses)
        ]
        found = [(p, height) for p in (low, *like) if (height := _height(p)) is not None]
        if len(found) == len(like) + 1 > 1:
            yield sorted(found, key=lambda each: each[1])


def _height(placement: Placement) -> float | None:
    clause = _bottom(placement)
    of = clause.where.terms[0].of if clause is not None and len(clause.where.terms) == 1 else None
    return of.value if isinstance(of, Quantity) else None


def _bottom(placement: Placement) -> At | None:
    """Its clause `bottom at` a plain number."""
    for clause in placement.clauses:
        if (
            isinstance(clause, At)
            and clause.side == "bottom"
            and isinstance(clause.where.terms[0].of, Quantity)
        ):
            return clause
    return None
