"""Lengths fixed twice and stated dimensions, in hand-worked plans. All sums in inches."""

from __future__ import annotations

import pytest

from tests.observe.hand_worked import gaps, inches, known, row, rows


def frame(rail: str = "41", more: str = "", about: str = "24") -> str:
    """Two posts 3 1/2 thick, mirrored about 24: the opening is 2 x (24 - 3 1/2) = 41."""
    return f"""\
plan "Frame"
  units in
  wood douglas-fir
parts
  post: 2 of 4x4 @ 16 1/2
  rail: 1 of 2x4 @ {rail}
place
  post as post-l, post-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about {about}
  rail: runs left-right, face front, between post-l and post-r, front at 0, top at top of post-l
step
  post to rail: 2 wood-screws #10 x 4 in
{more}"""


def test_a_part_that_fits_has_its_size_as_room() -> None:
    fit = row(frame(), "fixed_twice")
    assert (inches(fit, "size"), inches(fit, "opening"), inches(fit, "sunk"), inches(fit, "room")) == (
        41,
        41,
        0,
        41,
    )
    assert fit.values["part"] == "rail" and fit.values["own_length"] is True
    assert not known(fit, "like_nominal") and not known(fit, "wrong") and fit.values["pairs"] == ()


@pytest.mark.parametrize(
    ("rail", "about", "explained"),
    [
        ("41 1/2", "24", True),  # one 4x4 taken as 4: 1/2
        ("42", "24", True),  # both: 2 x 1/2
        ("40", "24", True),  # 48 - 2 x 4
        ("41 1/4", "24", False),  # no 4x4 makes 1/4
        ("42 1/2", "24", False),  # there are no three posts
    ],
)
def test_a_4x4_taken_at_its_name_explains_a_half_inch_for_each_post(
    rail: str, about: str, explained: bool
) -> None:
    fit = row(frame(rail, about=about), "fixed_twice")
    assert known(fit, "like_nominal") is explained
    if explained:
        assert fit.values["like_nominal"] == "4x4"
        assert (inches(fit, "like_named"), inches(fit, "like_real")) == (4, 3.5)


def test_measured_stock_explains_nothing() -> None:
    """A part written `3 1/2 x 3 1/2` has no name it could have been taken by."""
    text = frame("41 1/2").replace("2 of 4x4", "2 of 3 1/2 x 3 1/2")
    assert not known(row(text, "fixed_twice"), "like_nominal")


def test_an_overlap_as_large_as_the_difference_is_named_and_another_is_not() -> None:
    fit = row(frame("41 1/2"), "fixed_twice")
    assert fit.values["pairs"] == ("post-r + rail",)
    overlap = row(frame("41 1/2"), "overlap")
    assert inches(overlap, "depth") == 0.5 and overlap.values["pair"] == "post-r + rail"


def test_an_overlap_deeper_than_the_rail_is_thick_still_follows_from_the_length() -> None:
    """The least push is across the rail then (1 1/2), not along it (2)."""
    assert row(frame("43"), "fixed_twice").values["pairs"] == ("post-r + rail",)


def test_a_gap_as_large_as_the_difference_is_named() -> None:
    assert row(frame("40 1/2"), "fixed_twice").values["pairs"] == ("post-r + rail",)


def test_joints_at_the_ends_count() -> None:
    """Opening 2 x (24 - 3 1/2) = 41, housed 3/8 at both ends: 41 3/4."""
    text = frame("41 3/4").replace("post to rail: 2 wood-screws #10 x 4 in", "rail to post: housed 3/8 deep")
    fit = row(text, "fixed_twice")
    assert (inches(fit, "size"), inches(fit, "sunk"), inches(fit, "room")) == (41.75, 0.75, 41.75)


def test_the_overall_size_speaks_for_the_places() -> None:
    fit = row(frame("41 1/2", "dimensions\n  overall: 48 x 3 1/2 x 16 1/2"), "fixed_twice")
    assert (fit.values["wrong"], fit.values["witness"]) == ("size", "overall left-right")


