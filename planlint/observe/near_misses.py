"""Pieces of a join's second name that none of the first meets, though one comes near.

That a second-named piece is met by none is allowed: not every leg has a rail. But one that lies a little off,
where its sisters are met, was most likely meant to be met too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planlint.build.naming import naming_of
from planlint.build.piece import Part, Piece
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unmet import straight_move
from planlint.observe.unplaced import add_gaps
from planlint.read.plan import Join

NEAR_MISS = Table(
    "near_miss",
    "one of several pieces of a join's second name that none of the first meets, in a straight line from one of them",
    {
        "part": Column("word", "the piece"),
        "nearest": Column("word", "the nearest piece of the first name"),
        "sister": Column("word", "a piece of the same name that is met"),
        "named": Column("word", "the second name, as the join says it"),
        "pair": Column("word", "the piece and the nearest, as one word"),
        "parts": Column("words", "the two"),
        "join": Column("word", "the join line; for comparing only"),
        "gap": Column("length", "how far apart the two are"),
        "toward": Column("word", "the side to move the piece to"),
    },
)

TABLES = (NEAR_MISS,)

_FAR = 50.0  # mm: what is further off is not looked at


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each such piece that is not far off."""
    if not any(step.joins for step in piece.plan.steps) or not add_gaps(piece, facts, TABLES):
        return
    met: dict[int, set[int]] = {}
    for meeting in piece.meetings:
        met.setdefault(id(meeting.join), set()).update((meeting.first.order, meeting.second.order))
    naming = naming_of(piece)
    for step in piece.plan.steps:
        for join in step.joins:
            mine = met.get(id(join))
            if mine is None or any(one.kind == "loose" for one in join.fastenings):
                continue
            for bench in naming.benches(step.assembly.text if step.assembly else None):
                firsts, seconds = bench.get(str(join.first), []), bench.get(str(join.second), [])
                facts.add(NEAR_MISS, list(_missed(join, firsts, seconds, mine)))


def _missed(join: Join, firsts: Sequence[Part], seconds: Sequence[Part], met: set[int]) -> Iterator[Row]:
    sister = next((part for part in seconds if part.order in met), None)
    if sister is None:
        return
    for part in seconds:
        if part.order not in met:
            apart = [(*straight_move(part, first), first) for first in firsts if first is not part]
            near = [(gap, toward, first) for gap, toward, first in apart if toward and gap < _FAR]
            if near:
                gap, toward, nearest = min(near, key=lambda one: one[0])
                values: dict[str, object] = {
                    "part": part.name,
                    "nearest": nearest.name,
                    "sister": sister.name,
                    "named": str(join.second),
                    "pair": pair_of(part, nearest),
                    "parts": (part.name, nearest.name),
                    "join": join_key(join),
                    "gap": gap,
                    "toward": toward,
                }
                yield Row(values, join.second.span)
