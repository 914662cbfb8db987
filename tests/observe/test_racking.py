"""What keeps a frame square, and what is too tall for its depth."""

from __future__ import annotations

from planlint.observe.facts import Row
from tests.observe.hand_worked import gaps, inches, row, rows

FRAME = """\
plan "Stand"
  units in
  piece {kind}
  wood douglas-fir
parts
  leg: 2 of 3 1/2 x 3 1/2 @ 30
  rail: 1 of 1 1/2 x 3 1/2 @ 20
  brace: 1 of 3/4 x 2 @ 20
place
  leg as leg-l: runs up, left at 0, front at 0, bottom at 0
  leg as leg-r: runs up, left at 23 1/2, front at 0, bottom at 0
  rail: runs left-right, face front, left at 3 1/2, front at 1, top at 30
{brace}
step
  rail to leg: {how}
"""


def frame(how: str = "2 wood-screws #10 x 4 in", brace: str = "", kind: str = "table") -> dict[object, Row]:
    return {
        one.values["direction"]: one for one in rows(FRAME.format(how=how, brace=brace, kind=kind), "racking")
    }


def test_a_rail_is_as_deep_as_it_is_tall_and_only_in_its_own_direction() -> None:
    found = frame()
    assert inches(found["left-right"], "joints") == 3.5
    assert found["left-right"].values["rails"] == ("rail",)
    assert set(found) == {"left-right"}  # a frame in one plane cannot fold across it


def test_one_screw_without_glue_is_a_hinge() -> None:
    assert inches(frame("1 wood-screws #10 x 4 in")["left-right"], "joints") == 0.0
    assert inches(frame("1 wood-screws #10 x 4 in and glue")["left-right"], "joints") == 3.5


def test_a_hinge_with_two_screws_is_a_hinge_too() -> None:
    assert inches(frame("2 hinges #6 x 3/4 in")["left-right"], "joints") == 0.0


def test_a_diagonal_stands_aslant_in_its_direction() -> None:
    brace = "  brace: runs left-right, face front, left at 4, back at 1, bottom at 10, rises 45 toward right"
    assert frame(brace=brace)["left-right"].values["diagonal"] is True
    assert frame()["left-right"].values["diagonal"] is False


CASE = """\
plan "Case"
  units in
  piece shelf
  wood birch-plywood
{fixed}
parts
  side: 2 of 3/4 x {depth} @ 72
  shelf: 5 of 3/4 x {depth} @ 30 1/2
  back: 1 of 1/4 x 32 @ 72
place
  side as left-side: runs up, face left, left at 0, front at 0, bottom at 0
  side as right-side: runs up, face left, right at 32, front at 0, bottom at 0
  shelf: row of 5 up from 0 to 72, runs left-right, face top, left at 3/4, front at 0
{back}
step
  shelf to side: 2 wood-screws #8 x 2 in from outside
{nails}
"""


def case(depth: str = "11 1/4", back: bool = False, fixed: str = "") -> str:
    placed = "  back: runs up, face back, left at 0, front at back of left-side, bottom at 0" if back else ""
    nailed = "  back to side: 6 brads #4 x 1 in\n  back to shelf: 4 brads #4 x 1 in" if back else ""
    return CASE.format(depth=depth, back=placed, nails=nailed, fixed=fixed)


def test_five_thin_shelves_are_not_deep() -> None:
    found = {one.values["direction"]: one for one in rows(case(), "racking")}
    assert inches(found["left-right"], "joints") == 3.75
    assert found["left-right"].values["sheet"] is False


def test_a_side_board_is_a_wall_from_front_to_back() -> None:
    """Shelves let into it hold it along its whole width; a back behind it stands further back."""
    found = {one.values["direction"]: one for one in rows(case(back=True), "racking")}
    assert inches(found["front-back"], "joints") >= 5 * 11.25


def test_a_back_nailed_all_round_is_a_sheet() -> None:
    found = {one.values["direction"]: one for one in rows(case(back=True), "racking")}
    assert found["left-right"].values["sheet"] is True


def test_a_case_stands_on_its_depth() -> None:
    found = row(case(), "standing_case")
    assert inches(found, "height") == 72.0
    assert inches(found, "depth") == 11.25
    assert found.values["fixed"] is False
    assert row(case(fixed="  fixed to wall"), "standing_case").values["fixed"] is True


def test_what_the_plan_does_not_say_is_asked_for() -> None:
    unsaid = case().replace("  piece shelf\n", "")
    for table in ("racking", "standing_case"):
        assert gaps(unsaid, table)[0][0] == "the plan does not say what kind of piece it is"
    assert rows(FRAME.format(how="glue", brace="", kind="other"), "racking") == []


def test_joints_that_do_not_meet_are_mended_first() -> None:
    text = FRAME.format(how="glue", brace="", kind="table").replace(
        "left at 3 1/2, front at 1", "left at 3 1/2, front at 5"
    )
    assert rows(text, "racking") == []
    assert gaps(text, "racking")[0][0] == "some parts that are joined do not meet"
