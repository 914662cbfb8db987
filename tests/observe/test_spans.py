"""Parts that carry: hand-worked plans, sums in inches and pounds beside each."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.observe.facts import Missing, Row
from tests.observe.hand_worked import gaps, inches, rows

POUND = 0.45359237


def pounds(row: Row, column: str) -> float:
    value = row.values[column]
    assert isinstance(value, float), value
    return value / POUND


def plank(
    length: str = "36 3/4", stock: str = "3/4 x 11 1/4", load: str = "57.4219 lb spread", **more: str
) -> str:
    """A board on two blocks 3/4 in thick, flush with its ends: its span is its length less 3/4."""
    return f"""\
plan "Plank"
  units in
  wood {more.get("wood", "eastern-white-pine")}
{more.get("heading", "")}
parts
  block: 2 of 3/4 x 11 1/4 @ 4
  plank: 1 of {stock} @ {length} {more.get("entry", "")}
place
  block as block-l: runs up, face left, left at 0, front at 0, bottom at 0
  block as block-r: runs up, face left, right at {length}, front at 0, bottom at 0
  plank: runs left-right, face {more.get("face", "top")}, left at 0, front at 0, bottom at 4
load
  plank: {load}
"""


def worst(text: str) -> Row:
    """The row that sags most."""

    def sag(row: Row) -> float:
        value = row.values["sag"]
        assert isinstance(value, float)
        return value

    return max(rows(text, "span"), key=sag)


def test_a_shelf_under_twenty_pounds_a_square_foot() -> None:
    """20 x 36 x 11.25 / 144 = 56.25 lb; 5 x 56.25 x 36^3 / (384 x 1.24e6 x 11.25 x .75^3 / 12) = 0.0697."""
    row = worst(plank())
    assert inches(row, "span") == 36.0
    assert pounds(row, "carries") == pytest.approx(56.25, abs=0.01)
    assert inches(row, "sag") == pytest.approx(0.0697, abs=1e-4)


def test_a_load_in_the_middle_of_a_slat() -> None:
    """125 x 20^3 / (48 x 1.11e6 x 3.5 x .75^3 / 12) = 0.1525; it breaks at 125 x 7500 / 1905 = 492 lb."""
    row = worst(plank("20 3/4", "3/4 x 3 1/2", "125 lb at middle", wood="western-redcedar"))
    assert inches(row, "sag") == pytest.approx(0.1525, abs=1e-4)
    assert pounds(row, "breaks_at") == pytest.approx(125 * 7500 / 1904.76, rel=1e-4)


def test_a_force_is_a_load_too() -> None:
    kilograms = worst(plank(load="25 kg spread"))
    newtons = worst(plank(load="245.16625 N spread"))
    assert inches(newtons, "sag") == inches(kilograms, "sag")


def test_a_board_on_edge_bends_over_its_width() -> None:
    """15 times as deep: 15^2 times as stiff, for the same wood."""
    flat = worst(plank(load="125 lb at middle", stock="3/4 x 11 1/4"))
    edge = worst(plank(load="125 lb at middle", stock="3/4 x 11 1/4", face="front"))
    assert inches(edge, "depth") == 11.25
    sags = [row.values["sag"] for row in (flat, edge)]
    assert sags[0] == pytest.approx(225 * sags[1])  # type: ignore[operator]


def test_across_the_grain_it_is_a_tenth_as_stiff() -> None:
    along, across = worst(plank()), worst(plank(entry=", grain across"))
    assert across.values["sag"] == pytest.approx(10 * along.values["sag"])  # type: ignore[operator]


SLATS = """\
plan "Bench"
  units in
  wood western-redcedar
parts
  rail: 2 of 1 1/2 x 3 1/2 @ 15 1/2
  slat: 4 of 3/4 x 3 1/2 @ {length}
place
  rail as rail-l: runs front-back, face left, left at {inset}, front at 0, bottom at 0
  rail as rail-r: runs front-back, face left, right at {right}, front at 0, bottom at 0
  slat: row of 4 front-back from 0 to 15 1/2, runs left-right, face top, left at 0, bottom at 3 1/2
cover
  seat: slat from 0 to 15 1/2, gap 1/8 to 3/4 in
load
  seat: {load}
