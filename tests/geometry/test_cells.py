"""Boards with housings and holes: what is left, and its edges."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.geometry.cells import body, cut
from planlint.geometry.solid import Solid, block, prism

from .boards import hull, solids

some = settings(max_examples=40, deadline=None, derandomize=True)


def edge_length(cells: list[Solid]) -> float:
    return sum(math.dist(edge.start, edge.end) for edge in body(cells).edges)


@some
@given(solids, st.lists(solids, min_size=1, max_size=4))
def test_what_is_left_is_the_solid_less_the_holes(solid: Solid, holes: list[Solid]) -> None:
    """Wood lost or kept where a joint cuts; manifold3d cuts the same."""
    left = hull(solid)
    for hole in holes:
        left = left - hull(hole)
    assert sum(cell.volume for cell in cut(solid, holes)) == pytest.approx(left.volume(), rel=1e-3, abs=2.0)


def test_a_housing_gives_the_edges_of_a_housed_board() -> None:
    """The lines in which cells only continue each other must not be drawn, inside corners must."""
    board = block((0, 0, 0), (100, 20, 300))
    cells = cut(board, [block((0, 10, 100), (100, 30, 120))])
    assert len(cells) > 1
    whole = 4 * (100 + 20 + 300)
    across = 4 * 100 + 4 * 10  # two mouths and two inside corners; the housing's ends
    assert edge_length(cells) == pytest.approx(whole - 2 * 20 + across + 2 * 20, abs=0.5)


def test_a_rabbet_takes_the_corner_edge_away() -> None:
    """The edge of the uncut board drawn in the air."""
    cells = cut(block((0, 0, 0), (100, 20, 30)), [block((0, 10, 20), (100, 30, 40))])
    assert edge_length(cells) == pytest.approx(6 * 100 + 2 * (2 * 20 + 2 * 30), abs=0.5)


def test_a_round_hole_shows_its_rims() -> None:
    """A hole whose cells' seams run over the board."""
    board = block((0, 0, 0), (100, 20, 100))
    hole = prism((50, 10, 50), (0, 1, 0), 30.0, 40.0)
    rim = 16 * 30.0 * math.tan(math.pi / 16)
    assert edge_length(cut(board, [hole])) == pytest.approx(4 * 220 + 2 * rim + 16 * 20, abs=1.0)


def test_many_holes_leave_few_cells() -> None:
    """A rail with hundreds of housings must not be cut to crumbs: it would cost the square of them."""
    rail = block((0, 0, 0), (20000, 40, 90))
    holes = [block((40 * i + 10, -5, 60), (40 * i + 30, 20, 100)) for i in range(480)]
    cells = cut(rail, holes)
    assert len(cells) < 4 * len(holes)
    assert sum(cell.volume for cell in cells) == pytest.approx(rail.volume - 480 * 20 * 20 * 30)
