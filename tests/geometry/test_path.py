from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.path import axis_clearance, between_segments, cover, cross_line, near_box, reach
from planlint.geometry.solid import Axes, Plane, Solid, block, clip, moved, prism
from planlint.geometry.vector import WORLD, Vec, add, dot, length, lerp, scale, sub, turn

from .boards import boards, directions, frames, hull, points, solids, some, turned

LEG = block((0.0, 0.0, 0.0), (89.0, 89.0, 400.0))


def into(frame: Axes, point: Vec) -> Vec:
    x, y, z = point
    return add(scale(frame[0], x), add(scale(frame[1], y), scale(frame[2], z)))


def test_a_screw_passes_the_thickness_of_a_leg() -> None:
    assert cross_line(LEG, (-10.0, 40.0, 200.0), (1.0, 0.0, 0.0)) == (10.0, 99.0)
    assert cross_line(LEG, (50.0, 40.0, 200.0), (-1.0, 0.0, 0.0)) == (-39.0, 50.0)


def test_the_parameter_would_be_taken_for_millimetres_when_the_direction_is_long() -> None:
    assert cross_line(LEG, (-10.0, 40.0, 200.0), (2.0, 0.0, 0.0)) == (5.0, 49.5)


@pytest.mark.parametrize(
    ("origin", "direction"),
    [
        ((0.0, 40.0, 0.0), (0.0, 0.0, 1.0)),  # in a face
        ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0)),  # in an edge
        ((-89.0, 0.0, 200.0), (math.sqrt(0.5), math.sqrt(0.5), 0.0)),  # misses
        ((-1.0, 1.0, 200.0), (math.sqrt(0.5), -math.sqrt(0.5), 0.0)),  # touches an edge
        ((40.0, 40.0, 200.0), (0.0, 0.0, 0.0)),  # no direction
    ],
)
def test_a_screw_along_the_surface_would_pass_wood(origin: Vec, direction: Vec) -> None:
    frame: Axes = (turn(WORLD[0], WORLD[1], 20.0), WORLD[1], turn(WORLD[2], WORLD[1], 20.0))
    assert cross_line(LEG, origin, direction) is None
    leant = moved(LEG, (0.0, 0.0, 0.0), frame)
    assert cross_line(leant, into(frame, origin), into(frame, direction)) is None


def test_a_screw_that_meets_a_mitred_end_stops_at_the_cut() -> None:
    mitred = clip(LEG, Plane((0.0, math.sqrt(0.5), math.sqrt(0.5)), 400.0 * math.sqrt(0.5)))
    assert mitred is not None
    assert cross_line(mitred, (40.0, 40.0, 0.0), (0.0, 0.0, 1.0)) == pytest.approx((0.0, 360.0))


def test_cover_names_the_nearest_face_and_is_negative_outside() -> None:
    assert cover(LEG, (40.0, 80.0, 200.0)) == (9.0, Plane((0.0, 1.0, 0.0), 89.0))
    assert cover(LEG, (40.0, 92.0, 200.0))[0] == -3.0


def test_the_clearance_of_a_slanted_screw_is_taken_at_its_nearer_end() -> None:
    nearest = axis_clearance(LEG, (10.0, 40.0, 200.0), (79.0, 60.0, 210.0))
    assert [round(gap, 9) for gap, _ in nearest] == [10.0, 10.0, 29.0, 40.0, 190.0, 200.0]
    assert nearest[2][1].normal == (0.0, 1.0, 0.0)


def test_a_driver_beside_a_leg_and_one_into_it() -> None:
    assert reach(LEG, (-50.0, 40.0, 200.0), (-12.0, 40.0, 200.0)) == pytest.approx(12.0)
    assert reach(LEG, (-50.0, 40.0, 200.0), (150.0, 40.0, 200.0)) == 0.0


