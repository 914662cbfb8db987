"""What hides a point, as shapely tells it: each board is drawn on a sheet held square to the line of sight.

Only what of the board lies between the point and the eye is drawn, as the hull of its corners there and of where
the lines between its corners pass the point's or the eye's level. The point is hidden where it falls on a drawing.
"""

from __future__ import annotations

import math
from itertools import combinations, product
from typing import Any, NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.geometry.sight import is_hidden_from_eye, is_hidden_towards, what_hides
from planlint.geometry.solid import Axes, Solid, block, oriented
from planlint.geometry.vector import WORLD, Vec, add, cross, dot, length, scale, sub, unit

from .boards import directions, frames, place, points

shapely = pytest.importorskip("shapely")
some = settings(max_examples=150, deadline=None, derandomize=True)
GRAZE = 0.05  # mm: a line that goes no deeper below a board's face sees past it (planlint/geometry/sight.py)
NEAR = 1e-6  # mm: nearer to the edge of a drawing, rounding decides


class Board(NamedTuple):
    """A board as the product has it, and its corners a graze below its faces, worked out here."""

    solid: Solid
    corners: tuple[Vec, ...]


@st.composite
def boards(draw: st.DrawFn) -> Board:
    """A board in the world's axes or in its own."""
    sizes = draw(st.tuples(*[st.integers(2, 300).map(lambda n: n * 0.5)] * 3))
    middle = draw(points)
    if draw(st.booleans()):
        half = scale(sizes, 0.5)
        return Board(block(sub(middle, half), add(middle, half)), below(middle, WORLD, sizes))
    axes = draw(frames())
    return Board(oriented(middle, axes, sizes), below(middle, axes, sizes))


def below(middle: Vec, axes: Axes, sizes: Vec) -> tuple[Vec, ...]:
    """The corners of a board a graze below its faces."""
    found: list[Vec] = []
    for signs in product((-1.0, 1.0), repeat=3):
        corner = middle
        for sign, axis, size in zip(signs, axes, sizes, strict=True):
            corner = add(corner, scale(axis, sign * (size / 2.0 - GRAZE)))
        found.append(corner)
    return tuple(found)


def drawn(board: Board, direction: Vec, start: float, end: float) -> Any:
    """The drawing of what of a board lies between two levels along the line of sight."""
    across = unit(cross(direction, (1.0, 0.0, 0.0) if abs(direction[0]) < 0.8 else (0.0, 1.0, 0.0)))
    up = cross(direction, across)
    kept = [corner for corner in board.corners if start <= dot(corner, direction) <= end]
    for (one, other), level in product(combinations(board.corners, 2), (start, end)):
        a, b = dot(one, direction), dot(other, direction)
        if min(a, b) < level < max(a, b):
            kept.append(add(one, scale(sub(other, one), (level - a) / (b - a))))
    return shapely.MultiPoint([(dot(p, across), dot(p, up)) for p in kept]).convex_hull, across, up


def hides(board: Board, point: Vec, direction: Vec, far: float) -> bool | None:
    """Whether the point falls on the drawing of the board; None where rounding would decide."""
    start = dot(point, direction)
    drawing, across, up = drawn(board, direction, start, start + far)
    here = shapely.Point(dot(point, across), dot(point, up))
    if drawing.is_empty:
        return False
    if drawing.geom_type != "Polygon" or drawing.exterior.distance(here) < NEAR:
        return None if drawing.distance(here) < NEAR else False
    return bool(drawing.contains(here))


def hidden(found: list[bool | None]) -> bool | None:
    """By any of the boards; None where rounding would decide."""
    return True if True in found else None if None in found else False


def test_a_point_behind_a_board_would_be_taken_for_seen_from_far_away() -> None:
    answers: set[bool | None] = set()

    @some
    @given(st.lists(boards(), min_size=1, max_size=4), points, directions)
    def told(those: list[Board], point: Vec, direction: Vec) -> None:
        found = [hides(board, point, direction, math.inf) for board in those]
        answers.add(hidden(found))
        if hidden(found) is not None:
            assert is_hidden_towards(point, direction, [board.solid for board in those]) == hidden(found)

    told()
    assert {True, False} <= answers


def test_a_board_behind_the_eye_or_the_point_would_hide_it() -> None:
    answers: set[bool | None] = set()

    @some
    @given(st.lists(boards(), min_size=1, max_size=4), points, st.tuples(place, place, place))
    def told(those: list[Board], point: Vec, eye: Vec) -> None:
        way = sub(eye, point)
        far = length(way)
        if far == 0.0:
            return
        found = [hides(board, point, unit(way), far) for board in those]
        answers.add(hidden(found))
        if hidden(found) is not None:
            assert is_hidden_from_eye(point, eye, [board.solid for board in those]) == hidden(found)
        if None not in found:
            blames = what_hides(point, unit(way), far, [board.solid for board in those])
            first = found.index(True) if True in found else None
            assert blames is (None if first is None else those[first].solid)

    told()
    assert {True, False} <= answers
