"""Hidden lines and surfaces against ray casting, sample by sample, and against shapely's outlines."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.geometry.cells import Body, Edge, body
from planlint.geometry.meeting import shared
from planlint.geometry.outline import area
from planlint.geometry.ruled import Ruled
from planlint.geometry.seen import Seen, seen
from planlint.geometry.shadow import Eye, looking_from
from planlint.geometry.solid import Solid, block, prism
from planlint.geometry.vector import Vec, add, dot, lerp, scale

from .boards import boards, solids

shapely = pytest.importorskip("shapely")
some = settings(max_examples=40, deadline=None, derandomize=True)
FRONT = Eye((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0))
TURNED = looking_from((0.55, -0.8, 0.42))
eyes = st.sampled_from([FRONT, Eye((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0)), TURNED])
CLEAR = 0.15  # mm: nearer to a surface than this, either answer is right


def view(pieces: Sequence[Solid], eye: Eye) -> tuple[list[Body], Seen]:
    whole = [body([piece]) for piece in pieces]
    return whole, seen(whole, eye)


def hides(solid: Solid, point: Vec, eye: Eye, deeper: float) -> bool:
    """Whether the way from the point to the eye passes through the solid, all its faces moved in by `deeper`."""
    low, high = 0.0, math.inf
    for normal, offset in solid.planes:
        room, rate = offset - deeper - dot(normal, point), dot(normal, eye.toward)
        if abs(rate) < 1e-12:
            if room < 0.0:
                return False
        elif rate > 0.0:
            high = min(high, room / rate)
        else:
            low = max(low, room / rate)
    return high > low


def front_edges(whole: Sequence[Body], eye: Eye) -> list[tuple[int, Edge]]:
    return [
        (i, edge)
        for i, one in enumerate(whole)
        for edge in one.edges
        if max(dot(edge.first, eye.toward), dot(edge.second, eye.toward)) > 1e-3
    ]


def nearest(line: Ruled, u: float, v: float) -> float:
    (x0, y0), (x1, y1) = line.start, line.end
    dx, dy = x1 - x0, y1 - y0
    along = ((u - x0) * dx + (v - y0) * dy) / (dx * dx + dy * dy)
    along = min(1.0, max(0.0, along))
    return math.hypot(x0 + dx * along - u, y0 + dy * along - v)


@some
@given(st.lists(solids, min_size=2, max_size=5), eyes)
def test_no_edge_that_a_ray_reaches_is_missing(pieces: list[Solid], eye: Eye) -> None:
    """An edge cut off too early, or one that a solid behind or beside it is thought to hide."""
    whole, picture = view(pieces, eye)
    for i, edge in front_edges(whole, eye):
        for part in (0.03, 0.31, 0.5, 0.77, 0.97):
            point = lerp(edge.start, edge.end, part)
            if any(hides(piece, point, eye, -CLEAR) for j, piece in enumerate(pieces) if j != i):
                continue
            u, v, _ = eye.see(point)
            assert min(nearest(line, u, v) for line in picture.lines) < CLEAR


@some
@given(st.lists(solids, min_size=2, max_size=5), eyes)
def test_no_line_is_drawn_where_every_edge_is_hidden(pieces: list[Solid], eye: Eye) -> None:
    """A hidden line that shows through."""
    whole, picture = view(pieces, eye)
    edges = front_edges(whole, eye)
    for line in picture.lines:
        if math.dist(line.start, line.end) < 1.0:
            continue
        for part in (0.1, 0.5, 0.9):
            u = line.start[0] + (line.end[0] - line.start[0]) * part
            v = line.start[1] + (line.end[1] - line.start[1]) * part
            assert any(_reaches(edge, u, v, i, pieces, eye) for i, edge in edges)


def _reaches(edge: Edge, u: float, v: float, own: int, pieces: Sequence[Solid], eye: Eye) -> bool:
    """Whether a point of the edge lies there in the view, and nothing clearly hides it."""
    (x0, y0, _), (x1, y1, _) = eye.see(edge.start), eye.see(edge.end)
    dx, dy = x1 - x0, y1 - y0
    size = dx * dx + dy * dy
    if size < 1e-9:
        return False
    along = ((u - x0) * dx + (v - y0) * dy) / size
    if not -1e-3 <= along <= 1.001 or math.hypot(x0 + dx * along - u, y0 + dy * along - v) > CLEAR:
        return False
    point = lerp(edge.start, edge.end, along)
    return not any(hides(piece, point, eye, CLEAR) for j, piece in enumerate(pieces) if j != own)


@some
@given(st.lists(solids, min_size=1, max_size=6), eyes)
def test_the_surfaces_tile_the_outline(pieces: list[Solid], eye: Eye) -> None:
    """A hole in the fill, or wood painted over other wood: the pieces' areas add up to the outline's."""
    apart: list[Solid] = []
    for piece in pieces:
        if not any(shared(piece, other) for other in apart):
            apart.append(piece)
    _, picture = view(apart, eye)
    outlines = [
        shapely.MultiPoint([eye.see(point)[:2] for point in piece.vertices]).convex_hull for piece in apart
    ]
    whole = shapely.union_all(outlines)
    tiles = [piece for surface in picture.surfaces for piece in surface.pieces]
    assert sum(area(tile) for tile in tiles) == pytest.approx(whole.area, rel=2e-3, abs=2.0)
    covered = shapely.union_all([shapely.Polygon(tile).buffer(0.0) for tile in tiles])
    assert whole.difference(covered.buffer(0.05)).area < 2.0


@some
@given(st.lists(solids, min_size=2, max_size=5), eyes)
def test_each_tile_shows_the_solid_nearest_to_the_eye(pieces: list[Solid], eye: Eye) -> None:
    """The tone, and the lit part, of the wrong piece of wood."""
    _, picture = view(pieces, eye)
    for surface in picture.surfaces:
        for tile in surface.pieces:
            if area(tile) < 1.0:
                continue
            u, v = sum(p[0] for p in tile) / len(tile), sum(p[1] for p in tile) / len(tile)
            far = add(scale(eye.right, u), scale(eye.up, v))
            plane = next(p for p in pieces[surface.of].planes if p.normal == surface.normal)
            depth = (plane.offset - dot(plane.normal, far)) / dot(plane.normal, eye.toward)
            point = add(far, scale(eye.toward, depth))
            assert not any(
                hides(piece, point, eye, CLEAR) for j, piece in enumerate(pieces) if j != surface.of
            )


@some
@given(st.lists(boards(), min_size=2, max_size=6), eyes)
def test_no_line_lies_on_another(pieces: list[Solid], eye: Eye) -> None:
    """Joint lines drawn twice are twice as heavy in print."""
    _, picture = view(pieces, eye)
    drawn = [shapely.LineString([line.start, line.end]) for line in picture.lines]
    assert sum(line.length for line in drawn) == pytest.approx(
        shapely.union_all(drawn, grid_size=0.001).length, abs=0.2 * len(drawn)
    )


def lengths(picture: Seen) -> dict[bool, float]:
    """The length of heavy and of thin lines."""
    return {
        heavy: sum(math.dist(line.start, line.end) for line in picture.lines if line.heavy is heavy)
        for heavy in (True, False)
    }


def test_boards_flush_beside_each_other_keep_a_thin_joint_line() -> None:
    """Two boards that look like one, or a joint as heavy as the outline."""
    _, picture = view([block((0, 0, 0), (100, 20, 50)), block((100, 0, 0), (300, 20, 50))], FRONT)
    assert lengths(picture) == {True: pytest.approx(700.0, abs=0.5), False: pytest.approx(50.0, abs=0.5)}


def test_a_thin_board_on_a_wide_one_is_seen_with_what_is_left_of_that() -> None:
    """A thin plate taken for hidden by the board it lies on, or the board's face filled under it."""
    _, picture = view([block((0, 0, 0), (100, 20, 100)), block((30, -2, 30), (60, 0, 60))], FRONT)
    shown = {surface.of: sum(area(tile) for tile in surface.pieces) for surface in picture.surfaces}
    assert shown == {0: pytest.approx(100 * 100 - 900), 1: pytest.approx(900)}
    assert lengths(picture) == {True: pytest.approx(520.0, abs=0.5), False: pytest.approx(0.0, abs=0.5)}


