"""Overlaps, cut joints and pieces that meet nothing, in hand-worked plans. All sums in inches."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.observe import overlaps
from planlint.observe.facts import Facts
from tests.build.joinery.workshop import AXES, board, carried, join, joined, screws
from tests.observe.hand_worked import INCH, gaps, inches, known, row, rows


def stack(bottom: str, joint: str = "2 wood-screws #10 x 4 in", more: str = "") -> str:
    """A slat 1 1/2 thick over a post that ends at 16."""
    return f"""\
plan "Stack"
  units in
  wood douglas-fir
parts
  post: 1 of 4x4 @ 16
  slat: 1 of 2x4 @ 24
place
  post: runs up, left at 0, front at 0, bottom at 0
  slat: runs left-right, face top, left at 0, front at 0, bottom at {bottom}{more}
step
  slat to post: {joint}
"""


def test_parts_that_touch_do_not_overlap() -> None:
    assert rows(stack("16"), "overlap") == []


def test_the_way_out_is_told() -> None:
    found = row(stack("15 1/2"), "overlap")
    assert (inches(found, "depth"), inches(found, "stated")) == (0.5, 0)
    assert (found.values["move"], found.values["toward"]) == ("slat", "top")
    assert found.values["shorten"] == "post"  # its length runs along the push; the slat's does not
    assert found.values["jointed"] is False and not known(found, "join")


def test_a_housing_is_held_to_its_own_depth() -> None:
    found = row(stack("15 1/2", "housed 3/8 deep"), "overlap")
    assert (inches(found, "depth"), inches(found, "stated")) == (0.5, 0.375)
    assert (found.values["joint"], found.values["first"]) == ("housed", "slat")


def test_a_joint_that_states_no_depth_means_what_is_drawn() -> None:
    found = row(stack("15 1/2", "notched"), "overlap")
    assert found.values["jointed"] is True and not known(found, "stated")


def test_a_square_end_that_digs_in_tells_its_bevel() -> None:
    """1 1/2 sin 12 = 0.3119."""
    text = """\
plan "Prop"
  units in
parts
  base: 1 of 2x6 @ 24
  prop: 1 of 2x4 @ 16
place
  base: runs left-right, face top, left at 0, front at 0, bottom at 0
  prop: runs up, face front, leans 12 toward back, left at 10, front at 2, bottom at top of base
step
  base to prop: 2 wood-screws #10 x 4 in
"""
    found = row(text, "overlap")
    assert inches(found, "depth") == pytest.approx(0.3119, abs=1e-4)
    assert (found.values["digs"], found.values["digging"]) == (True, "prop")
    assert found.values["bevel"] == pytest.approx(12)


def corner(length: float, set_in: str) -> str:
    """Two rails 1 thick, tenoned `length` deep into a leg of 2 1/4 from two sides."""
    start = 2.25 - length
    return f"""\
plan "Corner"
  units in
parts
  leg: 1 of 2 1/4 x 2 1/4 @ 28
  rail: 2 of 1 x 3 1/2 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail as rail-f: runs left-right, face front, left at {start}, front at {set_in}, top at 27
  rail as rail-s: runs front-back, face left, front at {start}, left at {set_in}, top at 27
step
  rail to leg: mortise-and-tenon 3/8 x 2 1/2 x {length} in
