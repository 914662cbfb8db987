"""What several steps or subjects ask of one piece, worked out for the first of them."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar, cast

from planlint.build.piece import Piece

T = TypeVar("T")


def once_a_piece(work: Callable[[Piece], T]) -> Callable[[Piece], T]:
    """A function of a finished piece that keeps its answer on the piece. The answer is not to be changed."""

    @wraps(work)
    def ask(piece: Piece) -> T:
        if work not in piece.known:
            piece.known[work] = work(piece)
        return cast("T", piece.known[work])

    return ask
