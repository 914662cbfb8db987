"""What a piece stands on: the floor; or, where it hangs on a wall, that wall."""

from __future__ import annotations

from collections.abc import Container

from planlint.build.piece import Piece
from planlint.geometry.vector import EXACT
from planlint.observe.circumstances import is_metric
from planlint.trade.joinery import reach


def at_wall(piece: Piece) -> set[int]:
    """The orders of the parts that a wall may hold: those furthest back, where the plan names a wall."""
    if piece.plan.heading.fixed_to_wall is None:
        return set()
    fit = reach(is_metric(piece.plan))
    back = max([part.solid.high[1] for part in piece.parts], default=0.0)
    return {part.order for part in piece.parts if part.solid.high[1] >= back - fit}


def hangs(piece: Piece) -> bool:
    """Whether a piece is fixed to a wall and nothing of it comes down to height 0: the floor holds none of it."""
    return piece.plan.heading.fixed_to_wall is not None and all(
        part.solid.low[2] > EXACT for part in piece.parts
    )


def grounded(piece: Piece, lying: Container[int]) -> set[int]:
    """The orders of the parts from which a load goes no further down.

    Those on the floor; of a piece that hangs, those at the wall, but for what lies on another (`lying`).
    """
    if hangs(piece):
        return {order for order in at_wall(piece) if order not in lying}
    floor = min([part.solid.low[2] for part in piece.parts], default=0.0)
    return {part.order for part in piece.parts if part.solid.low[2] <= floor + EXACT}
