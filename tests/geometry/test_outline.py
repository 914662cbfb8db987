from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.outline import (
    Flat,
    area,
    flat_axes,
    hull2d,
    least_width,
    lift,
    overlap,
    project,
    span_along,
)
from planlint.geometry.vector import Vec, cross, dot

from .boards import directions, place, points, some

SQUARE: tuple[Flat, ...] = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))

clouds = st.lists(st.tuples(place, place), min_size=3, max_size=12)
convex = clouds.map(hull2d).filter(lambda polygon: len(polygon) > 2)


def moved_square(x: float, y: float) -> tuple[Flat, ...]:
    return tuple((x + s, y + t) for s, t in SQUARE)


def test_the_same_outline_twice_shares_all_of_it() -> None:
    assert area(overlap(SQUARE, SQUARE)) == 100.0
    assert area(overlap(SQUARE, SQUARE[::-1])) == 100.0


@pytest.mark.parametrize(
    "other", [moved_square(10.0, 0.0), moved_square(10.0, 10.0), moved_square(20.0, 0.0), ()]
)
def test_edges_corners_and_nothing_would_count_as_area(other: tuple[Flat, ...]) -> None:
    assert overlap(SQUARE, other) == ()


def test_points_on_a_straight_edge_would_stay_as_corners() -> None:
    assert len(hull2d([*SQUARE, (5.0, 0.0), (5.0, 5.0), (10.0, 3.0), (0.0, 0.0)])) == 4


def test_the_noise_of_floats_would_make_corners_on_a_straight_edge() -> None:
    hull = hull2d([*SQUARE, (5.0, -1e-9), (10.0 + 1e-9, 5.0), (3.0, 10.0 + 1e-9), (-1e-9, 4.0)])
    assert sorted(hull) == sorted(SQUARE)


def test_a_corner_given_twice_but_for_noise_would_be_dropped_both_times() -> None:
    for x, y in SQUARE:
        for off in (-1e-12, 1e-12):
            assert area(hull2d([*SQUARE, (x + off, y), (x, y + off)])) == pytest.approx(100.0)


@pytest.mark.parametrize("cloud", [[], [(1.0, 2.0)] * 3, [(0.0, 0.0), (1.0, 1.0), (3.0, 3.0), (2.0, 2.0)]])
def test_points_on_one_line_would_enclose_something(cloud: list[Flat]) -> None:
    assert len(hull2d(cloud)) < 3
    assert area(hull2d(cloud)) == 0.0


def test_a_slot_would_be_measured_along_the_world_axes() -> None:
    diamond = ((0.0, 0.0), (10.0, 10.0), (9.0, 11.0), (-1.0, 1.0))
    assert least_width(diamond) == pytest.approx(2.0**0.5)
    assert least_width(SQUARE[:2]) == 0.0


def test_the_span_of_a_patch_along_its_rail() -> None:
    assert span_along([(1.0, 0.0, 5.0), (4.0, 0.0, 5.0), (4.0, 9.0, 5.0)], (-1.0, 0.0, 0.0)) == (-4.0, -1.0)


@some
@given(directions, st.lists(points, min_size=1, max_size=5), place)
def test_an_outline_laid_flat_does_not_come_back(normal: Vec, cloud: list[Vec], offset: float) -> None:
    u, v = flat_axes(normal)
    assert cross(u, v) == pytest.approx(normal, abs=1e-9)
    back = lift(project(cloud, normal), normal, offset)
    for point, there in zip(cloud, back, strict=True):
        assert dot(there, normal) == pytest.approx(offset, abs=1e-6)
        assert (dot(there, u), dot(there, v)) == pytest.approx((dot(point, u), dot(point, v)), abs=1e-6)


@some
@given(convex, convex)
def test_overlap_against_shapely(a: tuple[Flat, ...], b: tuple[Flat, ...]) -> None:
    shapely = pytest.importorskip("shapely")
    common = shapely.Polygon(a).intersection(shapely.Polygon(b))
    assert area(overlap(a, b)) == pytest.approx(common.area, abs=1e-3)
    assert area(overlap(b, a)) == pytest.approx(common.area, abs=1e-3)


@some
@given(clouds, st.floats(0.0, 6.3))
def test_hull_against_shapely(cloud: list[Flat], angle: float) -> None:
    """Turned, points in a row are off the line by noise: a corner dropped for it would show."""
    shapely = pytest.importorskip("shapely")
    c, s = math.cos(angle), math.sin(angle)
    cloud = [(c * x - s * y, s * x + c * y) for x, y in cloud]
    assert area(hull2d(cloud)) == pytest.approx(shapely.MultiPoint(cloud).convex_hull.area, abs=1e-3)
