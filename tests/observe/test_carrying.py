"""Weight and passage of what is carried. Each test names the mistake it guards against."""

from __future__ import annotations

import pytest

from planlint.observe.facts import Missing
from tests.observe.hand_worked import gaps, row, rows

POUND = 0.45359237

BEAM = """\
plan "Beam"
  units in
  wood {wood}
parts
  beam: 1 of 4 x 11 11/16 @ {length}
place
  beam: runs left-right, face top, left at 0, front at 0, bottom at 0
"""


def weight(plan: str) -> float:
    value = row(plan, "carried_piece").values["weight"]
    assert isinstance(value, float)
    return value / POUND


@pytest.mark.parametrize(("wood", "pounds"), [("douglas-fir", 45.4), ("southern-pine treated", 58.1)])
def test_the_weight_of_2336_cubic_inches(wood: str, pounds: float) -> None:
    """2336 / 1728 x 62.43 x 0.48 x 1.12; treated, 0.51 x 1.35. 4 x 11 11/16 x 49.97."""
    assert weight(BEAM.format(wood=wood, length="49.9679")) == pytest.approx(pounds, abs=0.1)


def test_nobody_guesses_the_weight_of_a_wood_without_figures() -> None:
    value = row(BEAM.format(wood="scots-pine", length="48"), "carried_piece").values["weight"]
    assert isinstance(value, Missing)
    assert value.reason == "no table gives the weight of scots-pine"


def test_one_lifts_what_is_48_in_long_and_two_what_is_longer() -> None:
    for length, number in (("48", 1.0), ("48 1/8", 2.0)):
        found = row(BEAM.format(wood="douglas-fir", length=length), "carried_piece").values
        assert (found["lifters"], found["lifters_stated"]) == (number, False)
    stated = row(
        BEAM.format(wood="douglas-fir", length="48") + "carry\n  lift by 3\n", "carried_piece"
    ).values
    assert (stated["lifters"], stated["lifters_stated"]) == (3.0, True)


def test_a_cut_list_alone_is_weighed_by_its_pieces() -> None:
    placed = BEAM.format(wood="douglas-fir", length="48")
    listed = placed.partition("place\n")[0].replace("1 of 4", "2 of 4")
    assert weight(listed) == pytest.approx(2 * weight(placed))


def test_wood_that_two_parts_share_is_weighed_once() -> None:
    """A tenon 1 in deep lies in the other part's wood."""
    plan = """\
plan "Tenon"
  units in
  wood douglas-fir
parts
  post: 1 of 4 x 4 @ 20
  rail: 1 of 2 x 4 @ 20
place
  post: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at 3, front at 1, bottom at 8
step
  rail to post: housed 1 deep
"""
    cubic = 4 * 4 * 20 + 2 * 4 * 20 - 1 * 2 * 4
    assert weight(plan) == pytest.approx(cubic / 1728 * 62.43 * 0.48 * 1.12, abs=0.05)


TRESTLES = """\
plan "Trestles"
  units in
  wood red-oak
parts
  post: 4 of 4 1/4 x 4 1/4 @ 24
  beam: 2 of 4 1/4 x 4 1/4 @ 24
  tie:  1 of 1 1/2 x 5 @ 44
place in trestle
  post as post-f, post-b: runs up, left at 0, front at 0, bottom at 0, mirrored front-back about 12
  beam: runs front-back, left at 0, front at 0, bottom at top of post-f
place
  trestle as left-trestle, right-trestle: left at 0, front at 0, bottom at 0, mirrored left-right about 22
  tie: runs left-right, face front, left at 0, back at front of post-f of left-trestle, bottom at 10
step in trestle
  post to beam: 2 dowels 3/4 x 4 in and glue
step
  tie to post-f: {}
"""


def carried(fixing: str) -> list[object]:
    return [one.values["name"] for one in rows(TRESTLES.format(fixing), "carried_piece")]


def test_what_comes_apart_is_carried_apart() -> None:
    assert carried("2 wood-screws #12 x 3 in") == ["left-trestle", "right-trestle", "tie"]


@pytest.mark.parametrize("fixing", ["2 wood-screws #12 x 3 in and glue", "2 nails 3 in", "unsaid"])
def test_what_does_not_come_apart_is_one_piece(fixing: str) -> None:
    assert carried(fixing) == ["the whole piece"]


def test_a_door_that_only_parts_pass_names_them() -> None:
    plan = TRESTLES.format("2 wood-screws #12 x 3 in and glue") + "carry\n  doorway 26 x 27 in\n"
    (found,) = rows(plan, "opening_to_pass")
    assert found.values["passes"] is False
    assert found.values["comes_off"] == ("left-trestle", "right-trestle")


def test_without_a_doorway_nothing_is_asked() -> None:
    assert rows(TRESTLES.format("unsaid"), "opening_to_pass") == []


def test_without_places_the_doorway_cannot_be_tried() -> None:
    plan = TRESTLES.format("unsaid").partition("place in")[0] + "carry\n  doorway 30 x 78 in\n"
    assert gaps(plan, "opening_to_pass") == [("nothing is placed", "a place section: where each part goes")]


CASE = """\
plan "Case"
  units in
  wood birch-plywood
parts
  side:  2 of 3/4 x 30 @ 60
  level: 2 of 3/4 x 30 @ 32 1/2
  back:  {} of 3/4 x 60 @ 34
place
  side as left-side, right-side: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 17
  level as low, high: runs left-right, face top, between left-side and right-side, front at 0, bottom at 0,
    mirrored up about 30
  {}
carry
  doorway 30 x 78 in
"""
BACK = (
    "back as rear, face-side: runs left-right, face back, left at 0, front at 30, bottom at 0, "
    "mirrored front-back about 15"
)


def test_only_a_box_closed_on_six_sides_is_a_proof() -> None:
    closed = row(CASE.format(2, BACK), "opening_to_pass").values
    assert (closed["passes"], closed["never"]) == (False, True)
    open_front = row(
        CASE.format(
            1, BACK.replace("back as rear, face-side", "back").replace(", mirrored front-back about 15", "")
        ),
        "opening_to_pass",
    ).values
    assert (open_front["passes"], open_front["never"]) == (False, False)


def test_a_piece_that_leans_is_turned_before_it_is_called_too_big() -> None:
    """A board 40 long at 45 deg: the box round it is 29.7 square, the board itself 40 x 2."""
    plan = """\
plan "Leaning board"
  units in
  wood douglas-fir
parts
  board: 1 of 2 x 12 @ 40
place
  board: runs up, face front, left at 0, front at 0, bottom at 0, leans 45 toward back
carry
  doorway 13 x 20 in
"""
    assert row(plan, "opening_to_pass").values["passes"] is True
