"""How many boards are needed, and which to add."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.cutting.answer import BUDGET, decide, own_boards, too_big, yields
from planlint.cutting.decide import settle
from planlint.cutting.rip import Shop, holds
from planlint.cutting.stock import FITS, Board, Fewest, Piece


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
) -> tuple[Board, ...]:
    """Boards to buy besides, each of a size on the list, so that a layout is found.

    One size is added to each section (thickness x width) that its own pieces find short: of those that do
    it, the one that takes the least wood. Larger stock to spare is not counted on: that would mean planing.
    Empty: they fit already, or no number of these sizes helps.
    """
    shop = Shop(kerf, budget, sheets, may_turn)
    whole = yields(boards, pieces, kerf, budget=budget, sheets=sheets, may_turn=may_turn)
    if whole.verdict == FITS or whole.too_big:
        return ()
    sections = [(list(boards), list(pieces))] if sheets else own_boards(boards, pieces, kerf)
    added = []
    for own, its_pieces in sections:
        if not its_pieces or settle(own, its_pieces, shop).verdict == FITS:
            continue
        quick = shop._replace(budget=budget // len(own))  # the more sizes to try, the less each may take
        tried = [_enough_of(size, own, its_pieces, quick) for size in own]
        enough = [more for more in tried if more is not None]
        if not enough:
            return ()
        added.append(min(enough, key=lambda more: (more.length * more.width * more.number, more)))
    return tuple(added)


def _enough_of(size: Board, boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> Board | None:
    """The least number of this size to add; None when even one for each piece does not do."""
    most = sum(piece.number for piece in pieces)
    if not any(holds(size, piece, shop) for piece in pieces):
        return None
    short, number = 0, 1
    while number < most and not _fits(boards, size, number, pieces, shop):
        short, number = number, min(2 * number, most)
    if not _fits(boards, size, number, pieces, shop):
        return None
    while number - short > 1:
        middle = (short + number) // 2
        if _fits(boards, size, middle, pieces, shop):
            number = middle
        else:
            short = middle
    return size._replace(number=number)


def _fits(boards: Sequence[Board], size: Board, number: int, pieces: Sequence[Piece], shop: Shop) -> bool:
    return decide([*boards, size._replace(number=number)], pieces, shop).verdict == FITS
