from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.vector import (
    WORLD,
    Vec,
    add,
    cross,
    dot,
    length,
    lerp,
    scale,
    sub,
    turn,
    unit,
    world_axis,
)

from .boards import angles, directions, points, some


def test_left_handed_axes_would_mirror_every_part() -> None:
    assert cross(WORLD[0], WORLD[1]) == WORLD[2]


def test_a_lean_the_wrong_way_round() -> None:
    # A post that leans to the back turns about -x: its top (z) goes to +y.
    assert turn((0.0, 0.0, 10.0), (-1.0, 0.0, 0.0), 30.0) == pytest.approx(
        (0.0, 5.0, 10.0 * math.cos(math.pi / 6))
    )


@pytest.mark.parametrize(
    ("degrees", "to"),
    [(0.0, (1.0, 0.0, 0.0)), (90.0, (0.0, 1.0, 0.0)), (-90.0, (0.0, -1.0, 0.0)), (540.0, (-1.0, 0.0, 0.0))],
)
def test_a_quarter_turn_that_is_not_exact_would_make_a_board_lean(degrees: float, to: Vec) -> None:
    assert turn((1.0, 0.0, 0.0), (0.0, 0.0, 2.0), degrees) == to


def test_a_direction_of_nothing_is_refused_not_divided_by() -> None:
    with pytest.raises(ValueError, match="no direction"):
        unit((0.0, 0.0, 0.0))


def test_a_slight_lean_is_not_a_world_axis() -> None:
    assert world_axis((0.0, -1.0, 0.0)) == 1
    assert world_axis(turn(WORLD[2], WORLD[0], 0.01)) is None


@some
@given(points, directions, angles)
def test_turning_changes_a_length_or_does_not_turn_back(v: Vec, axis: Vec, degrees: float) -> None:
    there = turn(v, axis, degrees)
    assert length(there) == pytest.approx(length(v), abs=1e-9)
    assert dot(there, axis) == pytest.approx(dot(v, axis), abs=1e-9)
    assert turn(there, axis, -degrees) == pytest.approx(v, abs=1e-9)


@some
@given(points, points, st.floats(-1.0, 2.0))
def test_a_point_between_two_is_off_their_line(a: Vec, b: Vec, part: float) -> None:
    assert lerp(a, b, part) == pytest.approx(add(a, scale(sub(b, a), part)), abs=1e-9)
