"""As few boards as will do, of those that may be taken; of as many, those with the least wood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement, pairwise
from typing import NamedTuple

from planlint.cutting.answer import BUDGET, too_big
from planlint.cutting.decide import settle
from planlint.cutting.draw import keys_of
from planlint.cutting.rip import Shop
from planlint.cutting.stock import FITS, TOO_FEW, Board, CutBoard, Piece

_TRIES = 60  # choices of shorter boards that are looked at
_MANY = 5_000  # choices are not even listed when there are more
_BRIEF = 8  # a part of the budget, for each of those
_STEPS_UP = 3  # boards above the proved number that are tried first


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
    proof = _Proof(order, wanted if granted is None else granted, shop)
    found = _one_size(order, wanted, proof) if len(order) == 1 else _several(order, wanted, proof, unlimited)
    if found is None:
        return None
    layout = _less_wood(found.layout, order, wanted, shop)
    return Chosen(tuple(layout), found.least, found.proved)


class _Found(NamedTuple):
    layout: Sequence[CutBoard]
    least: int
    proved: bool


def _one_size(order: Sequence[Board], pieces: Sequence[Piece], proof: _Proof) -> _Found | None:
    """Boards that are all alike: cutting finds the fewest of them itself where lengths are all there is to it."""
    settled = settle(order, pieces, proof.shop)
    if settled.verdict != FITS:
        return None
    least = settled.least or 1 if proof.pieces == pieces else proof.floor()
    return _fewer(settled.layout, least, order, pieces, proof, unlimited=True)


def _several(
    order: Sequence[Board], pieces: Sequence[Piece], proof: _Proof, unlimited: bool
) -> _Found | None:
    """Up from the number that is proved to be needed, as far as that goes quickly; else down from all of them."""
    least = proof.floor()
    for number in range(max(1, least), least + _STEPS_UP):
        settled = settle(_largest(order, number), pieces, proof.shop)
        if settled.verdict == FITS:
            proved = number <= least or proof.too_few(number - 1, unlimited)
            return _Found(settled.layout, len(settled.layout) if proved else least, proved)
        if settled.verdict != TOO_FEW:
            break
    settled = settle(order, pieces, proof.shop)
    if settled.verdict != FITS:
        return None
    return _fewer(settled.layout, least, order, pieces, proof, unlimited=unlimited)


def _fewer(
    best: Sequence[CutBoard],
    least: int,
    order: Sequence[Board],
    pieces: Sequence[Piece],
    proof: _Proof,
    *,
    unlimited: bool,
) -> _Found:
    """One board less as long as a layout is found, then a proof that there is none."""
    proved = False
    while len(best) > least:
        aim = len(best) - 1
        fewer = settle(_largest(order, aim), pieces, proof.shop)
        if fewer.verdict == FITS:
            best = fewer.layout
            continue
        proved = proof.too_few(aim, unlimited)
        break
    proved = proved or len(best) <= least
    return _Found(best, len(best) if proved else least, proved)


class _Proof:
    """That so many boards are too few. The largest of them hold whatever as many others do, if each of the others
    fits into each larger one: lengths of one section do, sheets may not.
    """

    def __init__(self, order: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> None:
        self.order, self.shop = order, shop
        self.pieces = [piece for piece in pieces if piece.number > 0]
        self.nested = all(
            small.length <= large.length and small.width <= large.width for large, small in pairwise(order)
        )

    def floor(self) -> int:
        """Never fewer than this."""
        if not self.pieces:
            return 0
        if not self.nested:
            return 1
        ample = self.order[0]._replace(number=sum([piece.number for piece in self.pieces]))
        return max(1, settle([ample], self.pieces, self.shop).least or 1)

    def too_few(self, number: int, unlimited: bool) -> bool:
        """Whether so many boards of these sizes (of those at hand, unless `unlimited`) are too few."""
        if not self.nested or not self.pieces:
            return False
        there = [self.order[0]._replace(number=number)] if unlimited else _largest(self.order, number)
        return settle(there, self.pieces, self.shop).verdict == TOO_FEW


def _largest(order: Sequence[Board], number: int) -> list[Board]:
    taken = []
    for one in order:
        if number > 0:
            taken.append(one._replace(number=min(one.number, number)))
            number -= one.number
    return taken


def _less_wood(
    layout: Sequence[CutBoard], order: Sequence[Board], pieces: Sequence[Piece], shop: Shop
) -> Sequence[CutBoard]:
    """As many boards, with less wood where that is found."""
    if len(order) < 2:
        return layout
    best, brief = layout, shop._replace(budget=shop.budget // _BRIEF, any_layout=True)
    for tried, choice in enumerate(_choices(order, len(layout), _wood(layout, order), pieces, shop)):
        if tried == _TRIES:
            break
        settled = settle(choice, pieces, brief)
        if settled.verdict == FITS:
            best = settled.layout
            break
    return best


def _wood(layout: Sequence[CutBoard], order: Sequence[Board]) -> float:
    area = {one.key: one.length * one.width for one in order}
    return sum([area[key] for key in keys_of(layout)])


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
    longest = max([piece.length for piece in pieces])
    found = []
    for taken in combinations_with_replacement(range(len(order)), number):
        area = sum([areas[index] for index in taken])
        if needed <= area * through + 1e-3 and area < most - 1e-3:
            counts = [taken.count(index) for index in range(len(order))]
            long = shop.sheets or order[taken[0]].length + 1e-3 >= longest
            if long and all(count <= one.number for count, one in zip(counts, order, strict=True)):
                found.append((area, counts))
    for _, counts in sorted(found):
        there = [one._replace(number=count) for one, count in zip(order, counts, strict=True) if count]
        if not shop.sheets or not too_big(there, pieces, shop.kerf, sheets=True, may_turn=shop.may_turn):
            yield there


def _ways(kinds: int, number: int) -> int:
    ways = 1
    for step in range(1, kinds):
        ways = ways * (number + step) // step
    return ways
