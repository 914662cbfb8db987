"""Fasteners that pass close to each other inside the wood, and how far their rows can be shifted apart."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from planlint.build.joinery.sides import side_of
from planlint.build.joinery.spots import direction_for
from planlint.build.piece import Driven
from planlint.geometry.outline import span_along
from planlint.geometry.path import between_segments
from planlint.geometry.sweep import near_pairs
from planlint.geometry.vector import EXACT, Vec, cross, dot, length, scale, sub, unit
from planlint.observe.facts import Row
from planlint.observe.joins import join_key, pair_of

if TYPE_CHECKING:
    from planlint.observe.fastener import Group

_SKEW = 0.1  # sin of 6 deg: axes nearer to parallel than that have no line square to both
_SAME_LINE = 0.9  # cos of 26 deg: a shift along this takes two axes apart


class _Axis:
    """One fastener from its head to its tip."""

    __slots__ = ("driven", "end", "group", "radius", "start")

    def __init__(self, driven: Driven, group: Group, start: Vec, end: Vec, radius: float) -> None:
        self.driven = driven
        self.group = group
        self.start = start
        self.end = end
        self.radius = radius


class _Row(NamedTuple):
    """How a fastener's row lies along a line: its place in it, the room to either end, the distance in it;
    `free`: the plan leaves its place open, and it can be shifted along that line.
    """

    at: float
    to_low: float
    to_high: float
    pitch: float
    free: bool


def rows(groups: list[Group]) -> list[Row]:
    """A row for every two whose axes are no more than their radii and one diameter apart."""
    axes = [axis for group in groups for axis in _axes(group)]
    widest = max([axis.radius for axis in axes], default=0.0)
    bounds = [_bounds(axis) for axis in axes]
    found: list[Row] = []
    for i, j in near_pairs(bounds, 4.0 * widest):
        one, other = axes[i], axes[j]
        if _apart_by_design(one, other):
            continue
        reach = one.radius + other.radius + 2.0 * max(one.radius, other.radius)
        if _lines_apart(one, other) >= reach:
            continue
        distance = between_segments(one.start, one.end, other.start, other.end)
        if distance < reach:
            row = _row(one, other, distance)
            if row is not None:
                found.append(row)
    return found


def _axes(group: Group) -> list[_Axis]:
    diameter = group.own.diameter
    if diameter is None:
        return []
    found: list[_Axis] = []
    for driven in group.fasteners:
        if driven.tip is not None:
            (x, y, z), (u, v, w) = driven.entry, driven.axis
            head, tip = 0.0 if driven.seat < 0.0 else driven.seat, driven.tip
            start = (x + u * head, y + v * head, z + w * head)
            end = (x + u * tip, y + v * tip, z + w * tip)
            found.append(_Axis(driven, group, start, end, diameter / 2.0))
    return found


def _bounds(axis: _Axis) -> tuple[Vec, Vec]:
    (px, py, pz), (qx, qy, qz) = axis.start, axis.end
    x0, x1 = (px, qx) if px < qx else (qx, px)
    y0, y1 = (py, qy) if py < qy else (qy, py)
    z0, z1 = (pz, qz) if pz < qz else (qz, pz)
    return (x0, y0, z0), (x1, y1, z1)


def _lines_apart(one: _Axis, other: _Axis) -> float:
    """No more than how far the two axes' lines are apart: no two fasteners come nearer than their lines."""
    way = sub(other.start, one.start)
    square = cross(one.driven.axis, other.driven.axis)
    size = length(square)
    if size > _SKEW:
        return abs(dot(way, square)) / size
    return length(cross(way, one.driven.axis)) - 2.0 * _SKEW * length(way)


def _apart_by_design(one: _Axis, other: _Axis) -> bool:
    """Two of one fastening between two pieces: a fitting's screws, or a row spread evenly."""
    if one.driven.meeting is not other.driven.meeting or one.driven.fastening is not other.driven.fastening:
        return False
    return one.driven.into is not other.driven.into or not (one.driven.known_spot and other.driven.known_spot)


def _row(one: _Axis, other: _Axis, distance: float) -> Row | None:
    shared = [part for part in _lies_in(one.driven) if part in _lies_in(other.driven)]
    if not shared:
        return None
    way = _way_apart(one.driven, other.driven)
    lower, upper = one, other
    if dot(way, upper.driven.spot) < dot(way, lower.driven.spot) - EXACT:
        lower, upper = upper, lower
    low_row, high_row = _in_row(lower, way), _in_row(upper, way)
    later, earlier = (one, other) if _start(one) > _start(other) else (other, one)
    joined = [part for axis in (lower, upper) for part in (axis.driven.first, axis.driven.second)]
    values: dict[str, object] = {
        **_side("lower", lower, low_row, low_row.to_low),
        **_side("upper", upper, high_row, high_row.to_high),
        "part": shared[0],
        "parts": tuple(dict.fromkeys([part.name for part in joined])),
        "pair": pair_of(later.driven.first, later.driven.second),
        "join": join_key(later.driven.join),
        "distance": distance,
        "radii": one.radius + other.radius,
        "low_end": side_of(scale(way, -1.0)),
    }
    return Row(values, later.driven.fastening.span, {"other": earlier.driven.fastening.span})


def _start(axis: _Axis) -> int:
    return axis.driven.join.span.start


def _lies_in(driven: Driven) -> list[str]:
    tip = driven.tip or 0.0
    return [one.part.name for one in driven.passages if one.enter < tip and one.leave > driven.seat]


def _side(which: str, axis: _Axis, row: _Row, margin: float) -> dict[str, object]:
    driven = axis.driven
    own = {
        "kind": axis.group.own.kind.noun,
        "diameter": axis.radius * 2.0,
        "into": driven.into.name,
        "from": (driven.first if driven.into is driven.second else driven.second).name,
        "pair": pair_of(driven.first, driven.second),
        "join": join_key(driven.join),
        "at": row.at,
        "margin": margin,
        "pitch": row.pitch,
        "free": row.free,
    }
    return {f"{which}_{name}": value for name, value in own.items()}


def _in_row(axis: _Axis, way: Vec) -> _Row:
    """The row one stands in, along a line; its low end is to the left, the front or the bottom."""
    driven = axis.driven
    low, high = span_along(driven.patch.outline, way)
    places = sorted([dot(way, one.spot) for one in axis.group.fasteners])
    gaps = [b - a for a, b in pairwise(places) if b - a > EXACT]
    at = dot(way, driven.spot) - low
    return _Row(at, places[0] - low, high - places[-1], min(gaps, default=math.inf), _free(driven, way))


def _free(driven: Driven, way: Vec) -> bool:
    if driven.known_spot or driven.pocket_side is None:
        return not driven.known_spot
    row = cross(driven.axis, driven.patch.normal)  # pockets can be shifted in their face only
    return abs(dot(row, way)) > _SAME_LINE * length(row)


def _way_apart(one: Driven, other: Driven) -> Vec:
    """The line along which a shift takes two axes apart; it looks to the right, the back or the top."""
    way = cross(one.axis, other.axis)
    if length(way) < _SKEW:
        way = sub(other.spot, one.spot)
        way = sub(way, scale(one.axis, dot(way, one.axis)))
        if length(way) < EXACT:
            patch = one.patch
            way = direction_for(patch.outline, patch.normal, None, one.first) or one.first.across
    way = unit(way)
    return way if max(way, key=abs) > 0.0 else scale(way, -1.0)
