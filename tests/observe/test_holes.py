"""Holes and end grain that somebody sees, beside views that are plain to the eye or worked by hand."""

from __future__ import annotations

from math import atan, degrees

import pytest

from planlint.observe.onlooker import Onlooker, spot
from planlint.trade.eyes import pocket_mouth, standing
from tests.build.joinery.workshop import INCH, board
from tests.observe.hand_worked import gaps, inches, known, row, rows

RAIL = """
plan "Rail between legs"
  units in
  piece {piece}
  setting indoors
  wood douglas-fir
{seen}parts
  leg:  2 of 4x4 @ 16
  rail: 1 of 1x4 @ 33
place
  leg as leg-l, leg-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about 20
  rail: runs left-right, face front, between leg-l and leg-r, middle front-back at middle front-back of leg-l,
    top at top of leg-l
step
  rail to leg: 2 pocket-screws #8 x 1 1/4 in from {side}
"""


def rail(side: str, seen: str = "  seen front, left, right, top\n", piece: str = "table") -> str:
    return RAIL.format(side=side, seen=seen, piece=piece)


def seen_in(found_in: str) -> tuple[object, object]:
    found = rows(found_in, "hole")[0]
    return found.values["share"], found.values["face"]


def test_the_eye_is_where_the_rule_book_has_it() -> None:
    """64 in high at 60 in looks down atan((64 - 15) / 60) = 39 deg to 15 in, and 30 deg to either hand."""
    eyes = standing()
    assert degrees(atan((eyes.height - 15 * INCH) / eyes.away)) == pytest.approx(39, abs=0.5)
    assert sorted(eyes.aside) == [-30, 0, 30]
    assert pocket_mouth()[0] / INCH == pytest.approx(0.375 / 0.2588, abs=1e-3)


def test_a_pocket_on_the_front_is_seen_and_one_on_the_back_is_not() -> None:
    assert seen_in(rail("front")) == (1.0, "front")
    assert seen_in(rail("back")) == (0.0, "back")


def test_without_seen_the_back_counts_but_for_what_stands_at_a_wall() -> None:
    table, shelf = rail("back", seen=""), rail("back", seen="", piece="shelf")
    assert seen_in(table)[0] == 1.0
    assert rows(table, "hole")[0].values["sides_stated"] is False
    assert rows(table, "hole")[0].values["share_but_back"] == 0.0
    assert seen_in(shelf)[0] == 0.0


def test_the_other_face_hides_it_and_works() -> None:
    """1 1/4 in screws in 3/4 in stock: p 0.575, its tip 0.555 in the leg; half way in, the sides are further."""
    found = rows(rail("front"), "hole")[0]
    assert found.values["other_face"] in ("back", "outside", "inside")
    assert found.values["other_share"] == 0.0
    assert inches(found, "other_cover") == pytest.approx(0.555, abs=1e-3)
    assert "side" in found.spans


def test_nothing_else_is_offered_where_nobody_sees_it() -> None:
    assert not known(rows(rail("back"), "hole")[0], "other_face")


def test_counterbores_count_until_they_are_plugged() -> None:
    text = """
plan "Seat"
  units in
  seen front, top
parts
  rail: 1 of 2x4 @ 12
  seat: 1 of 2x12 @ 24
place
  rail: runs front-back, face left, left at 2, front at 0, bottom at 0
  seat: runs left-right, face top, left at 0, front at 3/8, bottom at top of rail
step
  seat to rail: 2 wood-screws #10 x 2 1/2 in counterbored 1/2 x 1/2 in, at 4 from each end
"""
    found = row(text, "hole")
    assert (found.values["share"], found.values["face"], found.values["upward"]) == (1.0, "top", True)
    assert found.values["pocket"] is False
    assert rows(text.replace("1/2 in, at", "1/2 in plugged, at"), "hole") == []


def test_plain_heads_are_no_holes() -> None:
    text = rail("front").replace("2 pocket-screws #8 x 1 1/4 in from front", "2 dowels 3/8 x 2 in")
    assert rows(text, "hole") == []


def test_pockets_without_a_place_are_said() -> None:
    text = rail("front").partition("place\n")[0] + "step\n  rail to leg: 2 pocket-screws #8 x 1 1/4 in\n"
    assert gaps(text, "hole") == [("nothing is placed", "a place section")]


# --- sight lines ------------------------------------------------------------------------------------

