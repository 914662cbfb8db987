"""Cut lists worked out by hand, with a saw's cut of 1/8 in. Common practice, no source."""

from __future__ import annotations

import pytest

from planlint.cutting import (
    FITS,
    NOT_DECIDED,
    TOO_FEW,
    Board,
    Cut,
    Piece,
    by_section,
    own_boards,
    too_big,
    yields,
)
from tests.cutting.sawn import INCH, KERF, check, comes_apart, inches, right_size, wanted


@pytest.mark.parametrize(
    ("number", "length", "verdict"),
    [
        (4, 16.5, FITS),  # 66 3/8
        (3, 31.875, FITS),  # 95 7/8: a kerf after the last piece would make it 96
        (5, 19, FITS),  # 95 1/2
        (5, 19.25, TOO_FEW),  # 96 3/4
        (2, 48, TOO_FEW),  # 96 1/8: kerf forgotten
        (4, 24, TOO_FEW),  # 96 3/8
        (2, 47.9375, FITS),  # 96 exactly: floats must not decide
        (1, 96, FITS),  # the whole board, no cut at all
    ],
)
def test_the_kerf_is_counted_between_pieces_and_not_after_the_last(
    number: int, length: float, verdict: str
) -> None:
    boards, pieces = [inches("2x4", 1, 96)], [wanted("leg", number, length)]
    outcome = yields(boards, pieces, KERF)
    assert outcome.verdict == verdict
    if verdict == FITS:
        check(outcome.layout, boards, pieces, KERF)
    else:
        assert (outcome.proof, outcome.least, outcome.least_proved) == ("bound", 2, True)


def test_what_a_board_uses_is_pieces_and_kerfs() -> None:
    outcome = yields([inches("2x4", 1, 96)], [wanted("leg", 4, 16.5)], KERF)
    assert outcome.layout[0].strips[0].length / INCH == pytest.approx(66.375)
    assert [cut.along / INCH for cut in outcome.layout[0].pieces] == pytest.approx([0, 16.625, 33.25, 49.875])


@pytest.mark.parametrize(
    ("number", "length", "off"),
    [(2, 48, 1 / 16), (4, 24, 3 / 32), (5, 19.25, None), (1, 96.125, 1 / 8), (1, 96.25, None)],
)
def test_a_hair_short_is_told_from_short(number: int, length: float, off: float | None) -> None:
    outcome = yields([inches("2x4", 1, 96)], [wanted("rail", number, length)], KERF, allowance=INCH / 8)
    held = too_big([inches("2x4", 1, 96)], [wanted("rail", number, length)], KERF)
    assert outcome.verdict == TOO_FEW
    if held:  # longer than the board: that is another mistake, board-too-short
        assert outcome.too_big == ("rail",) and outcome.shorter_by is None
    elif off is None:
        assert outcome.fits_if_each_piece_shorter_by is None
    else:
        assert outcome.fits_if_each_piece_shorter_by == pytest.approx(off * INCH, abs=1e-6)


def test_a_hair_is_the_most_that_any_board_needs_and_the_least_that_some_layout_needs() -> None:
    # Longest first puts 64 + 32 + 1/8 and 48 + 48 + 1/8 together: 1/16 off each of two does it.
    boards = [inches("2x4", 2, 96)]
    pieces = [wanted("a", 1, 64), wanted("b", 1, 32), wanted("c", 2, 48)]
    outcome = yields(boards, pieces, KERF, allowance=INCH / 8)
    assert outcome.shorter_by == pytest.approx(INCH / 16, abs=1e-6)


def test_no_hair_is_claimed_where_the_boards_fit() -> None:
    assert (
        yields([inches("2x4", 1, 96)], [wanted("leg", 4, 16.5)], KERF, allowance=INCH / 8).shorter_by is None
    )


