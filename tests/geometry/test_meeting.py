from __future__ import annotations

import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.meeting import Patch, distance, line_contact, patches, push_apart, shared
from planlint.geometry.outline import area, project
from planlint.geometry.solid import Axes, Face, Plane, Solid, block, clip, moved, oriented, prism
from planlint.geometry.sweep import near_pairs
from planlint.geometry.vector import WORLD, Vec, dot, scale, turn

from .boards import assert_closed, boards, frames, hull, leaning, solids, some, turned, turns_left

WITHIN = 0.8
LEG = block((0.0, 0.0, 0.0), (89.0, 89.0, 400.0))
RAIL = block((89.0, 25.0, 300.0), (1000.0, 63.0, 389.0))


def about_x(degrees: float) -> Axes:
    return (WORLD[0], turn(WORLD[1], WORLD[0], degrees), turn(WORLD[2], WORLD[0], degrees))


def still(solid: Solid, by: Vec) -> Solid:
    return moved(solid, by, WORLD)


def test_a_rail_meets_a_leg_over_its_end() -> None:
    (patch,) = patches(LEG, RAIL, WITHIN)
    assert patch.normal == (1.0, 0.0, 0.0)
    assert patch.area == 38.0 * 89.0
    assert patch.gap == 0.0
    assert set(patch.outline) == {(89.0, y, z) for y in (25.0, 63.0) for z in (300.0, 389.0)}


def test_the_normal_would_look_from_the_second_into_the_first() -> None:
    assert patches(RAIL, LEG, WITHIN)[0].normal == (-1.0, 0.0, 0.0)


@pytest.mark.parametrize(("off", "meets"), [(0.8, True), (-0.8, True), (0.81, False), (-0.81, False)])
def test_a_gap_at_the_limit_is_allowed_and_one_past_it_is_not(off: float, meets: bool) -> None:
    near = still(RAIL, (off, 0.0, 0.0))
    for frame in (WORLD, about_x(12.0)):
        found = patches(moved(LEG, (0.0, 0.0, 0.0), frame), moved(near, (0.0, 0.0, 0.0), frame), WITHIN)
        assert [patch.gap for patch in found] == (pytest.approx([off]) if meets else [])


@pytest.mark.parametrize("by", [(0.0, 64.0, 0.0), (0.0, 64.0, 100.0), (0.0, 63.995, 0.0)])
def test_touching_along_a_line_or_at_a_point_would_be_contact(by: Vec) -> None:
    beside = still(RAIL, by)
    for frame in (WORLD, about_x(12.0)):
        a, b = moved(LEG, (0.0, 0.0, 0.0), frame), moved(beside, (0.0, 0.0, 0.0), frame)
        assert patches(a, b, WITHIN) == []
        assert line_contact(a, b, WITHIN)
        assert shared(a, b) is None


def test_a_square_foot_of_a_leaning_leg_stands_on_its_edge() -> None:
    floor = block((-500.0, -500.0, -20.0), (500.0, 500.0, 0.0))
    leg = moved(LEG, (0.0, 0.0, 0.0), about_x(12.0))
    leg = still(leg, (0.0, 0.0, -leg.low[2]))
    assert patches(leg, floor, WITHIN) == []
    assert line_contact(leg, floor, WITHIN)


def test_a_level_foot_of_a_leaning_leg_stands_on_its_face() -> None:
    floor = block((-500.0, -500.0, -20.0), (500.0, 500.0, 0.0))
    leg = clip(moved(LEG, (0.0, 0.0, -50.0), about_x(12.0)), Plane((0.0, 0.0, -1.0), 0.0))
    assert leg is not None
    (patch,) = patches(leg, floor, WITHIN)
    foot = next(face for face in leg.faces if face.plane.normal == (0.0, 0.0, -1.0))
    assert patch.area == pytest.approx(area(project(foot.outline, foot.plane.normal)))
    assert not line_contact(leg, floor, WITHIN)


