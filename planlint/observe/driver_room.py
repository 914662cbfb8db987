"""Whether a driver can get at a screw's head when its step comes: the straight way out from the head.

The corridor is a thin rod, the bit, and behind it a thicker one, the driver's body. The screw itself stands
out by its whole length when it is started.
"""

from __future__ import annotations

import math
from itertools import groupby
from typing import NamedTuple

from planlint.build.joinery.sides import side_of
from planlint.build.joinery.spots import direction_for
from planlint.build.piece import Driven, Part, Piece
from planlint.geometry.outline import span_along
from planlint.geometry.path import cross_line, reach
from planlint.geometry.vector import Vec, add, cross, dot, onward, scale, unit
from planlint.observe.build_order import BuildOrder, step_name
from planlint.observe.driver_way import Room, Way, begins, clear, clear_aslant
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.fastener_kind import own_of
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps
from planlint.trade.driving import Tool, lean, tool
from planlint.trade.screws import kind

DRIVER_ROOM = Table(
    "driver_room",
    "the screws of one fastening between two parts that a part of an earlier step is in the way of",
    {
        "kind": Column("word", "what they are, as the plan says"),
        "count": Column("number", "how many of them the plan says for these two parts"),
        "length": Column("length", "their length"),
        "pocketed": Column("flag", "they are driven through slanted pockets"),
        "counterbored": Column("flag", "their heads are sunk in counterbores"),
        "blocker": Column("word", "the part in the way"),
        "blocker_step": Column("word", "the step that puts it there: its title, or its number"),
        "own_step": Column("word", "the step that drives the screws"),
        "face": Column("word", "the side they are driven from"),
        "on_axis": Column("flag", "it crosses the screws' own line; else it only stands too near beside it"),
        "free": Column("length", "how far out from the place of the head it begins"),
        "aside": Column("length", "how far beside the screws' line it stands; 0 where it crosses it"),
        "needed": Column("length", "what the screw, a bit and a driver need in line"),
        "body": Column("length", "half of the driver's thickness"),
        "instead": Column(
            "word",
            "what gets in, held a little aslant if need be: right-angle driver, long bit, or nothing",
        ),
        "first": Column("word", "the part the join names first; the screws pass it"),
        "second": Column("word", "the part the join names second"),
        "part": Column("word", "the part whose face the heads lie in"),
        "parts": Column("words", "both parts, and the one in the way"),
        "pair": Column("word", "both parts"),
        "join": Column("word", "the join line; for comparing only"),
    },
    {"side": "the side the join line says"},
)

TABLES = (DRIVER_ROOM,)

_PLACES = 7  # other places that are tried where the plan leaves them open


