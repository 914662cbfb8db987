"""How tall a case is for its depth, and whether it is fixed to a wall."""

from __future__ import annotations

from planlint.build.piece import Piece
from planlint.geometry.vector import EXACT
from planlint.observe.circumstances import kind_of_piece
from planlint.observe.facts import Column, Facts, Gap, Row, Table
from planlint.observe.unplaced import add_gaps

STANDING_CASE = Table(
    "standing_case",
    "a shelf, a cabinet or a chest as it stands on the floor",
    {
        "kind": Column("word", "the kind of piece"),
        "height": Column("length", "how tall it is"),
        "depth": Column("length", "how deep what it stands on is, from front to back"),
        "fixed": Column("flag", "the plan fixes it to a wall"),
    },
)

TABLES = (STANDING_CASE,)

_CASES = ("shelf", "cabinet", "chest")


def observe(piece: Piece, facts: Facts) -> None:
    """One row for a case."""
    kind = kind_of_piece(piece.plan)
    if kind is not None and kind not in _CASES:
        return
    if not add_gaps(piece, facts, TABLES):
        return
    title = piece.plan.heading.title_span
    if kind is None:
        reason = "the plan does not say what kind of piece it is"
        facts.gaps.append(
            Gap(STANDING_CASE.name, reason, "piece bench, piece table, … under its title", title)
        )
        return
    floor = min([part.solid.low[2] for part in piece.parts])
    feet = [p[1] for part in piece.parts for p in part.solid.vertices if p[2] <= floor + EXACT]
    values: dict[str, object] = {
        "kind": kind,
        "height": max([part.solid.high[2] for part in piece.parts]) - floor,
        "depth": max(feet) - min(feet),
        "fixed": piece.plan.heading.fixed_to_wall is not None,
    }
    facts.add(STANDING_CASE, [Row(values, title)])
