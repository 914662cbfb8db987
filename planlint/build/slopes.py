"""A part between faces that slope: the plan's positions and its length as equations, and the part as sawn.

The numbers are worked out in `aslant`; parts between square faces are settled in `between`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build import aslant, faces
from planlint.build.aslant import Bar, End, Equation, Spot
from planlint.build.between import fix_length, no_space, sunk_into
from planlint.build.body import Body, Cut, Form
from planlint.build.edges import kind_of
from planlint.build.fits import FixedTwice
from planlint.build.orient import Lacking
from planlint.build.proposals import position_proposals
from planlint.build.rows import row_ends, spread
from planlint.build.scope import Failure, Item
from planlint.build.shape import over_all, shaped, slope_reach
from planlint.build.sides import DIRECTIONS, OF_SIDE
from planlint.build.sunk import Sunk
from planlint.geometry.body import Plane
from planlint.geometry.vector import dot, scale, world_axis
from planlint.read.plan import At, MiddleAt
from planlint.source import Span

if TYPE_CHECKING:
    from planlint.build.solve import Solver

_SQUARE = 1e-9
_ANY_LENGTH = 100.0  # mm: a section does not depend on it


def settle_aslant(item: Item, solver: Solver) -> Failure | None:
    """Place a part whose ends are cut to the slopes of the faces it lies between."""
    between, pose, listed = item.between, item.pose, item.listed
    assert between is not None and pose is not None and listed is not None and listed.stock is not None
    found = faces.planes(between, pose.axes[0], solver.values)
    if isinstance(found, Failure):
        return found
    sunk = [sunk_into(item, face, solver) for face in (between.first, between.second)]
    steep = [dot(plane.normal, pose.axes[0]) for plane in found]
    if min(abs(s) for s in steep) < 1e-6 or steep[0] * steep[1] > 0:
        return no_space(item, between, solver)
    ends = [
        aslant.end_of(plane, pose.axes[0], s.square, s.along) for plane, s in zip(found, sunk, strict=True)
    ]
    bar = Bar(pose.axes, _section(item), (ends[0], ends[1]))
    spot = _slide(item, bar, sunk, solver)
    if isinstance(spot, Failure):
        return spot
    body = _built(item, bar, spot)
    if isinstance(body, Lacking):
        return solver.missing(item, body.what, body.proposals)
    if bar.length(spot) <= 0.0:
        return no_space(item, between, solver)
    item.bodies, item.low, item.high = [body], body.low, body.high
    return None


def _section(item: Item) -> list[Spot]:
    """The corners of the part's section, less what is cut off its sides by cuts that run along it."""
    form, cuts = item.bodies[0].form, _side_cuts(item)
    if cuts:
        points = Form(form.listed, form.span, form.halves, cuts).solid().vertices
        return list(dict.fromkeys([(y, z) for _, y, z in points]))
    return [(v, w) for v in (-form.halves[1], form.halves[1]) for w in (-form.halves[2], form.halves[2])]


def _side_cuts(item: Item) -> tuple[Cut, ...]:
    plain = shaped(item, _ANY_LENGTH, ends=False) if item.cuts or item.tapers else None
    if plain is None or isinstance(plain, Lacking):
        return ()
    return tuple([cut for cut in plain.form.cuts if abs(cut.plane.normal[0]) < _SQUARE])


def _slide(item: Item, bar: Bar, sunk: list[Sunk], solver: Solver) -> Spot | Failure:
    """Where across the bar the plan's positions, and its length, put it."""
    equations: list[Equation] = []
    told: list[tuple[int, Span]] = []
    for axis in (0, 1, 2):
        for equation, span in _positions(item, bar, axis, solver):
            if isinstance(equation, Failure):
                return equation
            equations.append(equation)
            told.append((axis, span))
    length = _given_length(item, bar)
    by_length: list[Equation] = [] if length is None else [lambda spot: bar.length(spot) - length]
    spot, used = aslant.solve(equations + by_length)
    if len(used) < 2:
        return _adrift(item, bar, equations + by_length, solver)
    _check_rest(item, bar, spot, equations, told, used, solver)
    if length is not None and len(equations) not in used:
        deep = sum(s.along + s.square for s in sunk)
        fix_length(item, None, length, bar.length(spot) - deep, deep, solver)
    return spot


def _positions(
    item: Item, bar: Bar, axis: int, solver: Solver
) -> list[tuple[Equation, Span]] | list[tuple[Failure, Span]]:
    found: list[tuple[Equation, Span]] = []
    row = item.row
    if row is not None and item.row_axis == axis:
        start = _row_start(item, bar, axis, solver)
        if isinstance(start, Failure):
            return [(start, row.span)]
        if start is not None:
            first: float = start
            found.append((lambda spot: bar.bounds(spot, axis)[0] - first, row.span))
    for at in item.ats.get(axis, ()):
        where = solver.values.of(at.where, axis)
        if isinstance(where, Failure):
            return [(where, at.span)]
        found.append((_at(item, bar, axis, at, where), at.span))
    return found


