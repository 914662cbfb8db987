"""How many of each counted fastening the plan uses: once for every two pieces that meet, copies and all."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.piece import Piece, UnplacedFastener
from planlint.observe.facts import Missing
from planlint.observe.fastener_unplaced import why
from planlint.read.plan import Fastening, Join, Step


class Use(NamedTuple):
    """One fastening and how many of it there are at least; `unsure` says why there may be more."""

    join: Join
    fastening: Fastening
    least: int
    unsure: Missing | None


def uses(piece: Piece) -> list[Use]:
    """Every counted fastening, in the plan's order.

    A first-named piece that meets nothing yet still needs its fasteners once. Where pieces have no place,
    each piece of the first name needs them once at least.
    """
    pairs: dict[int, int] = {}
    for meeting in piece.meetings:
        pairs[id(meeting.join)] = pairs.get(id(meeting.join), 0) + 1
    for unmet in piece.unmet:
        pairs[id(unmet.join)] = pairs.get(id(unmet.join), 0) + 1
    lost = {id(one.join): one for one in piece.unplaced_fasteners}
    return [
        _use(step, join, fastening, pairs.get(id(join), 0), lost.get(id(join)))
        for step in piece.plan.steps
        for join in step.joins
        for fastening in join.fastenings
        if fastening.kind == "counted"
    ]


def _use(step: Step, join: Join, fastening: Fastening, pairs: int, lost: UnplacedFastener | None) -> Use:
    if lost is None:
        return Use(join, fastening, pairs * fastening.number, None)
    least = max(pairs, _pieces(step, join, lost))
    return Use(join, fastening, least * fastening.number, Missing(*why(lost.reason)))


def _pieces(step: Step, join: Join, lost: UnplacedFastener) -> int:
    """How many pieces the first name surely stands for; of pieces joined among themselves, the pairs."""
    entry, name = lost.first, join.first
    if entry is None or step.assembly is not None or str(name) != entry.name:
        return 1
    return -(-entry.pieces // 2) if str(join.second) == str(name) else entry.pieces
