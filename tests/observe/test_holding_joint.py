"""What holds two parts on end grain. Each test names the mistake it guards against."""

from __future__ import annotations

import pytest

from tests.observe.hand_worked import by_part, gaps, inches, row, rows

LEG = """\
plan "Leg and rail"
  wood douglas-fir
parts
  leg:  1 of 4x4 @ 16 1/2
  rail: 1 of 2x4 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of leg, front at front of leg + 1, top at top of leg
step
  leg to rail: {}
"""
SCREWS = "2 wood-screws #10 x 4 in counterbored 1 x 1 in"


def test_a_screw_in_the_end_of_a_rail_runs_along_its_grain() -> None:
    """Depth 4 + 1 - 3 1/2 = 1 1/2; the axis and the rail both run left-right: 0 deg."""
    found = row(LEG.format(SCREWS), "grain_hold")
    assert inches(found, "embedment") == 1.5
    assert found.values["grain_angle"] == pytest.approx(0.0, abs=1e-4)
    assert [found.values[name] for name in ("glued", "alone", "hangs", "borne", "interlocked")] == [False] * 5


@pytest.mark.parametrize(
    ("more", "column"),
    [
        (" and glue", "glued"),
        (" and 2 dowels 3/8 x 2 in", "interlocked"),
        (" and 1 angle-brackets", "fitted"),
    ],
)
def test_what_else_holds_the_two_is_seen(more: str, column: str) -> None:
    """A glued or pinned joint must not be called one held by screws alone."""
    found = [
        one for one in rows(LEG.format(SCREWS + more), "grain_hold") if one.values["kind"] == "wood-screws"
    ]
    assert [one.values[column] for one in found] == [True]


def test_fasteners_of_two_join_lines_hold_one_pair_together() -> None:
    """A single screw in each of two lines is not alone."""
    plan = LEG.format("1 wood-screws #10 x 4 in") + "  leg to rail: 1 wood-screws #10 x 5 in\n"
    assert [one.values["alone"] for one in rows(plan, "grain_hold")] == [False, False]


def test_a_screw_across_the_grain_elsewhere_counts_for_the_pair() -> None:
    """Pockets in the rail go into the upright leg across its grain: 90 deg is the better of the two."""
    plan = LEG.format(SCREWS) + "  rail to leg: 1 pocket-screws #8 x 2 1/2 in from back\n"
    found = rows(plan, "grain_hold")
    assert [one.values["grain_angle"] for one in found] == pytest.approx([0.0, 90.0], abs=1e-4)
    assert all(one.values["best_grain_angle"] == pytest.approx(90.0, abs=1e-4) for one in found)


HUNG = """\
plan "Hung shelf"
  wood pine
parts
  beam:   1 of 2x4 @ 36
  hanger: 2 of 1 1/2 x 1 1/2 @ 12
  post:   2 of 1 1/2 x 1 1/2 @ 30
place
  post as post-l, post-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about 18
  beam: runs left-right, face top, left at 0, front at 0, bottom at top of post-l
  hanger as hanger-l, hanger-r: runs up, left at 10, front at 0, top at bottom of beam,
    mirrored left-right about 18
step
  beam to hanger: 2 wood-screws #8 x 2 1/2 in
  beam to post: 2 wood-screws #8 x 2 1/2 in
"""


def test_only_what_nothing_stands_under_hangs() -> None:
    """A post under the same beam carries it; taking that for hanging would alarm on every frame."""
    found = by_part(HUNG, "grain_hold")
    assert {name: one.values["hangs"] for name, one in found.items()} == {
        "hanger-l": True,
        "hanger-r": True,
        "post-l": False,
        "post-r": False,
    }


def test_a_cleat_on_the_post_bears_the_rail_and_a_foot_under_the_post_does_not() -> None:
    cleat = """\
plan "Cleat"
  wood pine
parts
  post:  1 of 2x4 @ 16
  rail:  1 of 2x4 @ 24
  block: 1 of 1 1/2 x 1 1/2 @ 3 1/2
place
  post: runs up, face left, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of post, front at 1, bottom at 6
  block: runs front-back, face left, {}, front at 0, top at {}
step
  post to rail: 2 wood-screws #10 x 3 in
"""
    under_rail = cleat.format("left at right of post", "bottom of rail")
    under_post = cleat.format("left at left of post", "bottom of post")
    assert row(under_rail, "grain_hold").values["borne"] is True
    assert row(under_post, "grain_hold").values["borne"] is False


def test_unplaced_parts_are_a_gap_and_never_a_pass() -> None:
    plan = """\
plan "Two"
parts
  a: 2 of 2x4 @ 20
step
  a to a: 2 wood-screws #8 x 2 in and glue
"""
    for table in ("grain_hold", "glued_pair", "turning_part"):
        assert gaps(plan, table) == [("nothing is placed", "a place section: where each part goes")]


def test_glue_on_the_end_of_a_rail_meets_end_grain() -> None:
    found = row(LEG.format("glue"), "glued_pair")
    assert found.values["alone"] is True
    assert found.values["end_angle"] == pytest.approx(0.0, abs=1e-4)
    assert (found.values["part"], found.values["other"]) == ("rail", "leg")


@pytest.mark.parametrize(
    "more", [" and 2 dowels 3/8 x 2 in", " and 1 wood-screws #10 x 4 in", " and housed 1/4 deep"]
)
def test_glue_with_anything_that_holds_is_not_alone(more: str) -> None:
    assert row(LEG.format("glue" + more), "glued_pair").values["alone"] is False


def test_boards_edge_to_edge_meet_long_grain() -> None:
    plan = """\
plan "Edge joint"
  wood pine
parts
  board: 2 of 1x6 @ 24
place
  board as near: runs left-right, face top, left at 0, front at 0, bottom at 0
  board as far: runs left-right, face top, left at 0, front at back of near, bottom at 0
step
  near to far: glue
"""
    assert row(plan, "glued_pair").values["end_angle"] == pytest.approx(90.0, abs=1e-4)


@pytest.mark.parametrize("other", [("1/4 x 3/4", False), ("3/4 x 2 1/2", False), ("3/4 x 11 1/4", True)])
def test_a_lipping_is_not_a_wider_part_on_the_end_of_a_sheet(other: tuple[str, bool]) -> None:
    """Lippings and face frames are glued to plywood everywhere; a shelf's end glued to a side breaks off."""
    size, is_end = other
    plan = f"""\
plan "Sheet"
  wood pine
parts
  sheet: 1 of 3/4 x 11 1/4 @ 24 birch-plywood
  edge:  1 of {size} @ 11 1/4
place
  sheet: runs left-right, face top, left at 0, front at 0, bottom at 0
  edge: runs front-back, face left, left at right of sheet, front at 0, bottom at 0
step
  edge to sheet: glue
"""
    assert row(plan, "glued_pair").values["sheet_end"] is is_end
