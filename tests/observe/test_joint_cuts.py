"""Housings and tenons as cut, and whether they can be put in, in hand-worked plans. All sums in inches."""

from __future__ import annotations

import pytest

from tests.observe.hand_worked import by_part, inches, known, row, rows
from tests.observe.test_overlaps import corner


def rail(leg: str, left: str, tenon: str) -> str:
    return f"""\
plan "Frame"
  units in
parts
  leg: 1 of {leg} x {leg} @ 28
  rail: 1 of 3/4 x 3 1/2 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at {left}, middle front-back at 3/4, top at 27
step
  rail to leg: mortise-and-tenon {tenon} in
"""


def test_the_wood_left_behind_a_mortise() -> None:
    """1 1/2 - 1 3/8 = 1/8."""
    cut = row(rail("1 1/2", "1/8", "1/4 x 2 1/2 x 1 3/8"), "joint_cut")
    assert [inches(cut, one) for one in ("tenon", "thickness", "depth", "receiver_thickness", "left")] == [
        0.25, 0.75, 1.375, 1.5, 0.125,
    ]  # fmt: skip


def test_a_through_tenon_leaves_nothing() -> None:
    assert inches(row(rail("1 1/2", "0", "1/4 x 2 1/2 x 1 1/2"), "joint_cut"), "left") == 0


@pytest.mark.parametrize(
    ("place", "receiver"),
    [
        (
            "runs left-right, face top, left at 3/8, front at 0, bottom at 12",
            0.75,
        ),  # an end into the side's face
        ("runs up, face front, left at 3/4 - 3/8, front at 0, bottom at 0", 0.75),  # its edge along a groove
    ],
)
def test_a_housing_is_measured_in_the_way_it_goes(place: str, receiver: float) -> None:
    text = f"""\
plan "Shelf"
  units in
parts
  side: 1 of 3/4 x 11 1/4 @ 36
  shelf: 1 of 3/4 x 11 1/4 @ 24
place
  side: runs up, face left, left at 0, front at 0, bottom at 0
  shelf: {place}
step
  shelf to side: housed 3/8 deep
"""
    cut = row(text, "joint_cut")
    assert (inches(cut, "depth"), inches(cut, "receiver_thickness"), inches(cut, "left")) == (
        0.375,
        receiver,
        receiver - 0.375,
    )
    assert not known(cut, "tenon")


def test_tenons_that_meet_and_tenons_that_do_not() -> None:
    """3/8 thick in the middle, they fill [15/16, 1 5/16]; 1 1/2 long they reach 3/4, 9/16 too far."""
    meet = by_part(corner(1.5, "5/8"), "joint_cut")
    assert meet["rail-f"].values["meets"] == "rail-s" and inches(meet["rail-f"], "meets_by") == 0.5625
    apart = by_part(corner(0.875, "5/8"), "joint_cut")
    assert not known(apart["rail-f"], "meets")


def case(shelf: str, shelf_step: str, back: str = "", joint: str = "housed 3/8 deep and glue") -> str:
    """Two sides 36 apart, a base housed in step 1, a shelf 36 3/4 long."""
    return f"""\
plan "Case"
  units in
parts
  side: 2 of 3/4 x 11 1/4 @ 36
  base: 1 of 3/4 x 11 1/4 @ 36 3/4
  shelf: 1 of 3/4 x {shelf.partition(" ")[0]} @ 36 3/4
  back: 1 of 3/4 x 36 @ 37 1/2
place
  side as side-l, side-r: runs up, face left, left at 0, front at 0, bottom at 0,
    mirrored left-right about 18 3/4
  base: runs left-right, face top, left at 3/8, front at 0, bottom at 2
  shelf: runs left-right, face top, left at 3/8, front at {shelf.partition(" ")[2]}, bottom at 18
  {back}
step "Case"
  base to side: housed 3/8 deep and glue
  {"back to side: 6 wood-screws #8 x 2 in" if back else ""}
step "{shelf_step}"
  shelf to side: {joint}
"""


def test_a_stopped_shelf_cannot_go_in_once_the_base_holds_the_sides() -> None:
    shelf = by_part(case("10 5/8", "Shelf"), "let_in_part")["shelf"]
    assert (inches(shelf, "length"), inches(shelf, "clear")) == (36.75, 36)
    assert (shelf.values["fixed_step"], shelf.values["step"]) == (1, 2)
    assert shelf.values["fixed_name"] == "“Case”" and shelf.values["slides"] is False


def test_a_shelf_in_open_grooves_slides_in() -> None:
    shelf = by_part(case("11.25 0", "Shelf"), "let_in_part")["shelf"]
    assert shelf.values["slides"] is True and shelf.values["slides_from"] in ("front", "back")


def test_a_back_that_is_on_already_leaves_only_the_front() -> None:
    back = "back: runs left-right, face front, left at 0, front at 11 1/4, bottom at 0"
    shelf = by_part(case("11.25 0", "Shelf", back), "let_in_part")["shelf"]
    assert shelf.values["slides_from"] == "front"


def test_a_shelf_open_only_to_the_back_is_shut_in_by_the_back() -> None:
    back = "back: runs left-right, face front, left at 0, front at 11 1/4, bottom at 0"
    shut = by_part(case("10.25 1", "Shelf", back), "let_in_part")["shelf"]
    free = by_part(case("10.25 1", "Shelf"), "let_in_part")["shelf"]
    assert (shut.values["slides"], free.values["slides_from"]) == (False, "back")


def test_what_closes_the_space_can_itself_go_in() -> None:
    base = by_part(case("10 5/8", "Shelf"), "let_in_part")["base"]
    assert (base.values["step"], base.values["fixed_step"]) == (1, 2)  # only the shelf would hold them apart


def test_a_part_that_nothing_else_replaces_has_no_step_that_fixes_it() -> None:
    text = case("10 5/8", "Shelf").replace(
        "  base to side: housed 3/8 deep and glue\n", "  base to side: unsaid\n"
    )
    found = [one for one in rows(text, "let_in_part") if one.values["part"] == "shelf"]
    assert not known(found[0], "fixed_step")
