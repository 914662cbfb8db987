"""Parts that could turn about one axis."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.observe.hand_worked import by_part, inches, row

TRESTLE = """\
plan "Trestle"
  wood douglas-fir
parts
  leg:   2 of 2x4 @ 24
  rail:  1 of 1 1/2 x 3 1/2 @ 24
{parts}
place
  leg as leg-l, leg-r: runs up, face left, left at 0, front at 0, bottom at 0,
    mirrored left-right about 13 1/2
  rail: runs left-right, face front, between leg-l and leg-r, front at 1, bottom at 12
{place}
step
{step}
"""
ONE_EACH = "  leg to rail: 1 wood-screws #10 x 4 in"


def trestle(step: str, parts: str = "", place: str = "") -> str:
    return TRESTLE.format(parts=parts, place=place, step=step)


def test_one_screw_in_each_end_lies_on_one_line() -> None:
    """Two screws, yet the rail spins; that each leg turns about one of them only follows."""
    told = by_part(trestle(ONE_EACH), "turning_part")
    leaders = {name: one.values["leader_spread"] for name, one in told.items()}
    assert leaders == {"rail": math.inf, "leg-l": 0.0, "leg-r": 0.0}
    found = told["rail"]
    assert found.values["count"] == 2.0
    assert inches(found, "spread") == 0.0
    assert inches(found, "braced") == 0.0


@given(first=st.integers(4, 24), off=st.integers(0, 20))
@settings(max_examples=25, deadline=None)
def test_the_spread_is_how_far_the_two_lines_are_apart(first: int, off: int) -> None:
    """Places in 1/8 in from the top of the 3 1/2 in end, the second on the other end `off` lower."""
    other = min(first + off, 27)
    screw = "to rail: 1 wood-screws #10 x 4 in at"
    step = f"  leg-l {screw} {first}/8 from top\n  leg-r {screw} {other}/8 from top"
    spread = (other - first) / 8
    assume(spread != 1.5)  # just as far apart as the rail is thick: floats may say either
    found = by_part(trestle(step), "turning_part")
    assert ("rail" in found) is (spread < 1.5)
    assert spread >= 1.5 or inches(found["rail"], "spread") == spread


def test_two_screws_in_an_end_hold() -> None:
    """Spread evenly over 3 1/2 in they are 1 3/4 in apart, more than the rail is thick."""
    assert by_part(trestle("  leg to rail: 2 wood-screws #10 x 4 in"), "turning_part") == {}


def test_of_two_parts_on_one_screw_the_smaller_turns() -> None:
    plan = """\
plan "Button"
parts
  frame:  1 of 2x4 @ 24
  button: 1 of 3/4 x 1 @ 3
place
  frame: runs left-right, face front, left at 0, front at 0, bottom at 0
  button: runs left-right, face front, left at 10, back at front of frame, bottom at 1
step
  button to frame: 1 wood-screws #8 x 1 1/2 in
"""
    assert set(by_part(plan, "turning_part")) == {"button"}


@pytest.mark.parametrize(
    "more", [" and glue", " and housed 1/4 deep", " and 1 angle-brackets", " and 2 biscuits", " and loose"]
)
def test_what_holds_over_an_area_or_is_meant_to_move_does_not_turn(more: str) -> None:
    assert "rail" not in by_part(trestle(ONE_EACH + more), "turning_part")


def test_a_dry_dowel_turns_like_a_screw() -> None:
    assert "rail" in by_part(trestle("  leg to rail: 1 dowels 3/8 x 2 in"), "turning_part")


def test_a_shelf_on_the_rail_stops_it_both_ways() -> None:
    """The shelf covers the rail's 1 1/2 in thick top: it stops it 3/4 in to either side of the axis."""
    plan = trestle(
        ONE_EACH + "\n  leg to shelf: 2 wood-screws #8 x 3 in and glue",
        "  shelf: 1 of 1x6 @ 24",
        "  shelf: runs left-right, face top, between leg-l and leg-r, front at 0, bottom at top of rail",
    )
    assert inches(by_part(plan, "turning_part")["rail"], "braced") == 0.75


def test_a_face_on_one_side_of_the_axis_stops_one_way_only() -> None:
    """A batten over the front half of the rail's top still lets it turn back."""
    plan = trestle(
        ONE_EACH + "\n  leg to batten: 2 wood-screws #8 x 3 in and glue",
        "  batten: 1 of 3/4 x 1 3/4 @ 24",
        "  batten: runs left-right, face top, between leg-l and leg-r, front at 0, bottom at top of rail",
    )
    assert inches(by_part(plan, "turning_part")["rail"], "braced") == 0.0


