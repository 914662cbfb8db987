"""Room for a driver. Each test names the mistake it guards against."""

from __future__ import annotations

import pytest

from planlint.build.build import build
from planlint.observe.build_order import BuildOrder
from planlint.read.reader import read
from planlint.source import Source
from tests.observe.hand_worked import gaps, inches, row, rows

CASE = """\
plan "Case with a shelf"
  units in
parts
  side:  2 of 3/4 x 11 1/4 @ 40 birch-plywood
  top:   1 of 3/4 x 11 1/4 @ 29 1/4 birch-plywood
  shelf: 1 of 3/4 x 11 1/4 @ 28 1/2 birch-plywood
  cleat: 2 of 4x4 @ 11 1/4
place
  side as left-side, right-side: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 15
  top: runs left-right, face top, between left-side and right-side, front at 0, bottom at {top}
  cleat as left-cleat, right-cleat: runs front-back, left at right of left-side, front at 0, bottom at 10,
    mirrored left-right about 15
  shelf: runs left-right, face top, between left-side and right-side, front at 0, bottom at top of left-cleat
step
  side to cleat: 3 wood-screws #8 x 2 in and glue
  {first}
step
  {second}
"""
TOP = "top to side: housed 3/8 deep and glue"
SHELF = "shelf to cleat: 2 wood-screws #8 x {} in at 4 and 7 from front"


def case(free: float, screw: str = "2 1/2", top: str = TOP, *, early: bool = False) -> str:
    """A shelf on cleats, `free` inches under a top that the first step puts there (or the second: early)."""
    shelf = SHELF.format(screw)
    first, second = (shelf, top) if early else (top, shelf)
    return CASE.format(top=14.25 + free, first=first, second=second)


@pytest.mark.parametrize(
    ("free", "blocked"), [(12, False), (10.5, False), (10.25, True), (9, True), (6, True)]
)
def test_screw_bit_and_driver_need_the_screws_length_and_8_in(free: float, blocked: bool) -> None:
    """2 1/2 + 8 = 10 1/2, and exactly that is enough."""
    assert bool(rows(case(free), "driver_room")) is blocked


@pytest.mark.parametrize(("free", "fits"), [(9, True), (7.5, True), (7.25, False), (6, False)])
def test_a_right_angle_driver_needs_5_in(free: float, fits: bool) -> None:
    """2 1/2 + 5 = 7 1/2."""
    found = rows(case(free), "driver_room")
    assert {one.values["instead"] == "right-angle driver" for one in found} == {fits}


def test_what_stands_in_the_way_is_named_with_its_step() -> None:
    found = rows(case(6), "driver_room")[0]
    assert found.values["blocker"] == "top"
    assert (found.values["blocker_step"], found.values["own_step"]) == ("step 1", "step 2")
    assert (inches(found, "free"), inches(found, "needed"), found.values["on_axis"]) == (6.0, 10.5, True)


def test_a_part_of_a_later_step_is_not_there_yet() -> None:
    assert rows(case(6, early=True), "driver_room") == []


def test_a_part_of_the_same_step_may_come_after() -> None:
    plan = case(6).replace("step\n  shelf to cleat", "  shelf to cleat")
    assert rows(plan, "driver_room") == []


def test_a_part_that_lies_loose_or_turns_on_hinges_can_be_moved() -> None:
    assert rows(case(6, top="top to side: loose"), "driver_room") == []
    assert rows(case(6, top="top to left-side: 2 hinges 2 in"), "driver_room") == []


def test_a_screw_without_a_length_is_not_passed_in_silence() -> None:
    plan = case(6).replace("#8 x 2 1/2 in", "#8")
    assert rows(plan, "driver_room") == []
    assert [reason for reason, _ in gaps(plan, "driver_room")] == [
        "the plan gives no length for these wood-screws"
    ]


def test_bolts_and_nails_are_not_driven_by_a_driver() -> None:
    for other in ("1/4 x 3 in carriage-bolts", "2 in nails"):
        size, _, noun = other.rpartition(" ")
        line = (
            f"shelf to cleat: 2 {noun} {size}" if noun.startswith("carr") else "shelf to cleat: 2 2 in nails"
        )
        assert rows(CASE.format(top=20.25, first=TOP, second=line), "driver_room") == []


POST = """\
plan "Slat beside a post"
  units in
parts
  rail: 2 of 2x4 @ 12
  slat: 1 of 1x4 @ 24
  post: 1 of 2x4 @ {tall}
place
  rail as rail-l, rail-r: runs front-back, face left, left at 1, front at 0, bottom at 0, mirrored left-right about 12
  slat: runs left-right, face top, left at 0, front at 4, bottom at top of rail-l
  post: runs up, face left, left at 1 3/4 + {gap}, front at 7 1/2 + {aside}, bottom at 0
step
  rail-l to post: 2 nails 3 in
step
  slat to rail-l: 1 wood-screws #8 x 2 in at {at} from front
"""


def test_a_post_beside_the_screws_is_in_the_drivers_way_but_others_get_in() -> None:
    """At 3 from the slat's front the screw is 1/2 in from a post at its back: nearer than 1 1/4."""
    plan = POST.format(tall=30, gap=0, aside=0, at="3").replace("left at 1 3/4 + 0", "left at 2 1/2")
    plan = plan.replace("left at 2 1/2, front at 7 1/2 + 0", "left at right of rail-l, front at 7 1/2")
    found = row(plan, "driver_room")
    assert found.values["on_axis"] is False
    assert inches(found, "aside") == pytest.approx((0.5**2 + 0.75**2) ** 0.5, abs=1e-3)
    assert found.values["instead"] != "nothing"


def test_a_low_post_is_no_bar() -> None:
    """1 in above the slat: the bit reaches 2 in before the driver is thick."""
    plan = POST.format(tall=5.25, gap=0, aside=0, at="3").replace(
        "left at 1 3/4 + 0, front at 7 1/2 + 0", "left at right of rail-l, front at 7 1/2"
    )
    assert rows(plan, "driver_room") == []


HALVES = """\
plan "Two halves"
  units in
parts
  post: 2 of 4x4 @ 24
  rail: 1 of 2x4 @ 20
  tie:  1 of 2x4 @ 20
place in half
  post: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of post, front at 0, bottom at 4
place
  half: left at 0, front at 0, bottom at 0
  post as other: runs up, left at 3 1/2, front at -10, bottom at 0
  tie: runs front-back, face left, left at 5, front at -6 1/2, bottom at 12
step
  other to tie: 2 nails 4 in
step in half
  post to rail: 2 wood-screws #10 x 4 in from left
"""


def test_on_a_sub_assemblys_bench_only_its_own_parts_are_there() -> None:
    """Nothing of the piece's own earlier steps is on that bench."""
    plan, _ = read(Source(HALVES))
    piece = build(plan)
    order = BuildOrder(piece)
    by_name = {part.name: part for part in piece.parts}
    first, second = (
        next(part for name, part in by_name.items() if name.startswith(own)) for own in ("post", "rail")
    )
    assert [part for part in order.there((first, second), 2) if part not in (first, second)] == []
