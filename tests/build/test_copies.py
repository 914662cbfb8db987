# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Rows, mirror images, `as` and `like`: half a plan is never written, so these make the other half."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.rows import spread
from planlint.geometry.vector import cross, dot
from tests.build.placing import INCH, box, part, place, troubles

SLATS = "parts\n  slat: 9 of 1x4 @ 20\n  leg: 8 of 2x4 @ 10\n  rail: 4 of 2x4 @ 20\nplace\n"
SLAT = "runs left-right, face top, left at 0, bottom at 0"


def test_a_row_from_one_place_to_another_is_flush_with_both() -> None:
    piece = place(SLATS + f"  slat: row of 4 front-back from 1 to 16 1/2, {SLAT}\n")
    assert [box(piece, f"slat.{i}")[1][0] for i in (1, 2, 3, 4)] == [1, 5, 9, 13]
    assert box(piece, "slat.4")[1][1] == 16.5


def test_a_row_between_has_the_same_gap_at_its_ends() -> None:
    piece = place(
        SLATS
        + f"  leg as a: runs up, face left, left at 0, front at 0, bottom at 0\n  leg as b: like a, front at 19\n  slat: row of 3 front-back between a and b, {SLAT}\n"
    )
    # From 3 1/2 to 19 are 15 1/2; less 3 x 3 1/2 leaves 5 in four gaps of 1 1/4.
    assert [box(piece, f"slat.{i}")[1][0] for i in (1, 2, 3)] == [4.75, 9.5, 14.25]


def test_a_row_with_a_gap_is_one_block_for_the_other_clauses() -> None:
    for clause, first in (("front at 2", 2), ("back at 13 1/2", 2), ("middle front-back at 7 3/4", 2)):
        piece = place(SLATS + f"  slat: row of 3 front-back gap 1/2, {SLAT}, {clause}\n")
        assert [box(piece, f"slat.{i}")[1][0] for i in (1, 2, 3)] == [first, first + 4, first + 8], clause


def test_a_row_may_run_the_other_way() -> None:
    piece = place(SLATS + f"  slat: row of 3 front-back from 16 to 1, {SLAT}\n")
    assert [box(piece, f"slat.{i}")[1] for i in (1, 3)] == [(12.5, 16), (1, 4.5)]


@given(
    st.sampled_from(["from", "between"]),
    st.integers(1, 20),
    st.floats(1, 50),
    st.floats(-1e3, 1e3),
    st.floats(1, 1e3),
)
def test_a_row_fills_its_room_evenly_whichever_way_it_is_said(
    how: str, number: int, size: float, first: float, room: float
) -> None:
    start, pitch = spread(how, number, size, first, first + room)
    back_start, back_pitch = spread(how, number, size, first + room, first)
    if number > 1:
        assert back_pitch == pytest.approx(-pitch) and back_start == pytest.approx(
            start + (number - 1) * pitch
        )
    before, after = start - first, first + room - (start + (number - 1) * pitch + size)
    if how == "between":
        assert before == pytest.approx(after, abs=1e-6)
    elif number > 1:
        assert (before, after) == pytest.approx((0, 0), abs=1e-6)


def test_rows_are_found_by_number_and_by_name() -> None:
    piece = place(
        SLATS
        + f"  slat: row of 4 front-back from 0 to 15 1/2, {SLAT}\n  rail: runs left-right, face front, left at left of slat, front at back of slat.4, top at top of slat\n"
    )
    assert box(piece, "rail")[1][0] == 15.5 and not piece.troubles


# --- mirrors -------------------------------------------------------------------------------------------


def test_four_names_go_as_written_first_mirror_second_mirror_both() -> None:
    piece = place(
        SLATS
        + "  leg as a, b, c, d: runs up, face left, left at 0, front at 0, bottom at 0,\n    mirrored left-right about 12 and front-back about 10\n"
    )
    corners = {name: (box(piece, name)[0][0], box(piece, name)[1][0]) for name in "abcd"}
    assert corners == {"a": (0, 0), "b": (22.5, 0), "c": (0, 16.5), "d": (22.5, 16.5)}


@given(st.integers(0, 2), st.floats(-300, 300), st.integers(0, 30))
@settings(max_examples=25)
def test_mirrored_twice_is_itself(axis: int, about: float, lean: int) -> None:
    from planlint.build.body import Body
    from planlint.build.orient import Pose, pose_of
    from planlint.build.shape import shape
    from tests.build.test_orient import NOWHERE, turned

    listed = place("parts\n  a: 1 of 2x4 @ 20\n").listed[0]
    pose = pose_of("up", "left", True, [turned("leans", lean, "back")])
    assert isinstance(pose, Pose)
    body = shape(listed, NOWHERE, pose, 500.0)
    assert isinstance(body, Body)
    body = body.moved((10.0, 20.0, 30.0))
    twice = body.mirrored(axis, about).mirrored(axis, about)
    assert twice.low == pytest.approx(body.low) and twice.axes == body.axes and twice.home == body.home
    once = body.mirrored(axis, about)
    assert once.low[axis] == pytest.approx(2 * about - body.high[axis])
    assert once.solid().low == pytest.approx(once.low) and once.solid().high == pytest.approx(once.high)


def test_a_mirror_image_of_a_cut_end_is_cut_the_other_way() -> None:
    text = (
        SLATS
        + "  leg as a, b: runs up, face front, left at 0, front at 0, bottom at 0, top cut 30 long at left, mirrored left-right about 12\n"
    )
    piece = place(text)
    peak = max(part(piece, "b").solid.vertices, key=lambda p: p[2])
    assert peak[0] / INCH == pytest.approx(24)
    assert part(piece, "a").solid.volume == pytest.approx(part(piece, "b").solid.volume)


