"""Boxes through openings. Each test names the mistake it guards against."""

from __future__ import annotations

import math
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from planlint.geometry import passing
from planlint.geometry.vector import Vec

edge = st.floats(min_value=20.0, max_value=2000.0)
box = st.tuples(edge, edge, edge)
opening = st.tuples(edge, edge)
SAMPLED = Rotation.random(4000, rng=7).as_matrix()  # rows: u, v and the way through


def sampled_widths(sides: Vec) -> list[tuple[float, float]]:
    """The two widths of a box across the opening, in sampled turns."""
    return [tuple(float(abs(turn[i]) @ sides) for i in (0, 1)) for turn in SAMPLED]  # type: ignore[misc]


@pytest.mark.parametrize(
    ("sides", "through"),
    [
        ((36, 72, 29), True),  # a table on its edge: 29 and 36 in 30 x 78
        ((29.5, 34, 60), True),
        ((32, 34, 60), False),  # no width under 32
        ((33, 34, 38), False),
        ((30, 78, 90), True),  # exactly at the limit
        ((30.1, 40, 90), False),
        ((2, 82.2, 90), True),  # a panel taller than the door, aslant: 82.27 by sampling the angle
        ((2, 82.4, 90), False),
    ],
)
def test_boxes_through_a_doorway_of_30_by_78(sides: Vec, through: bool) -> None:
    in_mm = (sides[0] * 25.4, sides[1] * 25.4, sides[2] * 25.4)
    assert passing.goes_through(in_mm, (30 * 25.4, 78 * 25.4)) is through


@given(box, opening)
def test_the_order_of_edges_never_matters(sides: Vec, door: tuple[float, float]) -> None:
    """A box that passes in one orientation passes when it is turned."""
    answers = {passing.goes_through((a, b, c), door) for a, b, c in permutations(sides)}
    assert answers == {passing.goes_through(sides, (door[1], door[0]))}


@given(box, box, st.integers(0, 2), st.floats(0.1, 1.0))
def test_shrinking_never_makes_it_fail(sides: Vec, space: Vec, which: int, by: float) -> None:
    x, y, z = (value * (by if i == which else 1.0) for i, value in enumerate(sides))
    smaller, door = (x, y, z), (space[0], space[1])
    assert passing.goes_through(smaller, door) or not passing.goes_through(sides, door)
    assert passing.goes_into(smaller, space) or not passing.goes_into(sides, space)
    assert not passing.never_goes_through(smaller, door) or passing.never_goes_through(sides, door)
    assert not passing.never_goes_into(smaller, space) or passing.never_goes_into(sides, space)


@settings(max_examples=60, deadline=None)
@given(box, opening)
def test_no_sampled_turn_passes_where_the_sum_says_no(sides: Vec, door: tuple[float, float]) -> None:
    """The exact test must not call a box stuck that some tilt gets through."""
    w, h = door
    if not passing.goes_through(sides, door):
        assert all(a > w or b > h for a, b in sampled_widths(sides))


@settings(max_examples=60, deadline=None)
@given(box)
def test_every_sampled_turn_that_passes_is_found(sides: Vec) -> None:
    """Whatever widths a sampled turn has, an opening of that size lets the box through."""
    for a, b in sampled_widths(sides)[:200]:
        assert passing.goes_through(sides, (a, b))


@settings(max_examples=60)
@given(box, opening)
def test_a_box_that_goes_through_never_has_a_proof_that_it_does_not(
    sides: Vec, door: tuple[float, float]
) -> None:
    assert not (passing.goes_through(sides, door) and passing.never_goes_through(sides, door))


@given(box, box)
def test_a_box_that_lies_in_a_space_never_has_a_proof_that_it_does_not(sides: Vec, space: Vec) -> None:
    assert not (passing.goes_into(sides, space) and passing.never_goes_into(sides, space))


@settings(max_examples=40, deadline=None)
@given(box)
def test_no_proof_stands_against_a_sampled_turn_that_lies_in_a_space(sides: Vec) -> None:
    """A box tilted about two edges lies in the box round it: no rule may prove that impossible."""
    for turn in SAMPLED[:100]:
        round_it = tuple(float(abs(turn[i]) @ sides) for i in (0, 1, 2))
        assert not passing.never_goes_into(sides, round_it)  # type: ignore[arg-type]


@given(opening, st.floats(0.0, math.pi / 2))
def test_a_turned_rectangle_fits_the_rectangle_round_it(sides: tuple[float, float], turn: float) -> None:
    a, b = sides
    round_it = (
        a * math.cos(turn) + b * math.sin(turn),
        a * math.sin(turn) + b * math.cos(turn),
    )
    assert passing.fits_in_rectangle(sides, round_it)


def test_rectangles_that_lie_over_each_other_are_counted_once() -> None:
    """4 x 2 and 2 x 4 over a common 2 x 2: 8 + 8 - 4."""
    assert passing.covered([(0, 0, 4, 2), (0, 0, 2, 4)]) == 12.0
    assert passing.covered([(0, 0, 1, 1), (2, 0, 3, 1)]) == 2.0
