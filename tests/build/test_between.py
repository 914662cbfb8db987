"""`between`: the part fills the space, its ends lie in the faces, what joints sink is counted."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.piece import Piece
from planlint.geometry.solid import extent
from planlint.geometry.vector import Vec, dot
from tests.build.placing import INCH, box, part, place, troubles

SIDES = """parts
  side: 2 of 3/4 x 11 1/4 @ 40, runs up, face left
  shelf: 1 of 3/4 x 11 1/4 @ {length}
place
  side as left-side, right-side: left at 0, front at 0, bottom at 0, mirrored left-right about 18 3/4
  shelf: runs left-right, face top, between left-side and right-side, front at 0, bottom at 12
"""


def shelf(length: str, join: str = "") -> Piece:
    return place(SIDES.format(length=length) + (f"step\n  shelf to side: {join}\n" if join else ""))


@pytest.mark.parametrize(
    ("length", "join", "size", "sunk"),
    [
        ("36", "", 36, 0),
        ("36 3/4", "housed 3/8 deep and glue", 36.75, 0.75),  # rulebook-cases: 36 + 2 x 3/8
        ("36", "housed 3/8 deep", 36, 0.75),  # 3/4 too short
        ("39", "mortise-and-tenon 1/4 x 2 x 1 1/2 in", 39, 3),
    ],
)
def test_the_length_is_checked_against_the_opening_and_what_joints_sink(
    length: str, join: str, size: float, sunk: float
) -> None:
    (fit,) = shelf(length, join).fits
    assert (fit.size / INCH, fit.opening / INCH, fit.sunk / INCH) == pytest.approx((size, 36, sunk))
    assert fit.neighbours == ("left-side", "right-side") and fit.direction == "left-right"


def test_a_housed_shelf_stands_as_deep_as_its_housing() -> None:
    assert box(shelf("36 3/4", "housed 3/8 deep"), "shelf")[0] == (0.375, 37.125)


def test_a_part_that_does_not_fit_is_built_as_cut_from_the_first_face() -> None:
    assert box(shelf("35"), "shelf")[0] == (0.75, 35.75)


def test_fit_takes_the_length_from_the_space_and_the_joints() -> None:
    piece = shelf("fit", "housed 3/8 deep")
    assert box(piece, "shelf")[0] == (0.375, 37.125) and not piece.fits
    listed = next(one for one in piece.listed if one.entry.name == "shelf")
    assert listed.size is not None and listed.size.length == pytest.approx(36.75 * INCH)


def test_a_housing_of_unsaid_depth_is_as_deep_as_the_length_leaves() -> None:
    piece = shelf("36 1/2", "housed")
    assert box(piece, "shelf")[0] == (0.5, 37) and not piece.fits


def test_a_tenon_is_on_the_part_that_ends_there_whichever_is_named_first() -> None:
    text = SIDES.format(length="38") + "step\n  side to shelf: mortise-and-tenon 1/4 x 2 x 1 in\n"
    assert place(text).fits[0].sunk == pytest.approx(2 * INCH)


def test_a_housing_counts_for_the_first_named_only() -> None:
    text = SIDES.format(length="36") + "step\n  side to shelf: housed 3/8 deep\n"
    assert place(text).fits[0].sunk == 0.0


def test_fit_without_a_space_to_fit_asks_for_one() -> None:
    piece = place(
        "parts\n  a: 1 of 1x4 @ fit\nplace\n  a: runs up, face front, left at 0, front at 0, bottom at 0\n"
    )
    (trouble,) = troubles(piece, "position-missing")
    assert trouble.values["direction"] == "its length"


def test_the_faces_may_be_named_and_in_either_order() -> None:
    for faces in ("right of left-side and left of right-side", "left of right-side and right of left-side"):
        text = SIDES.format(length="36").replace("left-side and right-side,", faces + ",")
        assert box(place(text), "shelf")[0] == (0.75, 36.75)


# --- sloping -------------------------------------------------------------------------------------------

BRACE = """parts
  post: 1 of 4x4 @ 30
  head: 1 of 4x4 @ 40
  brace: 1 of 2x4 @ {length}