def test_faces_half_a_degree_off_are_opposite_and_more_are_not() -> None:
    for degrees, count in ((0.45, 1), (0.55, 0)):
        top = moved(block((0.0, 0.0, 0.0), (89.0, 20.0, 20.0)), (0.0, 0.0, 400.0), about_x(degrees))
        assert len(patches(LEG, top, WITHIN)) == count


@pytest.mark.parametrize("sunk", [0.0, 3.0])
def test_a_face_that_only_its_edge_brings_near_would_be_contact(sunk: float) -> None:
    """0.4 deg over 400 mm opens by 2.8: the faces are 1.4 apart (or sunk) in the middle."""
    lid = moved(block((0.0, 0.0, 0.0), (89.0, 400.0, 20.0)), (0.0, 0.0, 400.0 - sunk), about_x(0.4))
    post = block((0.0, 0.0, 0.0), (89.0, 400.0, 400.0))
    assert patches(post, lid, WITHIN) == []


@pytest.mark.parametrize("way", [*WORLD, *[scale(way, -1.0) for way in WORLD]])
def test_an_outline_would_run_the_wrong_way_round(way: Vec) -> None:
    cube = block((0.0, 0.0, 0.0), (10.0, 10.0, 10.0))
    for frame in (WORLD, about_x(12.0)):
        a, b = (
            moved(cube, (0.0, 0.0, 0.0), frame),
            moved(still(cube, scale(way, 10.0)), (0.0, 0.0, 0.0), frame),
        )
        (patch,) = patches(a, b, WITHIN)
        assert turns_left(patch.outline, patch.normal)


def test_boards_apart_are_neither_contact_nor_line() -> None:
    away = still(RAIL, (3.0, 0.0, 0.0))
    assert patches(LEG, away, WITHIN) == [] and not line_contact(LEG, away, WITHIN)
    assert distance(LEG, away) == 3.0 and push_apart(LEG, away) == (0.0, (0.0, 0.0, 0.0))


def test_a_board_deep_in_another_would_be_a_line_contact() -> None:
    assert not line_contact(LEG, still(RAIL, (-9.5, 0.0, 0.0)), WITHIN)


def test_the_same_board_twice_meets_nothing_and_shares_all() -> None:
    for frame in (WORLD, about_x(30.0)):
        a, b = moved(RAIL, (0.0, 0.0, 0.0), frame), moved(RAIL, (0.0, 0.0, 0.0), frame)
        common = shared(a, b)
        assert patches(a, b, WITHIN) == [] and distance(a, b) == 0.0
        assert common is not None and common.volume == pytest.approx(RAIL.volume)
        assert push_apart(a, b)[0] == pytest.approx(38.0)


def test_a_board_inside_another_shares_itself() -> None:
    core = block((20.0, 20.0, 20.0), (30.0, 30.0, 30.0))
    for frame in (WORLD, about_x(30.0)):
        common = shared(moved(LEG, (0.0, 0.0, 0.0), frame), moved(core, (0.0, 0.0, 0.0), frame))
        assert common is not None and common.volume == pytest.approx(1000.0)


@pytest.mark.parametrize(("deep", "none"), [(0.009, True), (0.011, False), (9.5, False)])
def test_a_film_of_shared_space_would_be_an_overlap(deep: float, none: bool) -> None:
    for frame in (WORLD, about_x(12.0)):
        a = moved(LEG, (0.0, 0.0, 0.0), frame)
        b = moved(still(RAIL, (-deep, 0.0, 0.0)), (0.0, 0.0, 0.0), frame)
        common = shared(a, b)
        assert (common is None) == none
        if common is not None:
            assert common.volume == pytest.approx(deep * 38.0 * 89.0)