@pytest.mark.parametrize(
    ("width", "number", "verdict"), [(1.5, 2, FITS), (1.5, 3, TOO_FEW), (1.75, 2, TOO_FEW), (1.6875, 2, FITS)]
)
def test_strips_side_by_side_need_a_kerf_between_them(width: float, number: int, verdict: str) -> None:
    # 2 x 1 1/2 + 1/8 = 3 1/8 of 3 1/2; 2 x 1 11/16 + 1/8 = 3 1/2 exactly; 2 x 1 3/4 = 3 1/2 leaves no kerf.
    boards, pieces = [inches("2x4", 1, 96)], [wanted("2x2", number, 96, width)]
    outcome = yields(boards, pieces, KERF)
    assert outcome.verdict == verdict
    check(outcome.layout, boards, pieces if verdict == FITS else [], KERF)


def test_thin_strips_are_ripped_on_edge_from_thicker_stock() -> None:
    # Four 3/4 strips, 1 1/2 wide, stand on edge in a 2x4: 4 x 3/4 + 3 x 1/8 = 3 3/8.
    boards, pieces = [inches("2x4", 1, 96)], [wanted("cleat", 4, 96, 1.5, 0.75)]
    outcome = yields(boards, pieces, KERF)
    assert outcome.verdict == FITS
    assert all(cut.turned and right_size(outcome.layout[0], cut, pieces) for cut in outcome.layout[0].pieces)
    assert yields(boards, [wanted("cleat", 5, 96, 1.5, 0.75)], KERF).verdict == TOO_FEW


def test_rips_follow_the_crosscuts_on_one_board() -> None:
    # 40 + 1/8 + 50: the off-cut of the rail gives two strips side by side.
    boards, pieces = [inches("2x4", 1, 96)], [wanted("rail", 1, 40), wanted("strip", 2, 50, 1.5)]
    outcome = yields(boards, pieces, KERF)
    assert outcome.verdict == FITS
    check(outcome.layout, boards, pieces, KERF)


def test_a_thinner_board_never_gives_a_thicker_piece_and_a_thicker_one_is_planed() -> None:
    piece = [wanted("top", 1, 40, 3.5, 0.75)]
    assert yields([inches("5/4", 1, 48, 3.5, 1)], piece, KERF).verdict == FITS
    thin = yields([inches("1/2", 9, 48, 3.5, 0.5)], piece, KERF)
    assert (thin.verdict, thin.too_big) == (TOO_FEW, ("top",))


@pytest.mark.parametrize(("length", "width"), [(97, 3.5), (40, 5.5)])
def test_a_piece_no_board_holds_is_named(length: float, width: float) -> None:
    boards = [inches("2x4", 50, 96)]
    assert too_big(boards, [wanted("rail", 1, length, width), wanted("leg", 1, 20)], KERF) == ("rail",)


def _awkward() -> tuple[list[Board], list[Piece]]:
    """194 of 200, but two 45 on one board leave 10, 45 + 38 on the other 17: the 21 has no place."""
    pieces = [Piece(f"p{length}", 10, length, number, 10) for length, number in ((45, 3), (38, 1), (21, 1))]
    return [Board("b", 10, 10, 100, 2)], pieces


def test_a_search_proves_what_no_bound_shows() -> None:
    outcome = yields(*_awkward(), 0)
    assert (outcome.verdict, outcome.proof, outcome.least, outcome.least_proved) == (
        TOO_FEW,
        "search",
        3,
        True,
    )


def test_without_a_budget_it_says_not_decided_and_never_guesses() -> None:
    outcome = yields(*_awkward(), 0, budget=0)
    assert (outcome.verdict, outcome.proof, outcome.least, outcome.least_proved) == (
        NOT_DECIDED,
        "",
        2,
        False,
    )


def test_spare_boards_are_counted_by_size() -> None:
    outcome = yields([inches("2x4", 6, 96)], [wanted("slat", 8, 47)], KERF)
    assert (outcome.verdict, outcome.bought, outcome.least, outcome.spare) == (FITS, 6, 4, 2)
    assert outcome.spares == {"2x4": 2}