"""


def test_rails_tenoned_into_one_leg_have_only_their_tenons_there() -> None:
    """As drawn, whole, they share [1 1/4, 1 5/8] x [1 1/4, 1 5/8] in the leg."""
    assert [one.values["jointed"] for one in rows(corner(1, "5/8"), "overlap")] == [True, True]


def test_a_rail_that_overlaps_another_outside_the_leg_is_told() -> None:
    text = corner(1, "5/8").replace("front at 1.25, left at 5/8", "front at 1.25, left at 2")
    assert [one.values["pair"] for one in rows(text, "overlap") if not one.values["jointed"]] == [
        "rail-f + rail-s"
    ]


@given(
    deep=st.floats(0.05, 1.0),
    axes=st.permutations([0, 1, 2]),
    mirrored=st.booleans(),
    along=st.floats(-50, 50),
)
@settings(max_examples=40, deadline=None)
def test_depth_and_pair_stay_the_same_wherever_the_piece_stands(
    deep: float, axes: list[int], mirrored: bool, along: float
) -> None:
    ways = [AXES["xyz"[i]] for i in axes]
    if mirrored:
        ways[0] = (-ways[0][0], -ways[0][1], -ways[0][2])
    parts = [
        board("leg", (0, 0, 0), (3.5, 3.5, 16), "z", "x"),
        board("slat", (0, 0, 16 - deep), (24, 3.5, 17.5 - deep), "x", "z"),
    ]
    found = _overlaps([carried(part, (along, 3.0, 7.0), (ways[0], ways[1], ways[2])) for part in parts])
    assert len(found) == 1
    assert found[0].values["depth"] == pytest.approx(deep * INCH, abs=1e-6)
    assert found[0].values["pair"] == "leg + slat"


def _overlaps(parts: list) -> list:  # type: ignore[type-arg]
    piece = joined(parts, join("slat", "leg", screws(2, length=4)))
    piece.plan.placements = [None]  # type: ignore[list-item]  # something is placed
    facts = Facts()
    overlaps.observe(piece, facts)
    return facts.rows["overlap"]


# --- what meets nothing ---------------------------------------------------------------------------------


def test_a_gap_is_measured_and_the_move_told() -> None:
    found = row(stack("16 1/2"), "unmet_piece")
    assert inches(found, "gap") == 0.5
    assert (found.values["part"], found.values["nearest"], found.values["toward"]) == (
        "slat",
        "post",
        "bottom",
    )
    assert found.values["lengthen"] == "post"


def test_parts_that_share_an_edge_only() -> None:
    found = row(
        stack("16").replace("left at 0, front at 0, bottom at 16", "left at 3 1/2, front at 0, bottom at 16"),
        "unmet_piece",
    )
    assert found.values["edge_only"] is True and found.values["aslant"] is False
    assert not known(found, "toward")


@pytest.mark.parametrize(("gap", "meets"), [("1/8", True), ("9/64", False)])
def test_a_figure_8_reaches_over_an_eighth(gap: str, meets: bool) -> None:
    text = stack(f"16 + {gap}", "2 figure-8 #8 x 3/4 in")
    assert (rows(text, "unmet_piece") == []) is meets


def test_a_piece_whose_partner_has_no_place_is_not_judged() -> None:
    """The rail may meet the post that nothing places: nobody knows the gap."""
    text = """\
plan "Frame"
  units in
parts
  post: 2 of 4x4 @ 16
  rail: 1 of 2x4 @ 24
place
  post as post-a: runs up, left at 0, front at 0, bottom at 0
  post as post-b: runs up, left at 30, bottom at 0
  rail: runs left-right, face front, left at 6, front at 0, top at 16
step
  rail to post: 2 wood-screws #10 x 4 in
"""
    assert rows(text, "unmet_piece") == []
    assert gaps(text, "unmet_piece")[0][0] == "post-b has no place"


def test_of_a_sub_assembly_that_is_joined_as_one_it_is_enough_that_one_part_meets() -> None:
    text = """\
plan "Ends"
  units in
parts
  leg: 2 of 4x4 @ 16
  rail: 1 of 2x4 @ 8
  long-rail: 1 of 2x4 @ 30
place in end-frame
  leg as leg-f: runs up, left at 0, front at 0, bottom at 0
  leg as leg-b: runs up, left at 0, front at 11 1/2, bottom at 0
  rail: runs front-back, face left, between leg-f and leg-b, left at 1, top at 16
place
  end-frame: left at 0, front at 0, bottom at 0
  long-rail: runs left-right, face front, left at {left}, front at 0, top at 16
step in end-frame
  leg to rail: 2 wood-screws #10 x 4 in
step
  end-frame to long-rail: 2 wood-screws #10 x 4 in
"""
    assert rows(text.replace("{left}", "3 1/2"), "unmet_piece") == []
    apart = row(text.replace("{left}", "4"), "unmet_piece")
    assert apart.values["part"] == "leg-f of end-frame" and inches(apart, "gap") == 0.5
