"""The boards that are chosen against an integer program (scipy's milp): as few, proved, and sooner."""

from __future__ import annotations

import random
import statistics

import pytest

from planlint.cutting import Board, Piece
from planlint.cutting.choose import Chosen, choose
from tests.cutting.program import SIXTEENTHS, as_pieces, cut_list, program
from tests.cutting.sawn import INCH, KERF, check, inches
from tests.timing import timed

LENGTHS = (72, 96, 120)
_DEAR = 30_000  # sixteenths: a board more costs more than shorter ones could ever save
_TIMES: dict[int, tuple[float, float]] = {}


def _case(seed: int) -> tuple[list[Board], list[tuple[int, int]], list[int]]:
    """Boards, a cut list, and the length of each single board in sixteenths: one size, or two or three lengths."""
    chance = random.Random(seed)
    sizes = sorted(chance.sample(LENGTHS, 1 + seed % 3), reverse=True)
    longest = sizes[-1] * SIXTEENTHS  # every piece fits the shortest, so that each board may be taken
    items = cut_list(chance, longest, chance.randint(2, 6), 4)
    needed = sum((length + 2) * number for length, number in items)
    stock, caps = [], []
    for size in sizes:
        number = chance.randint(1, 2) + round(1.3 * needed / (size * SIXTEENTHS) / len(sizes))
        stock.append(inches(f"b{size}", number, size))
        caps += [size * SIXTEENTHS] * number
    return stock, items, caps


@pytest.mark.parametrize("seed", range(210))
def test_as_few_boards_as_the_integer_program_takes_with_as_little_wood_and_proved(seed: int) -> None:
    stock, items, caps = _case(seed)
    pieces = as_pieces(items)
    ours, our_time = timed(lambda: choose(stock, pieces, KERF))
    price, their_time = timed(lambda: program(items, caps, [_DEAR + cap for cap in caps]))
    _TIMES[seed] = our_time, their_time
    if price is None:
        assert ours is None
        return
    assert ours is not None
    assert (len(ours.layout), ours.least, ours.proved) == (price // _DEAR, price // _DEAR, True)
    assert sum(round(board.length / INCH * SIXTEENTHS) for board in ours.layout) == price % _DEAR
    check(ours.layout, stock, pieces, KERF)


def test_ten_times_sooner_than_the_integer_program_in_the_median() -> None:
    # Measured in the test above, on the same question, in the processor's own time: a busy machine counts for both.
    if len(_TIMES) < 100:
        pytest.skip("the lists above were not run")
    ratio = statistics.median([theirs / max(ours, 1e-6) for ours, theirs in _TIMES.values()])
    print(f"\nchoosing boards: the integer program takes {ratio:.0f} times as long in the median")
    assert ratio >= 10


def _of(stock: list[Board], pieces: list[Piece], granted: list[Piece] | None = None) -> Chosen:
    found = choose(stock, pieces, KERF, granted=granted)
    assert found is not None
    return found


def test_slanted_ends_that_could_share_their_waste_are_no_proof() -> None:
    # Four of 24 1/4 are 97 3/8 tip to tip; their mitred ends could be laid into one another on one board.
    piece = Piece("brace", 3.5 * INCH, 24.25 * INCH, 4, 1.5 * INCH, 3.5 * INCH)
    square = piece._replace(length=piece.length - piece.nests, nests=0.0)
    stock = [inches("b", 3, 96)]
    assert _of(stock, [piece]).proved  # had they to be cut square
    nested = _of(stock, [piece], [square])
    assert (len(nested.layout), nested.least, nested.proved) == (2, 1, False)


def test_a_proof_for_added_boards_counts_longer_ones_that_could_be_added_instead() -> None:
    # Four of 40 take two of 96, or two of 96 and 72; with one more of 120 and none of 72 it would be two as well.
    pieces = [Piece("rail", 3.5 * INCH, 40 * INCH, 6, 1.5 * INCH)]
    stock = [inches("short", 2, 84), inches("long", 1, 126)]
    there = choose(stock, pieces, KERF)
    assert there is not None and len(there.layout) == 3 and there.proved
    unlimited = choose(stock, pieces, KERF, unlimited=True)
    assert unlimited is not None and len(unlimited.layout) == 3
    assert (unlimited.least, unlimited.proved) == (2, False)  # two of 126 hold three each


def test_nothing_wanted_takes_no_board_and_what_no_board_holds_is_none() -> None:
    assert choose([inches("b", 2, 96)], [], KERF) == Chosen((), 0, True)
    assert choose([inches("b", 2, 96)], [Piece("p", 88.9, 97 * INCH, 1, 38.1)], KERF) is None
    assert choose([inches("b", 0, 96)], [Piece("p", 88.9, 9 * INCH, 1, 38.1)], KERF) is None
    assert choose([inches("b", 1, 96)], [Piece("p", 88.9, 60 * INCH, 2, 38.1)], KERF) is None