def test_a_knob_is_round_about_its_screw() -> None:
    """A knob on one screw is sound everywhere."""
    plan = """\
plan "Knob"
parts
  door: 1 of 3/4 x 12 @ 24
  knob: 1 of 1 in round @ 1
place
  door: runs up, face front, left at 0, front at 0, bottom at 0
  knob: runs front-back, back at front of door, centred left-right on door, centred up on door
step
  door to knob: 1 wood-screws #8 x 1 1/4 in
"""
    assert row(plan, "turning_part").values["round"] is True


BACK = """\
plan "Back"
  wood douglas-fir
parts
  arm:  2 of 2x4 @ 20
  foot: 2 of 2x4 @ 21
  post: 2 of 2x4 @ 24
  slat: 2 of 1x4 @ 21
place in back
  post as post-l, post-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 10 1/2
  slat as low: runs left-right, face front, left at 0, back at front of post-l, bottom at 10
  slat as high: like low, bottom at 18
place
  arm as arm-l, arm-r: runs front-back, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 12
  foot as front-foot, rear-foot: runs left-right, face front, between arm-l and arm-r, front at 0, bottom at 0,
    mirrored front-back about 6 1/2
  back: left at right of arm-l, front of post-l at 14, bottom at 0
step in back
  slat to post: {slats}
step
  arm to foot: 2 wood-screws #10 x 3 1/2 in and glue
  arm to post: {bolts}
"""
TWO = "2 wood-screws #8 x 2 in at 1/2 from each end"
ONE_BOLT = "1 carriage-bolts 3/8 x 3 1/2 in"


def test_a_back_on_one_bolt_at_each_side_turns_as_a_whole() -> None:
    """Each post alone is held by its slats; the four parts together lie on one line. The lighter half is told."""
    found = by_part(BACK.format(slats=TWO, bolts=ONE_BOLT), "turning_part")
    assert set(found) == {"back"}
    values = found["back"].values
    assert (values["count"], values["along"]) == (2.0, 0.0)
    assert values["parts"] == (
        "post-l of back",
        "post-r of back",
        "low of back",
        "high of back",
        "arm-l",
        "arm-r",
    )
    assert inches(found["back"], "spread") == 0.0


def test_two_bolts_at_each_side_hold_the_back() -> None:
    """3 1/2 in wide, two lie 1 3/4 in apart: more than 1 1/2 in, the thickest part."""
    bolts = "2 carriage-bolts 3/8 x 3 1/2 in at 1 from each end"
    assert by_part(BACK.format(slats=TWO, bolts=bolts), "turning_part") == {}


def test_what_nobody_knows_of_inside_a_group_leaves_it_alone() -> None:
    """Slats that the plan leaves unsaid: how-unsaid tells it, and nobody can say what turns."""
    told = by_part(BACK.format(slats="unsaid", bolts=ONE_BOLT), "turning_part")
    assert not any("post" in str(name) or name == "back" for name in told)


def test_a_group_without_a_name_is_called_by_the_part_that_is_fastened() -> None:
    text = (
        BACK.format(slats=TWO, bolts=ONE_BOLT)
        .replace("place in back\n", "place\n")
        .replace("step in back", "step")
    )
    text = text.replace("  back: left at right of arm-l, front of post-l at 14, bottom at 0\n", "")
    text = text.replace(
        "face left, left at 0, front at 0, bottom at 0, mirrored left-right about 10 1/2",
        "face left, left at 1 1/2, front at 14, bottom at 0, mirrored left-right about 12",
    )
    text = text.replace("face front, left at 0, back", "face front, left at 1 1/2, back")
    (found,) = by_part(text, "turning_part").values()
    assert (found.values["part"], found.values["along"]) == ("post-l", 3.0)


def test_braces_on_one_line_turn_and_not_the_frame_between_them() -> None:
    """The frame is held by just the two bolts as well, but it is the larger."""
    plan = """\
plan "Frame"
  wood douglas-fir
parts
  post:  2 of 4x4 @ 24
  rail:  1 of 2x6 @ 20
  brace: 2 of 2x4 @ 12
place
  post as post-l, post-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about 13 1/2
  rail: runs left-right, face front, between post-l and post-r, front at 1, bottom at 4
  brace as brace-l, brace-r: runs front-back, face left, right at left of post-l, front at -4, bottom at 10,
    mirrored left-right about 13 1/2
step
  post to rail: 2 wood-screws #10 x 5 in and glue
  brace to post: 1 carriage-bolts 3/8 x 5 1/2 in
"""
    found = by_part(plan, "turning_part")
    assert set(found) == {"brace-l", "brace-r"}
    assert {one.values["leader_spread"] for one in found.values()} == {math.inf}
