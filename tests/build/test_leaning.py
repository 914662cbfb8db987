# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Parts that lean: the named edge is where the plan says, cuts are level in the finished piece, tips count."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.geometry.solid import extent
from planlint.geometry.vector import dot
from tests.build.placing import INCH, box, part, place, troubles

POST = """parts
  post: 1 of 2x4 @ 36{measure}
place
  post: runs up, face left, left at 0, front at 17, bottom at 0, leans {lean} toward {side}{more}
"""


def post(lean: float, side: str, more: str = "", measure: str = "") -> object:
    return part(place(POST.format(lean=lean, side=side, more=more, measure=measure)), "post")


@given(
    st.integers(0, 40),
    st.sampled_from(["front", "back"]),
    st.sampled_from(["", ", ends cut level", ", bottom cut level"]),
)
@settings(max_examples=40)
def test_the_front_bottom_edge_is_where_the_plan_says(lean: int, side: str, cut: str) -> None:
    """The named edge, cut or not: a corner of the solid at y 17, z 0, on the bottom and on the front face."""
    solid = part(place(POST.format(lean=lean, side=side, more=cut, measure="")), "post").solid
    at_edge = [p for p in solid.vertices if math.hypot(p[1] - 17 * INCH, p[2]) < 1e-6]
    assert len(at_edge) == 2  # its left and right end
    if cut:
        assert min(p[2] for p in solid.vertices) == pytest.approx(0, abs=1e-6)


def test_a_back_of_36_at_12_is_as_high_as_trigonometry_says() -> None:
    """Ends level, tip to tip 36: height 36 cos 12 - 3.5 sin 12 = 34.486."""
    piece = place(POST.format(lean=12, side="back", more=", ends cut level", measure=""))
    a = math.radians(12)
    assert box(piece, "post")[2][1] == pytest.approx(36 * math.cos(a) - 3.5 * math.sin(a), abs=1e-5)


def test_the_over_all_length_is_tip_to_tip_after_the_cut() -> None:
    p = part(place(POST.format(lean=20, side="back", more=", ends cut level", measure="")), "post")
    low, high = extent(p.solid, p.along)
    assert high - low == pytest.approx(36 * INCH) and p.size.length == pytest.approx(36 * INCH)


def test_long_to_short_is_one_edge_between_parallel_ends() -> None:
    """36 along the edge and 3.5 tan 20 more tip to tip."""
    p = part(
        place(POST.format(lean=20, side="back", more=", ends cut level", measure=" long to short")), "post"
    )
    assert p.size.length / INCH == pytest.approx(36 + 3.5 * math.tan(math.radians(20)))
    edge = sorted(
        dot(v, p.along)
        for v in p.solid.vertices
        if abs(dot(v, p.across) - extent(p.solid, p.across)[0]) < 1e-6
    )
    assert (edge[-1] - edge[0]) / INCH == pytest.approx(36)


def test_short_to_short_is_the_inside_of_a_mitred_frame() -> None:
    text = "parts\n  stile: 1 of 1x2 @ 12 short to short, ends mitred 45\nplace\n  stile: runs up, face front, left at 0, front at 0,\n"
    text += "    bottom at 0, bottom cut 45 long at left, top cut 45 long at left\n"
    piece = place(text)
    assert box(piece, "stile")[2] == (0, 15)  # 12 + 2 x 1 1/2
    inner = [p[2] / INCH for p in part(piece, "stile").solid.vertices if p[0] > 1.5 * INCH - 1e-6]
    assert (min(inner), max(inner)) == pytest.approx((1.5, 13.5))
    assert piece.end_angles[0].built == pytest.approx((45, 45))


def test_a_side_of_a_leaning_part_in_an_expression_is_its_outermost_point() -> None:
    text = POST.format(lean=12, side="back", more="", measure="").replace(
        "place\n", "  rail: 1 of 2x4 @ 20\nplace\n"
    )
    text += (
        "  rail: runs left-right, face front, left at 0, front at back of post, bottom at bottom of post\n"
    )
    piece = place(text)
    a = math.radians(12)
    assert box(piece, "rail")[1][0] == pytest.approx(17 + 3.5 * math.cos(a) + 36 * math.sin(a), abs=1e-5)
    assert box(piece, "rail")[2][0] == pytest.approx(-3.5 * math.sin(a), abs=1e-5)  # the square foot digs in


def test_a_side_named_alone_is_the_outermost_point() -> None:
    """A row of louvres: their height is the row's, so `front at` is the foremost edge."""
    text = "parts\n  louvre: 5 of 1x4 @ 20\nplace\n  louvre: row of 5 up from 0 to 30, runs left-right, face front,\n"
    text += "    leans 30 toward back, left at 0, front at 2\n"
    piece = place(text)
    assert all(box(piece, f"louvre.{i}")[1][0] == pytest.approx(2) for i in (1, 3, 5))
    assert box(piece, "louvre.1")[2][0] == pytest.approx(0) and box(piece, "louvre.5")[2][1] == pytest.approx(
        30
    )


