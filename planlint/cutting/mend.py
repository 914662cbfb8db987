"""How many boards are needed, and which to add."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.cutting.answer import BUDGET, decide, own_boards, too_big
from planlint.cutting.decide import settle
from planlint.cutting.rip import Shop, holds
from planlint.cutting.stock import FITS, Board, Fewest, Piece

_HAIR = 1e-6  # of a board: floats must not decide
_THOROUGH = 1_000  # of the budget for one question: a mend asks many, and may be a board too many


def fewest(
    size: Board,
    pieces: Sequence[Piece],
    kerf: float,
    *,
    budget: int = BUDGET,
    sheets: bool = False,
    may_turn: bool = False,
) -> Fewest:
    """How many boards of this one size the pieces need; the size's own `number` does not matter."""
    ample = size._replace(number=max(1, sum(max(0, piece.number) for piece in pieces)))
    if too_big([ample], pieces, kerf, sheets=sheets, may_turn=may_turn):
        return Fewest(None, 1, False, ())
    settled = settle([ample], pieces, Shop(kerf, budget, sheets, may_turn))
    number = len(settled.layout) if settled.verdict == FITS else None
    return Fewest(number, settled.least or 0, number == settled.least, settled.layout)


def to_add(
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    kerf: float,
    *,
    budget: int = BUDGET,
    sheets: bool = False,
    may_turn: bool = False,
    two_stage: bool = False,
) -> tuple[Board, ...]:
    """Boards to buy besides, each of a size on the list, so that a layout is found.

    One size is added to each section (thickness x width) that its own pieces find short: of those that do
    it, the one that takes the least wood. Larger stock to spare is not counted on: that would mean planing.
    Empty: they fit already, or no number of these sizes helps.
    """
    shop = Shop(kerf, budget, sheets, may_turn, two_stage=two_stage)
    if too_big(boards, pieces, kerf, sheets=sheets, may_turn=may_turn):
        return ()
    if decide(boards, pieces, shop).verdict == FITS:
        return ()
    sections = [(list(boards), list(pieces))] if sheets else own_boards(boards, pieces, kerf)
    added = []
    for own, its_pieces in sections:
        if not its_pieces or settle(own, its_pieces, shop).verdict == FITS:
            continue
        more = _cheapest(own, its_pieces, shop)
        if more is None:
            return ()
        added.append(more)
    return tuple(added)


def _cheapest(boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> Board | None:
    """Of one size enough to add, with the least wood. What promises to take least is tried first; of the
    others only as many are tried as would take no more wood than what is found. Of the size that is chosen,
    one less is asked for thoroughly.
    """
    thorough = shop._replace(budget=min(shop.budget, _THOROUGH), any_layout=True)
    brief = thorough._replace(budget=thorough.budget // len(boards))
    lacking = sum(_wood(piece, shop) * piece.number for piece in pieces)
    lacking -= sum(_wood(board, shop) * max(0, board.number) for board in boards)
    sizes = []
    for size in boards:
        fewest_of_it = max(1, math.ceil(lacking / _wood(size, shop) - _HAIR))
        sizes.append((fewest_of_it * size.length * size.width, size, fewest_of_it))
    best: Board | None = None
    for _, size, fewest_of_it in sorted(sizes):
        most = sum(piece.number for piece in pieces)
        if best is not None:
            most = min(most, int(best.number * best.length * best.width / (size.length * size.width) + _HAIR))
        more = _enough_of(size, fewest_of_it, most, boards, pieces, brief, capped=best is not None)
        if more is not None and (best is None or _order(more) < _order(best)):
            best = more
    while best is not None and best.number > 1 and _fits(boards, best, best.number - 1, pieces, thorough):
        best = best._replace(number=best.number - 1)
    return best


def _wood(one: Board | Piece, shop: Shop) -> float:
    """What no layout can save: its volume; of a sheet, whose thickness is not looked at, its area."""
    return one.length * one.width * (1.0 if shop.sheets else one.thickness)


def _order(more: Board) -> tuple[float, Board]:
    return more.length * more.width * more.number, more


def _enough_of(
    size: Board,
    least: int,
    most: int,
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    shop: Shop,
    *,
    capped: bool,
) -> Board | None:
    """The least number of this size to add, from `least` to `most`; None when even the most do not do.

    `capped`: more would do no better than what is found already, so the most are tried first.
    """
    if least > most or not any(holds(size, piece, shop) for piece in pieces):
        return None
    short, number = least - 1, most if capped else least
    while not _fits(boards, size, number, pieces, shop):
        if number >= most:
            return None
        short, number = number, min(2 * number - least + 1, most)
    while number - short > 1:
        middle = (short + number) // 2
        if _fits(boards, size, middle, pieces, shop):
            number = middle
        else:
            short = middle
    return size._replace(number=number)


def _fits(boards: Sequence[Board], size: Board, number: int, pieces: Sequence[Piece], shop: Shop) -> bool:
    return settle([*boards, size._replace(number=number)], pieces, shop).verdict == FITS