"""


def test_a_person_is_shared_by_the_slats_under_the_square() -> None:
    """250 lb / 4 slats = 62.5 lb over 16 of 20 in: 62.5 x (8 x 20^3 - 4 x 20 x 16^2 + 16^3) / (384 E I) = 0.0567."""
    text = SLATS.format(length=22.25, inset=0, right=22.25, load="1 person")
    row = worst(text)
    assert inches(row, "span") == 20.0
    assert pounds(row, "carries") == pytest.approx(62.5)
    assert inches(row, "sag") == pytest.approx(0.0567, abs=1e-4)


def test_only_as_many_sit_side_by_side_as_have_room() -> None:
    """Of three people two have room in a span of 34 in: half of them on each of two supports, a quarter a slat."""
    text = SLATS.format(length=38, inset=0, right=38, load="3 people")
    found = {row.values["people"]: pounds(row, "carries") for row in rows(text, "span")}
    # the three together reach over the whole slat, 38 in of 48
    assert found == {3.0: pytest.approx(3 * 62.5 * 35.75 / 38, rel=1e-3)}


def test_who_sits_beyond_the_last_support_bends_what_stands_out() -> None:
    """Rails 16 in in: the whole of a person sits out, 62.5 lb at 8 in; 62.5 x 8 / S = 1524 psi, it breaks at 307 lb."""
    text = SLATS.format(length=60, inset=16, right=44, load="1 person")
    row = next(row for row in rows(text, "span") if row.values["stands_out"])
    assert inches(row, "reach") == 16.0
    assert inches(row, "span") == 32.0
    assert pounds(row, "carries") == pytest.approx(62.5)
    assert pounds(row, "breaks_at") == pytest.approx(62.5 * 7500 * (3.5 * 0.75**2 / 6) / (62.5 * 8), rel=1e-3)


def test_a_rail_carries_what_lies_on_it_by_the_lever_rule() -> None:
    """A slat lies 12 and 24 in from two rails: 100 lb in the middle of a board over both."""
    text = """\
plan "Rack"
  units in
  wood douglas-fir
parts
  post: 4 of 3 1/2 x 3 1/2 @ 12
  rail: 2 of 1 1/2 x 3 1/2 @ 30
  board: 1 of 1 1/2 x 5 1/2 @ 30
place
  post as a: runs up, left at 0, front at 0, bottom at 0
  post as b: runs up, left at 26 1/2, front at 0, bottom at 0
  post as c: runs up, left at 0, front at 20, bottom at 0
  post as d: runs up, left at 26 1/2, front at 20, bottom at 0
  rail as rail-f: runs left-right, face front, left at 0, middle front-back at 1 3/4, bottom at 12
  rail as rail-b: runs left-right, face front, left at 0, middle front-back at 21 3/4, bottom at 12
  board: runs front-back, face top, middle left-right at 15, front at 0, bottom at 15 1/2
load
  board: 100 lb at middle
"""
    found = {row.values["part"]: row for row in rows(text, "span")}
    # the middle of the board, at 15, is 13.25 of the 20 in from rail to rail
    assert pounds(found["rail-b"], "carries") == pytest.approx(100 * 13.25 / 20)
    assert pounds(found["rail-f"], "carries") == pytest.approx(100 * 6.75 / 20)
    # between posts 23 in apart, half of each bearing counted up to its thickness: 23 + 1.5
    assert inches(found["rail-f"], "span") == 24.5
    assert {found["rail-f"].values["first"], found["rail-f"].values["second"]} == {"a", "b"}


def test_what_is_held_all_along_does_not_bend_but_passes_its_load_on() -> None:
    """A slat on a rail of its own length: the rail has the row."""
    text = """\
plan "Sill"
  units in
  wood douglas-fir
parts
  block: 2 of 3 1/2 x 3 1/2 @ 6
  rail: 1 of 1 1/2 x 3 1/2 @ 40
  slat: 1 of 3/4 x 3 1/2 @ 40
place
  block as left: runs up, left at 0, front at 0, bottom at 0
  block as right: runs up, right at 40, front at 0, bottom at 0
  rail: runs left-right, face front, left at 0, front at 1, bottom at 6
  slat: runs left-right, face top, left at 0, front at 0, bottom at top of rail
load
  slat: 80 lb spread
"""
    (row,) = rows(text, "span")
    assert row.values["part"] == "rail"
    assert pounds(row, "carries") == pytest.approx(80 * 34.5 / 40)


def test_what_only_hangs_under_a_board_does_not_hold_it() -> None:
    """A batten screwed to the middle of a shelf from below is no support."""
    batten = """\
parts
  batten: 1 of 3/4 x 2 @ 11 1/4
