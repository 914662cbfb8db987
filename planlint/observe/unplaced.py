"""What cannot be observed because parts have no place: gaps, said once a table."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.piece import Piece
from planlint.observe.facts import Facts, Gap, Table
from planlint.source import Span


def add_gaps(piece: Piece, facts: Facts, tables: Iterable[Table]) -> bool:
    """Say of these tables what has no place; whether anything at all has one."""
    found = _reason(piece)
    if found is not None:
        reason, add, span = found
        facts.gaps += [Gap(table.name, reason, add, span) for table in tables]
    return bool(piece.parts)


def _reason(piece: Piece) -> tuple[str, str, Span] | None:
    plan = piece.plan
    if not plan.placements:
        return "nothing is placed", "a place section: where each part goes", plan.heading.title_span
    if piece.unplaced_names:
        name = next(iter(piece.unplaced_names))
        spans = {str(placement.subject): placement.span for placement in plan.placements}
        for placement in plan.placements:
            spans.update({word.text: word.span for word in placement.names})
        span = spans.get(name.partition(" of ")[0].partition(".")[0], plan.placements[0].span)
        return f"{name} has no place", "what fixes its place in every direction", span
    return None
