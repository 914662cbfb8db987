# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Stated dimensions, end angles and covers beside what was built."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.piece import Piece
from tests.build.placing import INCH, place, troubles

CHAIR = """parts
  post: 2 of 2x4 @ 36
  rail: 1 of 2x4 @ 21
  leg: 2 of 2x4 @ 17
place in back
  post as post-l, post-r: runs up, face left, left at 0, front at 0, bottom at 0, ends cut level, mirrored left-right about 12
place
  back: left at 0, front of post-l at 17, bottom of post-l at 0, leans {lean} toward back
  leg as leg-l, leg-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 12
  rail: runs left-right, face front, between leg-l and leg-r, front at front of leg-l, top at top of leg-l
dimensions
"""


def built(piece: Piece) -> float:
    (one,) = piece.measured
    assert one.built is not None, one.reason
    return one.built / INCH if one.dimension == "length" else one.built


@given(st.integers(0, 30))
@settings(max_examples=10)
def test_a_leaning_backs_distance_is_taken_where_the_drawing_says(lean: int) -> None:
    """Its front edge is at 17 on the floor and goes back by the height times tan A."""
    text, a = CHAIR.format(lean=lean), math.radians(lean)
    height = 36 * math.cos(a) - 3.5 * math.sin(a)
    for at, expected in (
        ("at bottom", 17.0),
        ("at top", 17 + height * math.tan(a)),
        ("at 20 up", 17 + 20 * math.tan(a)),
    ):
        assert built(place(text + f"  front of rail to front of post-l {at} = 17\n")) == pytest.approx(
            expected
        )


def test_without_a_height_it_is_the_outermost_point() -> None:
    piece = place(CHAIR.format(lean=12) + "  front of rail to back of post-l = 20\n")
    a = math.radians(12)
    assert built(piece) == pytest.approx(
        17 + 3.5 / math.cos(a) + (36 * math.cos(a) - 3.5 * math.sin(a)) * math.tan(a), abs=1e-6
    )


def test_a_distance_has_no_sign_and_may_carry_an_offset() -> None:
    text = CHAIR.format(lean=0)
    assert built(place(text + "  back of leg-l to front of leg-l = 3 1/2\n")) == pytest.approx(3.5)
    assert built(place(text + "  front of leg-l + 1 to back of leg-l = 2 1/2\n")) == pytest.approx(2.5)
    assert built(place(text + "  floor to top of rail = 17\n")) == pytest.approx(17)
    assert built(
        place(text + "  middle left-right of leg-l to middle left-right of leg-r = 22 1/2\n")
    ) == pytest.approx(22.5)


def test_sides_of_two_directions_have_no_distance() -> None:
    (one,) = place(CHAIR.format(lean=0) + "  front of leg-l to top of rail = 5\n").measured
    assert one.built is None and one.reason == "its two ends are sides of different directions"


def test_the_width_of_a_tapered_foot_is_measured_at_the_foot() -> None:
    text = "parts\n  leg: 1 of 2x2 @ 28\nplace\n  leg: runs up, left at 0, front at 0, bottom at 0,\n"
    text += "    right tapered 1/2 at bottom from 4 below top\ndimensions\n  left of leg to right of leg at bottom = 1\n"
    assert built(place(text)) == pytest.approx(1.0)


def test_overall_is_the_box_round_everything_leaning_parts_too() -> None:
    piece = place(CHAIR.format(lean=12) + "  overall: 24 x 28 x 34 1/2\n")
    a = math.radians(12)
    height = 36 * math.cos(a) - 3.5 * math.sin(a)
    values = [one.built / INCH for one in piece.measured if one.built is not None]
    assert values == pytest.approx([24, 17 + 3.5 / math.cos(a) + height * math.tan(a), height], abs=1e-6)
    assert [one.label for one in piece.measured] == ["overall left-right", "overall front-back", "overall up"]


def test_overall_is_not_measured_while_a_part_has_no_place() -> None:
    text = (
        CHAIR.format(lean=0).replace(", top at top of leg-l", "")
        + "  overall: 24 x 28 x 36\n  top of rail to floor = 17\n"
    )
    piece = place(text)
    assert all(one.built is None for one in piece.measured)
    assert piece.measured[0].reason == "rail has no place" and "rail" in piece.measured[3].reason


