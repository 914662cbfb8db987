"""Lengths that are sold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.trade import lengths
from planlint.trade.lengths import next_length_sold

INCH = 25.4


def next_in(noun: str, least: float, most: float, gauge: int | None = None) -> float | None:
    found = next_length_sold(noun, least * INCH, most * INCH, gauge=gauge)
    return None if found is None else found / INCH


@pytest.mark.parametrize(
    ("noun", "least", "most", "expected"),
    [
        ("wood-screws", 3.64, 5.875, 4),
        ("deck-screws", 1.406, 2.125, 1.625),
        ("pocket-screws", 1.05, 1.39, 1.25),
        ("pocket-screws", 0.93, 1.13, 1),
        ("pocket-screws", 0.70, 0.90, 0.75),
        ("pocket-screws", 1.84, 2.84, 2),
        ("wood-screws", 1.083, 1.125, None),
        ("wood-screws", 6, 7, None),
        ("biscuits", 1, 2, None),
        ("sky-hooks", 1, 2, None),
    ],
)
def test_the_shortest_that_fits(noun: str, least: float, most: float, expected: float | None) -> None:
    assert next_in(noun, least, most) == (None if expected is None else pytest.approx(expected))


def test_a_length_exactly_at_either_end_fits() -> None:
    """Rounding of floats must not decide."""
    assert next_in("wood-screws", 4.0000001, 5) == pytest.approx(4)
    assert next_in("wood-screws", 3.6, 3.9999999) == pytest.approx(4)


def test_no_longer_than_the_gauge_is_sold_in() -> None:
    assert next_in("wood-screws", 3.64, 5.875, gauge=10) == pytest.approx(4)
    assert next_in("wood-screws", 3.64, 5.875, gauge=6) is None


def test_a_metric_plan_gets_metric_lengths() -> None:
    assert next_length_sold("wood-screws", 62, 90, metric=True) == 70


@given(st.sampled_from(["wood-screws", "deck-screws", "lag-screws"]), st.floats(0, 200), st.floats(0, 200))
def test_what_is_offered_lies_in_the_window_and_nothing_shorter_does(
    noun: str, least: float, most: float
) -> None:
    found = next_length_sold(noun, least, most)
    within = [
        one for one in lengths.fastener_lengths(noun) if least - lengths.CLOSE <= one <= most + lengths.CLOSE
    ]
    assert found == (min(within) if within else None)


@pytest.mark.parametrize(
    ("inches", "sold"), [(96, True), (92.625, True), (90, False), (36, True), (216, False)]
)
def test_boards_in_feet(inches: float, sold: bool) -> None:
    assert lengths.board_length_sold(inches * INCH) is sold


@pytest.mark.parametrize(("millimetres", "sold"), [(2400, True), (2000, True), (2250, False), (1500, False)])
def test_metric_boards(millimetres: float, sold: bool) -> None:
    assert lengths.board_length_sold(millimetres, metric=True) is sold


def test_the_next_board_is_no_stud() -> None:
    assert lengths.next_board_length_sold(90 * INCH) == pytest.approx(96 * INCH)
    assert lengths.next_board_length_sold(96 * INCH) == pytest.approx(96 * INCH)
    assert lengths.next_board_length_sold(2250, metric=True) == 2400
    assert lengths.next_board_length_sold(300 * INCH) is None


def test_rods_sheets_and_panels() -> None:
    assert lengths.rod_lengths() == pytest.approx((36 * INCH, 48 * INCH))
    assert INCH in lengths.rod_diameters()
    full = lengths.sheet_sizes()[1]
    assert full == pytest.approx((48 * INCH, 96 * INCH))
    assert lengths.widest_panel() == pytest.approx(24 * INCH)


def test_the_longest_sold_is_bounded_by_its_gauge() -> None:
    """A No. 8 wood screw of 5 in is on the kind's list and is not sold."""
    assert lengths.longest_sold("wood-screws", gauge=8) == pytest.approx(3 * 25.4)
    assert lengths.longest_sold("wood-screws") == pytest.approx(5 * 25.4)
    assert lengths.longest_sold("hinges") is None