HOLE = spot(
    (0.0, 0.0, 381.0), (0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 30.0, 30.0
)  # looks forward


def share(*boards: object) -> float:
    own = board("own", (-10, 0, 13), (10, 1, 17))
    return Onlooker([own, *boards], ["front"]).shares(HOLE)["front"]  # type: ignore[list-item]


def test_a_spot_with_nothing_before_it_is_seen_whole() -> None:
    assert share() == 1.0


def test_a_board_before_it_does_not_hide_it_from_above() -> None:
    """A board 10 in before it, as high as the hole's middle and 4 in more: straight on it hides; who stands looks
    down 39 deg and sees over it, since the line is 10 x tan 39 = 8 in up there."""
    assert share(board("front", (-40, -11, 0), (40, -10, 19), face="y")) == 1.0


def test_a_higher_board_hides_it() -> None:
    """Up to 10 in above the hole, 10 in before it: more than 8 in."""
    assert share(board("front", (-60, -11, 0), (60, -10, 25), face="y")) == 0.0


def test_boards_half_before_it_hide_a_part() -> None:
    """Its points lie at -10, 0 and 10 mm across. A board from 0.25 mm on hides the last three straight on, and none
    from the open side. With another up to -12.7 mm a slit is left: six of nine, from everywhere."""
    near = board("front", (0.01, -2, 0), (60, -1, 60), face="y")
    assert share(near) == 1.0
    assert share(near, board("other", (-60, -2, 0), (-0.5, -1, 60), face="y")) == pytest.approx(6 / 9)


def test_what_looks_to_an_unseen_side_is_not_asked_for() -> None:
    """A back that `seen right` does not name: who stands on the right sees it aslant, and the plan says it may."""
    back = spot((0.0, 25.4, 381.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 30.0, 30.0)
    own = board("own", (-10, 0, 13), (10, 1, 17))
    assert Onlooker([own], ["left", "right", "front"]).shares(back) == {
        "left": 0.0,
        "right": 0.0,
        "front": 0.0,
    }
    assert Onlooker([own], ["back"]).shares(back) == {"back": 1.0}


def test_a_person_sees_what_looks_up() -> None:
    """Also where the top is not named among the seen sides."""
    up = spot((0.0, 12.7, 17 * INCH), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 10.0, 10.0)
    own = board("own", (-10, 0, 13), (10, 1, 17))
    assert Onlooker([own], ["front"]).shares(up) == {"front": 1.0}


# --- end grain ---------------------------------------------------------------------------------------

CASE = """
plan "Case"
  units in
  piece {piece}
  setting {setting}
  wood eastern-white-pine
  seen front, left, right, top
buy
  {buy}
parts
  side:   2 of 1x12 @ 30
  runner: 2 of 1x2 @ 11 1/4
  shelf:  1 of 1x12 @ 31 1/2
place
  side as side-l, side-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 16 1/2
  shelf: runs left-right, face top, between side-l and side-r, front at 0, bottom at 20
  runner as runner-l, runner-r: runs front-back, face left, left at right of side-l, front at {front},
    top at 16, mirrored left-right about 16 1/2
step
  side to shelf: 3 wood-screws #8 x 2 in counterbored 3/8 x 1/4 in plugged
"""


def end_grain(
    piece: str = "cabinet", setting: str = "indoors", buy: str = "1 glue", front: str = "0"
) -> list[object]:
    found = rows(CASE.format(piece=piece, setting=setting, buy=buy, front=front), "end_grain")
    return [(one.values["part"], one.values["plug"], one.values["share"]) for one in found]


def test_the_ends_of_parts_at_the_front_of_a_case() -> None:
    """The runners' ends; the sides run up and the shelf across, their ends do not look forward."""
    assert end_grain() == [("runner-l", False, 1.0), ("runner-r", False, 1.0)]


def test_a_table_has_no_such_front_and_outdoors_nobody_minds() -> None:
    assert end_grain(piece="table") == []
    assert end_grain(setting="outdoors", buy="1 of dowel-rod 3/8 in @ 36 oak") == []


def test_plugs_from_a_rod_of_their_size_show_end_grain() -> None:
    """A plug cutter's plugs do not, and a rod of another size is for something else."""
    assert end_grain(piece="table", buy="1 of dowel-rod 3/8 in @ 36 oak") == [
        ("side-l", True, 1.0), ("side-r", True, 1.0),
    ]  # fmt: skip
    assert end_grain(piece="table", buy="1 of dowel-rod 1/2 in @ 36 oak") == []