def test_edges_that_just_cross_share_a_film() -> None:
    lower = oriented((0.0, 0.0, 0.0), about_x(45.0), (200.0, 20.0, 20.0))
    across: Axes = (WORLD[1], turn(WORLD[0], WORLD[1], 45.0), turn(WORLD[2], WORLD[1], 45.0))
    for deep, none in ((0.009, True), (0.011, False)):
        upper = oriented((0.0, 0.0, 2 * 10.0 * 2.0**0.5 - deep), across, (200.0, 20.0, 20.0))
        assert (shared(lower, upper) is None) == none
        found, way = push_apart(lower, upper)
        assert found == pytest.approx(deep)
        assert way == pytest.approx((0.0, 0.0, 1.0))


def test_the_push_would_drive_the_second_deeper() -> None:
    assert push_apart(LEG, still(RAIL, (-9.5, 0.0, 0.0))) == (9.5, (1.0, 0.0, 0.0))
    assert push_apart(still(RAIL, (-9.5, 0.0, 0.0)), LEG) == (9.5, (-1.0, 0.0, 0.0))


def test_a_rung_in_a_hole_is_found_as_shared_space() -> None:
    rung = prism((80.0, 44.5, 200.0), WORLD[0], 25.4, 100.0)
    common = shared(LEG, rung)
    assert common is not None
    assert common.volume == pytest.approx(rung.volume * 0.59)
    assert distance(rung, block((130.0, 0.0, 0.0), (140.0, 89.0, 187.3))) == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("size", [(0.0, 38.0, 89.0), (0.0, 0.0, 89.0), (0.0, 0.0, 0.0)])
def test_a_board_of_no_size_would_crash_or_share_space(size: Vec) -> None:
    for frame in (WORLD, about_x(12.0)):
        nothing = moved(
            block((40.0, 40.0, 40.0), (40.0 + size[0], 40.0 + size[1], 40.0 + size[2])),
            (0.0, 0.0, 0.0),
            frame,
        )
        leg = moved(LEG, (0.0, 0.0, 0.0), frame)
        for a, b in ((leg, nothing), (nothing, leg), (nothing, nothing)):
            assert shared(a, b) is None
            assert distance(a, b) == 0.0
            assert push_apart(a, b)[0] == 0.0
            patches(a, b, WITHIN)  # must not raise
            line_contact(a, b, WITHIN)


def _numbers(found: list[Patch]) -> list[tuple[float, float]]:
    return sorted((round(patch.gap, 6), patch.area) for patch in found)


@some
@given(boards(), boards(), frames())
def test_the_quick_way_and_the_general_way_disagree(a: Solid, b: Solid, frame: Axes) -> None:
    c, d = turned(a, frame), turned(b, frame)
    quick, general = patches(a, b, WITHIN), patches(c, d, WITHIN)
    assert [gap for gap, _ in _numbers(general)] == [gap for gap, _ in _numbers(quick)]
    assert [size for _, size in _numbers(general)] == pytest.approx([size for _, size in _numbers(quick)])
    assert distance(c, d) == pytest.approx(distance(a, b), abs=1e-5)
    assert push_apart(c, d)[0] == pytest.approx(push_apart(a, b)[0], abs=1e-5)
    assert line_contact(c, d, WITHIN) == line_contact(a, b, WITHIN)
    common, turned_common = shared(a, b), shared(c, d)
    assert (common is None) == (turned_common is None)
    if common is not None and turned_common is not None:
        assert turned_common.volume == pytest.approx(common.volume, rel=1e-6)


@some
@given(st.sampled_from([boards(), leaning()]).flatmap(lambda kind: kind), solids)
def test_a_patch_whose_outline_is_not_its_area_or_not_on_the_first(a: Solid, b: Solid) -> None:
    for patch in patches(a, b, WITHIN):
        assert area(project(patch.outline, patch.normal)) == pytest.approx(patch.area)
        on = [face for face in a.faces if dot(face.plane.normal, patch.normal) > 1.0 - 1e-9]
        assert all(abs(dot(patch.normal, p) - on[0].plane.offset) < 1e-6 for p in patch.outline)