place
  post: runs up, left at 0, front at 0, bottom at 0
  head: runs front-back, centred left-right on post, front at 0, bottom at top of post
  brace: runs front-back, face left, between back of post and bottom of head, rises {angle} toward back,
    centred left-right on post{more}
"""


def in_plane(piece: Piece, name: str, normal: Vec, offset: float) -> bool:
    """Whether a part ends in a plane over an area, and reaches no further."""
    solid = part(piece, name).solid
    on = [p for p in solid.vertices if abs(dot(normal, p) - offset) < 1e-6]
    return len(on) == 4 and extent(solid, normal)[0] > offset - 1e-6


@given(st.integers(20, 70), st.integers(12, 20))
@settings(max_examples=25)
def test_both_ends_of_a_brace_lie_in_the_faces_and_it_is_as_long_as_cut(angle: int, length: int) -> None:
    piece = place(BRACE.format(length=length, angle=angle, more=""))
    assert in_plane(piece, "brace", (0, 1, 0), 3.5 * INCH)
    assert in_plane(piece, "brace", (0, 0, -1), -30 * INCH)
    brace = part(piece, "brace")
    low, high = extent(brace.solid, brace.along)
    assert high - low == pytest.approx(length * INCH) and brace.size.length == pytest.approx(length * INCH)


def test_a_brace_of_14_at_45_reaches_9_9_along_both() -> None:
    """Both tips are on the outer edge: 14 cos 45 = 9.8995."""
    piece = place(BRACE.format(length=14, angle=45, more=""))
    (_, (y0, y1), (z0, z1)) = box(piece, "brace")
    reach = 14 * math.cos(math.radians(45))
    assert (y0, y1, z0, z1) == pytest.approx((3.5, 3.5 + reach, 30 - reach, 30))


def test_a_brace_at_30_by_hand() -> None:
    """Ends on a plumb and a level face: along its long edge L, it reaches L cos 30 out and L sin 30 down."""
    piece = place(BRACE.format(length=16, angle=30, more=""))
    assert box(piece, "brace")[1:] == (
        pytest.approx((3.5, 3.5 + 16 * math.cos(math.radians(30)))),
        pytest.approx((30 - 16 * math.sin(math.radians(30)), 30)),
    )


def test_a_fitted_brace_takes_its_length_from_where_it_stands() -> None:
    piece = place(BRACE.format(length="fit", angle=45, more=", bottom at 20"))
    assert part(piece, "brace").size.length / INCH == pytest.approx(10 * math.sqrt(2))


def test_a_place_and_a_length_that_disagree_are_a_check() -> None:
    piece = place(BRACE.format(length=14, angle=45, more=", bottom at 20"))
    (fit,) = piece.fits
    assert (fit.size / INCH, fit.opening / INCH) == pytest.approx((14, 10 * math.sqrt(2)))
    assert in_plane(piece, "brace", (0, 1, 0), 3.5 * INCH)  # built from the first face, as cut
    assert part(piece, "brace").size.length / INCH == pytest.approx(14)


def test_a_fitted_brace_without_a_place_asks_for_one() -> None:
    piece = place(BRACE.format(length="fit", angle=45, more=""))
    (trouble,) = troubles(piece, "position-missing")
    assert trouble.values["direction"] in ("up", "front-back") and "brace" in piece.unplaced_names


def test_parts_alone_find_the_faces_that_look_at_the_brace() -> None:
    named = place(BRACE.format(length=14, angle=45, more=""))
    plain = place(
        BRACE.format(length=14, angle=45, more="")
        .replace("back of post", "post")
        .replace("bottom of head", "head")
    )
    assert box(plain, "brace") == box(named, "brace")


LEG = """parts
  top: 1 of 2x12 @ 20
  leg: 4 of 2x2 @ {length}
  rail: 1 of 2x2 @ {rail}
place
  top: runs left-right, face top, left at 0, front at 0, top at 18
  leg as leg-l, leg-r: runs up, between floor and bottom of top, leans {lean} toward left, left at 2,
    middle front-back at 5 5/8, mirrored left-right about 10
  rail: runs left-right, between leg-l and leg-r, bottom at 6, middle front-back at 5 5/8