class Blocked(NamedTuple):
    """A fastener's way and the part that is first in it."""

    way: Way
    part: Part


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each fastening that is hard to get at."""
    screws = [one for one in piece.driven if _is_screw(one)]
    if len(piece.plan.steps) < 2 or not (screws or piece.unplaced_fasteners):
        return  # nothing can be in the way
    if not add_gaps(piece, facts, TABLES):
        return
    order = BuildOrder(piece)
    first = order.first_step()
    later = [one for one in screws if one.join.step > first]
    if not later:
        return
    told: set[object] = set()
    for _, some in groupby(later, key=lambda one: (id(one.meeting), id(one.fastening))):
        group = list(some)
        if group[0].length is None:
            _tell_no_length(group[0], piece, facts, told)
            continue
        row = _row_of(group, piece, order)
        if row is not None:
            facts.add(DRIVER_ROOM, [row])


def _is_screw(driven: Driven) -> bool:
    found = kind(driven.fastening.noun.text)
    return found is not None and found.what == "screw"


def _row_of(group: list[Driven], piece: Piece, order: BuildOrder) -> Row | None:
    first = group[0]
    screw = first.length or 0.0
    ways = [_way(one) for one in group]
    bit, others = _bits(first)
    straight = tool(bit, "straight")
    near = _standing_near(ways, straight.end + screw, straight.thick, first, piece, order)
    if not near:
        return None
    tools = [straight, *[tool(other, "straight") for other in others]]
    room = Room(near, screw)
    worst = _worst(ways, room, tools)
    if worst is None:
        return None
    places = ways if first.known_spot else _other_places(group)
    far = tool("long", "straight").end + screw
    aside = straight.thick + far * math.tan(math.radians(lean()))
    room = Room(_standing_near([*ways, *places], far, aside, first, piece, order), screw)
    if _enough(ways, places, room, tools, aslant=False):
        return None
    instead = next(
        (
            name
            for name, one in (
                ("right-angle driver", tool(bit, "right-angle")),
                ("long bit", tool("long", "straight")),
            )
            if _enough(ways, places, room, [one], aslant=True)
        ),
        "nothing",
    )
    return _row(first, worst, straight, instead, piece, order)


def _bits(driven: Driven) -> tuple[str, tuple[str, ...]]:
    """The bit that reaches the head, and another that does where the head is sunk less deep than it reaches."""
    if driven.pocket_side is not None:
        return "long", ()
    if driven.seat <= 0.0:
        return "usual", ()
    return "long", ("usual",) if driven.seat < tool("usual", "straight").bit else ()


def _way(driven: Driven, along: Vec | None = None) -> Way:
    head = onward(driven.entry, driven.axis, driven.seat)
    return Way(head if along is None else add(head, along), scale(driven.axis, -1.0))


def _standing_near(
    ways: list[Way], far: float, thick: float, first: Driven, piece: Piece, order: BuildOrder
) -> list[Part]:
    """The parts of earlier steps whose bounds come into the bounds of these ways, `far` out and `thick` aside."""
    ends = [point for way in ways for point in (way.head, onward(way.head, way.out, far))]
    xs, ys, zs = [p[0] for p in ends], [p[1] for p in ends], [p[2] for p in ends]
    x0, y0, z0 = min(xs) - thick, min(ys) - thick, min(zs) - thick
    x1, y1, z1 = max(xs) + thick, max(ys) + thick, max(zs) + thick
    at_hand = (first.first, first.second)
    return [
        part
        for part in order.there(at_hand, first.join.step)
        if (solid := part.solid).low[0] < x1
        and solid.high[0] > x0
        and solid.low[1] < y1
        and solid.high[1] > y0
        and solid.low[2] < z1
        and solid.high[2] > z0
        and part not in at_hand
    ]


def _worst(ways: list[Way], room: Room, tools: list[Tool]) -> Blocked | None:
    """Of the ways that no tool gets along, the one with the least free length, and what is first in it."""
    found: list[tuple[float, Blocked]] = []
    for way in ways:
        if not _gets_in(way, room, tools, aslant=False):
            in_way = [part for part in room.near if not clear(way, Room([part], room.screw), tools[0])]
            free, part = min([(begins(way, part.solid), part) for part in in_way], key=lambda one: one[0])
            found.append((free, Blocked(way, part)))
    return min(found, key=lambda one: one[0])[1] if found else None


def _other_places(group: list[Driven]) -> list[Way]:
    """Places that screws could be at where the plan leaves them open."""
    first = group[0]
    patch = first.patch
    along = (
        unit(cross(patch.normal, first.mouth))
        if first.pocket_side is not None
        else direction_for(patch.outline, patch.normal, None, first.first)
    )
    if along is None:
        return [_way(one) for one in group]
    low, high = span_along(patch.outline, along)
    at = dot(along, first.spot)
    shifts = [low + (high - low) * (i + 0.5) / _PLACES - at for i in range(_PLACES)]
    return [_way(first, scale(along, shift)) for shift in shifts]


def _enough(ways: list[Way], places: list[Way], room: Room, tools: list[Tool], *, aslant: bool) -> bool:
    """Whether some tool gets at every screw, or at as many of the other places as there are screws."""
    if all(_gets_in(way, room, tools, aslant=aslant) for way in ways):
        return True
    if places is ways:
        return False
    left = min(len(ways), len(places))
    to_spare = len(places) - left
    for place in places:
        if _gets_in(place, room, tools, aslant=aslant):
            left -= 1
            if left == 0:
                return True
        else:
            to_spare -= 1
            if to_spare < 0:
                return False
    return False


def _gets_in(way: Way, room: Room, tools: list[Tool], *, aslant: bool) -> bool:
    return any(clear_aslant(way, room, one) if aslant else clear(way, room, one) for one in tools)


def _row(first: Driven, worst: Blocked, straight: Tool, instead: str, piece: Piece, order: BuildOrder) -> Row:
    screw = first.length or 0.0
    way, part = worst
    crossed = cross_line(part.solid, way.head, way.out)
    on_axis = crossed is not None and crossed[1] > 0.0
    far = onward(way.head, way.out, straight.end + screw)
    at_hand = (first.first, first.second)
    values: dict[str, object] = {
        "kind": first.fastening.noun.text,
        "count": float(first.fastening.number),
        "length": screw,
        "pocketed": first.pocket_side is not None,
        "counterbored": first.fastening.counterbore is not None,
        "blocker": part.name,
        "blocker_step": step_name(piece.plan, order.step_of(part, at_hand, first.join.step)),
        "own_step": step_name(piece.plan, first.join.step),
        "face": first.pocket_side or side_of(way.out),
        "on_axis": on_axis,
        "free": begins(way, part.solid),
        "aside": 0.0 if on_axis else reach(part.solid, way.head, far),
        "needed": straight.end + screw,
        "body": straight.thick,
        "instead": instead,
        "first": first.first.name,
        "second": first.second.name,
        "part": first.first.name,
        "parts": (first.first.name, first.second.name, part.name),
        "pair": pair_of(first.first, first.second),
        "join": join_key(first.join),
    }
    spans = {} if first.fastening.from_ is None else {"side": first.fastening.from_.span}
    return Row(values, first.fastening.span, spans)


def _tell_no_length(driven: Driven, piece: Piece, facts: Facts, told: set[object]) -> None:
    """Without a length nobody knows how far the screw stands out."""
    own = own_of(driven.join, driven.fastening, piece.plan)
    if own is not None and driven.fastening.span not in told:
        told.add(driven.fastening.span)
        no_length = own.values["length"]
        assert isinstance(no_length, Missing)
        facts.gaps.append(Gap(DRIVER_ROOM.name, no_length.reason, no_length.add, driven.fastening.span))
