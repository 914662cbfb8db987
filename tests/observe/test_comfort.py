"""Seats, backs, tops: what is measured of them."""

from __future__ import annotations

import pytest

from planlint.observe.facts import Missing
from tests.observe.hand_worked import inches, row, rows

CHAIR = """\
plan "Chair"
  units in
  piece chair
  wood red-oak
{heading}
parts
  leg: 4 of 1 1/2 x 1 1/2 @ 16 1/4
  slat: 5 of 3/4 x 3 @ 20
  rest: 1 of 3/4 x 5 @ 17
  arm: 2 of 3/4 x 3 @ 18
place
  leg as a: runs up, left at 0, front at 0, bottom at 0
  leg as b: runs up, left at 18 1/2, front at 0, bottom at 0
  leg as c: runs up, left at 0, front at 18, bottom at 0
  leg as d: runs up, left at 18 1/2, front at 18, bottom at 0
  slat as seat: row of 5 front-back from 0 to 18, runs left-right, face top, left at 0, bottom at 16 1/4
  rest: runs left-right, face front, left at 1 1/2, front at {front}, bottom at 24, leans {lean} toward back
  arm as arm-l: runs front-back, face top, left at -1, front at 0, bottom at 24
  arm as arm-r: runs front-back, face top, right at 21, front at 0, bottom at 24
"""


def chair(front: float = 18, lean: float = 0, heading: str = "") -> str:
    return CHAIR.format(front=front, lean=lean, heading=heading)


def test_a_seat_is_as_deep_as_from_its_front_to_the_back() -> None:
    found = row(chair(), "seat")
    assert inches(found, "height") == 17.0
    assert inches(found, "depth") == 18.0
    assert found.values["back_angle"] == pytest.approx(90)
    assert found.values["back"] == "rest"  # and not an arm, nor its post


def test_a_leaning_back_is_followed_down_to_the_seat() -> None:
    """Its foot stands at 18 when 24 high, 7 in above the seat: 18 - 7 tan 12 = 16.51."""
    found = row(chair(lean=12), "seat")
    assert found.values["back_angle"] == pytest.approx(102)
    assert inches(found, "depth") == pytest.approx(18 - 7 * 0.21256, abs=0.02)


def test_a_bench_without_a_back_is_measured_from_edge_to_edge() -> None:
    text = chair().replace("  rest: runs", "  -- rest: runs")
    found = row(text, "seat")
    assert found.values["has_back"] is False
    assert inches(found, "depth") == 18.0
    assert isinstance(found.values["back_angle"], Missing)


def test_the_users_are_told() -> None:
    assert row(chair(heading="  users children"), "seat").values["children"] is True
    assert row(chair(heading="  users accessible"), "seat").values["accessible"] is True


TABLE = """\
plan "Table"
  units in
  piece {kind}
  wood red-oak
parts
  leg: 4 of 2 x 2 @ 28
  apron: 2 of 3/4 x 3 1/2 @ 56
  end-apron: 2 of 3/4 x 6 @ 26
  stretcher: 1 of 3/4 x 3 @ 56
  top: 1 of 1 x 30 @ 60
place
  leg as a: runs up, left at 0, front at 0, bottom at 0
  leg as b: runs up, left at 58, front at 0, bottom at 0
  leg as c: runs up, left at 0, front at 28, bottom at 0
  leg as d: runs up, left at 58, front at 28, bottom at 0
  apron as front-apron: runs left-right, face front, left at 2, front at 1, top at 28
  apron as back-apron: runs left-right, face front, left at 2, front at 28, top at {back}
  end-apron as left-apron: runs front-back, face left, left at 1, front at 2, top at 28
  end-apron as right-apron: runs front-back, face left, left at 58, front at 2, top at 28
  stretcher: runs left-right, face front, left at 2, front at 2, bottom at 6
  top: runs left-right, face top, left at 0, front at 0, bottom at 28
"""


def test_knees_meet_the_apron_of_the_long_side_but_no_stretcher() -> None:
    found = row(TABLE.format(kind="table", back=28), "table_top")
    assert inches(found, "height") == 29.0
    assert inches(found, "knees") == 24.5
    assert found.values["lowest"] == "front-apron"


def test_at_a_desk_the_front_counts_and_at_a_table_the_roomier_side() -> None:
    assert inches(row(TABLE.format(kind="table", back=26), "table_top"), "knees") == 24.5
    assert inches(row(TABLE.format(kind="desk", back=26), "table_top"), "knees") == 24.5


def test_nobody_sits_at_a_coffee_table_and_a_shelf_has_no_top() -> None:
    found = row(TABLE.format(kind="coffee-table", back=28), "table_top")
    assert isinstance(found.values["knees"], Missing)
    assert rows(TABLE.format(kind="shelf", back=28), "table_top") == []