def test_the_middle_of_a_leaning_part_is_its_middle_plane_at_the_named_end() -> None:
    text = POST.format(lean=12, side="back", more="", measure="").replace(
        "front at 17", "middle front-back at 17"
    )
    solid = part(place(text), "post").solid
    foot = sorted(
        solid.vertices, key=lambda p: dot(p, (0, math.sin(math.radians(12)), math.cos(math.radians(12))))
    )[:4]
    assert sum(p[1] for p in foot) / 4 / INCH == pytest.approx(17)


def test_a_compound_lean_stands_on_its_named_corner() -> None:
    text = "parts\n  leg: 1 of 2x2 @ 18\nplace\n  leg: runs up, left at 3, front at 4, bottom at 0,\n"
    text += "    leans 10 toward left, leans 8 toward front\n"
    solid = part(place(text), "leg").solid
    corner = (3 * INCH, 4 * INCH, 0.0)
    assert any(math.dist(p, corner) < 1e-6 for p in solid.vertices)


@pytest.mark.parametrize(("side", "foremost"), [("front", True), ("back", False)])
def test_long_at_keeps_that_side_longest(side: str, foremost: bool) -> None:
    text = f"parts\n  a: 1 of 2x4 @ 20\nplace\n  a: runs up, face left, left at 0, front at 0, bottom at 0, top cut 30 long at {side}\n"
    top = max(part(place(text), "a").solid.vertices, key=lambda p: p[2])
    assert (top[1] < 1) == foremost and top[2] == pytest.approx(20 * INCH)


def test_a_plumb_cut_is_upright_in_the_finished_piece() -> None:
    text = "parts\n  rafter: 1 of 2x6 @ 40, ends mitred 25 parallel\nplace\n  rafter: runs front-back, face left, rises 25 toward back, left at 0,\n"
    text += "    front at 0, bottom at 0, ends cut plumb\n"
    piece = place(text)
    front = [p for p in part(piece, "rafter").solid.vertices if p[1] < 1e-6]
    assert len(front) == 4
    assert piece.end_angles[0].stated == (25, 25) and piece.end_angles[0].built == pytest.approx((25, 25))


def test_an_edge_may_be_cut_aslant_too() -> None:
    """A planter's side, its top edge level: width is over all, so the top's long corner stays."""
    text = "parts\n  side: 1 of 3/4 x 11 @ 30\nplace\n  side: runs left-right, face front, leans 10 toward front, left at 0,\n"
    text += "    front at 5, bottom at 0, top cut level, bottom cut level\n"
    top = part(place(text), "side").solid
    assert len([p for p in top.vertices if abs(p[2] - top.high[2]) < 1e-6]) == 4
    assert top.low[2] == pytest.approx(0)


def test_a_cut_that_cannot_be_made_is_asked_about() -> None:
    text = "parts\n  a: 1 of 2x4 @ 20\nplace\n  a: runs up, face left, left at 0, front at 0, bottom at 0, left cut level\n"
    (trouble,) = troubles(place(text), "position-missing")
    assert (
        trouble.values["direction"] == "how its left is cut"
        and trouble.values["proposal"] == "left cut plumb"
    )


def test_a_tapered_leg_is_narrower_at_its_foot_from_where_the_taper_starts() -> None:
    text = "parts\n  leg: 1 of 2x2 @ 28\nplace\n  leg: runs up, left at 0, front at 0, bottom at 0,\n"
    text += "    right tapered 3/4 at bottom from 4 below top\n"
    solid = part(place(text), "leg").solid
    feet = [p for p in solid.vertices if p[2] < 1e-6]
    assert max(p[0] for p in feet) / INCH == pytest.approx(0.75)
    knees = [p for p in solid.vertices if abs(p[2] - 24 * INCH) < 1e-6]
    assert len(knees) == 2 and all(p[0] / INCH == pytest.approx(1.5) for p in knees)


def test_a_taper_over_the_whole_length_makes_a_sloping_face_for_what_fits_between() -> None:
    text = "parts\n  leg: 2 of 2x4 @ 28\n  rail: 1 of 1x2 @ fit\nplace\n"
    text += "  leg as a, b: runs up, face front, left at 0, front at 0, bottom at 0, right tapered 1 at bottom, mirrored left-right about 15\n"
    text += "  rail: runs left-right, face front, between a and b, front at 0, bottom at 7\n"
    rail = part(place(text), "rail")
    # The inner face goes from 2 1/2 at the foot to 3 1/2 at 28: at 7 up it is at 2 3/4.
    assert rail.solid.low[0] / INCH == pytest.approx(2.75)


@given(st.floats(-500, 500), st.floats(-500, 500))
@settings(max_examples=15)
def test_moving_a_leaning_part_moves_it_whole(y: float, z: float) -> None:
    here = part(place(POST.format(lean=12, side="back", more=", ends cut level", measure="")), "post").solid
    moved = POST.format(lean=12, side="back", more=", ends cut level", measure="")
    moved = moved.replace("front at 17", f"front at {17 * INCH + y:.6f} mm").replace(
        "bottom at 0", f"bottom at {z:.6f} mm"
    )
    there = part(place(moved), "post").solid
    assert there.low == pytest.approx((here.low[0], here.low[1] + y, here.low[2] + z), abs=1e-4)
    assert there.volume == pytest.approx(here.volume)
