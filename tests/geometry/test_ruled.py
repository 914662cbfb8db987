"""Lines drawn once, and areas taken away, against shapely; levels of things behind each other."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.geometry.levels import levels
from planlint.geometry.outline import area, hull2d
from planlint.geometry.pieces import bounds, pieces_left
from planlint.geometry.ruled import Ruled, drawn_once, gaps
from planlint.geometry.shadow import _walls

shapely = pytest.importorskip("shapely")
some = settings(max_examples=120, deadline=None, derandomize=True)
ends = st.tuples(st.integers(0, 60), st.integers(0, 60)).filter(lambda pair: pair[0] != pair[1])


@some
@given(
    st.lists(st.tuples(ends, st.booleans()), min_size=1, max_size=12),
    st.sampled_from([(1.0, 0.0), (0.6, 0.8)]),
)
def test_lines_on_one_line_cover_what_they_covered_and_once(
    drawn: list[tuple[tuple[int, int], bool]], way: tuple[float, float]
) -> None:
    """A gap where two stretches meet, a doubled stretch, or a thin line drawn over a heavy one."""
    dx, dy = way
    lines = [
        Ruled(i, heavy, (dx * a + 3.0, dy * a), (dx * b + 3.0, dy * b))
        for i, ((a, b), heavy) in enumerate(drawn)
    ]
    kept = drawn_once(lines)
    for weight in (True, False):
        wanted = {n for (a, b), heavy in drawn if heavy is weight for n in range(min(a, b), max(a, b))}
        if not weight:
            wanted -= {n for (a, b), heavy in drawn if heavy for n in range(min(a, b), max(a, b))}
        length = sum(
            ((line.end[0] - line.start[0]) ** 2 + (line.end[1] - line.start[1]) ** 2) ** 0.5
            for line in kept
            if line.heavy is weight
        )
        assert length == pytest.approx(len(wanted), abs=1e-3)


@some
@given(st.lists(ends, max_size=8))
def test_gaps_are_what_is_left(taken: list[tuple[int, int]]) -> None:
    """A hidden stretch taken for visible where two others overlap."""
    spans = [(float(min(pair)), float(max(pair))) for pair in taken]
    free = set(range(10, 50)) - {n for a, b in spans for n in range(int(a), int(b))}
    assert sum(b - a for a, b in gaps((10.0, 50.0), spans)) == pytest.approx(len(free))


corners = st.tuples(st.integers(-40, 40), st.integers(-40, 40))
polygons = st.lists(corners, min_size=3, max_size=7).map(hull2d).filter(lambda hull: area(hull) > 1.0)


@some
@given(polygons, st.lists(polygons, max_size=5))
def test_pieces_left_are_the_difference(
    polygon: tuple[tuple[float, float], ...], holes: list[tuple[tuple[float, float], ...]]
) -> None:
    """Fill lost or doubled where several boards hide one face."""
    pieces = pieces_left(polygon, [(bounds(hole), list(_walls(hole))) for hole in holes])
    left = shapely.Polygon(polygon) - shapely.union_all([shapely.Polygon(hole) for hole in holes])
    assert sum(area(piece) for piece in pieces) == pytest.approx(left.area, abs=0.05 * (1 + len(pieces)))


@some
@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=15))
def test_levels_keep_the_order_where_there_is_one(pairs: list[tuple[int, int]]) -> None:
    """A shelf moved through its side; a ring of pairs must end, not hang."""
    found = levels(pairs)
    assert set(found) == {node for pair in pairs for node in pair}
    ordered = [(a, b) for a, b in pairs if a < b]
    level = levels(ordered)
    assert all(level[b] >= level[a] + 1.0 for a, b in ordered)
