"""The build step: a `Plan` becomes a `Piece` in space, placed first and then joined."""

from __future__ import annotations

from planlint.build.joinery.joining import join_parts
from planlint.build.piece import Piece
from planlint.build.place import place_parts
from planlint.read.plan import Plan


def build(plan: Plan) -> Piece:
    """The piece that a plan describes. What the plan leaves open or gets wrong is in `Piece.troubles`."""
    piece = Piece(plan)
    place_parts(plan, piece)
    join_parts(piece)
    return piece
