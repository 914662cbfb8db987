from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.solid import (
    Axes,
    Plane,
    Solid,
    block,
    clip,
    extent,
    mirrored,
    moved,
    oriented,
    prism,
)
from planlint.geometry.vector import WORLD, Vec, add, dot, scale, turn

from .boards import (
    assert_closed,
    boards,
    directions,
    frames,
    hull,
    leaning,
    points,
    side,
    solids,
    some,
    turned,
)

BOARD = block((0.0, 0.0, 0.0), (1000.0, 89.0, 38.0))
LEAN: Axes = (WORLD[0], turn(WORLD[1], WORLD[0], 12.0), turn(WORLD[2], WORLD[0], 12.0))


def test_corners_given_the_wrong_way_round_would_turn_a_board_inside_out() -> None:
    assert block((5.0, 0.0, 9.0), (0.0, 2.0, 3.0)).volume == 60.0
    assert_closed(block((5.0, 0.0, 9.0), (0.0, 2.0, 3.0)))


def test_the_faces_of_a_board_are_left_right_front_back_bottom_top() -> None:
    x, y, z = WORLD
    looks = [scale(x, -1.0), x, scale(y, -1.0), y, scale(z, -1.0), z]
    assert [face.plane.normal for face in BOARD.faces] == looks
    assert_closed(BOARD)


def test_a_board_on_world_axes_would_lose_the_quick_way() -> None:
    stood = oriented((0.0, 0.0, 500.0), (WORLD[2], scale(WORLD[0], -1.0), WORLD[1]), (1000.0, 89.0, 38.0))
    assert stood.aligned
    assert (stood.low, stood.high) == ((-44.5, -19.0, 0.0), (44.5, 19.0, 1000.0))


def test_a_board_that_leans_and_is_laid_back_would_lose_the_quick_way() -> None:
    back: Axes = (WORLD[0], turn(WORLD[1], WORLD[0], -12.0), turn(WORLD[2], WORLD[0], -12.0))
    again = moved(moved(BOARD, (0.0, 0.0, 0.0), LEAN), (0.0, 0.0, 0.0), back)
    assert again.aligned
    assert again.high == pytest.approx(BOARD.high, abs=1e-9)


def test_a_mirrored_half_would_look_inward() -> None:
    leant = moved(BOARD, (5.0, 6.0, 7.0), LEAN)
    image = mirrored(leant, 1, 100.0)
    assert_closed(image)
    assert image.volume == pytest.approx(BOARD.volume)
    assert image.low[1] == pytest.approx(200.0 - leant.high[1])


def test_mirroring_a_board_keeps_it_a_board() -> None:
    image = mirrored(BOARD, 0, 1200.0)
    assert (image.low, image.high) == ((1400.0, 0.0, 0.0), (2400.0, 89.0, 38.0))


def test_a_rung_would_be_thinner_than_its_hole() -> None:
    rung = prism((0.0, 0.0, 0.0), WORLD[0], 25.4, 508.0)
    assert_closed(rung)
    assert rung.high == pytest.approx((254.0, 12.7, 12.7))
    assert extent(rung, WORLD[1]) == pytest.approx((-12.7, 12.7))
    assert rung.volume == pytest.approx(math.pi * 12.7**2 * 508.0, rel=0.0135)


@pytest.mark.parametrize("size", [(0.0, 89.0, 38.0), (0.0, 0.0, 38.0), (0.0, 0.0, 0.0)])
def test_a_board_of_no_size_would_crash(size: Vec) -> None:
    for nothing in (
        block((1.0, 2.0, 3.0), add((1.0, 2.0, 3.0), size)),
        oriented((1.0, 2.0, 3.0), LEAN, size),
    ):
        assert nothing.volume == 0.0
        assert extent(nothing, WORLD[2])[1] >= 3.0
        assert len(set(nothing.vertices)) == len(nothing.vertices)
        assert all(len(set(face.outline)) == 4 for face in nothing.faces)
        assert clip(nothing, Plane(WORLD[2], -100.0)) is None
        clip(nothing, Plane(LEAN[2], dot(LEAN[2], nothing.centroid)))  # must not raise
        moved(mirrored(nothing, 2, 0.0), (0.0, 0.0, 0.0), LEAN)


def test_a_cut_that_misses_would_make_another_board() -> None:
    assert clip(BOARD, Plane(WORLD[0], 1000.0)) is BOARD
    assert clip(BOARD, Plane(LEAN[1], 500.0)) is BOARD


def test_a_cut_that_takes_all_would_leave_a_sliver() -> None:
    assert clip(BOARD, Plane(WORLD[0], 0.0)) is None
    assert clip(BOARD, Plane(WORLD[0], 0.009)) is None
    assert clip(BOARD, Plane(scale(LEAN[1], -1.0), -100.0)) is None


