"""The finish of each fastening and the wood it sits in."""

from __future__ import annotations

import pytest

from tests.observe.hand_worked import known, row, rows

TWO = """\
plan "Two boards"
  wood pine
  setting outdoors
buy
  {buy}
parts
  upper: 1 of 3/4 x 3 1/2 @ 24
  lower: 1 of 1 1/2 x 3 1/2 @ 24 {lower}
place
  lower: runs left-right, face top, left at 0, front at 0, bottom at 0
  upper: runs left-right, face top, left at 0, front at 0, bottom at top of lower
step
  upper to lower: {what}
"""


def two(what: str, buy: str = "1 glue", lower: str = "") -> str:
    return TWO.format(what=what, buy=buy, lower=lower)


@pytest.mark.parametrize(
    ("join", "buy", "finish"),
    [
        ("zinc", "50 deck-screws #8 x 2 in stainless", "zinc"),
        ("", "50 deck-screws #8 x 2 in stainless", "stainless"),
        ("", "50 deck-screws #8 x 2 in", "unsaid"),
        ("", "50 deck-screws #8 x 3 in zinc", "unsaid"),
        ("", "50 wood-screws #8 x 2 in zinc", "unsaid"),
    ],
)
def test_the_join_line_decides_then_the_line_of_that_size(join: str, buy: str, finish: str) -> None:
    """Another box's finish must not be taken for this one's."""
    assert row(two(f"2 deck-screws #8 x 2 in {join}", buy), "metal").values["finish"] == finish


def test_two_boxes_of_one_size_leave_the_finish_open() -> None:
    buy = "50 deck-screws #8 x 2 in stainless\n  50 deck-screws #8 x 2 in zinc"
    assert not known(row(two("2 deck-screws #8 x 2 in", buy), "metal"), "finish")


def test_each_class_of_wood_has_a_row() -> None:
    """Brass is sound in pine and not in treated pine: one worst class would hide or invent a finding."""
    found = rows(two("2 deck-screws #8 x 2 in brass", lower="douglas-fir treated"), "metal")
    assert {one.values["wood_class"] for one in found} == {"other", "treated"}


def test_all_that_is_unsaid_is_one_mistake() -> None:
    found = rows(two("2 deck-screws #8 x 2 in", lower="white-oak"), "metal")
    assert [one.values["mistake"] for one in found] == ["unsaid", "unsaid"]


def test_dowels_do_not_rust_and_an_unknown_fitting_does_if_its_finish_is_named() -> None:
    assert rows(two("2 dowels 3/8 x 1 1/2 in"), "metal") == []
    assert rows(two("2 latches", "2 latches"), "metal") == []
    assert len(rows(two("2 latches zinc", "2 latches"), "metal")) == 1


def test_without_places_the_cut_list_says_the_wood() -> None:
    plan = """\
plan "Two"
  setting outdoors
parts
  a: 1 of 2x4 @ 20 white-oak
  b: 1 of 2x4 @ 20 white-oak
step
  a to b: 2 wood-screws #8 x 2 in zinc
"""
    assert row(plan, "metal").values["wood_class"] == "tannin"