@pytest.mark.parametrize(
    ("q0", "q1", "least"),
    [
        ((5.0, 3.0, 0.0), (5.0, 9.0, 0.0), 3.0),  # square, end on
        ((0.0, 4.0, 0.0), (10.0, 4.0, 0.0), 4.0),  # parallel
        ((13.0, 0.0, 4.0), (20.0, 0.0, 4.0), 5.0),  # parallel, past the end
        ((12.0, 0.0, 0.0), (20.0, 0.0, 0.0), 2.0),  # on one line
        ((5.0, -5.0, 2.0), (5.0, 5.0, 2.0), 2.0),  # crossing, one above
        ((5.0, -5.0, 0.0), (5.0, 5.0, 0.0), 0.0),  # meeting
        ((5.0, 7.0, 0.0), (5.0, 7.0, 0.0), 7.0),  # a point
    ],
)
def test_screws_that_pass_each_other(q0: Vec, q1: Vec, least: float) -> None:
    assert between_segments((0.0, 0.0, 0.0), (10.0, 0.0, 0.0), q0, q1) == pytest.approx(least, abs=1e-5)
    assert between_segments(q0, q1, (0.0, 0.0, 0.0), (10.0, 0.0, 0.0)) == pytest.approx(least, abs=1e-5)


@some
@given(points, points, points, points)
def test_a_shorter_way_between_two_segments_than_the_least(p0: Vec, p1: Vec, q0: Vec, q1: Vec) -> None:
    least = between_segments(p0, p1, q0, q1)
    steps = [i / 24.0 for i in range(25)]
    tried = min(length(sub(lerp(p0, p1, s), lerp(q0, q1, t))) for s in steps for t in steps)
    assert tried >= least - 1e-5
    assert tried <= least + (length(sub(p1, p0)) + length(sub(q1, q0))) / 48.0 + 1e-5


@some
@given(boards(), frames(), points, st.one_of(directions, st.sampled_from(WORLD)))
def test_the_quick_line_and_the_general_one_disagree(
    board: Solid, frame: Axes, origin: Vec, way: Vec
) -> None:
    quick = cross_line(board, origin, way)
    general = cross_line(
        turned(board, frame), add((10.0, -20.0, 30.0), into(frame, origin)), into(frame, way)
    )
    assert (quick is None) == (general is None)
    if quick is not None:
        assert general == pytest.approx(quick, abs=1e-4)


@some
@given(solids, points, directions)
def test_a_line_leaves_elsewhere_than_at_the_surface(solid: Solid, origin: Vec, way: Vec) -> None:
    found = cross_line(solid, origin, way)
    if found is not None:
        for end in found:
            assert cover(solid, add(origin, scale(way, end)))[0] == pytest.approx(0.0, abs=1e-5)
        middle = add(origin, scale(way, (found[0] + found[1]) / 2.0))
        assert cover(solid, middle)[0] > 0.0


@some
@given(solids, points, points)
def test_reach_against_manifold3d(solid: Solid, p0: Vec, p1: Vec) -> None:
    way = sub(p1, p0)
    if length(way) < 1.0:
        return
    thread = prism(lerp(p0, p1, 0.5), way, 0.002, length(way), sides=4)
    gap = hull(solid).min_gap(hull(thread), 1000.0)
    assert reach(solid, p0, p1) == pytest.approx(gap, abs=0.005)


@some
@given(solids, points)
def test_cover_of_an_inside_point_is_more_than_the_way_out(solid: Solid, point: Vec) -> None:
    least, plane = cover(solid, point)
    if least > 0.0:
        out = cross_line(solid, point, plane.normal)
        assert out is not None and out[1] == pytest.approx(least)
        assert dot(plane.normal, point) + least == pytest.approx(plane.offset)


@given(
    st.tuples(*[st.floats(-50.0, 50.0)] * 3),
    st.tuples(*[st.floats(-50.0, 50.0)] * 3),
    st.tuples(*[st.floats(1.0, 40.0)] * 3),
    st.floats(0.5, 40.0),
)
def test_the_quick_way_for_boxes_agrees_with_the_general_one(
    p: Vec, q: Vec, size: Vec, within: float
) -> None:
    box = block((0.0, 0.0, 0.0), size)
    far = reach(box, p, q)
    if abs(far - within) > 1e-3:
        assert near_box(box, p, q, within) is (far < within)
