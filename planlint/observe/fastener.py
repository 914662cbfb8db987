"""Every fastener: what it is, what it passes, how much of it holds, how near its tip comes to open air."""

from __future__ import annotations

from itertools import groupby
from math import acos, degrees
from typing import NamedTuple

from planlint.build.joinery.sides import SIDES, side_of
from planlint.build.piece import Driven, Piece
from planlint.geometry.body import Solid
from planlint.geometry.sight import is_hidden_towards
from planlint.geometry.vector import Vec, dot
from planlint.observe import fastener_edges, fastener_near, fastener_side, fastener_unplaced
from planlint.observe.circumstances import seen_sides
from planlint.observe.facts import Facts, Gap, Missing, Row
from planlint.observe.fastener_depth import Cover, Depth, cover_of, depth_of, meets, room_of
from planlint.observe.fastener_kind import Own, own_of, owns_of
from planlint.observe.fastener_tables import EDGE, FASTENER, NEAR, WRONG_SIDE
from planlint.observe.joins import pair_of
from planlint.observe.load_path import key_of, loaded_pairs
from planlint.observe.picture import ScrewPicture
from planlint.observe.wood import Wood, wood_of

TABLES = (FASTENER, EDGE, NEAR, WRONG_SIDE)

NO_LOAD = Missing("the plan states no load", "a load section: what it has to carry, such as seat: 2 people")
_FLAT = 0.5  # cos of 60 deg: an axis nearer than this to a sheet's plane goes into its edge


class _Sight(NamedTuple):
    """What is seen of a piece: the sides people look at, and all that can hide something."""

    sides: tuple[str, ...]
    solids: list[Solid]


class _Way:
    """What a fastener passes, and all that is the same for every other of its group that passes the same."""

    __slots__ = ("depth", "picture", "values")

    def __init__(self, depth: Depth, values: dict[str, object], picture: ScrewPicture | None) -> None:
        self.depth = depth
        self.values = values
        self.picture = picture


class Group:
    """The fasteners of one fastening between two pieces, into one of them, with the first one's way."""

    __slots__ = ("depth", "fasteners", "own")

    def __init__(self, fasteners: list[Driven], own: Own, depth: Depth | None) -> None:
        self.fasteners = fasteners
        self.own = own
        self.depth = depth


def observe(piece: Piece, facts: Facts) -> None:
    """Add the rows of all tables of this subject."""
    wood = wood_of(piece)
    groups = _groups(piece, wood)
    meeting = [group for group in groups if group.depth is not None]
    facts.add(FASTENER, _rows(piece, meeting, wood))
    facts.add(FASTENER, fastener_unplaced.rows(piece, NO_LOAD))
    facts.add(EDGE, fastener_edges.rows(meeting, wood))
    facts.add(NEAR, fastener_near.rows(meeting))
    facts.add(WRONG_SIDE, fastener_side.rows(piece, groups))
    _gaps(piece, facts, groups)


def _groups(piece: Piece, wood: Wood) -> list[Group]:
    owns = owns_of(piece)
    found: list[Group] = []
    for (_, ident, _), some in groupby(
        piece.driven, key=lambda one: (id(one.meeting), id(one.fastening), one.into.order)
    ):
        fasteners = list(some)
        first = fasteners[0]
        own = owns[ident]
        if own is not None:
            found.append(Group(fasteners, own, depth_of(first, wood)))
    return found


def _rows(piece: Piece, groups: list[Group], wood: Wood) -> list[Row]:
    loaded = loaded_pairs(piece)
    sight = _Sight(seen_sides(piece.plan), [part.solid for part in piece.parts])
    found: list[Row] = []
    for group in groups:
        first = group.fasteners[0]
        shared = {**group.own.values, **_names(first)}
        load = loaded.get(key_of(first.first, first.second), "")
        shared["load"], shared["carries_load"] = (
            (load, load != "") if piece.plan.loads else (NO_LOAD, NO_LOAD)
        )
        # Most of a group differ only in their places: what does not depend on them is worked out once.
        ways: dict[object, _Way] = {}
        alike: dict[object, Row] = {}
        for fastener in group.fasteners:
            # One that passes by the part it should hold in is told like the first, which meets it.
            driven = fastener if meets(fastener) else first
            # Those of a row that pass the same have the same passages; only a pocket's way depends on where it is.
            passed = id(driven.passages)
            way = (passed, None if driven.pocket_side is None else driven.spot)
            place = (passed, driven.spot if driven.known_spot else None)
            if place not in alike:
                if way not in ways:
                    ways[way] = _way(driven, group, shared, wood)
                alike[place] = _row(driven, group, ways[way], wood, sight)
            found.append(alike[place])
    return found


