"""Fasteners that pass close to each other inside the wood, and how far their rows can be shifted apart."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from planlint.build.joinery.sides import side_of
from planlint.build.joinery.spots import direction_for
from planlint.build.piece import Driven
from planlint.geometry.outline import span_along
from planlint.geometry.path import between_segments
from planlint.geometry.sweep import near_pairs
from planlint.geometry.vector import EXACT, Vec, add, cross, dot, length, scale, sub
from planlint.observe.facts import Row
from planlint.observe.joins import join_key, pair_of

if TYPE_CHECKING:
    from planlint.observe.fastener import Group

_SKEW = 0.1  # sin of 6 deg: axes nearer to parallel than that have no line square to both
_SAME_LINE = 0.9  # cos of 26 deg: a shift along this takes two axes apart


class _Axis(NamedTuple):
    """One fastener from its head to its tip."""

    driven: Driven
    group: Group
    start: Vec
    end: Vec
    radius: float


class _Row(NamedTuple):
    """How a fastener's row lies: along what, its place in it, the room to either end, the distance in it."""

    along: Vec
    at: float
    to_low: float
    to_high: float
    pitch: float


def rows(groups: list[Group]) -> list[Row]:
    """A row for every two whose axes are no more than their radii and one diameter apart."""
    axes = [axis for group in groups for axis in _axes(group)]
    widest = max([axis.radius for axis in axes], default=0.0)
    bounds = [
        (
            (min(p[0], q[0]), min(p[1], q[1]), min(p[2], q[2])),
            (max(p[0], q[0]), max(p[1], q[1]), max(p[2], q[2])),
        )
        for p, q in [(axis.start, axis.end) for axis in axes]
    ]
    found: list[Row] = []
    for i, j in near_pairs(bounds, 4.0 * widest):
        one, other = axes[i], axes[j]
        if _apart_by_design(one, other):
            continue
        distance = between_segments(one.start, one.end, other.start, other.end)
        if distance < one.radius + other.radius + 2.0 * max(one.radius, other.radius):
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
            start = add(driven.entry, scale(driven.axis, max(driven.seat, 0.0)))
            end = add(driven.entry, scale(driven.axis, driven.tip))
            found.append(_Axis(driven, group, start, end, diameter / 2.0))
    return found


def _apart_by_design(one: _Axis, other: _Axis) -> bool:
    """Two of one fastening between two pieces: a fitting's two screws, or a row whose spread is its own matter."""
    if one.driven.meeting is not other.driven.meeting or one.driven.fastening is not other.driven.fastening:
        return False
    return one.driven.into is not other.driven.into or not (one.driven.known_spot and other.driven.known_spot)


def _row(one: _Axis, other: _Axis, distance: float) -> Row | None:
    rows = (_in_row(one), _in_row(other))
    heights = [dot(rows[0].along, axis.driven.spot) for axis in (one, other)]
    if heights[1] < heights[0] - EXACT:
        one, other, rows = other, one, rows[::-1]
    lower, upper = rows
    shared = [part for part in _lies_in(one.driven) if part in _lies_in(other.driven)]
    if not shared:
        return None
    later = max(one, other, key=lambda axis: axis.driven.join.span.start)
    earlier = other if later is one else one
    values: dict[str, object] = {
        **_side("lower", one, lower, lower.to_low),
        **_side("upper", other, upper, upper.to_high),
        "part": shared[0],
        "parts": tuple(
            dict.fromkeys(
                part.name for axis in (one, other) for part in (axis.driven.first, axis.driven.second)
            )
        ),
        "pair": pair_of(later.driven.first, later.driven.second),
        "join": join_key(later.driven.join),
        "distance": distance,
        "radii": one.radius + other.radius,
        "can_shift": _can_shift(one, other, lower.along, upper.along),
        "low_end": side_of(scale(lower.along, -1.0)),
    }
    return Row(values, later.driven.fastening.span, {"other": earlier.driven.fastening.span})


def _lies_in(driven: Driven) -> list[str]:
    tip = driven.tip or 0.0
    return [one.part.name for one in driven.passages if one.enter < tip and one.leave > driven.seat]


def _side(which: str, axis: _Axis, row: _Row, margin: float) -> dict[str, object]:
    driven = axis.driven
    own = {
        "kind": axis.group.own.kind.noun,
        "diameter": axis.radius * 2.0,
        "into": driven.into.name,
        "pair": pair_of(driven.first, driven.second),
        "join": join_key(driven.join),
        "at": row.at,
        "margin": margin,
        "pitch": row.pitch,
        "stated": driven.known_spot,
    }
    return {f"{which}_{name}": value for name, value in own.items()}


def _in_row(axis: _Axis) -> _Row:
    """The row one stands in, along its area; its low end is to the left, the front or the bottom."""
    driven, fasteners = axis.driven, axis.group.fasteners
    patch = driven.patch
    along = direction_for(patch.outline, patch.normal, None, driven.first.across) or driven.first.across
    low, high = span_along(patch.outline, along)
    places = sorted([dot(along, one.spot) for one in fasteners])
    gaps = [b - a for a, b in zip(places, places[1:], strict=False) if b - a > EXACT]
    at = dot(along, driven.spot) - low
    return _Row(along, at, places[0] - low, high - places[-1], min(gaps, default=math.inf))


def _can_shift(one: _Axis, other: _Axis, along: Vec, other_along: Vec) -> bool:
    """Whether shifting both along their areas, one each way, takes their axes apart."""
    square = cross(one.driven.axis, other.driven.axis)
    size = length(square)
    if size < _SKEW:
        way = sub(other.driven.spot, one.driven.spot)
        way = sub(way, scale(one.driven.axis, dot(way, one.driven.axis)))
        size = length(way)
        square = along if size < EXACT else way
        size = 1.0 if size < EXACT else size
    return min(abs(dot(along, square)), abs(dot(other_along, square))) > _SAME_LINE * size
