"""Which fastener a finding is about: the one whose numbers it tells, and what has to be seen beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.build.piece import Driven, Part, Piece
from planlint.drawing.marks import PAIRED, Numbered
from planlint.drawing.nearest import nearest
from planlint.geometry.path import between_segments
from planlint.geometry.vector import EXACT, Vec, add, dot, length, scale, sub, unit
from planlint.observe.fastener_tables import EDGE, FASTENER, NEAR, WRONG_SIDE
from planlint.observe.holding_joint import END_GRAIN
from planlint.observe.joint_strength import JOINT as LOADED
from planlint.observe.picture import ScrewPicture
from planlint.observe.pilots import PILOT

TABLES = tuple([one.name for one in (FASTENER, EDGE, NEAR, WRONG_SIDE, END_GRAIN, LOADED, PILOT)])
_BESIDE = 0.2  # cos of 78 deg: a face is beside an axis that runs along it
_SAME = 0.05  # mm: a measured distance and a finding's nearer than this are one


class Face(NamedTuple):
    """A face beside a fastener: whose, the way it looks, and how far from the axis it is."""

    part: Part
    normal: Vec
    distance: float


class Case(NamedTuple):
    """The fastener to cut through. `toward` is what the plane should hold beside its axis (None: as suits the joint).

    `shift` moves it to where the finding's distance is true (places the plan leaves open). `other` is the second
    fastener of two that are too near, `face` the face of one that is too near.
    """

    number: int
    driven: Driven
    toward: Vec | None = None
    shift: Vec = (0.0, 0.0, 0.0)
    other: Driven | None = None
    face: Face | None = None


def case_of(one: Numbered, about: str, audit: Audit) -> Case | None:
    """The fastener that a finding about this table of facts is about; None where none can be drawn."""
    finding = one.finding
    drivens = _named(audit.piece, one)
    if not drivens:
        return None
    if isinstance(finding.picture, ScrewPicture):
        picture = finding.picture
        alike = next((driven for driven in drivens if _is(driven, picture)), None)
        return None if alike is None else Case(one.number, alike)
    if about == EDGE.name:
        return _near_edge(one, drivens)
    if about == NEAR.name:
        return _near_other(one, drivens, audit.piece)
    return Case(one.number, drivens[0])


def _named(piece: Piece, one: Numbered) -> list[Driven]:
    """The fasteners of the flagged words, those between the pairs of parts that the finding names first."""
    spans = set(one.finding.spans) | {one.finding.span}
    found = [
        driven for driven in piece.driven if driven.fastening.span in spans and driven.length is not None
    ]
    pairs = {frozenset(name.split(PAIRED)) for name in one.finding.names if PAIRED in name}
    return sorted(found, key=lambda driven: {driven.first.name, driven.second.name} not in pairs)


def _is(driven: Driven, picture: ScrewPicture) -> bool:
    return (
        driven.length == picture.length
        and driven.seat == picture.seat
        and tuple([(way.part.name, way.enter, way.leave) for way in driven.passages]) == picture.passages
    )


# --- too near an edge, an end, or the next in a row ------------------------------------------------


def _near_edge(one: Numbered, drivens: Sequence[Driven]) -> Case | None:
    distance, name = _number(one, "distance"), one.finding.values.get("part")
    if distance is None or name is None:
        return None
    in_row = [
        (abs(length(sub(b.spot, a.spot)) - distance), a, b)
        for a in drivens
        for b in drivens
        if a is not b and a.meeting is b.meeting and a.fastening is b.fastening
    ]
    faces = [
        (abs(face.distance - distance), driven, face)
        for driven in drivens
        for way in driven.passages
        if way.part.name == name.value
        for face in faces_beside(driven, way.part)
    ]
    off, driven, face = min(faces, key=lambda each: each[0], default=(None, None, None))
    if off is not None and off > _SAME and in_row:
        gap, first, second = min(in_row, key=lambda each: each[0])
        if gap < _SAME:
            return Case(one.number, first, unit(sub(second.spot, first.spot)), other=second)
    if driven is None or face is None:
        return None
    shift = scale(face.normal, face.distance - distance)
    return Case(
        one.number,
        driven,
        _square_to(face.normal, driven.axis),
        shift if length(shift) > _SAME else (0.0, 0.0, 0.0),
        face=face._replace(distance=distance),
    )


def faces_beside(driven: Driven, part: Part) -> Iterable[Face]:
    """The faces of a part that the axis runs along, each as far off as it is half way through the part."""
    way = next(way for way in driven.passages if way.part is part)
    leave = way.leave if driven.tip is None else max(way.enter, min(way.leave, driven.tip))
    middle = add(driven.entry, scale(driven.axis, (way.enter + leave) / 2.0))
    for normal, offset in part.solid.planes:
        if abs(dot(normal, driven.axis)) < _BESIDE:
            yield Face(part, normal, offset - dot(normal, middle))


# --- two that run into each other ------------------------------------------------------------------


def _near_other(one: Numbered, drivens: Sequence[Driven], piece: Piece) -> Case | None:
    spans = {span for name, span in one.finding.related if name == "other"}
    others = [
        driven for driven in piece.driven if driven.fastening.span in spans and driven.length is not None
    ]
    if not others:
        return None
    pairs = [(_apart(a, b), i, a, b) for i, a in enumerate(drivens) for b in others if a is not b]
    if not pairs:
        return None
    distance, _, driven, other = min(pairs, key=lambda each: each[:2])
    here, there = nearest(ends(driven), ends(other))
    way = sub(there, here)
    if distance < EXACT * 10:
        way = other.axis
    return Case(one.number, driven, _square_to(way, driven.axis), other=other)


def _apart(one: Driven, other: Driven) -> float:
    return between_segments(*ends(one), *ends(other))


def ends(driven: Driven) -> tuple[Vec, Vec]:
    """Where its head and its tip are."""
    seat, tip = max(driven.seat, 0.0), driven.tip or 0.0
    return add(driven.entry, scale(driven.axis, seat)), add(driven.entry, scale(driven.axis, tip))


def _square_to(way: Vec, axis: Vec) -> Vec | None:
    """The way's part that is square to the axis, unit; None where it runs along it."""
    aside = sub(way, scale(axis, dot(way, axis)))
    return unit(aside) if length(aside) > EXACT * length(way) else None


def _number(one: Numbered, name: str) -> float | None:
    value = one.finding.values.get(name)
    return float(value.value) if value is not None and isinstance(value.value, (int, float)) else None