def test_an_unplaced_plan_measures_nothing_and_says_so() -> None:
    piece = place("parts\n  leg: 1 of 4x4 @ 9\ndimensions\n  overall: 1 x 2 x 3\n")
    assert {one.reason for one in piece.measured} == {"the plan places nothing"} and not piece.troubles


ANGLES = """parts
  a: 1 of 2x4 @ 20
place
  a: {how}, left at 0, front at 0, bottom at 0
dimensions
  {asked} of a = 10
"""


@pytest.mark.parametrize(
    ("how", "asked", "angle"),
    [
        ("runs up, face left, leans 14 toward back", "leans", 14),
        ("runs up, face left, leans 14 toward back", "rises", 76),
        ("runs front-back, face left, rises 35 toward back", "rises", 35),
        ("runs front-back, face left, rises 35 toward back, turns 20 toward left", "turns", 20),
        ("runs front-back, face left, rises 35 toward back, turns 20 toward left", "rises", 35),
        ("runs left-right, face top, turns 70 toward back", "turns", 70),
        (
            "runs left-right, face front, leans 12 toward back",
            "leans",
            12,
        ),  # a back slat, tipped about its length
        ("runs left-right, face top, rises 5 toward front", "rises", 5),  # a seat slat
        ("runs left-right, face front", "leans", 0),
        ("runs up, face front", "turns", 0),
    ],
)
def test_angles_are_measured_as_the_clause_says_them(how: str, asked: str, angle: float) -> None:
    assert built(place(ANGLES.format(how=how, asked=asked))) == pytest.approx(angle, abs=1e-6)


def test_one_angle_cannot_measure_two_leans() -> None:
    piece = place(
        ANGLES.format(how="runs up, face left, leans 10 toward back, leans 5 toward left", asked="leans")
    )
    assert piece.measured[0].built is None and "two ways" in piece.measured[0].reason


def test_a_sub_assemblys_angle_is_its_own() -> None:
    assert built(place(CHAIR.format(lean=12) + "  leans of back = 12\n")) == pytest.approx(12)
    assert built(place(CHAIR.format(lean=12) + "  leans of post-l = 12\n")) == pytest.approx(12)


def test_end_angles_are_off_square_in_the_order_of_the_length() -> None:
    text = "parts\n  a: 1 of 2x4 @ 20, ends mitred 35 and 55\nplace\n  a: runs up, face left, left at 0, front at 0, bottom at 0,\n"
    text += "    bottom cut 35 long at back, top cut 54 long at front\n"
    (ends,) = place(text).end_angles
    assert ends.stated == (35, 55) and ends.built == pytest.approx((35, 54))


def test_a_square_end_has_no_angle() -> None:
    text = "parts\n  a: 1 of 2x4 @ 20, ends mitred 35 parallel\nplace\n  a: runs up, face left, left at 0, front at 0, bottom at 0\n"
    assert place(text).end_angles[0].built == (0, 0)


COVER = """parts
  rail: 2 of 2x4 @ 20
  slat: 4 of 1x4 @ 20
place
  rail as front-rail, back-rail: runs left-right, face front, left at 0, front at 0, bottom at 0, mirrored front-back about 8
  slat: row of 4 front-back gap 1/2, runs left-right, face top, left at 0, {front}bottom at top of rail
cover
  seat: slat from front of front-rail to back of back-rail, gap 1/8 to 3/4 in
"""


def test_a_cover_has_its_slats_in_order_and_the_span() -> None:
    (row,) = place(COVER.format(front="back at 16, ")).covers
    assert [part.name for part in row.slats] == ["slat.1", "slat.2", "slat.3", "slat.4"]
    assert (row.direction, row.start, row.end) == ("front-back", 0, pytest.approx(16 * INCH))


def test_a_cover_with_a_lost_slat_is_left_out() -> None:
    piece = place(COVER.format(front=""))
    assert (
        not piece.covers
        and "slat.1" in piece.unplaced_names
        and len(troubles(piece, "position-missing")) == 1
    )


def test_names_in_loads_accepts_and_benches_are_checked_too() -> None:
    text = COVER.format(front="back at 16, ") + "load\n  seat: 2 people\n  shlat: 40 kg spread\n"
    text += 'accept\n  hole-in-view on back-rial because "it is at the wall"\nstep in bakc\n  slat to rail: glue\n'
    found = {(t.values["name"], t.values["what"]) for t in troubles(place(text), "unknown-name")}
    assert found == {("shlat", "part"), ("back-rial", "part"), ("bakc", "sub-assembly")}
