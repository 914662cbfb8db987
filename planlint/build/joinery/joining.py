"""From placed parts to a joined piece: contacts, joints, meetings, and every fastener as a line in space."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.joinery.aims import aim
from planlint.build.joinery.driving import Driving, drive
from planlint.build.joinery.meetings import Pair, pair_up, reach
from planlint.build.joinery.passages import Shares
from planlint.build.joinery.sharing import share_out
from planlint.build.joinery.sides import middle_of
from planlint.build.joinery.touching import Touching
from planlint.build.joinery.unplaced import tell_unknown_nouns, unplaced
from planlint.build.naming import Index, Naming, naming_of
from planlint.build.piece import CutShort, Part, Piece, WrongSide
from planlint.build.sides import OF_SIDE
from planlint.build.troubles import Troubles
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import EXACT
from planlint.read.plan import Fastening, Join, Ref
from planlint.source import Span
from planlint.trade.caps import most
from planlint.trade.joinery import reach as trade_reach
from planlint.trade.screws import kind


class Named(NamedTuple):
    """A join with the pieces its names stand for (on one bench)."""

    join: Join
    firsts: list[Part]
    seconds: list[Part]
    complete: bool  # every piece that the names mean has a place


def join_parts(piece: Piece) -> None:
    """Work out how the placed parts meet and what holds them; fills the piece from its contacts on."""
    troubles = Troubles(piece.troubles, piece.plan.unread_names)
    tell_unknown_nouns(piece.plan, troubles)
    named = _named_joins(piece, troubles)
    fit = trade_reach(piece.plan.heading.units != "in" and piece.plan.heading.units != "ft")
    reaches = [reach(one.join, fit) for one in named]
    touching = Touching(piece.parts, fit, max(reaches, default=fit))
    piece.contacts = [(touch.first, touch.second, touch.patches) for touch in touching.all()]
    if touching.stopped_at is not None:
        left_out = touching.stopped_at.second
        piece.cut_short.append(CutShort("overlaps", left_out.name, most("overlaps"), left_out.span))
    pairs: list[Pair] = []
    for one, far in zip(named, reaches, strict=True):
        met, unmet = pair_up(one.join, one.firsts, one.seconds, touching, far)
        pairs += met
        if one.complete and touching.stopped_at is None:
            piece.unmet += unmet  # else the piece it should meet may be the one without a place
    kept = share_out(piece, pairs, touching)
    _drive_all(piece, touching, kept, troubles)


def _named_joins(piece: Piece, troubles: Troubles) -> list[Named]:
    naming = naming_of(piece)
    found: list[Named] = []
    for step in piece.plan.steps:
        bench = None if step.assembly is None else step.assembly.text
        for join in step.joins:
            lost = naming.why_lost(join.first) or naming.why_lost(join.second)
            here: list[Named] = []
            for names in naming.benches(bench) or [naming.whole]:
                firsts, seconds = _parts(names, naming, join.first), _parts(names, naming, join.second)
                if firsts and seconds:
                    here.append(Named(join, firsts, seconds, lost is None))
            if not here:
                _tell_unknown(join, naming, troubles)
            if not here or lost is not None:
                piece.unplaced_fasteners += unplaced(piece.plan, join, lost or _why_not(join, naming))
            found += here
    return found


def _why_not(join: Join, naming: Naming) -> str:
    """Why a join's parts are not there, where none of them failed to find its place."""
    if not naming.parts:
        return "not placed"
    missing = join.second if naming.parts_named(join.first) else join.first
    return f"{missing} has no place"


def _parts(names: Index, naming: Naming, ref: Ref) -> list[Part]:
    return names.get(str(ref)) or naming.parts_named(ref)


def _tell_unknown(join: Join, naming: Naming, troubles: Troubles) -> None:
    for ref in (join.first, join.second):
        if not naming.is_known(ref):
            troubles.unknown(str(ref), "part", ref.span, naming.all_names())


def _drive_all(piece: Piece, touching: Touching, kept: Shares, troubles: Troubles) -> None:
    middle = middle_of(piece.parts)
    crowded = 0
    for meeting in piece.meetings:
        crowded += meeting.share is not None
        if crowded > most("overlapping joints") and meeting.share is not None:
            _cut_short(piece, "overlapping joints", meeting.first.name, meeting.join.span)
            continue
        for fastening in meeting.join.fastenings:
            found = kind(fastening.noun.text) if fastening.kind == "counted" else None
            if found is None:
                continue  # spread, cut, or a fitting that is only known to hold
            if fastening.number > most("fasteners"):
                _cut_short(piece, "fasteners", fastening.noun.text, fastening.span)
            aimed = aim(meeting, fastening, found.pocketed, middle)
            if isinstance(aimed, WrongSide):
                piece.wrong_sides.append(aimed)
            elif aimed is not None:
                driven, followed = drive(Driving(meeting, fastening, found, aimed), touching, kept)
                piece.driven += driven
                if not followed:
                    _tell_spots(fastening, aimed.patch, troubles)


def _cut_short(piece: Piece, what: str, name: str, span: Span) -> None:
    """Once a line, of which the first pair is named."""
    if not any(one.what == what and one.span == span for one in piece.cut_short):
        piece.cut_short.append(CutShort(what, name, most(what), span))


def _tell_spots(fastening: Fastening, patch: Patch, troubles: Troubles) -> None:
    """The plan counts places from a side that the area does not have."""
    from planlint.read.notation import notation

    if fastening.spots is None:
        return
    sides = [side for side, (axis, _) in OF_SIDE.items() if abs(patch.normal[axis]) < 1.0 - EXACT]
    values: dict[str, object] = {
        "found": f"from {fastening.spots.side}",
        "expected": f"{notation().words['phrases']['area_side']}: {', '.join(sides)}",
        "example": f"at 1 from {sides[0]}",
        "section": "step",
    }
    troubles.add("unreadable", fastening.spots.span, values)
