from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.solid import Solid, block
from planlint.geometry.sweep import near_pairs
from planlint.geometry.vector import Vec

from .boards import boards, some

Bounds = tuple[Vec, Vec]


def bounds_of(x: float, y: float = 0.0) -> Bounds:
    board = block((x, y, 0.0), (x + 10.0, y + 10.0, 10.0))
    return board.low, board.high


def test_nothing_and_one_board_have_no_pairs() -> None:
    assert near_pairs([], 1.0) == []
    assert near_pairs([bounds_of(0.0)], 1.0) == []


def test_boards_that_touch_would_be_missed_for_the_noise_of_floats() -> None:
    assert near_pairs([bounds_of(0.0), bounds_of(10.0 + 1e-9)], 0.0) == [(0, 1)]


def test_pairs_come_in_the_order_of_the_boards_not_of_the_sweep() -> None:
    assert near_pairs([bounds_of(20.0), bounds_of(10.0), bounds_of(0.0), bounds_of(0.0, 50.0)], 0.5) == [
        (0, 1),
        (1, 2),
    ]


def _near(a: Solid, b: Solid, within: float) -> bool:
    return all(b.low[i] - a.high[i] <= within and a.low[i] - b.high[i] <= within for i in (0, 1, 2))


@some
@given(st.lists(boards(), max_size=12), st.sampled_from([0.0, 0.8, 30.0]))
def test_the_sweep_misses_a_pair_or_invents_one(piece: list[Solid], within: float) -> None:
    every = [(i, j) for i, j in combinations(range(len(piece)), 2) if _near(piece[i], piece[j], within)]
    assert near_pairs([(solid.low, solid.high) for solid in piece], within) == every
