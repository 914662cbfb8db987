"""Cutting solids with a plane, against manifold3d's slices and shapely's sums."""

from __future__ import annotations

import math

import manifold3d
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon as Shape

from planlint.auditing import audit_text
from planlint.drawing.section import (
    Cut,
    Region,
    Window,
    borders,
    outline_of,
    overlap,
    owner_at,
    regions,
)
from planlint.geometry.body import Plane
from planlint.geometry.solid import Solid, block, clip, oriented, prism
from planlint.geometry.vector import Vec, cross, dot, sub, turn, unit

some = settings(max_examples=60, deadline=None, derandomize=True)
numbers = st.floats(-60.0, 60.0).map(lambda x: round(x, 2))
points = st.tuples(numbers, numbers, numbers)
ways = points.filter(lambda p: math.hypot(*p) > 1.0).map(unit)
angles = st.floats(-180.0, 180.0)
sizes = st.tuples(*[st.floats(5.0, 90.0).map(lambda x: round(x, 2))] * 3)


@st.composite
def frames(draw: st.DrawFn) -> tuple[Vec, Vec, Vec]:
    """Three axes, square to each other, turned anyhow."""
    axis, angle = draw(ways), draw(angles)
    x, y = turn((1.0, 0.0, 0.0), axis, angle), turn((0.0, 1.0, 0.0), axis, angle)
    return x, y, cross(x, y)


@st.composite
def boards(draw: st.DrawFn) -> Solid:
    """A board, straight or leaning, often with an end cut aslant; or a rod."""
    if draw(st.integers(0, 4)) == 0:
        return prism(draw(points), draw(ways), draw(st.floats(8.0, 40.0)), draw(st.floats(20.0, 90.0)))
    axes = draw(frames()) if draw(st.booleans()) else ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    solid = oriented(draw(points), axes, draw(sizes))
    if draw(st.booleans()):
        normal = draw(ways)
        cut = clip(solid, Plane(normal, dot(normal, solid.centroid) + draw(st.floats(0.0, 15.0))))
        solid = cut or solid
    return solid


def sliced(solid: Solid, cut: Cut) -> Shape:
    """The section as manifold3d makes it: the solid turned so that the plane is z = 0."""
    ahead = cut.normal
    flat = [(*cut.flat(p), dot(sub(p, cut.origin), ahead)) for p in solid.vertices]
    hull = manifold3d.Manifold.hull_points([[float(x) for x in p] for p in flat])
    found = [Shape(polygon) for polygon in hull.slice(0.0).to_polygons() if len(polygon) > 2]
    return found[0] if found else Shape()


@some
@given(boards(), frames(), st.floats(-0.45, 0.45))
def test_the_outline_is_the_slice_of_the_same_solid(
    solid: Solid, axes: tuple[Vec, Vec, Vec], part: float
) -> None:
    """A wrong half-space or a lost corner would draw wood where there is none."""
    right, up, ahead = axes
    reach = [dot(p, ahead) for p in solid.vertices]
    at = (min(reach) + max(reach)) / 2.0 + part * (max(reach) - min(reach))
    centre = solid.centroid
    origin = tuple(c + (at - dot(centre, ahead)) * n for c, n in zip(centre, ahead, strict=True))
    cut = Cut(origin, right, up)  # type: ignore[arg-type]
    ours, theirs = Shape(outline_of(solid, cut) or [(0, 0), (0, 0), (0, 0)]), sliced(solid, cut)
    # manifold3d reckons in single precision.
    assert ours.symmetric_difference(theirs.buffer(0)).area < 0.02 + 1e-4 * ours.length


@some
@given(boards(), frames())
def test_a_plane_that_passes_a_solid_by_cuts_nothing(solid: Solid, axes: tuple[Vec, Vec, Vec]) -> None:
    right, up, ahead = axes
    beyond = max(dot(p, ahead) for p in solid.vertices) + 0.5
    origin = tuple(n * beyond for n in ahead)
    assert outline_of(solid, Cut(origin, right, up)) == ()  # type: ignore[arg-type]