def test_a_board_set_back_is_parted_by_a_heavy_line() -> None:
    """A step in depth drawn like a joint in a flat face."""
    _, picture = view([block((0, 0, 0), (100, 20, 50)), block((100, 5, 0), (300, 20, 50))], FRONT)
    assert lengths(picture) == {True: pytest.approx(750.0, abs=0.5), False: pytest.approx(0.0, abs=0.5)}


def test_what_one_board_hides_is_not_drawn() -> None:
    """Slats behind a slat, seen from the end: one outline, and no work for the rest."""
    _, picture = view([block((0, 30 * i, 0), (90, 30 * i + 20, 20)) for i in range(50)], FRONT)
    assert len(picture.lines) == 4
    assert len(picture.grid.shadows) == 1


def test_a_dowel_shows_its_outline_and_rim_but_no_flats() -> None:
    """Sixteen lines along a round leg."""
    dowel = prism((0, 0, 0), (0, 0, 1), 40.0, 300.0)
    picture = seen([body([dowel], (0.0, 0.0, 1.0))], FRONT)
    upright = [line for line in picture.lines if abs(line.start[0] - line.end[0]) < 1e-6]
    assert len(upright) == 2
    assert len(seen([body([dowel])], FRONT).lines) > 8


def test_leaning_boards_hide_by_their_slope() -> None:
    """A leaning board taken for its bounds would hide the whole of what is beside it."""
    from planlint.geometry.solid import oriented
    from planlint.geometry.vector import WORLD, turn

    axes = (turn(WORLD[0], WORLD[1], 30.0), WORLD[1], turn(WORLD[2], WORLD[1], 30.0))
    brace = oriented((0, -50, 0), axes, (20, 20, 400))
    panel = block((-100, 0, -100), (100, 10, 100))
    _, picture = view([brace, panel], FRONT)
    shown = sum(area(tile) for surface in picture.surfaces if surface.of == 1 for tile in surface.pieces)
    band = 20.0 / math.cos(math.radians(30.0)) * 200.0
    assert shown == pytest.approx(200.0 * 200.0 - band, rel=1e-3)
