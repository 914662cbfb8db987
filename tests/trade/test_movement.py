"""Movement with moisture."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.trade import movement
from planlint.trade.woods import wood

INCH = 25.4


def across(name: str, inches: float, start: float, end: float) -> movement.Change:
    found = wood(name)
    assert found is not None
    assert found.shrink_tangential is not None
    assert found.c_tangential is not None
    moved = movement.change(inches * INCH, found.shrink_tangential, found.c_tangential, start, end)
    return moved._replace(amount=moved.amount / INCH)


@pytest.mark.parametrize(
    ("name", "inches", "expected"),
    [
        ("pine", 2, 0.021),
        ("douglas-fir", 2, 0.027),
        ("red-oak", 2, 0.037),
        ("pine", 12, 0.127),
        ("douglas-fir", 24, 0.320),
        ("red-oak", 24, 0.443),
    ],
)
def test_movement_over_five_points(name: str, inches: float, expected: float) -> None:
    moved = across(name, inches, 9, 14)
    assert moved.amount == pytest.approx(expected, abs=0.0006)
    assert moved.equation == "13-2"


@pytest.mark.parametrize(
    ("start", "end", "equation"), [(6, 14, "13-2"), (14, 6, "13-2"), (5.9, 14, "13-3"), (9, 20, "13-3")]
)
def test_which_equation_was_used(start: float, end: float, equation: str) -> None:
    assert across("douglas-fir", 3.5, start, end).equation == equation


def test_wood_does_not_move_above_saturation() -> None:
    assert across("douglas-fir", 10, 30, 45).amount == 0
    assert across("douglas-fir", 10, 45, 8) == across("douglas-fir", 10, 30, 8)


def test_sheets_do_not_move() -> None:
    assert across("plywood", 24, 6, 11).amount == 0
    assert across("plywood", 24, 4, 20).amount == 0


@given(st.floats(0, 30), st.floats(0, 30), st.floats(1, 40))
def test_wetter_is_wider_and_the_width_scales(start: float, end: float, inches: float) -> None:
    moved = across("red-oak", inches, start, end).amount
    assert (moved > 0) == (end > start) or moved == 0
    assert across("red-oak", 2 * inches, start, end).amount == pytest.approx(2 * moved)


def test_the_range_follows_from_the_setting() -> None:
    assert movement.usual_range("indoors") == (6, 11)
    assert movement.usual_range("outdoors") == (9, 14)


@given(st.floats(-1, 35), st.floats(0, 0.9), st.floats(0.01, 0.09))
def test_damper_air_makes_wetter_wood(celsius: float, humidity: float, more: float) -> None:
    assert movement.equilibrium(celsius, humidity + more) > movement.equilibrium(celsius, humidity)