def _at(item: Item, bar: Bar, axis: int, at: At | MiddleAt, where: float) -> Equation:
    """A position as an equation; of a long edge where the section is tipped and both sides are named."""
    kind = kind_of(at)
    tilted = [a for a in (0, 1, 2) if abs(bar.axes[0][a]) < _SQUARE and a in _tilted(bar)]
    if axis in tilted and all(item.ats.get(a) for a in tilted):
        edge = _edge(item, [at if a == axis else item.ats[a][0] for a in tilted])
        return lambda spot: bar.edge(spot, axis, edge) - where
    if kind == "middle":
        return lambda spot: sum(bar.bounds(spot, axis)) / 2.0 - where
    return lambda spot: bar.bounds(spot, axis)[0 if kind == "low" else 1] - where


def _tilted(bar: Bar) -> list[int]:
    straight = [world_axis(axis) for axis in bar.axes]
    return [axis for axis in (0, 1, 2) if axis not in straight]


def _edge(item: Item, named: list[At | MiddleAt]) -> Spot:
    """Where in the section the sides that are named meet, as they are cut; a middle is the middle of the box."""
    halves, cuts = item.bodies[0].form.halves, _side_cuts(item)
    lines: dict[int, tuple[float, float, float]] = {1: (1.0, 0.0, 0.0), 2: (0.0, 1.0, 0.0)}
    for at in named:
        if isinstance(at, At):
            k, sign = item.bodies[0].own_side(*OF_SIDE[at.side])
            if k > 0:
                square = (float(sign), 0.0) if k == 1 else (0.0, float(sign))
                lines[k] = (*square, halves[k])
                for cut in cuts:
                    if (cut.axis, cut.sign) == (k, sign):
                        lines[k] = (cut.plane.normal[1], cut.plane.normal[2], cut.plane.offset)
    (a, b, p), (c, d, q) = lines[1], lines[2]
    det = a * d - b * c
    return ((p * d - b * q) / det, (a * q - p * c) / det)


def _row_start(item: Item, bar: Bar, axis: int, solver: Solver) -> float | Failure | None:
    row = item.row
    assert row is not None
    low, high = bar.bounds((0.0, 0.0), axis)
    if row.how == "gap":
        item.pitch = high - low + (row.gap.value if row.gap else 0.0)
        return None
    ends = row_ends(row, axis, solver.values)
    if isinstance(ends, Failure):
        return ends
    start, item.pitch = spread(row.how, max(1, row.number), high - low, ends[0], ends[1])
    return start


def _given_length(item: Item, bar: Bar) -> float | None:
    """The length tip to tip as the cut list has it; None for `@ fit`."""
    listed = item.listed
    assert listed is not None
    if listed.entry.fit or listed.size is None:
        return None
    halves = item.bodies[0].form.halves
    reaches = [slope_reach(end.plane.normal, bar.axes, halves) for end in bar.ends]
    return over_all(listed, listed.size.length, (reaches[0], reaches[1]))


def _adrift(item: Item, bar: Bar, equations: list[Equation], solver: Solver) -> Failure:
    """Nothing fixes the bar one way: name the direction it slides in most, of those without a position."""
    slide = aslant.free_way(equations)
    free = [axis for axis in (0, 1, 2) if not item.ats.get(axis)]
    moves = [abs(bar.axes[1][a] * slide[0] + bar.axes[2][a] * slide[1]) for a in (0, 1, 2)]
    axis = max(free or [0, 1, 2], key=lambda a: moves[a])
    return solver.missing(item, DIRECTIONS[axis], position_proposals(item, axis, solver.values))


def _check_rest(
    item: Item,
    bar: Bar,
    spot: Spot,
    equations: list[Equation],
    told: list[tuple[int, Span]],
    used: list[int],
    solver: Solver,
) -> None:
    """Positions that were not needed are checks: the item's extent on that axis should be what they leave."""
    for i, equation in enumerate(equations):
        if i not in used:
            axis, span = told[i]
            low, high = bar.bounds(spot, axis)
            off = equation(spot)
            first = item.between.span if item.between else span
            names = tuple(
                [name for at in item.ats.get(axis, ()) for name in solver.values.neighbours(at.where)]
            )
            solver.fits.append(FixedTwice(item, axis, high - low, high - low - off, 0.0, first, span, names))


def _built(item: Item, bar: Bar, spot: Spot) -> Body | Lacking:
    """The part as sawn: the cut list's length from the first face on, else from face to face."""
    length = _given_length(item, bar)
    ends = list(bar.ends)
    if length is not None:
        normal, offset = ends[1].plane
        longer = length - bar.length(spot)
        ends[1] = End(ends[1].sign, Plane(normal, offset + abs(dot(normal, bar.axes[0])) * longer))
    built = Bar(bar.axes, bar.corners, (ends[0], ends[1]))
    plain = shaped(item, built.length(spot), ends=False)
    if isinstance(plain, Lacking):
        return plain
    body = plain.moved(built.centre(spot))
    cuts = [Cut(0, end.sign, body.to_own_frame(end.plane), True) for end in ends if not _is_square(end, bar)]
    return body.with_cuts(cuts) if cuts else body


def _is_square(end: End, bar: Bar) -> bool:
    return dot(end.plane.normal, scale(bar.axes[0], float(end.sign))) > 1.0 - _SQUARE
