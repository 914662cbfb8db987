"""Parts that move as one: glued, cut into each other, or fastened together so that neither turns on the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planlint.build.piece import Driven, Part, Piece
from planlint.geometry.vector import Vec, dot, length, onward, scale, sub
from planlint.observe.facts import Missing
from planlint.observe.fastener_kind import diameter_of
from planlint.observe.joined_pairs import JoinedPair
from planlint.observe.load_path import Key
from planlint.trade.screws import kind

Group = tuple[Part, ...]

NO_GAUGE = Missing("the plan gives no gauge for this fastener", "its gauge or diameter, before its length")


def groups_of(piece: Piece, pairs: Mapping[Key, JoinedPair]) -> list[Group]:
    """All parts, those together that move as one; in the plan's order."""
    group_of: dict[int, list[Part]] = {part.order: [part] for part in piece.parts}
    for (first, second), pair in pairs.items():
        one, other = group_of[first], group_of[second]
        if one is not other and rigid(pair):
            one.extend(other)
            group_of.update({part.order: one for part in other})
    groups = {id(group): group for group in group_of.values()}
    return [tuple(sorted(group, key=lambda part: part.order)) for group in groups.values()]


def rigid(pair: JoinedPair) -> bool:
    """Whether two joined parts move as one. Of what is meant to move, or what nobody knows, it is not sure."""
    if pair.loose or pair.unsaid:
        return False
    if pair.glued or pair.cut or pair.fitted:
        return True
    across = diameter(pair.driven[0]) if len(pair.driven) > 1 else NO_GAUGE
    return not isinstance(across, Missing) and spread(pair.driven, across * 2.0) > across


def spread(driven: Iterable[Driven], most: float) -> float:
    """How far the others lie off the axis of the first; the rest is not looked at once that is `most`."""
    first, *others = driven
    found = 0.0
    for one in others:
        for point in (one.spot, onward(one.spot, one.axis, one.length or 1.0)):
            found = max(found, _off(first, point))
            if found >= most:
                return found
    return found


def _off(driven: Driven, point: Vec) -> float:
    way = sub(point, driven.spot)
    return length(sub(way, scale(driven.axis, dot(way, driven.axis))))


def diameter(driven: Driven) -> float | Missing:
    """A fastener's diameter, mm."""
    found = kind(driven.fastening.noun.text)
    across = None if found is None else diameter_of(driven.fastening, found, driven.length)
    return NO_GAUGE if across is None else across
