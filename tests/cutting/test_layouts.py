"""Whatever is asked, a layout can be cut, and a proof is one."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.cutting import FITS, TOO_FEW, Board, Piece, yields
from tests.cutting.sawn import check, right_size

SECTIONS = [(19.0, 89.0), (38.0, 89.0), (38.0, 140.0), (89.0, 89.0)]
WIDTHS = [19.0, 38.0, 43.0, 60.0, 89.0, 140.0]


@st.composite
def boards(draw: st.DrawFn) -> list[Board]:
    found = []
    for index in range(draw(st.integers(1, 3))):
        thickness, width = draw(st.sampled_from(SECTIONS))
        length = draw(st.integers(300, 1200))
        found.append(Board(f"board {index}", thickness, width, length, draw(st.integers(1, 4))))
    return found


@st.composite
def pieces(draw: st.DrawFn) -> list[Piece]:
    found = []
    for index in range(draw(st.integers(1, 5))):
        length = draw(st.integers(60, 800)) / draw(st.sampled_from([1, 3]))
        thickness = draw(st.sampled_from([12.0, 19.0, 38.0, 89.0]))
        width = draw(st.sampled_from(WIDTHS))
        found.append(Piece(f"piece {index}", width, length, draw(st.integers(1, 6)), thickness))
    return found


KERFS = st.sampled_from([0.0, 2.0, 3.175])


@settings(max_examples=150, deadline=None)
@given(boards(), pieces(), KERFS)
def test_a_layout_keeps_kerf_length_width_and_cuts_every_piece_once(
    stock: list[Board], cut_list: list[Piece], kerf: float
) -> None:
    outcome = yields(stock, cut_list, kerf, budget=300)
    if outcome.verdict == FITS:
        check(outcome.layout, stock, cut_list, kerf)
        assert all(right_size(board, cut, cut_list) for board in outcome.layout for cut in board.pieces)
        assert outcome.spare == sum(board.number for board in stock) - len(outcome.layout)
    else:
        assert outcome.layout == ()


@settings(max_examples=100, deadline=None)
@given(boards(), pieces(), KERFS, boards())
def test_one_more_board_never_makes_them_too_few(
    stock: list[Board], cut_list: list[Piece], kerf: float, more: list[Board]
) -> None:
    if yields(stock, cut_list, kerf, budget=300).verdict == FITS:
        assert yields([*stock, more[0]], cut_list, kerf, budget=300).verdict != TOO_FEW


@settings(max_examples=100, deadline=None)
@given(boards(), pieces(), KERFS, st.randoms(use_true_random=False))
def test_the_order_of_the_lists_changes_nothing(
    stock: list[Board], cut_list: list[Piece], kerf: float, chance: random.Random
) -> None:
    first = yields(stock, cut_list, kerf, budget=300, allowance=3)
    stock, cut_list = chance.sample(stock, len(stock)), chance.sample(cut_list, len(cut_list))
    assert yields(stock, cut_list, kerf, budget=300, allowance=3) == first


@settings(max_examples=60, deadline=None)
@given(boards(), pieces(), KERFS)
def test_equal_entries_written_twice_count_as_one(
    stock: list[Board], cut_list: list[Piece], kerf: float
) -> None:
    halves = [
        piece._replace(number=half)
        for piece in cut_list
        for half in (piece.number // 2, -(-piece.number // 2))
    ]
    whole, split = yields(stock, cut_list, kerf, budget=300), yields(stock, halves, kerf, budget=300)
    assert (split.verdict, split.least, split.spares) == (whole.verdict, whole.least, whole.spares)


@settings(max_examples=60, deadline=None)
@given(boards(), pieces(), KERFS)
def test_the_hair_it_names_makes_them_fit_when_cut_off_every_piece(
    stock: list[Board], cut_list: list[Piece], kerf: float
) -> None:
    outcome = yields(stock, cut_list, kerf, budget=300, allowance=20)
    if outcome.shorter_by is not None:
        assert 0 < outcome.shorter_by <= 20
        shorter = [piece._replace(length=piece.length - outcome.shorter_by) for piece in cut_list]
        assert yields(stock, shorter, kerf, budget=300).verdict == FITS


def _saw(
    chance: random.Random, size: tuple[float, float, float], kerf: float, cuts: int
) -> list[tuple[float, ...]]:
    """Blanks sawn at random from one board, through length, width or thickness, down to `cuts` levels."""
    axis = chance.randrange(3)
    if cuts == 0 or size[axis] <= kerf + 4:
        return [size]
    at = chance.choice([chance.uniform(2, size[axis] - kerf - 2), (size[axis] - kerf) / 2])
    blanks: list[tuple[float, ...]] = []
    for part in (at, size[axis] - kerf - at):
        smaller = (*size[:axis], part, *size[axis + 1 :])
        blanks += _saw(chance, smaller, kerf, cuts - 1)  # type: ignore[arg-type]
    return blanks


@pytest.mark.parametrize("seed", range(150))
def test_what_was_sawn_from_the_boards_is_never_proved_too_much_for_them(seed: int) -> None:
    # Rips, crosscuts and resawing at random: a wrong bound would call some of these too few.
    chance = random.Random(seed)
    kerf = chance.choice([0, 2, 3.175])
    stock, cut_list = [], []
    for index in range(chance.randint(1, 3)):
        thickness, width = chance.choice(SECTIONS)
        board = Board(
            f"board {index}", thickness, width, chance.choice([600, 800, 1200]), chance.randint(1, 2)
        )
        stock.append(board)
        for _ in range(board.number):
            for t, w, length in _saw(chance, (thickness, width, board.length), kerf, chance.randint(1, 4)):
                section = (t, w) if chance.random() < 0.5 else (w, t)
                cut_list.append(Piece(f"piece {len(cut_list)}", section[1], length, 1, section[0]))
    assert yields(stock, cut_list, kerf, budget=200).verdict != TOO_FEW
