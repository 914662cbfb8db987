"""Dimension lines in rows: nothing lies on anything else."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.drawing.chains import Dim, arranged
from planlint.drawing.letters import width

SIZE = 2.8
some = settings(max_examples=60, deadline=None, derandomize=True)
places = st.floats(-20.0, 160.0).map(lambda x: round(x, 1))
texts = st.sampled_from(
    ["3/4 in", "needed 13/16 in", "length 2 1/2 in", "1 in held", "5 mm", "ends 20 in before it"]
)
dims = st.builds(lambda a, b, text: Dim(min(a, b), max(a, b) + 0.5, text), places, places, texts)


@some
@given(st.lists(dims, min_size=1, max_size=7))
def test_no_text_and_no_line_lies_on_another_in_its_row(some_dims: list[Dim]) -> None:
    """Two numbers printed over each other cannot be read, and a saw follows one of them."""
    placed = arranged(some_dims, SIZE)
    assert sorted(one.dim for one in placed) == sorted(some_dims)
    for one, other in combinations(placed, 2):
        if one.row == other.row:
            assert one.high <= other.low + 0.011 or other.high <= one.low + 0.011


@some
@given(st.lists(dims, min_size=1, max_size=7))
def test_a_text_is_as_wide_as_its_letters_and_stands_by_its_own_line(some_dims: list[Dim]) -> None:
    for one in arranged(some_dims, SIZE):
        assert one.right - one.left >= width(one.dim.text, SIZE) - 1e-9
        inside = one.dim.start < one.left and one.right < one.dim.end
        beside = one.left > one.dim.end or one.right < one.dim.start
        assert inside if one.inside else beside


def test_what_fits_between_its_arrows_in_the_first_row_stays_there() -> None:
    placed = arranged([Dim(0, 60, "length 2 in"), Dim(0, 25, "3/4 in"), Dim(25, 60, "1 in held")], SIZE)
    assert [(one.dim.text, one.row, one.inside) for one in placed] == [
        ("3/4 in", 0, True),
        ("1 in held", 0, True),
        ("length 2 in", 1, True),
    ]
