"""Parts that could turn: how far all that holds a part lies off one axis, and what it lies against."""

from __future__ import annotations

import math
from typing import NamedTuple

from planlint.build.piece import Driven, Part, Piece
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import EXACT, Vec, add, cross, dot, length, scale, sub
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.fastener_kind import diameter_of, gauge_word
from planlint.observe.joined_pairs import JoinedPair, joined_pairs
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps
from planlint.trade.screws import kind

PIVOT = Table(
    "turning_part",
    "a part that nothing but screws, bolts, nails or dowels without glue holds",
    {
        "part": Column("word", "the part"),
        "others": Column("words", "the parts it is fastened to"),
        "parts": Column("words", "all of them"),
        "count": Column("number", "how many fasteners hold it in all"),
        "kind": Column("word", "what the first of them is, as the plan says"),
        "gauge": Column("word", "its gauge or diameter, as it is asked for in a shop"),
        "diameter": Column("length", "its diameter"),
        "spread": Column("length", "how far the fasteners lie off one common axis; 0 for a single one"),
        "braced": Column(
            "length",
            "how far from that axis faces it lies against stop it from turning either way; 0 where "
            "nothing stops it",
        ),
        "leader_spread": Column(
            "length",
            "the spread for a part that all of these fasteners hold too, and more; no limit without one",
        ),
        "leader_braced": Column("length", "how far that part is braced; no limit without one"),
        "round": Column("flag", "it is round, and the axis runs with its length"),
        "pair": Column("word", "the part and the first one it is fastened to"),
        "join": Column("words", "the join lines that hold it; for comparing only"),
    },
)

TABLES = (PIVOT,)

_NO_GAUGE = Missing("the plan gives no gauge for this fastener", "give it as #8 x 2 in")
_WITH_LENGTH = 0.99  # cos of 8 deg


