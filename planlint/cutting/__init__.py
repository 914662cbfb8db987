"""Cutting: which boards yield a cut list. Pure numbers in mm: bounds, search, rips."""

from planlint.cutting.answer import BUDGET, by_section, own_boards, too_big, yields
from planlint.cutting.mend import fewest, to_add
from planlint.cutting.stock import (
    FITS,
    NOT_DECIDED,
    TOO_FEW,
    Board,
    Cut,
    CutBoard,
    Fewest,
    Outcome,
    Piece,
    Strip,
)

__all__ = [
    "BUDGET",
    "FITS",
    "NOT_DECIDED",
    "TOO_FEW",
    "Board",
    "Cut",
    "CutBoard",
    "Fewest",
    "Outcome",
    "Piece",
    "Strip",
    "by_section",
    "fewest",
    "own_boards",
    "to_add",
    "too_big",
    "yields",
]
