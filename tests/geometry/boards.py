"""Random boards for the property tests, and the same boards as the oracles know them."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st

from planlint.geometry.solid import Axes, Plane, Solid, block, clip, moved, oriented
from planlint.geometry.vector import WORLD, Vec, dot, turn, unit

some = settings(max_examples=60, deadline=None)

# Half millimetres, so that boards often lie flush, touch or coincide, as in a plan.
place = st.integers(-160, 160).map(lambda n: n * 0.5)
side = st.integers(2, 160).map(lambda n: n * 0.5)
free = st.floats(-1.0, 1.0, allow_nan=False, width=32)
points: st.SearchStrategy[Vec] = st.tuples(place, place, place)
directions: st.SearchStrategy[Vec] = st.tuples(free, free, free).filter(lambda v: dot(v, v) > 0.01).map(unit)
angles = st.one_of(st.sampled_from([0.2, 5.0, 12.0, 30.0, 45.0]), st.floats(0.2, 359.0))


@st.composite
def frames(draw: st.DrawFn) -> Axes:
    """Three axes, turned away from the world's."""
    axis, angle = draw(directions), draw(angles)
    x, y, z = [turn(way, axis, angle) for way in WORLD]
    return x, y, z


@st.composite
def boards(draw: st.DrawFn) -> Solid:
    """An aligned box."""
    low = draw(points)
    return block(low, (low[0] + draw(side), low[1] + draw(side), low[2] + draw(side)))


@st.composite
def leaning(draw: st.DrawFn) -> Solid:
    """A box in any frame, one end perhaps cut aslant."""
    board = oriented(draw(points), draw(frames()), (draw(side), draw(side), draw(side)))
    if not draw(st.booleans()):
        return board
    way = draw(directions)
    return clip(board, Plane(way, dot(way, board.centroid) + draw(st.floats(0.0, 20.0)))) or board


solids = st.one_of(boards(), leaning())


def turned(solid: Solid, frame: Axes) -> Solid:
    """The solid in another frame: what the general way is asked where the quick way is not open."""
    return moved(solid, (10.0, -20.0, 30.0), frame)


def hull(solid: Solid) -> Any:
    """The solid as manifold3d has it, from its corners alone."""
    manifold3d, numpy = pytest.importorskip("manifold3d"), pytest.importorskip("numpy")
    return manifold3d.Manifold.hull_points(numpy.array(solid.vertices))


def assert_closed(solid: Solid) -> None:
    """Every corner is inside every face's plane, every outline is in its plane and runs counter-clockwise."""
    for (normal, offset), outline in solid.faces:
        assert abs(dot(normal, normal) - 1.0) < 1e-9
        assert all(dot(normal, p) <= offset + 1e-5 for p in solid.vertices)
        assert all(abs(dot(normal, p) - offset) < 1e-5 for p in outline)
        assert turns_left(outline, normal)
    # Euler: corners, edges and faces of a closed solid; a corner made twice, or an edge left open, breaks it.
    ends = sum(len(outline) for _, outline in solid.faces)
    assert len(solid.vertices) - ends / 2 + len(solid.faces) == 2


def turns_left(outline: tuple[Vec, ...], normal: Vec) -> bool:
    """Whether the outline runs counter-clockwise as seen against the normal."""
    total = 0.0
    for a, b in zip(outline, outline[1:] + outline[:1], strict=True):
        total += normal[0] * (a[1] * b[2] - a[2] * b[1])
        total += normal[1] * (a[2] * b[0] - a[0] * b[2])
        total += normal[2] * (a[0] * b[1] - a[1] * b[0])
    return total > 0.0