@some
@given(boards(), frames())
def test_the_outline_runs_counter_clockwise_and_is_convex(solid: Solid, axes: tuple[Vec, Vec, Vec]) -> None:
    """Else what is inside would be taken for outside, and hatched there."""
    polygon = outline_of(solid, Cut(solid.centroid, axes[0], axes[1]))
    shape = Shape(polygon)
    assert shape.exterior.is_ccw
    assert shape.convex_hull.area == pytest.approx(shape.area, rel=1e-9)


def test_a_face_in_the_plane_counts_only_where_a_fastener_passes_it() -> None:
    """Two boards that meet in the plane would both be drawn over each other."""
    solid, cut = block((0, 0, 0), (10, 20, 30)), Cut((0, 0, 0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    assert outline_of(solid, cut) == ()
    assert Shape(outline_of(solid, cut, touching=True)).area == pytest.approx(300.0)


@some
@given(boards(), boards(), frames())
def test_what_two_outlines_share_is_what_shapely_says(
    one: Solid, other: Solid, axes: tuple[Vec, Vec, Vec]
) -> None:
    cut = Cut(one.centroid, axes[0], axes[1])
    a, b = outline_of(one, cut), outline_of(other, cut)
    if a and b:
        shared = overlap(a, b)
        assert (Shape(shared).area if shared else 0.0) == pytest.approx(
            Shape(a).intersection(Shape(b)).area, abs=1e-6
        )


def length_of(lines: list[tuple[tuple[float, float], tuple[float, float]]]) -> float:
    return sum(math.dist(start, end) for start, end in lines)


def square(name: str, left: float, bottom: float, right: float, top: float) -> Region:
    return Region(name, ((left, bottom), (right, bottom), (right, top), (left, top)))


WIDE = Window(-100.0, -100.0, 100.0, 100.0)


def test_the_line_between_two_boards_is_drawn_once() -> None:
    """Drawn twice it prints heavier than the outline."""
    lines, torn = borders([square("a", 0, 0, 30, 20), square("b", 30, 0, 50, 20)], WIDE)
    assert length_of(lines) == pytest.approx(2 * 50 + 2 * 20 + 20)
    assert torn == []


def test_no_line_stands_between_the_wood_of_one_part() -> None:
    """Of a tenon and the rail it is on: a line there would tell of a joint that is none."""
    leg, rail = square("leg", 0, 0, 30, 40), square("rail", 20, 10, 60, 30)
    kept = square("rail", 20, 10, 30, 30)
    lines, _ = borders([leg, rail, kept], WIDE)
    ends = [point for one in lines for point in one]
    assert not any(math.isclose(x, 30) and 10.1 < y < 29.9 for x, y in ends)
    # The leg without the tenon's 20 mm of its right side; the rail's three sides outside; the tenon's three inside.
    assert length_of(lines) == pytest.approx((2 * 30 + 2 * 40 - 20) + (2 * 30 + 20) + (2 * 10 + 20))


def test_wood_that_goes_on_is_torn_and_not_outlined() -> None:
    lines, torn = borders([square("a", -500, 0, 500, 20)], WIDE)
    assert length_of(lines) == pytest.approx(2 * 200)
    assert length_of(torn) == pytest.approx(2 * 20)


def test_shared_space_is_the_keeper_s() -> None:
    """A half-lap drawn with both woods whole would hide that each is cut."""
    audit = audit_text(
        'plan "Lap"\n  units mm\n  wood pine\nparts\n  bar: 1 of 20 x 60 @ 300\n  rail: 1 of 20 x 60 @ 300\n'
        "place\n  bar: runs left-right, face top, left at 0, front at 100, bottom at 0\n"
        "  rail: runs front-back, face top, left at 100, front at 0, bottom at 0\n"
        "step\n  bar to rail: half-lap and glue\n"
    )
    assert audit.piece.shares
    cut = Cut((130.0, 130.0, 10.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    found = regions(audit.piece.parts, audit.piece.shares, cut, set())
    assert {owner_at((0.0, 5.0), found), owner_at((0.0, -5.0), found)} == {"bar", "rail"}
    assert owner_at((-100.0, 5.0), found) == "bar"
    assert owner_at((-150.0, 0.0), found) is None