def test_a_dimension_across_the_posts_that_is_out_by_as_much_speaks_for_the_part() -> None:
    fit = row(frame("41 1/2", "dimensions\n  left of post-l to right of post-r = 48 1/2"), "fixed_twice")
    assert fit.values["wrong"] == "opening"
    assert fit.values["dimensions"] == (fit.values["witness"],)


def test_a_dimension_of_the_part_itself_speaks_against_its_length() -> None:
    fit = row(frame("41 1/2", "dimensions\n  left of rail to right of rail = 41"), "fixed_twice")
    assert fit.values["wrong"] == "size"


def test_a_dimension_of_another_direction_says_nothing() -> None:
    fit = row(frame("41 1/2", "dimensions\n  bottom of post-l to top of post-l = 17"), "fixed_twice")
    assert fit.values["dimensions"] == () and not known(fit, "wrong")


def test_two_positions_on_one_direction() -> None:
    text = frame().replace(
        "left at 0, front at 0, bottom at 0, mirrored",
        "left at 0, right at 4, front at 0, bottom at 0, mirrored",
    )
    found = [one for one in rows(text, "fixed_twice") if one.values["part"] == "post-l"]
    assert len(found) == 1
    assert (inches(found[0], "size"), inches(found[0], "room")) == (3.5, 4)
    assert found[0].values["own_length"] is False and found[0].values["like_nominal"] == "4x4"


def test_a_sub_assembly_used_twice_is_judged_once_and_its_parts_are_named_as_in_the_piece() -> None:
    text = """\
plan "Ends"
  units in
  wood douglas-fir
parts
  leg: 4 of 4x4 @ 16
  rail: 2 of 2x4 @ 9
place in end-frame
  leg as leg-f: runs up, left at 0, front at 0, bottom at 0
  leg as leg-b: runs up, left at 0, front at 12, bottom at 0
  rail: runs front-back, face left, between leg-f and leg-b, left at 1, top at 16
place
  end-frame as end-l, end-r: left at 0, front at 0, bottom at 0, mirrored left-right about 20
step in end-frame
  leg to rail: 2 wood-screws #10 x 4 in
"""
    fit = row(text, "fixed_twice")  # opening 12 - 3 1/2 = 8 1/2; 1/2 too long
    assert (inches(fit, "size"), inches(fit, "room")) == (9, 8.5)
    assert fit.values["pairs"] == ("leg-b of end-l + rail of end-l", "leg-b of end-r + rail of end-r")


def test_a_plan_that_places_nothing_says_what_to_add() -> None:
    text = 'plan "List"\n  units in\nparts\n  leg: 4 of 4x4 @ 16\n'
    assert gaps(text, "fixed_twice") == [("nothing is placed", "a place section: where each part goes")]


# --- stated dimensions ---------------------------------------------------------------------------------


def test_an_overall_size_is_three_dimensions() -> None:
    found = rows(frame(more="dimensions\n  overall: 48 x 3 1/2 x 16"), "stated_dimension")
    assert [(one.values["direction"], inches(one, "out_by")) for one in found] == [
        ("left-right", 0), ("front-back", 0), ("up", 0.5),
    ]  # fmt: skip


def test_an_angle_has_no_length_and_a_length_no_angle() -> None:
    text = """\
plan "Post"
  units in
parts
  post: 1 of 2x4 @ 20
place
  post: runs up, face left, leans 14 toward back, left at 0, front at 0, bottom at 0, ends cut level
dimensions
  leans of post = 12
  left of post to right of post = 2
"""
    angle, length = rows(text, "stated_dimension")
    assert angle.values["is_angle"] is True and angle.values["angle_out"] == pytest.approx(2, abs=1e-3)
    assert not known(angle, "out_by") and not known(length, "angle_out")
    assert inches(length, "out_by") == -0.5


def test_what_cannot_be_measured_says_why() -> None:
    found = row(frame(more="dimensions\n  left of post-l to top of post-r = 3"), "stated_dimension")
    assert not known(found, "built") and not known(found, "out_by")
