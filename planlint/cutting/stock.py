"""What is bought, what is wanted, what cutting makes of it. In mm; a length runs with the grain."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

FITS = "fits"
TOO_FEW = "too few"
NOT_DECIDED = "not decided"


class Board(NamedTuple):
    """`number` boards (or sheets) of one size, as bought and after planing."""

    key: str
    thickness: float
    width: float
    length: float
    number: int


class Piece(NamedTuple):
    """`number` pieces of one size, over all (tip to tip).

    `nests`: by how much a neighbour's slanted end may reach into this length, half of each end counted
    (mitred ends: width x (tan A + tan B) / 2). A layout never uses it; a proof of too few boards grants it.
    """

    key: str
    width: float
    length: float
    number: int
    thickness: float
    nests: float = 0.0


class Cut(NamedTuple):
    """One piece on its board: corner (`along`, `across`), and its `length` x `width` as it lies there.

    `turned`: on a board, it stands on edge (its width in the board's thickness); on a sheet, its length
    runs across the sheet.
    """

    key: str
    along: float
    across: float
    length: float
    width: float
    turned: bool


class Strip(NamedTuple):
    """Pieces in one line: cut off one after another, a kerf between them. `width` is the widest of them."""

    along: float
    across: float
    length: float
    width: float
    pieces: tuple[Cut, ...]


class CutBoard(NamedTuple):
    """One bought board and its strips. Edge-to-edge cuts set them free, a kerf between neighbours."""

    key: str
    thickness: float
    width: float
    length: float
    strips: tuple[Strip, ...]

    @property
    def pieces(self) -> tuple[Cut, ...]:
        """Every piece of this board, strip by strip."""
        return tuple(cut for strip in self.strips for cut in strip.pieces)


class Outcome(NamedTuple):
    """Whether the boards yield the pieces.

    `verdict` "fits" carries the `layout` that shows it; "too few" is proved, for every way a shop could
    cut, by a "bound" or an exhaustive "search" (`proof`); anything else is "not decided".
    `least`: boards needed when all are of one size; the optimum if `least_proved`, else no fewer than this.
    `spare`: whole boards that the layout leaves over, `spares` by key.
    `too_big`: keys of pieces that no bought board can hold.
    `shorter_by`: the least cut off every piece's length that makes all fit (mm), if the allowance covers it.
    """

    verdict: str
    proof: str
    layout: Sequence[CutBoard]
    bought: int
    least: int | None
    least_proved: bool
    spare: int
    spares: dict[str, int]
    too_big: tuple[str, ...]
    shorter_by: float | None

    @property
    def fits_if_each_piece_shorter_by(self) -> float | None:
        """The same as `shorter_by`, in full."""
        return self.shorter_by


class Fewest(NamedTuple):
    """How many boards of one size a cut list needs.

    `number`: boards of the best layout found, None if none was (a piece is too big). `least`: never fewer.
    `proved`: the two meet.
    """

    number: int | None
    least: int
    proved: bool
    layout: Sequence[CutBoard]