def _way(driven: Driven, group: Group, shared: dict[str, object], wood: Wood) -> _Way:
    depth = group.depth if driven is group.fasteners[0] else depth_of(driven, wood)
    depth = depth or group.depth
    assert depth is not None
    return _Way(depth, {**shared, **_depths(driven, depth), **_wood_of(driven)}, _picture(driven, depth))


def _row(driven: Driven, group: Group, way: _Way, wood: Wood, sight: _Sight) -> Row:
    cover = cover_of(driven, way.depth, wood, driven.known_spot)
    values = {**way.values, **_cover(cover, way.values["length"], sight)}
    return Row(values, driven.fastening.span, group.own.spans, way.picture)


def _names(driven: Driven) -> dict[str, object]:
    other = driven.first if driven.into is driven.second else driven.second
    return {
        "first": driven.first.name,
        "second": driven.second.name,
        "into": driven.into.name,
        "outer": other.name,
        "part": driven.into.name,
        "parts": (driven.first.name, driven.second.name),
        "pair": pair_of(driven.first, driven.second),
        "placed": True,
    }


def _depths(driven: Driven, depth: Depth) -> dict[str, object]:
    room = room_of(driven, depth)
    tip = driven.tip
    return {
        "through": depth.through,
        "held": depth.through - driven.seat,
        "under_head": depth.under_head,
        # The fastening's own values already say why there is no length.
        **({} if tip is None else {"embedment": tip - depth.through}),
        "receiving_depth": depth.depth,
        "wood_ahead": depth.ahead,
        "receiver_thickness": room.square,
        "side_room": room.aside,
        "slope": room.slope,
    }


def _wood_of(driven: Driven) -> dict[str, object]:
    into, axis = driven.into, driven.axis
    sheet = into.stock.sheet
    return {
        "sheet_edge": sheet and abs(dot(axis, into.through)) < _FLAT,
        "stock_thickness": into.size.thickness,
        "grain_angle": 90.0 if sheet else _angle(axis, into.grain),
    }


def _angle(axis: Vec, grain: Vec) -> float:
    return degrees(acos(min(1.0, abs(dot(axis, grain)))))


def _cover(cover: Cover | None, length: object, sight: _Sight) -> dict[str, object]:
    if cover is None:
        return dict.fromkeys(("embedment", "cover", "cover_side", "cover_seen", "cover_part"), length)
    side = side_of(cover.normal)
    return {
        "cover": cover.wood,
        "cover_part": cover.part.name,
        "cover_side": side,
        "cover_seen": side in sight.sides and not is_hidden_towards(cover.foot, SIDES[side], sight.solids),
    }


def _picture(driven: Driven, depth: Depth) -> ScrewPicture | None:
    if driven.length is None:
        return None
    passages = tuple([(one.part.name, one.enter, one.leave) for one in driven.passages])
    return ScrewPicture(driven.seat, driven.length, passages, depth.receiver)


def _gaps(piece: Piece, facts: Facts, groups: list[Group]) -> None:
    """Where parts have no place, nobody can say where their fasteners go."""
    told: set[object] = set()
    for one in piece.unplaced_fasteners:
        span = piece.plan.heading.title_span if one.reason == "not placed" else one.join.span
        reason, add = fastener_unplaced.why(one.reason)
        if (reason, span) not in told and own_of(one.join, one.fastening, piece.plan) is not None:
            told.add((reason, span))
            facts.gaps += [
                Gap(table.name, reason, add, span or one.join.span) for table in (EDGE, NEAR, WRONG_SIDE)
            ]
    for group in groups:
        if group.own.length is None and group.own.kind.what != "plate":
            fastening = group.fasteners[0].fastening
            if fastening.span not in told:
                told.add(fastening.span)
                no_length = group.own.values["length"]
                assert isinstance(no_length, Missing)
                facts.gaps.append(Gap(NEAR.name, no_length.reason, no_length.add, fastening.span))
