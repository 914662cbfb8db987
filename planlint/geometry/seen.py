"""What an eye sees of many bodies: the visible stretches of their edges and the visible pieces of their faces.

Bodies are taken from the nearest to the furthest; one that a single nearer one hides is left out at once. What could
hide an edge or a face is looked up in a grid over the view, so that the time does not grow with the square of the
bodies.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.geometry.cells import Body, Edge
from planlint.geometry.outline import Flat
from planlint.geometry.pieces import bounds, pieces_left
from planlint.geometry.ruled import Ruled, drawn_once, gaps, merged, parted
from planlint.geometry.shadow import FACING, GRAZE, Eye, Line3, Shadow, facing
from planlint.geometry.solid import Solid
from planlint.geometry.vector import EXACT, Vec, dot, sub
from planlint.geometry.view_grid import Grid

BESIDE = 0.1  # mm: how far outside an edge the surface is looked for that carries on
SHORT = 0.02  # mm: shorter stretches are none


class Surface(NamedTuple):
    """The visible part of a face of body `of` that looks along `normal`: convex pieces side by side."""

    of: int
    normal: Vec
    pieces: tuple[tuple[Flat, ...], ...]


class Seen(NamedTuple):
    """A view: its lines, each once, heavy where the depth jumps; its surfaces; and the solids that are not hidden."""

    lines: tuple[Ruled, ...]
    surfaces: tuple[Surface, ...]
    grid: Grid

    def depth(self, point: Vec) -> float:
        """How deep a point (u, v, w) lies behind what is seen before it, mm; 0 at or before the surface."""
        u, v, w = point
        over = [one.surface(u, v) for one in self.grid.at_box((u, v, u, v))]
        return max([0.0, *[top - w for top in over if top is not None]])


def seen(bodies: Sequence[Body], eye: Eye) -> Seen:
    """All that is to be seen of the bodies, in mm to the right and up."""
    solids = [(Shadow(cell, eye, i), cell) for i, body in enumerate(bodies) for cell in body.cells]
    solids.sort(key=lambda pair: -pair[0].near)
    grid = Grid([shadow for shadow, _ in solids])
    shown = [pair for pair in solids if grid.added(pair[0])]
    lines = [
        line
        for i in sorted({shadow.of for shadow, _ in shown})
        for edge in bodies[i].edges
        for line in _lines(edge, i, len(bodies[i].cells) == 1, eye, grid)
    ]
    surfaces = [surface for shadow, cell in shown for surface in _surfaces(shadow, cell, eye, grid)]
    return Seen(tuple(drawn_once(lines)), tuple(surfaces), grid)


def _lines(edge: Edge, of: int, alone: bool, eye: Eye, grid: Grid) -> Iterator[Ruled]:
    """The visible stretches of an edge; `alone`: its body is a single cell, which cannot hide its own front."""
    fronts = (dot(edge.first, eye.toward) > FACING, dot(edge.second, eye.toward) > FACING)
    is_rim = fronts[0] != fronts[1] or edge.first == edge.second
    if not any(fronts) or (edge.smooth and not is_rim):
        return
    start, end = eye.see(edge.start), eye.see(edge.end)
    line = (*start, *sub(end, start))
    run = math.hypot(line[3], line[4])
    if run < SHORT:
        return
    near = [one for one in grid.along(line, BESIDE + EXACT) if not (alone and one.of == of)]
    visible = _visible(line, near, SHORT / run)
    if not visible:
        return
    thin: list[tuple[float, float]] = [(0.0, 1.0)]
    if is_rim:
        back = edge.second if fronts[0] else edge.first
        thin = _carried_on(line, back, eye, near)
    heavy, light = parted(visible, merged(thin))
    for is_heavy, spans in ((True, heavy), (False, light)):
        for low, high in spans:
            yield Ruled(of, is_heavy, _at(line, low), _at(line, high))


def _visible(line: Line3, near: Sequence[Shadow], least: float) -> list[tuple[float, float]]:
    lowest = min(line[2], line[2] + line[5]) + GRAZE
    hidden: list[tuple[float, float]] = []
    reach, enough = 0.0, 1.0 - least  # before so much is hidden, all of it cannot be
    for shadow in near:
        if shadow.near <= lowest:
            break
        stretch = shadow.hidden(line)
        if stretch is not None:
            hidden.append(stretch)
            reach += stretch[1] - stretch[0]
            if reach >= enough:
                if not gaps((0.0, 1.0), hidden, least):
                    return []
                enough = 1.5 * reach
    return gaps((0.0, 1.0), hidden, least)


def _carried_on(line: Line3, back: Vec, eye: Eye, near: Sequence[Shadow]) -> list[tuple[float, float]]:
    """Where, just outside an edge of the outline, another surface carries on at its depth: nothing jumps there."""
    u, v, w, du, dv, dw = line
    run = math.hypot(du, dv)
    out_u, out_v = dv / run, -du / run
    if out_u * dot(back, eye.right) + out_v * dot(back, eye.up) < 0.0:
        out_u, out_v = -out_u, -out_v
    shifted = (u + out_u * BESIDE, v + out_v * BESIDE, w, du, dv, dw)
    lowest = min(w, w + dw) - 1.0
    found = [shadow.carries_on(shifted) for shadow in near if shadow.near >= lowest]
    return [span for span in found if span is not None]


def _at(line: Line3, part: float) -> Flat:
    return (line[0] + line[3] * part, line[1] + line[4] * part)


def _surfaces(shadow: Shadow, cell: Solid, eye: Eye, grid: Grid) -> Iterator[Surface]:
    near = [
        one
        for one in grid.at_box((shadow.low_u, shadow.low_v, shadow.high_u, shadow.high_v))
        if one is not shadow
    ]
    for plane, outline in cell.faces:
        front = facing(plane, eye)
        if front is None:
            continue
        points = [eye.see(point) for point in outline]
        lowest = min([p[2] for p in points]) + GRAZE
        taken = []
        for one in near:
            if one.near <= lowest:
                break
            region = one.region_before(front)
            if region:
                taken.append(((one.low_u, one.low_v, one.high_u, one.high_v), region))
        pieces = pieces_left(tuple([(p[0], p[1]) for p in points]), taken)
        pieces = [piece for piece in pieces if _is_worth(piece)]
        if pieces:
            yield Surface(shadow.of, plane.normal, tuple(pieces))


def _is_worth(piece: tuple[Flat, ...]) -> bool:
    low_u, low_v, high_u, high_v = bounds(piece)
    return high_u - low_u > SHORT and high_v - low_v > SHORT
