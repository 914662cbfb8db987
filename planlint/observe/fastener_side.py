"""Fasteners that never meet the part they should hold in: from the wrong side, lengthwise, or beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build.joinery.sides import side_of
from planlint.build.piece import Driven, Meeting, Piece, WrongSide
from planlint.geometry.path import cross_line
from planlint.geometry.vector import Vec, dot, scale
from planlint.observe.circumstances import seen_sides
from planlint.observe.facts import Missing, Row
from planlint.observe.fastener_depth import meets
from planlint.observe.fastener_kind import Own, own_of
from planlint.observe.joins import join_key, pair_of
from planlint.read.plan import Fastening
from planlint.trade import screws
from planlint.trade.lengths import longest_sold

if TYPE_CHECKING:
    from planlint.observe.fastener import Group

# Of two sides that people see, the one they look at less.
_HIDDEN = ("top", "front", "left", "right", "back", "bottom")
_OPPOSITE = {"inside": "outside", "outside": "inside"}
_LENGTHWISE = 0.7  # cos of 45 deg: an axis nearer to the grain than this runs along the part


def rows(piece: Piece, groups: list[Group]) -> list[Row]:
    """A row for each fastening between two pieces that never meets the second."""
    found: list[Row] = []
    seen = seen_sides(piece.plan)
    for wrong in piece.wrong_sides:
        own = own_of(wrong.meeting.join, wrong.fastening, piece.plan)
        if own is not None:
            values = _values(wrong.meeting, own, "side")
            values["side"], values["sides"] = wrong.side or "unsaid", wrong.sides
            values["best_side"] = _best(wrong, own, seen)
            found.append(_row(values, wrong.fastening))
    for group in groups:
        first, depth = group.fasteners[0], group.depth
        if depth is None or not all(map(meets, group.fasteners)):
            found.append(_row(_values(first.meeting, group.own, "place"), first.fastening))
        elif _never_gets_there(first, depth.through, group.own):
            values = _values(first.meeting, group.own, "lengthwise")
            values["through"] = depth.through
            found.append(_row(values, first.fastening))
    return found


def _row(values: dict[str, object], fastening: Fastening) -> Row:
    return Row(values, fastening.span, {} if fastening.from_ is None else {"side": fastening.from_.span})


def _values(meeting: Meeting, own: Own, mistake: str) -> dict[str, object]:
    straight = Missing("they are driven from a side that is open to them", "")
    return {
        "first": meeting.first.name,
        "second": meeting.second.name,
        "pair": pair_of(meeting.first, meeting.second),
        "parts": (meeting.first.name, meeting.second.name),
        "join": join_key(meeting.join),
        "kind": own.kind.noun,
        "pocketed": own.kind.pocketed,
        "mistake": mistake,
        "side": straight,
        "sides": (),
        "best_side": straight,
        "through": Missing("their way does not lead into the second part", ""),
        "length": own.values["length"],
        "longest_sold": _longest(own),
    }


def _never_gets_there(driven: Driven, through: float, own: Own) -> bool:
    """Whether it stops inside the length of the first part, which no fastener sold is long enough to pass."""
    if driven.tip is None or driven.tip >= through or driven.pocket_side is not None:
        return False
    longest = _longest(own)
    return (
        abs(dot(driven.axis, driven.first.along)) > _LENGTHWISE
        and isinstance(longest, float)
        and through - driven.seat > longest
    )


def _longest(own: Own) -> float | Missing:
    across = own.diameter
    metric = across is not None and not screws.in_inches(across)
    longest = longest_sold(own.kind.noun, metric, None if across is None else screws.gauge_of(across))
    return (
        Missing(f"no list of lengths is kept for {own.kind.noun}", "") if longest is None else float(longest)
    )


def _best(wrong: WrongSide, own: Own, seen: tuple[str, ...]) -> str | Missing:
    """Of pockets, a wide face nobody looks at; of others, the side with the least wood to pass."""
    if not wrong.sides:
        return Missing("from no side do they go through the first part into the second", "")
    if own.kind.pocketed:
        wide = wrong.sides[:2]  # pockets belong in wide faces, and these are named first
        return next((side for side in wide if side not in seen), max(wide, key=_HIDDEN.index))
    if wrong.side in _OPPOSITE:
        return _OPPOSITE[wrong.side]  # what holds for the other half of a mirrored piece too
    ways = [
        (_wood(wrong.meeting, patch.normal, patch.outline), patch.normal) for patch in wrong.meeting.patches
    ]
    return side_of(scale(min(ways)[1], -1.0))


def _wood(meeting: Meeting, normal: Vec, outline: tuple[Vec, ...]) -> float:
    """How much of the first part lies before the middle of an area, square to it."""
    count = len(outline)
    middle = (
        sum([p[0] for p in outline]) / count,
        sum([p[1] for p in outline]) / count,
        sum([p[2] for p in outline]) / count,
    )
    way = cross_line(meeting.first.solid, middle, normal)
    return 0.0 if way is None else -way[0]
