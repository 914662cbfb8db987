"""Parts that could turn: how far all that holds them lies off one axis, and what they lie against.

What is rigidly joined turns together: a chair's back on one bolt at each side is asked as a whole.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from planlint.build.piece import Driven, Part, Piece
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import EXACT, cross, dot, sub
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.observe.fastener_kind import gauge_word
from planlint.observe.joined_pairs import JoinedPair, joined_pairs
from planlint.observe.joins import join_key, pair_of
from planlint.observe.rigid_groups import NO_GAUGE, Group, diameter, groups_of, spread
from planlint.observe.unplaced import add_gaps

PIVOT = Table(
    "turning_part",
    "a part, or parts that move as one, that nothing but screws, bolts, nails or dowels without glue holds",
    {
        "part": Column("word", "the part, or the sub-assembly, or of several the one that is fastened"),
        "along": Column("number", "how many more parts turn with it; 0 for a sub-assembly as a whole"),
        "others": Column("words", "the parts it is fastened to"),
        "parts": Column("words", "all of them, and all that turn"),
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
        "pair": Column("word", "the first two parts that are fastened"),
        "join": Column("words", "the join lines that hold it; for comparing only"),
    },
)

TABLES = (PIVOT,)

_WITH_LENGTH = 0.99  # cos of 8 deg


class Turning(NamedTuple):
    """Parts that move as one, often a single one, and all the fasteners that hold them to others."""

    group: Group
    driven: list[Driven]
    spread: float


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each group that fasteners alone hold; of two that just the same ones hold, for the smaller."""
    if not add_gaps(piece, facts, TABLES):
        return
    found = [one for one in _held_by_fasteners(piece) if one.spread < _most(one.group)]
    told = {id(one) for one in found if _told(one, found)}
    found = [one for one in found if id(one) not in told]
    braced = _all_braced(piece, found)
    whole = _whole_assemblies(piece) if any(len(one.group) > 1 for one in found) else {}
    facts.add(PIVOT, [_row(one, _leader(one, found), braced, whole) for one in found])


def _held_by_fasteners(piece: Piece) -> list[Turning]:
    """Groups of which every join to others is known to hold by drawn fasteners, and by nothing else."""
    pairs = joined_pairs(piece)
    groups = groups_of(piece, pairs)
    number = {part.order: i for i, group in enumerate(groups) for part in group}
    leaving: list[list[JoinedPair]] = [[] for _ in groups]
    unclear = {number[order] for order in _unclear(piece)}
    for (a, b), pair in pairs.items():
        if number[a] != number[b]:
            leaving[number[a]].append(pair)
            leaving[number[b]].append(pair)
        if pair.unsaid or (pair.loose and number[a] != number[b]):  # nobody knows, or it is meant to move
            unclear |= {number[a], number[b]}
    found = []
    for i, group in enumerate(groups):
        driven = [one for pair in leaving[i] for one in pair.driven]
        if driven and i not in unclear:
            found.append(Turning(group, driven, spread(driven, _most(group))))
    return found


def _unclear(piece: Piece) -> set[int]:
    """Parts of which a join cannot be drawn as the plan says."""
    found = {
        part.order
        for wrong in piece.wrong_sides
        for part in (wrong.meeting.first, wrong.meeting.second)
    }  # fmt: skip
    return found | {unmet.part.order for unmet in piece.unmet} | _half_placed(piece)


def _half_placed(piece: Piece) -> set[int]:
    """Parts with a join to something that has no place."""
    names = {ref.name for one in piece.unplaced_fasteners for ref in (one.join.first, one.join.second)}
    return {
        part.order for part in piece.parts if {part.name, part.copy_of, part.name.partition(".")[0]} & names
    }


def _most(group: Group) -> float:
    """Where fasteners are further apart than the parts are thick, nothing turns about one axis."""
    return max([EXACT, *[part.size.thickness for part in group]])


def _own(one: Turning) -> set[int]:
    return {id(driven) for driven in one.driven}


def _leader(one: Turning, found: list[Turning]) -> Turning | None:
    """The group that all of these fasteners hold too, and more: turning, it tells the same mistake."""
    own = _own(one)
    return next((other for other in found if own < _own(other)), None)


def _told(one: Turning, found: list[Turning]) -> bool:
    """Whether smaller groups tell it: one on just the same fasteners; of several parts, all that it holds."""
    own = _own(one)
    smaller = [_own(other) for other in found if _rank(other) < _rank(one)]
    if len(one.group) == 1:
        return own in smaller
    return own == set().union(*(other for other in smaller if other <= own))


def _rank(one: Turning) -> tuple[float, int]:
    sizes = [part.size for part in one.group]
    return sum(size.length * size.width * size.thickness for size in sizes), one.group[0].order


def _all_braced(piece: Piece, found: list[Turning]) -> dict[int, float]:
    """For each group, by its first part's order, how far faces of other parts stop it from turning."""
    first = {part.order: one.group[0].order for one in found for part in one.group}
    facing: dict[int, list[tuple[Patch, float]]] = {}
    for a, b, patches in piece.contacts:
        groups = first.get(a.order), first.get(b.order)
        if groups[0] != groups[1]:
            for group, sign in zip(groups, (1.0, -1.0), strict=True):
                if group is not None:
                    facing.setdefault(group, []).extend([(patch, sign) for patch in patches])
    return {one.group[0].order: _braced(one, facing.get(one.group[0].order, [])) for one in found}


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


def _whole_assemblies(piece: Piece) -> dict[Group, str]:
    """All parts of each sub-assembly that stands in the piece."""
    found: dict[str, list[Part]] = {}
    for part in piece.parts:
        if part.assembly is not None:
            found.setdefault(part.assembly, []).append(part)
    return {tuple(parts): name for name, parts in found.items()}


def _row(one: Turning, leader: Turning | None, braced: dict[int, float], whole: dict[Group, str]) -> Row:
    first = one.driven[0]
    mine = first.first if first.first in one.group else first.second
    others = tuple(dict.fromkeys([_other(driven, one.group).name for driven in one.driven]))
    assembly = whole.get(one.group) if len(one.group) > 1 else None
    values: dict[str, object] = {
        "part": assembly or mine.name,
        "along": 0.0 if assembly else len(one.group) - 1.0,
        "others": others,
        "parts": (*[part.name for part in one.group], *others),
        "count": float(len(one.driven)),
        "kind": first.fastening.noun.text,
        "gauge": gauge_word(first.fastening.size) or NO_GAUGE,
        "diameter": diameter(first),
        "spread": one.spread,
        "braced": braced[one.group[0].order],
        "leader_spread": math.inf if leader is None else leader.spread,
        "leader_braced": math.inf if leader is None else braced[leader.group[0].order],
        "round": len(one.group) == 1 and _round_about(mine, first),
        "pair": pair_of(first.first, first.second),
        "join": tuple(dict.fromkeys([join_key(driven.join) for driven in one.driven])),
    }
    return Row(values, first.fastening.span)


def _round_about(part: Part, driven: Driven) -> bool:
    return part.stock.diameter is not None and abs(dot(part.along, driven.axis)) > _WITH_LENGTH


def _other(driven: Driven, group: Group) -> Part:
    return driven.second if driven.first in group else driven.first