"""


@given(st.integers(1, 25))
@settings(max_examples=15)
def test_a_leg_between_floor_and_top_is_cut_to_both(lean: int) -> None:
    piece = place(LEG.format(length="fit", rail="fit", lean=lean))
    for name in ("leg-l", "leg-r"):
        assert in_plane(piece, name, (0, 0, 1), 0.0) and in_plane(piece, name, (0, 0, -1), -16.5 * INCH)
    assert box(piece, "leg-l")[0][0] == pytest.approx(2)  # a side named alone: the outermost point
    a, w = math.radians(lean), 1.5
    # Tip to tip: the height along the lean, and the slope of one end across the width.
    assert part(piece, "leg-l").size.length / INCH == pytest.approx(16.5 / math.cos(a) + w * math.tan(a))


@given(st.integers(1, 25))
@settings(max_examples=15)
def test_a_rail_between_splayed_legs_is_cut_to_their_slope(lean: int) -> None:
    piece = place(LEG.format(length="fit", rail="fit", lean=lean))
    a = math.radians(lean)
    rail = part(piece, "rail")
    # The left leg's top is at 2; its inner face is w / cos a to the right of it, tan a more an inch down.
    # The rail's long edge is its top, at 7 1/2 of 16 1/2.
    inner = 2 + 1.5 / math.cos(a) + 9 * math.tan(a)
    low = min(p[0] for p in rail.solid.vertices) / INCH
    assert low == pytest.approx(inner)
    assert rail.size.length / INCH == pytest.approx(20 - 2 * inner)
    assert not rail.leaning


def test_a_rail_of_given_length_finds_its_height_between_splayed_legs() -> None:
    text = LEG.format(length="fit", rail="10", lean=20).replace("bottom at 6, middle", "middle")
    rail = part(place(text), "rail")
    top = rail.solid.high[2] / INCH
    a = math.radians(20)
    assert 20 - 2 * (2 + 1.5 / math.cos(a) + (16.5 - top) * math.tan(a)) == pytest.approx(10)


def test_a_leg_cut_to_length_is_checked_along_its_length() -> None:
    piece = place(LEG.format(length="18", rail="fit", lean=10))
    fit = next(fit for fit in piece.fits if fit.part.name == "leg-l")
    a = math.radians(10)
    assert (fit.size / INCH, fit.opening / INCH) == pytest.approx(
        (18, 16.5 / math.cos(a) + 1.5 * math.tan(a))
    )


def test_faces_that_leave_no_space_are_told_not_built_inside_out() -> None:
    text = SIDES.format(length="fit").replace(
        "left-side and right-side", "left of left-side and left of left-side"
    )
    piece = place(text)
    assert "shelf" in piece.unplaced_names and troubles(piece, "position-missing")


def test_a_brace_along_a_face_has_no_end_there() -> None:
    text = BRACE.format(length=14, angle=45, more="").replace("rises 45 toward back", "rises 0 toward back")
    assert "brace" in place(text).unplaced_names


SPLAYED = """\
parts
  long: 2 of 1 x 8 @ 30
  end:  2 of 1 x 8 @ fit
place
  long as front, back: runs left-right, face front, leans 10 toward front, middle left-right at 12, front at 0,
    bottom at 0, bottom cut level, top cut level, mirrored front-back about 6
  end as left, right: runs front-back, face left, leans 10 toward left, between front and back, left at 0,
    bottom at 0, bottom cut level, top cut level, mirrored left-right about 12
"""


def test_a_board_between_leaning_faces_stands_on_its_planed_edge() -> None:
    """Its bottom, planed level, is at 0 and not where the square edge was; all four tops are level."""
    piece = place(SPLAYED)
    low, high = box(piece, "left")[2]
    assert (low, high) == pytest.approx(box(piece, "front")[2])
    assert low == pytest.approx(0)
    a = math.radians(10)
    height = (8 - math.tan(a)) * math.cos(a)
    assert high == pytest.approx(height)
    at_bottom = [p[0] / INCH for p in part(piece, "left").solid.vertices if p[2] < 0.01]
    assert min(at_bottom) == pytest.approx(0)  # `left at 0` is true at the bottom edge
    inner = height * math.tan(a) - 1 / math.cos(a)  # the inner faces, out at the top and in by the thickness
    assert part(piece, "left").size.length / INCH == pytest.approx(12 + 2 * inner)
