"""`like NAME`: the clauses of another entry, but for the directions said anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from planlint.build.order import in_order
from planlint.build.sides import AXIS_OF_DIRECTION, OF_SIDE
from planlint.build.troubles import Troubles
from planlint.read.plan import (
    At,
    Between,
    Clause,
    EndCut,
    Faces,
    Like,
    MiddleAt,
    Mirror,
    Placement,
    Row,
    Runs,
    Tapered,
    Turned,
)


class Clauses(NamedTuple):
    """What an entry says once every `like` is followed."""

    clauses: tuple[Clause, ...]
    mirrors: tuple[Mirror, ...]


def follow_likes(
    placements: Sequence[Placement], by_name: Mapping[str, Placement], troubles: Troubles
) -> list[Clauses]:
    """The clauses of each placement of a scope, in order. `by_name`: every name of the scope to its entry."""
    number = {id(placement): i for i, placement in enumerate(placements)}
    found = [Clauses(_own(placement), placement.mirrors) for placement in placements]
    needs: dict[int, list[int]] = {}
    for i, placement in enumerate(placements):
        likes = [clause for clause in placement.clauses if isinstance(clause, Like)]
        for like in likes:
            if str(like.ref) not in by_name:
                troubles.unknown(str(like.ref), "part", like.ref.span, by_name)
        needs[i] = [number[id(by_name[str(like.ref)])] for like in likes if str(like.ref) in by_name]
    order, rings = in_order(needs)
    ringed = {node for ring in rings for node in ring}
    for ring in rings:
        _tell_ring([placements[node] for node in ring], troubles)
    for i in order:
        if i not in ringed:
            for other in needs[i]:
                found[i] = _merged(found[other], found[i], len(placements[i].names) == 1)
    return found


def _own(placement: Placement) -> tuple[Clause, ...]:
    return tuple([clause for clause in placement.clauses if not isinstance(clause, Like)])


def _tell_ring(ring: Sequence[Placement], troubles: Troubles) -> None:
    labels = [str(p.names[0].text if p.names else p.subject) for p in ring]
    values: dict[str, object] = {"ring": " -> ".join([*labels, labels[0]]), "parts": labels}
    first = min(ring, key=lambda placement: placement.span.start)
    troubles.add("position-circular", first.subject.span, values, frozenset(labels))


def _merged(base: Clauses, own: Clauses, single: bool) -> Clauses:
    """Own clauses, and the base's that say something else. One name alone is one piece: no mirror image."""
    said = {key for clause in own.clauses for key in _says(clause, own.clauses)}
    kept = [clause for clause in base.clauses if not said.intersection(_says(clause, base.clauses))]
    return Clauses((*kept, *own.clauses), own.mirrors or (() if single else base.mirrors))


def _says(clause: Clause, among: Sequence[Clause]) -> list[str]:
    """What a clause settles: a direction's position, the run, the face, a lean, a cut of one side, …"""
    if isinstance(clause, At):
        return [f"at {OF_SIDE[clause.side][0]}"]
    if isinstance(clause, MiddleAt):
        return [f"at {AXIS_OF_DIRECTION[clause.direction]}"]
    if isinstance(clause, Row):
        block = clause.how == "gap"
        return ["row"] if block else ["row", f"at {AXIS_OF_DIRECTION[clause.direction]}"]
    if isinstance(clause, Between):
        along = [AXIS_OF_DIRECTION[other.direction] for other in among if isinstance(other, Runs)]
        return ["between", *[f"at {axis}" for axis in along]]
    if isinstance(clause, Turned):
        return ["turned"]
    if isinstance(clause, EndCut):
        return [f"cut {clause.which}"]
    if isinstance(clause, Tapered):
        return [f"tapered {clause.side}"]
    return ["runs"] if isinstance(clause, Runs) else ["face"] if isinstance(clause, Faces) else []
