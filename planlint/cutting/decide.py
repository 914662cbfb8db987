"""Do these boards yield these pieces? A layout that shows it, a proof that they are too few, or neither."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.cutting import bound, rip, sheet
from planlint.cutting.draw import from_lengths, from_places
from planlint.cutting.pack import Lengths, Search, first_fit
from planlint.cutting.stock import FITS, NOT_DECIDED, TOO_FEW, Board, CutBoard, Piece

MOST_PIECES = 4_000  # more than a piece of furniture has; beyond it only a bound can decide


class Settled(NamedTuple):
    """A verdict on one task. `least` as in `Outcome`, None where boards of several sizes take part."""

    verdict: str
    proof: str
    layout: Sequence[CutBoard]
    least: int | None
    least_proved: bool


def settle(boards: Sequence[Board], pieces: Sequence[Piece], shop: rip.Shop) -> Settled:
    """Decide one task: every piece has a board that can hold it."""
    work = rip.task(boards, pieces, shop)
    if not work.pieces:
        return Settled(FITS, "", (), 0, True)
    strips = [rip.tracks(work, board) for board in range(len(work.boards))]
    if sum(work.wanted) > MOST_PIECES:
        return _by_bound(work)
    if None in strips:
        return _by_places(work, shop)
    return _by_lengths(work, [number or 0 for number in strips], shop)


def _by_bound(work: rip.Task) -> Settled:
    if len(work.rooms) == 1:
        least = bound.least(work.wanted, work.ways, work.rooms[0])
        short = least > work.rooms[0].number
        return Settled(TOO_FEW if short else NOT_DECIDED, "bound" if short else "", (), least, False)
    if bound.too_few(work.wanted, work.ways, work.rooms):
        return Settled(TOO_FEW, "bound", (), None, False)
    return Settled(NOT_DECIDED, "", (), None, False)


def _by_places(work: rip.Task, shop: rip.Shop) -> Settled:
    """Rips of several widths, or a sheet: plain orders, else a bound, else shuffled orders.

    The bound costs the most, so it is asked only when no plain order does.
    """
    if shop.any_layout:
        found = next(
            sheet.layouts(work.wanted, work.ways, work.rooms, shop.budget, two_stage=shop.two_stage), None
        )
        if found is None:
            return Settled(NOT_DECIDED, "", (), None, False)
        return Settled(FITS, "", from_places(work, found), None, False)
    least = bound.by_area(work.wanted, work.ways, work.rooms)
    best = _fewest_places(work, least, shop.two_stage)
    if best is None:
        bounded = _by_bound(work)
        if bounded.verdict == TOO_FEW:
            return bounded
        best = next(
            sheet.layouts(
                work.wanted, work.ways, work.rooms, shop.budget, plain=False, two_stage=shop.two_stage
            ),
            None,
        )
        if best is None:
            return bounded
    layout = from_places(work, best)
    one_size = len(work.rooms) == 1
    return Settled(FITS, "", layout, least if one_size else None, one_size and len(layout) == least)


def _fewest_places(work: rip.Task, least: int, two_stage: bool) -> list[sheet.Put] | None:
    best: list[sheet.Put] | None = None
    fewest = 0
    for puts in sheet.layouts(work.wanted, work.ways, work.rooms, 0, two_stage=two_stage):
        used = len({(put.kind, put.board) for put in puts})
        if best is None or used < fewest:
            best, fewest = puts, used
        if fewest <= least:
            break
    return best


def _by_lengths(work: rip.Task, strips: Sequence[int], shop: rip.Shop) -> Settled:
    """Pieces that fill a strip across: packing lengths decides."""
    if len(work.boards) == 1:
        return _one_size(work, strips, shop)
    lengths = _lengths(work, [room.number * number for room, number in zip(work.rooms, strips, strict=True)])
    kinds = range(len(work.boards))
    packings = [first_fit(lengths, order) for order in (kinds, kinds[::-1])]
    layouts = [from_lengths(work, filled, strips) for filled in packings if filled is not None]
    if layouts:
        return Settled(FITS, "", min(layouts, key=len), None, False)
    if not shop.any_layout and bound.too_few(work.wanted, work.ways, work.rooms):
        return Settled(TOO_FEW, "bound", (), None, False)
    search = Search(lengths, shop.budget)
    filled = search.run()
    if filled is not None:
        return Settled(FITS, "", from_lengths(work, filled, strips), None, False)
    return (
        Settled(NOT_DECIDED, "", (), None, False)
        if search.budget <= 0
        else Settled(TOO_FEW, "search", (), None, False)
    )


def _one_size(work: rip.Task, strips: Sequence[int], shop: rip.Shop) -> Settled:
    """One size of board: the fewest of them, by first-fit against a bound, then by search between the two."""
    number, across, budget = work.rooms[0].number, strips[0], shop.budget
    filled = first_fit(_lengths(work, [sum(work.wanted)]), (0,)) or []
    found = -(-sum(one.times for one in filled) // across)
    if shop.any_layout and found <= number:
        return Settled(FITS, "", from_lengths(work, filled, strips), None, False)
    length = work.rooms[0].length
    least = -(
        -sum(n * row[0][0].length for n, row in zip(work.wanted, work.ways, strict=True)) // (length * across)
    )
    if found > least:
        least = max(least, bound.least(work.wanted, work.ways, work.rooms[0]))
    proof = "bound" if least > number else "search"
    last = budget // 4  # kept for one easier question, should the search not finish
    while found > least and budget > 0:
        aim = number if least <= number < found else least
        search = Search(_lengths(work, [aim * across]), budget)
        better = search.run()
        budget = search.budget
        if better is None and budget > 0:
            least = aim + 1
        elif better is None and aim < found - 1:
            better = Search(_lengths(work, [(found - 1) * across]), last).run()
        if better is not None:
            filled, found = better, -(-sum(one.times for one in better) // across)
    if found <= number:
        return Settled(FITS, "", from_lengths(work, filled, strips), least, found == least)
    if least > number:
        return Settled(TOO_FEW, proof, (), least, found == least)
    return Settled(NOT_DECIDED, "", (), least, False)


def _lengths(work: rip.Task, bins: Sequence[int]) -> Lengths:
    there = [[row[board] for board in range(len(work.boards))] for row in work.ways]
    return Lengths(
        tuple(next(ways[0].length for ways in row if ways) for row in there),
        tuple(work.wanted),
        tuple(room.length for room in work.rooms),
        tuple(bins),
        tuple(tuple(bool(ways) for ways in row) for row in there),
    )
