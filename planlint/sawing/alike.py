"""What is done several times over, told once: boards cut alike, cuts made alike one after another."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from planlint.sawing.layout import Boards
from planlint.sawing.order import SawCut, Sawn, near, sawn


class Alike(NamedTuple):
    """Boards that are cut alike; `first` counts from 1 within their size."""

    sawn: Sawn
    first: int
    number: int


class Step(NamedTuple):
    """Equal cuts one after another, in blanks of the cuts `out_of` (none: the board)."""

    first: int
    last: int
    way: str
    size: float
    piece: str
    holds: tuple[tuple[str, int], ...]  # names with their counts, of a blank
    out_of: tuple[int, ...]

    @property
    def times(self) -> int:
        """How many cuts."""
        return self.last - self.first + 1


def alike(boards: Boards, kerf: float) -> list[Alike]:
    """The boards of one size in the order to cut them, those cut alike once."""
    found: dict[object, list[Sawn]] = {}
    for board in boards.cut:
        one = sawn(board, kerf, sheet=boards.kind == "sheet")
        found.setdefault(_same(one), []).append(one)
    first, told = 1, []
    for same in found.values():
        told.append(Alike(same[0], first, len(same)))
        first += len(same)
    return told


def steps(one: Sawn) -> list[Step]:
    """The cuts of a board, equal ones together."""
    found: list[Step] = []
    for cut in one.cuts:
        holds = tuple(Counter(cut.holds).items())
        last = found[-1] if found else None
        if last is not None and _joins(last, cut, holds):
            out_of = last.out_of if cut.out_of in last.out_of else (*last.out_of, cut.out_of)
            found[-1] = last._replace(last=cut.number, out_of=out_of)
        else:
            found.append(Step(cut.number, cut.number, cut.way, cut.size, cut.piece, holds, (cut.out_of,)))
    return found


def kept_whole(one: Sawn) -> Sequence[str]:
    """Pieces that need no cut: they are as long and as wide as the board."""
    return [piece.name for piece in one.pieces if piece.number == 0]


def left_by(one: Sawn, number: int) -> list[str]:
    """Pieces that are free after this cut besides the one it takes off: what is left needs no further cut."""
    cut = one.cuts[number - 1]
    names = [piece.name for piece in one.pieces if piece.number == number]
    if cut.piece:
        names.remove(cut.piece)
    return names


def _joins(step: Step, cut: SawCut, holds: tuple[tuple[str, int], ...]) -> bool:
    return (
        (step.way, step.piece, step.holds) == (cut.way, cut.piece, holds)
        and near(step.size) == near(cut.size)
        and (0 in step.out_of) == (cut.out_of == 0)
    )


def _same(one: Sawn) -> object:
    board = one.board
    return (
        near(board.length),
        tuple([(cut.way, near(cut.size), cut.out_of, cut.piece, cut.holds) for cut in one.cuts]),
        tuple([(piece.name, piece.number) for piece in one.pieces]),
    )
