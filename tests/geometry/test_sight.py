from __future__ import annotations

import pytest
from hypothesis import given

from planlint.geometry.path import cross_line
from planlint.geometry.sight import is_hidden, is_hidden_from_eye, is_hidden_towards
from planlint.geometry.solid import Axes, Solid, block, moved, oriented
from planlint.geometry.vector import Vec, add, length, scale, sub, turn

from .boards import boards, directions, frames, points, solids, some, turned

FRONT: Vec = (0.0, -1.0, 0.0)
RAIL = block((0.0, 0.0, 300.0), (1000.0, 38.0, 389.0))
LEAN: Axes = (
    (1.0, 0.0, 0.0),
    turn((0.0, 1.0, 0.0), (1.0, 0.0, 0.0), 12.0),
    turn((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), 12.0),
)


def test_a_pocket_on_the_front_of_a_rail_is_seen_and_one_on_its_back_is_not() -> None:
    assert not is_hidden((500.0, 0.0, 340.0), FRONT, [RAIL])
    assert is_hidden((500.0, 38.0, 340.0), FRONT, [RAIL])


def test_the_surface_a_point_lies_on_would_hide_it() -> None:
    for direction in (FRONT, (1.0, 0.0, 0.0), (0.6, -0.8, 0.0)):
        assert not is_hidden((500.0, 0.0, 340.0), direction, [RAIL])
        turned_rail = moved(RAIL, (0.0, 0.0, 0.0), LEAN)
        point = add(scale(LEAN[0], 500.0), scale(LEAN[2], 340.0))
        way = add(scale(LEAN[0], direction[0]), scale(LEAN[1], direction[1]))
        assert not is_hidden(point, way, [turned_rail])


@pytest.mark.parametrize(("thick", "hidden"), [(20.0, True), (0.04, False)])
def test_a_board_that_covers_the_pocket_hides_it(thick: float, hidden: bool) -> None:
    board = block((0.0, -thick, 300.0), (1000.0, 0.0, 389.0))
    assert is_hidden((500.0, 0.0, 340.0), FRONT, [RAIL, board]) == hidden


@pytest.mark.parametrize(("edge", "hidden"), [(340.0, False), (340.04, False), (340.06, True)])
def test_a_line_of_sight_that_grazes_an_edge_would_be_blocked(edge: float, hidden: bool) -> None:
    apron = block((0.0, -200.0, 300.0), (1000.0, -180.0, edge))
    for frame in ((((1.0, 0.0, 0.0)), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), LEAN):
        solid = moved(apron, (0.0, 0.0, 0.0), frame)
        point = add(scale(frame[0], 500.0), scale(frame[2], 340.0))
        assert is_hidden(point, scale(frame[1], -1.0), [solid]) == hidden


def test_what_stands_behind_the_eye_would_hide_the_point() -> None:
    wall = block((-5000.0, -2000.0, 0.0), (5000.0, -1900.0, 3000.0))
    leaning_wall = oriented(wall.centroid, LEAN, (10000.0, 100.0, 3000.0))
    for behind in (wall, leaning_wall):
        assert not is_hidden((500.0, 0.0, 340.0), (500.0, -1000.0, 600.0), [RAIL, behind])
        assert is_hidden((500.0, 0.0, 340.0), (500.0, -2800.0, 600.0), [RAIL, behind])
        assert is_hidden((500.0, 0.0, 340.0), FRONT, [RAIL, behind])


def test_what_stands_behind_the_point_would_hide_it() -> None:
    assert not is_hidden((500.0, -1.0, 340.0), FRONT, [RAIL])


def test_an_eye_at_the_point_sees_it() -> None:
    assert not is_hidden((500.0, 0.0, 340.0), (500.0, 0.0, 340.0), [RAIL])


@some
@given(boards(), frames(), points, directions)
def test_the_quick_look_and_the_general_one_disagree(board: Solid, frame: Axes, point: Vec, way: Vec) -> None:
    def into(v: Vec) -> Vec:
        return add(scale(frame[0], v[0]), add(scale(frame[1], v[1]), scale(frame[2], v[2])))

    there = turned(board, frame)
    moved_point = add((10.0, -20.0, 30.0), into(point))
    assert is_hidden_towards(point, way, [board]) == is_hidden_towards(moved_point, into(way), [there])


@some
@given(solids, points, points)
def test_a_clear_line_is_blocked_or_a_blocked_one_clear(solid: Solid, point: Vec, eye: Vec) -> None:
    way = sub(eye, point)
    far = length(way)
    if far < 1.0:
        return
    passed = cross_line(solid, point, scale(way, 1.0 / far))
    wood = 0.0 if passed is None else min(passed[1], far) - max(passed[0], 0.0)
    hidden = is_hidden_from_eye(point, eye, [solid])
    if wood <= 0.0:
        assert not hidden
    if hidden:
        assert wood > 0.05