@some
@given(solids, solids)
def test_shared_space_against_manifold3d(a: Solid, b: Solid) -> None:
    common = shared(a, b)
    volume = (hull(a) ^ hull(b)).volume()
    if common is None:
        assert volume < 0.02 * 140.0**2  # a film
    else:
        assert_closed(common)
        assert common.volume == pytest.approx(volume, rel=1e-5, abs=1e-3)


@some
@given(solids, solids)
def test_distance_against_manifold3d(a: Solid, b: Solid) -> None:
    far = distance(a, b)
    assert far == pytest.approx(hull(a).min_gap(hull(b), 1000.0), abs=1e-3)
    assert distance(b, a) == pytest.approx(far, abs=1e-5)


@some
@given(solids, solids)
def test_the_push_does_not_part_them_or_is_longer_than_need_be(a: Solid, b: Solid) -> None:
    deep, way = push_apart(a, b)
    assert push_apart(b, a)[0] == pytest.approx(deep, abs=1e-5)
    if deep > 0.0:
        assert shared(a, still(b, scale(way, deep))) is None
    if deep > 0.1:  # parted by no shorter push, in any of many directions
        for other in (way, *WORLD, (0.6, 0.8, 0.0), (0.0, 0.6, -0.8), (-0.8, 0.0, 0.6)):
            assert (hull(a) ^ hull(still(b, scale(other, deep - 0.05)))).volume() > 0.0


@some
@given(boards(), boards(), frames(), st.floats(-0.7, 0.7))
def test_patch_area_against_shapely(a: Solid, b: Solid, frame: Axes, gap: float) -> None:
    """The second board is laid on the first's top, turned; shapely overlaps the two faces."""
    shapely = pytest.importorskip("shapely")
    flat: Axes = (turn(WORLD[0], WORLD[2], 33.0), turn(WORLD[1], WORLD[2], 33.0), WORLD[2])
    b = moved(b, (0.0, 0.0, a.high[2] - b.low[2] + gap), flat)
    common = _top(a, shapely).intersection(_bottom(b, shapely))
    found = [
        p for p in patches(turned(a, frame), turned(b, frame), WITHIN) if dot(p.normal, frame[2]) > 0.999
    ]
    if common.area > 2.0:
        assert [p.area for p in found] == [pytest.approx(common.area, abs=0.01)]
        assert found[0].gap == pytest.approx(gap, abs=1e-6)
    else:
        assert sum(p.area for p in found) <= 2.1


def _top(solid: Solid, shapely: Any) -> Any:
    return _polygon(solid.faces[5], shapely)


def _bottom(solid: Solid, shapely: Any) -> Any:
    return _polygon(solid.faces[4], shapely)


def _polygon(face: Face, shapely: Any) -> Any:
    return shapely.Polygon([(x, y) for x, y, _ in face.outline])


def test_boards_along_the_axes_go_the_quick_way() -> None:
    """Guards: boxes compared by the general way, which takes ten times as long. Measured side by side."""
    seats = [block((0.0, i * 43.0, 420.0), (1189.0, i * 43.0 + 38.0, 458.0)) for i in range(9)]
    joists = [block((89.0 + i * 64, 0.0, 331.0), (127.0 + i * 64, 382.0, 420.0)) for i in range(16)]
    piece = [*seats, *joists]
    axes = tuple(turn(axis, (0.0, 0.0, 1.0), 20.0) for axis in WORLD)
    aslant = [moved(solid, (0.0, 0.0, 0.0), axes) for solid in piece]  # type: ignore[arg-type]
    quick, general = (min(_time_all_pairs(each) for _ in range(5)) for each in (piece, aslant))
    assert 3 * quick < general


def _time_all_pairs(piece: list[Solid]) -> float:
    start = time.perf_counter()
    pairs = near_pairs([(solid.low, solid.high) for solid in piece], WITHIN)
    found = [patches(piece[i], piece[j], WITHIN) for i, j in pairs if shared(piece[i], piece[j]) is None]
    assert len(found) == len(pairs) >= 100
    return time.perf_counter() - start
