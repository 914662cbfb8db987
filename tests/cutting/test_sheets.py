"""Sheets: layouts that a track saw can cut, proofs by counting and area, and no guesses between."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.cutting import FITS, TOO_FEW, Board, Piece, yields
from tests.cutting.sawn import KERF, check, inches, wanted

SHEET = inches("sheet", 1, 96, 48, 0.75)


def _panel(key: str, number: int, width: float, length: float) -> Piece:
    return wanted(key, number, length, width, 0.75)


def test_sides_and_shelves_of_a_bookcase_come_from_one_sheet() -> None:
    cut_list = [_panel("side", 2, 11.25, 60), _panel("shelf", 5, 11, 34.5)]
    outcome = yields([SHEET], cut_list, KERF, sheets=True)
    assert outcome.verdict == FITS
    check(outcome.layout, [SHEET], cut_list, KERF)


def test_four_quarters_need_kerfs() -> None:
    # 24 x 48 four times is the whole 48 x 96 sheet: no room for the cuts.
    assert yields([SHEET], [_panel("quarter", 4, 24, 48)], KERF, sheets=True).verdict == TOO_FEW
    assert yields([SHEET], [_panel("quarter", 4, 23.9, 47.9)], KERF, sheets=True).verdict == FITS


def test_grain_stays_along_the_sheet_unless_it_may_turn() -> None:
    door = [_panel("door", 1, 60, 40)]  # 60 across the grain: wider than the sheet
    kept = yields([SHEET], door, KERF, sheets=True)
    assert (kept.verdict, kept.too_big) == (TOO_FEW, ("door",))
    turned = yields([SHEET], door, KERF, sheets=True, may_turn=True)
    assert turned.verdict == FITS and turned.layout[0].pieces[0].turned
    assert abs(turned.layout[0].pieces[0].length - door[0].width) < 1e-6


def test_more_area_than_the_sheets_have_is_too_few() -> None:
    outcome = yields([SHEET._replace(number=2)], [_panel("shelf", 30, 11.25, 36)], KERF, sheets=True)
    assert (outcome.verdict, outcome.proof) == (TOO_FEW, "bound")


@settings(max_examples=80, deadline=None)
@given(
    st.integers(1, 3),
    st.lists(
        st.tuples(st.integers(100, 1200), st.integers(100, 2400), st.integers(1, 4)), min_size=1, max_size=5
    ),
    st.booleans(),
)
def test_a_sheet_layout_can_be_cut_and_turns_only_where_it_may(
    number: int, sizes: list[tuple[int, int, int]], may_turn: bool
) -> None:
    sheets = [Board("sheet", 18, 1220, 2440, number)]
    cut_list = [
        Piece(f"p{index}", width, length, many, 18) for index, (width, length, many) in enumerate(sizes)
    ]
    outcome = yields(sheets, cut_list, 3, budget=300, sheets=True, may_turn=may_turn)
    if outcome.verdict == FITS:
        check(outcome.layout, sheets, cut_list, 3)
        size = {piece.key: (piece.length, piece.width) for piece in cut_list}
        for cut in outcome.layout[0].pieces:
            length, width = size[cut.key][::-1] if cut.turned else size[cut.key]
            assert abs(cut.length - length) < 1e-5 and abs(cut.width - width) < 1e-5
            assert may_turn or not cut.turned
