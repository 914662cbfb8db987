"""Where two fasteners come nearest. Guards against: a ring drawn beside the spot where two screws meet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.drawing.nearest import nearest
from planlint.geometry.path import between_segments
from planlint.geometry.vector import length, sub

PLACES = st.tuples(*[st.integers(-20, 20).map(float)] * 3)
SEGMENTS = st.tuples(PLACES, PLACES).filter(lambda ends: ends[0] != ends[1])


@given(SEGMENTS, SEGMENTS)
def test_no_two_points_are_nearer(one, other) -> None:  # type: ignore[no-untyped-def]
    """The distance between them is worked out another way by `between_segments`."""
    here, there = nearest(one, other)
    assert length(sub(there, here)) == pytest.approx(between_segments(*one, *other), abs=1e-6)


def test_two_that_run_into_each_other_head_on_meet_in_the_middle_of_what_they_share() -> None:
    """At either head, the ring would stand outside the wood."""
    one, other = ((0.0, 0.0, 0.0), (60.0, 0.0, 0.0)), ((100.0, 0.0, 0.0), (40.0, 0.0, 0.0))
    assert nearest(one, other) == ((50.0, 0.0, 0.0), (50.0, 0.0, 0.0))
