"""The seat and the back of a piece, and the top of a table: which parts they are, and where.

The seat: what the plan calls `seat` (a cover, a part, a sub-assembly), else what it says people sit on, else,
where nothing stands higher than the seat of a bench or stool, the highest level boards. The back: what stands
up at the rear of the seat and ends well above it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from planlint.build.naming import naming_of
from planlint.build.piece import Part, Piece
from planlint.geometry.body import Face
from planlint.geometry.vector import EXACT
from planlint.observe.facts import Missing
from planlint.observe.frame import level
from planlint.read.plan import Ref
from planlint.source import Span

_SEAT = "seat"
_ABOVE = 100.0  # mm: what ends less high above a seat is no back (common practice, no source)
_COVERS = 0.3  # of the piece, seen from above: what covers less is an arm or a rail, no seat
_LEVEL_TOP = 10.0  # mm: tops that differ by less are one surface
_NO_SEAT = Missing("which parts are the seat is not known", "a cover named seat, or a load of people on it")


class Surface(NamedTuple):
    """Boards that make a level surface: its outline from above and its height, mm; `span`: words that name it.

    `height` is at the front edge, `tilt` how far it falls towards the back, degrees.
    """

    parts: tuple[Part, ...]
    left: float
    right: float
    front: float
    back: float
    height: float
    tilt: float
    shaped: bool
    span: Span

    @property
    def middle(self) -> tuple[float, float]:
        return (self.left + self.right) / 2.0, (self.front + self.back) / 2.0


class Back(NamedTuple):
    """A back: where its front meets the seat (from the front of the plan, mm), how far it leans back, degrees."""

    part: Part
    line: float
    leans: float


def seat_of(piece: Piece, floor: float) -> Surface | Missing:
    """The seat of a bench, chair or stool."""
    parts, span = _named_seat(piece)
    if not parts:
        parts, span = _sat_on(piece)
    if not parts and piece.parts:
        parts = _highest(piece.parts)
        span = parts[0].span if parts else None
    lying = [part for part in parts if _lies(part)]
    if not lying:
        return _NO_SEAT
    return _surface(lying, lying[0].entry.span if span is None else span, floor)


def top_of(piece: Piece, floor: float) -> Surface | None:
    """The top of a table: its highest level boards."""
    parts = _highest(piece.parts)
    return _surface(parts, parts[0].entry.span, floor) if parts else None


def back_of(piece: Piece, seat: Surface, floor: float) -> Back | None:
    """The back of a seat, if it has one."""
    best: tuple[float, Part, Face] | None = None
    quarter = (seat.right - seat.left) / 4.0
    for part in piece.parts:
        top = floor + seat.height
        if part in seat.parts or part.solid.high[2] < top + _ABOVE:
            continue
        if part.solid.centroid[1] < seat.middle[1] or part.solid.centroid[2] < top:
            continue
        if part.solid.low[0] > seat.right - quarter or part.solid.high[0] < seat.left + quarter:
            continue  # a post at the side: nobody leans on it
        for face in part.solid.faces:
            if face.plane.normal[1] < -0.7:
                size = _size(face)
                if best is None or size > best[0]:
                    best = size, part, face
    if best is None:
        return None
    _, part, face = best
    (_, y, z), offset = face.plane.normal, face.plane.offset
    line = (offset - z * (floor + seat.height) - face.plane.normal[0] * part.solid.centroid[0]) / y
    return Back(part, line, math.degrees(math.atan2(z, -y)))


def _named_seat(piece: Piece) -> tuple[Sequence[Part], Span | None]:
    for row in piece.covers:
        if row.cover.name.text == _SEAT:
            return row.slats, row.cover.name.span
    naming = naming_of(piece)
    return naming.parts_named(Ref(_SEAT, None, None, Span(0, 0))), None


def _sat_on(piece: Piece) -> tuple[Sequence[Part], Span | None]:
    covers = {row.cover.name.text: row.slats for row in piece.covers}
    for load in piece.plan.loads:
        if load.people is not None:
            return covers.get(str(load.on)) or naming_of(piece).parts_named(load.on), None
    return (), None


def _highest(parts: Sequence[Part]) -> list[Part]:
    """The highest boards that together cover a good part of the piece, seen from above."""
    lying = sorted([part for part in parts if _lies(part)], key=lambda part: -part.solid.high[2])
    least = _COVERS * _seen_from_above(parts)
    while lying:
        top = lying[0].solid.high[2] - _LEVEL_TOP
        boards = [part for part in lying if part.solid.high[2] > top]
        if sum([_seen_from_above([part]) for part in boards]) >= least:
            return boards
        lying = lying[len(boards) :]
    return []


def _seen_from_above(parts: Sequence[Part]) -> float:
    """The rectangle round them from above, mm2."""
    wide = max([part.solid.high[0] for part in parts]) - min([part.solid.low[0] for part in parts])
    return wide * (max([part.solid.high[1] for part in parts]) - min([part.solid.low[1] for part in parts]))


def _lies(part: Part) -> bool:
    return level(part) and abs(part.across[2]) < 0.5


def _surface(parts: Sequence[Part], span: Span, floor: float) -> Surface:
    high = max([part.solid.high[2] for part in parts])
    largest = max(parts, key=lambda part: part.solid.volume)
    if all(part.solid.aligned for part in parts):
        top = [part for part in parts if part.solid.high[2] > high - _LEVEL_TOP]
        height, tilt = high, 0.0
    else:
        top = list(parts)
        front = min([part.solid.low[1] for part in parts])
        edge = [p[2] for part in parts for p in part.solid.vertices if p[1] < front + 4.0 * _LEVEL_TOP]
        height = max(edge)
        up = max(largest.solid.faces, key=lambda face: face.plane.normal[2]).plane.normal
        tilt = math.degrees(math.atan2(up[1], up[2]))
    return Surface(
        tuple(top),
        min([part.solid.low[0] for part in top]),
        max([part.solid.high[0] for part in top]),
        min([part.solid.low[1] for part in top]),
        max([part.solid.high[1] for part in top]),
        height - floor,
        tilt,
        any(part.entry.shaped or part.size.diameter is not None for part in top),
        span,
    )


def _size(face: Face) -> float:
    """Twice the area of a face as it is seen from the front, mm2."""
    outline = face.outline
    x0, _, z0 = outline[0]
    twice = 0.0
    for (x1, _, z1), (x2, _, z2) in pairwise(outline[1:]):
        twice += (x1 - x0) * (z2 - z0) - (x2 - x0) * (z1 - z0)
    return abs(twice) if abs(twice) > EXACT else 0.0