class Turning(NamedTuple):
    """A part and all the fasteners that hold it."""

    part: Part
    driven: list[Driven]
    spread: float


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each part that fasteners alone hold; of two that just the same ones hold, for the smaller."""
    if not add_gaps(piece, facts, TABLES):
        return
    found = [one for one in _held_by_fasteners(piece) if one.spread < _most(one.part)]
    facing = _facing(piece, {one.part.order for one in found})
    braced = {one.part.order: _braced(one, facing.get(one.part.order, [])) for one in found}
    facts.add(PIVOT, [_row(one, _leader(one, found), braced) for one in found if not _told(one, found)])


def _held_by_fasteners(piece: Piece) -> list[Turning]:
    """Parts of which every join is known to hold by fasteners that are drawn, and by nothing else."""
    pairs: dict[int, list[JoinedPair]] = {}
    for (a, b), pair in joined_pairs(piece).items():
        pairs.setdefault(a, []).append(pair)
        pairs.setdefault(b, []).append(pair)
    unclear = {
        part
        for wrong in piece.wrong_sides
        for part in (wrong.meeting.first.order, wrong.meeting.second.order)
    }
    unclear |= {unmet.part.order for unmet in piece.unmet}
    unclear |= _half_placed(piece)
    found = []
    for part in piece.parts:
        own = pairs.get(part.order, [])
        if part.order in unclear or not own or any(_firm(pair) for pair in own):
            continue
        driven = [one for pair in own for one in pair.driven]
        if driven:
            found.append(Turning(part, driven, _spread(driven, _most(part))))
    return found


def _half_placed(piece: Piece) -> set[int]:
    """Parts with a join to something that has no place."""
    names = {ref.name for one in piece.unplaced_fasteners for ref in (one.join.first, one.join.second)}
    return {
        part.order for part in piece.parts if {part.name, part.copy_of, part.name.partition(".")[0]} & names
    }


def _firm(pair: JoinedPair) -> bool:
    """Held over an area, or meant to move, or nobody knows."""
    return pair.glued or pair.cut or pair.fitted or pair.loose or pair.unsaid


def _spread(driven: list[Driven], most: float) -> float:
    """How far the others lie off the axis of the first; the rest is not looked at once that is `most`."""
    first = driven[0]
    spread = 0.0
    for one in driven[1:]:
        for point in _two_points(one):
            spread = max(spread, _off(first, point))
            if spread >= most:
                return spread
    return spread


def _two_points(driven: Driven) -> tuple[Vec, Vec]:
    far = driven.length or 1.0
    return driven.spot, add(driven.spot, scale(driven.axis, far))


def _off(driven: Driven, point: Vec) -> float:
    way = sub(point, driven.spot)
    return length(sub(way, scale(driven.axis, dot(way, driven.axis))))


def _most(part: Part) -> float:
    """A part whose fasteners are further apart than it is thick turns about no axis."""
    return max(part.size.thickness, EXACT)


def _leader(one: Turning, found: list[Turning]) -> Turning | None:
    """The part that all of these fasteners hold too, and more: turning, it tells the same mistake."""
    own = {id(driven) for driven in one.driven}
    return next((other for other in found if own < {id(driven) for driven in other.driven}), None)


def _told(one: Turning, found: list[Turning]) -> bool:
    """Whether just the same fasteners hold a smaller part too: then that is the one that turns."""
    own = {id(driven) for driven in one.driven}
    return any(
        own == {id(driven) for driven in other.driven} and _rank(other.part) < _rank(one.part)
        for other in found
        if other is not one
    )


def _rank(part: Part) -> tuple[float, int]:
    return part.size.length * part.size.width * part.size.thickness, part.order


def _facing(piece: Piece, wanted: set[int]) -> dict[int, list[tuple[Patch, float]]]:
    """The areas each part lies against, and the sign that makes their normals look out of it."""
    found: dict[int, list[tuple[Patch, float]]] = {}
    for first, second, patches in piece.contacts:
        for order, sign in ((first.order, 1.0), (second.order, -1.0)):
            if order in wanted:
                found.setdefault(order, []).extend([(patch, sign) for patch in patches])
    return found


def _braced(one: Turning, facing: list[tuple[Patch, float]]) -> float:
    """The lever of the faces that stop it from turning, of the way it is stopped least.

    Turning by a small angle moves a point by axis x way to it; a face stops what would move into it.
    """
    axis, spot = one.driven[0].axis, one.driven[0].spot
    either = [0.0, 0.0]
    for patch, sign in facing:
        for corner in patch.outline:
            lever = sign * dot(patch.normal, cross(axis, sub(corner, spot)))
            either[0] = max(either[0], lever)
            either[1] = max(either[1], -lever)
    return min(either)


def _row(one: Turning, leader: Turning | None, braced: dict[int, float]) -> Row:
    part, first = one.part, one.driven[0]
    others = tuple(dict.fromkeys([_other(driven, part).name for driven in one.driven]))
    values: dict[str, object] = {
        "part": part.name,
        "others": others,
        "parts": (part.name, *others),
        "count": float(len(one.driven)),
        "kind": first.fastening.noun.text,
        "gauge": gauge_word(first.fastening.size) or _NO_GAUGE,
        "diameter": _diameter(first),
        "spread": one.spread,
        "braced": braced[part.order],
        "leader_spread": math.inf if leader is None else leader.spread,
        "leader_braced": math.inf if leader is None else braced[leader.part.order],
        "round": part.stock.diameter is not None and abs(dot(part.along, first.axis)) > _WITH_LENGTH,
        "pair": pair_of(first.first, first.second),
        "join": tuple(dict.fromkeys([join_key(driven.join) for driven in one.driven])),
    }
    return Row(values, first.fastening.span)


def _diameter(driven: Driven) -> float | Missing:
    found = kind(driven.fastening.noun.text)
    across = None if found is None else diameter_of(driven.fastening, found, driven.length)
    return _NO_GAUGE if across is None else across


def _other(driven: Driven, part: Part) -> Part:
    return driven.second if driven.first is part else driven.first
