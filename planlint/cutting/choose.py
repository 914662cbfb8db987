"""As few boards as will do, of those that may be taken; of as many, those with the least wood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement, pairwise
from typing import NamedTuple

from planlint.cutting.answer import BUDGET, decide, too_big
from planlint.cutting.decide import settle
from planlint.cutting.rip import Shop
from planlint.cutting.stock import FITS, TOO_FEW, Board, CutBoard, Piece

_TRIES = 60  # choices of shorter boards that are looked at
_MANY = 5_000  # choices are not even listed when there are more
_BRIEF = 8  # a part of the budget, for each of those


class Chosen(NamedTuple):
    """Boards chosen, and what is cut from each. Never fewer than `least`; `proved`: no fewer do."""

    layout: tuple[CutBoard, ...]
    least: int
    proved: bool


def choose(
    boards: Sequence[Board],
    pieces: Sequence[Piece],
    kerf: float,
    *,
    granted: Sequence[Piece] | None = None,
    unlimited: bool = False,
    budget: int = BUDGET,
    sheets: bool = False,
    may_turn: bool = False,
    two_stage: bool = False,
) -> Chosen | None:
    """The fewest of these boards that yield the pieces, and of as many the least wood; None: no layout found.

    `boards` are of one thickness and width, in any lengths (sheets: of any size), `number` of each at most.
    A proof is made with the `granted` pieces where they are given: those that must fit whatever a shop knows
    about laying slanted or shaped pieces into one another. `unlimited`: it must hold however many more boards
    of these sizes there were.
    """
    shop = Shop(kerf, budget, sheets, may_turn, two_stage=two_stage)
    order = sorted(
        [one for one in boards if one.number > 0], key=lambda one: (-one.length * one.width, one.key)
    )
    wanted = [piece for piece in pieces if piece.number > 0]
    if not wanted:
        return Chosen((), 0, True)
    if not order or too_big(order, wanted, kerf, sheets=sheets, may_turn=may_turn):
        return None
    settled = decide(order, wanted, shop)
    if settled.verdict != FITS:
        return None
    bare = wanted if granted is None else [piece for piece in granted if piece.number > 0]
    proof = _Proof(order, bare, shop)
    best, least, proved = tuple(settled.layout), proof.floor(), False
    while len(best) > least:
        aim = len(best) - 1
        fewer = settle(_largest(order, aim), wanted, shop)
        if fewer.verdict == FITS:
            best = tuple(fewer.layout)
            continue
        proved = proof.too_few(aim, unlimited)
        break
    proved = proved or len(best) <= least
    least = len(best) if proved else least
    return Chosen(_less_wood(best, order, wanted, shop), least, proved)


class _Proof:
    """That so many boards are too few. The largest of them hold whatever as many others do, if each of the others
    fits into each larger one: lengths of one section do, sheets may not.
    """

    def __init__(self, order: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> None:
        self.order, self.pieces, self.shop = order, pieces, shop
        steps = pairwise(order)
        self.nested = all(
            small.length <= large.length and small.width <= large.width for large, small in steps
        )

    def floor(self) -> int:
        """Never fewer than this."""
        if not self.pieces:
            return 0
        if not self.nested or self._beyond():
            return 1
        ample = self.order[0]._replace(number=sum(piece.number for piece in self.pieces))
        settled = settle([ample], self.pieces, self.shop)
        return max(1, settled.least or 1)

    def too_few(self, number: int, unlimited: bool) -> bool:
        """Whether so many boards of these sizes (of those at hand, unless `unlimited`) are too few."""
        if not self.nested or not self.pieces:
            return False
        if self._beyond():
            return True
        there = [self.order[0]._replace(number=number)] if unlimited else _largest(self.order, number)
        return settle(there, self.pieces, self.shop).verdict == TOO_FEW

    def _beyond(self) -> bool:
        """Whether the largest cannot hold a piece, were it granted all it may be."""
        shop = self.shop
        return bool(
            too_big(self.order[:1], self.pieces, shop.kerf, sheets=shop.sheets, may_turn=shop.may_turn)
        )


def _largest(order: Sequence[Board], number: int) -> list[Board]:
    taken = []
    for one in order:
        if number > 0:
            taken.append(one._replace(number=min(one.number, number)))
            number -= one.number
    return taken


def _less_wood(
    layout: tuple[CutBoard, ...], order: Sequence[Board], pieces: Sequence[Piece], shop: Shop
) -> tuple[CutBoard, ...]:
    """As many boards, with less wood where that is found."""
    if len(order) < 2:
        return layout
    best, brief = layout, shop._replace(budget=shop.budget // _BRIEF, any_layout=True)
    for tried, choice in enumerate(_choices(order, len(layout), _wood(layout), pieces, shop)):
        if tried == _TRIES:
            break
        settled = decide(choice, pieces, brief)
        if settled.verdict == FITS:
            best = tuple(settled.layout)
            break
    return best


def _wood(layout: Sequence[CutBoard]) -> float:
    return sum([board.length * board.width for board in layout])


def _choices(
    order: Sequence[Board], number: int, most: float, pieces: Sequence[Piece], shop: Shop
) -> Iterator[list[Board]]:
    """Other choices of so many boards with less wood, the least first."""
    if _ways(len(order), number) > _MANY:
        return
    areas = [one.length * one.width for one in order]
    through = 1.0 if shop.sheets else order[0].thickness
    needed = sum(
        [one.length * one.width * one.number * (1 if shop.sheets else one.thickness) for one in pieces]
    )
    found = []
    for taken in combinations_with_replacement(range(len(order)), number):
        area = sum([areas[index] for index in taken])
        if needed <= area * through + 1e-3 and area < most - 1e-3:
            counts = [taken.count(index) for index in range(len(order))]
            if all(count <= one.number for count, one in zip(counts, order, strict=True)):
                found.append((area, counts))
    for _, counts in sorted(found):
        there = [one._replace(number=count) for one, count in zip(order, counts, strict=True) if count]
        if not too_big(there, pieces, shop.kerf, sheets=shop.sheets, may_turn=shop.may_turn):
            yield there


def _ways(kinds: int, number: int) -> int:
    ways = 1
    for step in range(1, kinds):
        ways = ways * (number + step) // step
    return ways