def test_slanted_ends_that_could_share_their_waste_are_never_called_too_few() -> None:
    # Five braces 19 1/4 tip to tip need 96 3/4; their 45 deg ends nest by up to 3 1/2 each.
    boards = [inches("2x4", 1, 96)]
    square = [wanted("brace", 5, 19.25)]
    slanted = [square[0]._replace(nests=3.5 * INCH)]
    assert yields(boards, square, KERF).verdict == TOO_FEW
    assert yields(boards, slanted, KERF).verdict == NOT_DECIDED
    many = yields(boards, [slanted[0]._replace(number=12)], KERF)
    assert (many.verdict, many.least_proved) == (TOO_FEW, False)


def test_each_size_of_stock_is_judged_by_the_pieces_nearest_to_it() -> None:
    boards = [inches("2x4", 3, 96), inches("4x4", 1, 96, 3.5, 3.5)]
    pieces = [wanted("leg", 4, 16.5, 3.5, 3.5), wanted("slat", 11, 48)]
    assert [[piece.key for piece in its] for _, its in own_boards(boards, pieces, KERF)] == [
        ["slat"],
        ["leg"],
    ]
    verdicts = {own[0].key: outcome.verdict for own, _, outcome in by_section(boards, pieces, KERF)}
    assert verdicts == {"2x4": TOO_FEW, "4x4": FITS}


def test_larger_stock_to_spare_is_never_forgotten_in_a_proof() -> None:
    # One slat too many for the 2x4s, but the spare 4x4 can be ripped into two.
    boards = [inches("2x4", 1, 48), inches("4x4", 1, 48, 3.5, 3.5)]
    pieces = [wanted("slat", 3, 48)]
    outcome = yields(boards, pieces, KERF)
    assert outcome.verdict == FITS
    check(outcome.layout, boards, pieces, KERF)
    assert [answer.verdict for _, _, answer in by_section(boards, pieces, KERF)] == [FITS, FITS]


def test_nothing_wanted_leaves_everything() -> None:
    outcome = yields([inches("2x4", 2, 96)], [], KERF)
    assert (outcome.verdict, outcome.layout, outcome.spare) == (FITS, (), 2)


def test_nothing_bought_is_too_few() -> None:
    assert yields([], [wanted("leg", 1, 20)], KERF).verdict == TOO_FEW
    assert yields([inches("2x4", 0, 96)], [wanted("leg", 1, 20)], KERF).verdict == TOO_FEW


def test_a_list_longer_than_any_search_still_gets_an_answer() -> None:
    many = [wanted("peg", 60_000, 6)]
    assert yields([inches("2x4", 10, 96)], many, KERF).verdict == TOO_FEW
    assert yields([inches("2x4", 9_000, 96)], many, KERF).verdict == NOT_DECIDED
    kinds = [wanted(f"p{size}", 3, 20 + size / 16) for size in range(400)]
    assert yields([inches("2x4", 440, 96)], kinds, KERF).verdict in (FITS, NOT_DECIDED)


def test_the_check_itself_tells_a_layout_no_saw_can_cut() -> None:
    # Four pieces round a hole: no edge-to-edge cut starts. And two pieces less than a kerf apart.
    pinwheel = [
        Cut("a", 0, 0, 6, 3, False),
        Cut("b", 7, 0, 3, 6, False),
        Cut("c", 4, 7, 6, 3, False),
        Cut("d", 0, 4, 3, 6, False),
    ]
    assert not comes_apart(pinwheel, 1)
    assert not comes_apart([Cut("a", 0, 0, 10, 5, False), Cut("b", 12, 0, 10, 5, False)], 3)
    assert comes_apart([Cut("a", 0, 0, 10, 5, False), Cut("b", 13, 0, 10, 5, False)], 3)