def test_sides_of_a_mirror_image_are_its_own() -> None:
    text = (
        SLATS
        + "  leg as a, b: runs up, face left, left at 1, front at 0, bottom at 0, mirrored left-right about 12\n"
    )
    text += "  rail: runs left-right, face front, right at left of b, front at 0, bottom at 0\n"
    assert box(place(text), "rail")[0] == (1.5, 21.5)


def test_the_plans_centre_stands_in_for_about() -> None:
    head = 'plan "T"\n  units in\n  centre left-right at 12\n'
    text = (
        SLATS + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right\n"
    )
    assert box(place(text, head), "b")[0] == (22.5, 24)
    (trouble,) = troubles(place(text), "position-missing")
    assert trouble.values["direction"] == "what it is mirrored left-right about"


def test_a_mirror_may_be_measured_from_what_stands_on_the_first_piece() -> None:
    """The top hangs on leg a; the legs are mirrored about the top: no ring."""
    text = (
        SLATS
        + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about middle left-right of rail\n"
    )
    text += "  rail: runs left-right, face front, left at left of a, front at 0, bottom at top of a\n"
    piece = place(text)
    assert box(piece, "b")[0] == (18.5, 20) and not piece.troubles


def test_a_row_may_be_mirrored_and_both_are_numbered() -> None:
    piece = place(
        SLATS
        + f"  slat as near, far: row of 2 front-back gap 1, {SLAT}, front at 0, mirrored front-back about 20\n"
    )
    assert [p.name for p in piece.parts] == ["near.1", "near.2", "far.1", "far.2"]
    assert box(piece, "far.1")[1] == (36.5, 40) and box(piece, "far.2")[1] == (32, 35.5)


def test_mirrored_pieces_without_names_are_numbered() -> None:
    piece = place(
        SLATS
        + "  leg: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 12\n"
    )
    assert [p.name for p in piece.parts] == ["leg.1", "leg.2"]


def test_two_names_and_no_mirror_ask_where_the_second_is() -> None:
    piece = place(SLATS + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0\n")
    (trouble,) = troubles(piece, "position-missing")
    assert trouble.values["part"] == "b" and "b" in piece.unplaced_names and part(piece, "a")


def test_axes_of_a_mirror_image_stay_square() -> None:
    text = (
        SLATS
        + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0, leans 9 toward left, mirrored left-right about 12\n"
    )
    b = part(place(text), "b")
    assert (
        b.along[0] > 0
        and abs(dot(b.along, b.across)) < 1e-12
        and abs(dot(cross(b.along, b.across), b.through)) == pytest.approx(1)
    )


# --- like ----------------------------------------------------------------------------------------------


def test_like_takes_all_but_what_is_said_anew() -> None:
    text = (
        SLATS
        + "  rail as low: runs left-right, face front, left at 1, front at 2, bottom at 3\n  rail as high: like low, top at 20\n"
    )
    assert box(place(text), "high") == ((1, 21), (2, 3.5), (16.5, 20))


def test_like_keeps_the_mirror_for_as_many_names() -> None:
    text = (
        SLATS
        + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 12\n  leg as c, d: like a, front at 9\n  leg as e: like a, front at 18\n"
    )
    piece = place(text)
    assert box(piece, "d") == ((22.5, 24), (9, 12.5), (0, 10)) and box(piece, "e")[0] == (0, 1.5)


def test_like_may_stand_before_what_it_is_like_and_never_in_a_ring() -> None:
    text = (
        SLATS
        + "  rail as high: like low, top at 20\n  rail as low: runs left-right, face front, left at 1, front at 2, bottom at 3\n"
    )
    assert box(place(text), "high")[2] == (16.5, 20)
    ring = place(SLATS + "  rail as x: like y\n  rail as y: like x\n")
    assert len(troubles(ring, "position-circular")) >= 1 and not ring.parts


def test_like_an_unknown_name_offers_the_nearest() -> None:
    text = (
        SLATS
        + "  rail as low: runs left-right, face front, left at 1, front at 2, bottom at 3\n  rail as high: like lwo, top at 20\n"
    )
    assert any(t.values["nearest"] == "low" for t in troubles(place(text), "unknown-name"))


# --- slips of the pen ----------------------------------------------------------------------------------


def test_a_row_of_thousands_is_counted_not_built() -> None:
    piece = place(SLATS + f"  slat: row of 9999 front-back gap 1, {SLAT}, front at 0\n")
    assert len(piece.parts) < 1000 and piece.listed[0].placed == 9999


def test_two_mirrors_in_one_direction_are_asked_about() -> None:
    piece = place(
        SLATS
        + "  leg as a, b: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 12 and left-right about 20\n"
    )
    (trouble,) = troubles(piece, "position-missing")
    assert "two mirrors" in str(trouble.values["direction"]) and box(piece, "b")[0] == (22.5, 24)


def test_a_long_chain_of_likes_is_followed() -> None:
    text = "parts\n  a: 900 of 1x2 @ 5\nplace\n"
    rows = ["  a as a0: runs up, face left, left at 0, front at 0, bottom at 0\n"]
    rows += [f"  a as a{i}: like a{i - 1}, left at {i}\n" for i in range(1, 900)]
    assert box(place(text + "".join(reversed(rows))), "a899")[0][0] == 899
