"""How many to buy, board measure, and what one person lifts."""

from __future__ import annotations

import pytest

from planlint.trade.buying import (
    board_measure,
    caution,
    enough,
    moisture_when_bought,
    nominal_of,
    one_lifts,
    stands,
)

INCH = 25.4


@pytest.mark.parametrize(
    ("used", "what", "number"),
    [
        (0, "screw", 0),
        (1, "screw", 25),
        (22, "screw", 25),  # 24.2
        (23, "screw", 50),  # 25.3
        (250, "nail", 275),  # exactly 275: a float just above it must not take another box
        (16, "bolt", 16),
        (3, "other", 3),
        (20, "plug", 25),
    ],
)
def test_screws_have_a_spare_in_boxes_and_bolts_do_not(used: int, what: str, number: int) -> None:
    assert enough(used, what) == number


@pytest.mark.parametrize(
    ("number", "used", "what", "so"),
    [
        (15, 16, "screw", False),
        (16, 16, "screw", True),
        (50, 16, "screw", True),
        (51, 16, "screw", False),
        (16, 16, "bolt", True),
        (17, 16, "bolt", False),
    ],
)
def test_a_list_stands_when_it_is_enough_and_not_far_too_much(
    number: int, used: int, what: str, so: bool
) -> None:
    assert stands(number, used, what) is so


def test_thin_boards_count_as_1_in_thick() -> None:
    assert board_measure(INCH / 2, 12 * INCH, 12 * INCH) == pytest.approx(1.0)
    assert board_measure(2 * INCH, 12 * INCH, 12 * INCH) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("measured", "hardwood", "nominal"),
    [
        ((0.75, 5.5), False, (1, 6)),
        ((0.75, 7.25), False, (1, 8)),
        ((1.5, 3.5), False, (2, 4)),
        ((0.75, 6.0), False, (0.75, 6.0)),  # no size that is sold: as it measures, not the next larger
        ((0.8125, 6.0), True, (1, 6.0)),
        ((0.75, 6.0), True, (1, 6.0)),
        ((1.75, 3.5), True, (2, 3.5)),
    ],
)
def test_the_size_that_board_feet_go_by(
    measured: tuple[float, float], hardwood: bool, nominal: tuple[float, float]
) -> None:
    found = nominal_of(measured[0] * INCH, measured[1] * INCH, hardwood)
    assert [round(side / INCH, 6) for side in found] == list(nominal)


def test_treated_wood_is_loaded_wet_and_softwood_as_the_yard_has_it() -> None:
    assert moisture_when_bought("softwood", treated=True) > moisture_when_bought("softwood", treated=False)
    assert moisture_when_bought("hardwood", treated=False) < moisture_when_bought("softwood", treated=False)


def test_cautions_have_their_gaps() -> None:
    assert "{what}" in caution("heavy-board")
    assert 22 < one_lifts() < 24
