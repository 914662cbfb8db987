"""Screws, the wood they go into, and the holes drilled for them."""

from __future__ import annotations

import math

import pytest

from planlint.observe.facts import Missing
from tests.observe.hand_worked import INCH, by_part, inches, known, rows

TWO = """\
plan "Two boards"
  {head}
parts
  upper: 1 of 3/4 x 3 1/2 @ 24
  lower: 1 of 1 1/2 x 3 1/2 @ 24 {wood}
place
  lower: runs left-right, face top, left at 0, front at 0, bottom at 0
  upper: runs left-right, face top, left at 0, front at 0, bottom at top of lower
step
  upper to lower: {screws}
"""


def two(screws: str, head: str = "wood pine", wood: str = "") -> str:
    return TWO.format(screws=screws, head=head, wood=wood)


def test_both_parts_a_screw_goes_through_have_a_row() -> None:
    """The part under the head splits at its end as well as the one that holds."""
    found = by_part(two("2 wood-screws #8 x 1 3/4 in at 3/4 from each end", wood="red-oak"), "pilot")
    assert {name: one.values["holds_here"] for name, one in found.items()} == {"upper": False, "lower": True}
    assert [found[name].values["hardwood"] for name in ("upper", "lower")] == [False, True]
    assert inches(found["upper"], "end_distance") == 0.75


def test_places_left_open_are_taken_at_their_best() -> None:
    """Two side by side across the board are 12 in from either end: no reason to alarm."""
    found = by_part(two("2 wood-screws #8 x 1 3/4 in"), "pilot")
    assert inches(found["lower"], "end_distance") == 12.0


def test_root_and_pilot_of_a_no_8() -> None:
    """Root 0.131 in (NDS 2018 Table L3, from memory); 1/8 in is 95 % of it."""
    found = by_part(two("2 wood-screws #8 x 1 3/4 in piloted 1/8"), "pilot")["lower"]
    assert found.values["root"] == pytest.approx(0.131 * INCH)
    assert found.values["pilot"] == pytest.approx(0.125 * INCH)
    assert found.values["piloted"] and found.values["pilot_stated"]


def test_pilots_everywhere_says_no_size() -> None:
    found = by_part(two("2 wood-screws #8 x 1 3/4 in", "wood pine\n  pilots everywhere"), "pilot")["lower"]
    assert found.values["piloted"] is True
    assert not known(found, "pilot")


def test_a_screw_along_the_grain_has_no_end_beside_it() -> None:
    plan = """\
plan "Leg and rail"
  wood pine
parts
  leg:  1 of 4x4 @ 16
  rail: 1 of 2x4 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of leg, front at 1, top at top of leg
step
  leg to rail: 2 wood-screws #10 x 4 in counterbored 1 x 1 in
"""
    found = by_part(plan, "pilot")
    assert found["rail"].values["end_distance"] == math.inf
    assert inches(found["leg"], "end_distance") == 1.75  # side by side in the middle of the 3 1/2 in end


def test_bolts_nails_and_dowels_have_no_pilot() -> None:
    for what in ("2 carriage-bolts 1/4 x 3 in", "2 2 in nails", "2 dowels 3/8 x 1 1/2 in"):
        assert rows(two(what), "pilot") == []


def test_wood_that_nobody_names_stays_unknown() -> None:
    """Not said is not soft."""
    found = by_part(two("2 wood-screws #8 x 1 3/4 in", head="units in"), "pilot")["lower"]
    assert [known(found, name) for name in ("wood", "hardwood", "g_design", "g12")] == [False] * 4


def test_without_places_the_wood_is_known_and_the_end_is_not() -> None:
    plan = """\
plan "Two"
  wood red-oak
parts
  a: 1 of 2x4 @ 20
  b: 1 of 2x4 @ 20
step
  a to b: 2 wood-screws #8 x 2 in
"""
    found = by_part(plan, "pilot")
    assert set(found) == {"a", "b"}
    assert all(one.values["hardwood"] is True for one in found.values())
    assert all(isinstance(one.values["end_distance"], Missing) for one in found.values())