place
  batten: runs front-back, face top, left at 18, front at 0, top at 4
step
  batten to plank: 2 wood-screws #8 x 1 1/4 in
"""
    assert [inches(row, "span") for row in rows(plank() + batten, "span")] == [36.0]


def test_a_post_carries_and_does_not_bend() -> None:
    text = plank().replace("  plank: 57.4219 lb spread", "  block: 100 lb")
    assert rows(text, "span") == []


def test_nothing_is_judged_without_a_load_and_the_plan_is_told_so() -> None:
    text = plank().partition("load\n")[0]
    assert rows(text, "span") == []
    assert [reason for reason, _ in gaps(text, "span")] == ["the plan states no load"]


@pytest.mark.parametrize(
    ("more", "reason"),
    [
        ({"wood": "scots-pine"}, "no table gives the stiffness of scots-pine"),
        ({"wood": "moonwood"}, "the wood of plank is not known"),
        ({"entry": ", shaped"}, "plank is shaped, and its narrowest place is not known"),
    ],
)
def test_what_is_not_known_is_said(more: dict[str, str], reason: str) -> None:
    (row,) = rows(plank(**more), "span")
    sag = row.values["sag"]
    assert isinstance(sag, Missing)
    assert sag.reason == reason


@settings(max_examples=30, deadline=None)
@given(st.integers(8, 60), st.integers(1, 400))
def test_a_shelf_sags_with_its_load_and_by_the_cube_of_its_span(inch: int, load: int) -> None:
    row = worst(plank(f"{inch}.75", load=f"{load} lb spread"))
    carried, span = pounds(row, "carries"), inches(row, "span")
    assert carried == pytest.approx(load * inch / (inch + 0.75))
    assert row.values["sag"] == pytest.approx(
        25.4 * 5 * carried * span**3 / (384 * 1.24e6 * 11.25 * 0.75**3 / 12), rel=1e-6
    )


def test_a_board_that_nothing_holds_up_is_said_to_be_so() -> None:
    """Silence would pass for soundness."""
    text = plank().replace("bottom at 4", "bottom at 5")
    assert rows(text, "span") == []
    assert [reason for reason, _ in gaps(text, "span")] == ["nothing that stands holds plank up"]


def test_a_board_held_at_one_place_stands_out_from_it() -> None:
    """A top on one post: 10 lb a foot on 18 in either side of a post 4 in wide."""
    text = """\
plan "Stand"
  units in
  wood red-oak
parts
  post: 1 of 4 x 4 @ 30
  top: 1 of 1 x 12 @ 40
place
  post: runs up, left at 18, front at 4, bottom at 0
  top: runs left-right, face top, left at 0, front at 0, bottom at 30
load
  top: 40 lb spread
"""
    (row,) = rows(text, "span")
    assert row.values["stands_out"] is True
    assert inches(row, "reach") == 18.0
    assert pounds(row, "carries") == pytest.approx(18.0)


def test_on_a_wall_the_lowest_part_does_not_stand_on_the_floor() -> None:
    """An upper shelf on its own cleat at the wall would be said to hang on nothing, the lower to stand."""
    text = """\
plan "Two shelves"
  units mm
  piece shelf
  wood spruce-pine-fir
  fixed to wall
parts
  shelf: 2 of 18 x 200 @ 800
  cleat: 2 of 18 x 45 @ 800
place in level
  cleat: runs left-right, face front, left at 0, back at 200, bottom at 0
  shelf: runs left-right, face top, left at 0, back at 200, bottom at top of cleat
place
  level as low: left at 0, back at 200, bottom at 900
  level as high: left at 0, back at 200, bottom at 1300
step in level
  shelf to cleat: 4 wood-screws 4 x 50
load
  shelf: 30 kg spread
"""
    assert gaps(text, "span") == []
    assert not any(row.values["on_floor"] for row in rows(text, "held_part"))
    assert rows(text, "foot") == []
    stands = text.replace("bottom at 900", "bottom at 0")
    assert [reason for reason, _ in gaps(stands, "span")] == ["nothing that stands holds shelf of high up"]


def test_a_wall_piece_of_which_nothing_is_placed_is_observed_all_the_same() -> None:
    """What is furthest back of no parts at all must not end in a traceback."""
    text = plank(heading="  fixed to wall")
    text = (
        text[: text.index("place")]
        + "step\n  plank to block: 2 wood-screws #8 x 2 in\n"
        + text[text.index("load\n") :]
    )
    assert rows(text, "foot") == []
