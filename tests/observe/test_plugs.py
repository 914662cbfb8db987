"""Plugged counterbores beside what is bought to fill them."""

from __future__ import annotations

import pytest

from tests.observe.hand_worked import inches, known, row, rows

POSTS = """\
plan "Posts"
buy
  {buy}
parts
  post: 1 of 4x4 @ 48
  rail: 2 of 4x4 @ 48
  {parts}
place
  post: runs up, left at 0, front at 0, bottom at 0
  rail as rail-l, rail-r: runs up, left at right of post, front at 0, bottom at 0,
    mirrored left-right about 1 3/4
step
  rail to post: {screws}
"""
EIGHT = "8 wood-screws #10 x 4 in counterbored 1 x 1 in plugged and glue"


def posts(buy: str, screws: str = EIGHT, parts: str = "") -> str:
    return POSTS.format(buy=buy, screws=screws, parts=parts)


def test_copies_are_counted_and_each_plug_takes_its_depth_and_a_quarter_inch() -> None:
    """2 rails x 8 = 16 plugs of 1 + 1/8 + 1/8 in: 20 in."""
    found = row(posts("1 of dowel-rod 1 in @ 36 oak"), "plugged")
    assert found.values["at_least"] == 16.0
    assert (inches(found, "rod_needed"), inches(found, "rod_bought")) == (20.0, 36.0)
    assert not known(found, "other_diameter")


def test_depths_of_one_diameter_add_up() -> None:
    """16 x 1 1/4 and 4 x (1/2 + 1/4): 23 in."""
    plan = (
        posts("2 of dowel-rod 1 in @ 36 oak")
        + "  rail to post: 2 wood-screws #10 x 4 in counterbored 1 x 1/2 in plugged\n"
    )
    found = row(plan, "plugged")
    assert (inches(found, "rod_needed"), inches(found, "rod_bought"), inches(found, "depth")) == (
        23.0,
        72.0,
        1.0,
    )


def test_round_parts_take_their_rod_first() -> None:
    found = row(posts("1 of dowel-rod 1 in @ 36 oak", parts="rung: 2 of 1 in round @ 10"), "plugged")
    assert inches(found, "rod_taken") == 20.0


def test_another_diameter_is_told_unless_something_else_needs_it() -> None:
    """A 3/4 rod for rungs is no plug of the wrong size."""
    assert inches(row(posts("1 of dowel-rod 3/4 in @ 36 oak"), "plugged"), "other_diameter") == 0.75
    rungs = posts("1 of dowel-rod 3/4 in @ 36 oak", parts="rung: 2 of 3/4 in round @ 10")
    assert rows(rungs, "plugged") == []


def test_a_rod_for_other_holes_does_not_hide_that_these_have_none() -> None:
    more = "  rail to post: 2 wood-screws #8 x 4 in counterbored 3/8 x 1 in plugged\n"
    found = {
        inches(one, "diameter"): one for one in rows(posts("1 of dowel-rod 1 in @ 36 oak") + more, "plugged")
    }
    assert [found[size].values["listed"] for size in (1.0, 0.375)] == [True, False]
    assert inches(found[0.375], "other_diameter") == 1.0


@pytest.mark.parametrize("buy", ["50 plugs 1 in", "50 wooden-plugs 1 in", "50 plugs"])
def test_plugs_bought_ready_made(buy: str) -> None:
    found = row(posts(buy), "plugged")
    assert (found.values["plugs_bought"], found.values["rods"]) == (50.0, 0.0)
    assert found.values["listed"] is True


def test_a_counterbore_that_stays_open_needs_no_plug() -> None:
    assert rows(posts("1 of dowel-rod 1 in @ 36 oak", EIGHT.replace(" plugged", "")), "plugged") == []