def test_a_square_cut_would_lose_the_quick_way() -> None:
    short = clip(BOARD, Plane(scale(WORLD[0], -1.0), -400.0))
    assert short is not None and short.aligned
    assert (short.low[0], short.high[0]) == (400.0, 1000.0)


def test_a_mitre_takes_the_half_it_should() -> None:
    mitred = clip(BOARD, Plane((math.sqrt(0.5), math.sqrt(0.5), 0.0), 1000.0 * math.sqrt(0.5)))
    assert mitred is not None
    assert_closed(mitred)
    assert len(mitred.faces) == 6
    assert mitred.volume == pytest.approx(1000.0 * 89.0 * 38.0 - 89.0 * 89.0 * 38.0 / 2.0)


def test_a_cut_through_corners_would_leave_faces_without_area() -> None:
    cube = block((0.0, 0.0, 0.0), (10.0, 10.0, 10.0))
    wedge = clip(cube, Plane((math.sqrt(0.5), 0.0, math.sqrt(0.5)), 10.0 * math.sqrt(0.5)))
    assert wedge is not None
    assert_closed(wedge)
    assert len(wedge.faces) == 5 and len(wedge.vertices) == 6
    assert wedge.volume == pytest.approx(500.0)


def test_the_same_cut_twice_would_add_a_second_cap() -> None:
    plane = Plane(LEAN[1], 40.0)
    once = clip(BOARD, plane)
    assert once is not None
    assert clip(once, plane) is once


@some
@given(solids, frames(), points)
def test_a_rigid_motion_changes_size_or_turns_faces(solid: Solid, frame: Axes, origin: Vec) -> None:
    there = moved(solid, origin, frame)
    assert_closed(there)
    assert there.volume == pytest.approx(solid.volume, rel=1e-9)
    x, y, z = solid.centroid
    middle = add(origin, add(scale(frame[0], x), add(scale(frame[1], y), scale(frame[2], z))))
    assert there.centroid == pytest.approx(middle, abs=1e-6)


@some
@given(leaning(), st.sampled_from([0, 1, 2]))
def test_mirroring_twice_is_not_where_it_was(solid: Solid, axis: int) -> None:
    image = mirrored(solid, axis, 7.0)
    assert_closed(image)
    again = mirrored(image, axis, 7.0)
    assert again.low == pytest.approx(solid.low, abs=1e-9)
    assert again.high == pytest.approx(solid.high, abs=1e-9)


@some
@given(solids, directions, st.floats(-60.0, 60.0))
def test_two_halves_of_a_cut_are_not_the_whole(solid: Solid, way: Vec, at: float) -> None:
    offset = dot(way, solid.centroid) + at
    halves = [clip(solid, Plane(way, offset)), clip(solid, Plane(scale(way, -1.0), -offset))]
    for half in halves:
        if half is not None:
            assert_closed(half)
    # A piece thinner than 0.01 mm is dropped: no more than a layer over the largest section.
    total = sum(half.volume for half in halves if half is not None)
    assert total == pytest.approx(solid.volume, abs=0.01 * 140.0**2)


@some
@given(boards(), frames(), directions)
def test_the_quick_extent_differs_from_the_general_one(board: Solid, frame: Axes, way: Vec) -> None:
    there = turned(board, frame)
    local = (dot(frame[0], way), dot(frame[1], way), dot(frame[2], way))
    shift = dot((10.0, -20.0, 30.0), way)
    low, high = extent(board, local)
    assert extent(there, way) == pytest.approx((low + shift, high + shift), abs=1e-6)


@some
@given(solids, directions, st.floats(-30.0, 30.0))
def test_volume_of_a_cut_board_against_manifold3d(solid: Solid, way: Vec, at: float) -> None:
    offset = dot(way, solid.centroid) + at
    rest = clip(solid, Plane(way, offset))
    whole = hull(solid)
    assert solid.volume == pytest.approx(whole.volume(), rel=1e-6)
    left = whole.trim_by_plane(scale(way, -1.0), -offset).volume()
    assert (rest.volume if rest else 0.0) == pytest.approx(left, rel=1e-6, abs=0.01 * 140.0**2)


@some
@given(points, directions, side, side)
def test_volume_of_round_stock_against_manifold3d(
    centre: Vec, axis: Vec, diameter: float, long: float
) -> None:
    rung = prism(centre, axis, diameter, long)
    assert_closed(rung)
    assert len(rung.faces) == 18
    assert rung.volume == pytest.approx(hull(rung).volume(), rel=1e-6)
