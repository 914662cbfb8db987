"""`between F and G` where both faces are square to the part: where it starts, and the check of its length.

Where a face slopes, or the part does, `slopes` settles it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build import faces
from planlint.build.edges import kind_of
from planlint.build.fits import FixedTwice
from planlint.build.orient import Lacking
from planlint.build.scope import Failure, Item
from planlint.build.shape import shaped
from planlint.build.sunk import Sunk, sunk_at
from planlint.read.plan import Between, Face, Floor, SideOf

if TYPE_CHECKING:
    from planlint.build.solve import Solver

# mm. A housing of unsaid depth takes up what the length leaves over, as long as about nothing is missing.
_OPEN = 0.8


def settle_between(item: Item, axis: int, solver: Solver) -> Failure | None:
    """Place an item between two faces that are square to its axis; `@ fit` gets its length."""
    between = item.between
    assert between is not None, "only items with `between` are settled here"
    space = faces.opening(between, axis, solver.values)
    if isinstance(space, Failure):
        return space
    low, high, first_is_low = space
    sunk = [sunk_into(item, face, solver) for face in (between.first, between.second)]
    at_low, at_high = sunk if first_is_low else (sunk[1], sunk[0])
    if item.listed is not None and item.listed.entry.fit:
        return _fill(item, axis, low - _deep(at_low), high + _deep(at_high), solver)
    size = item.high[axis] - item.low[axis]
    deep_low, deep_high, known = _depths(size - (high - low), at_low, at_high)
    if first_is_low:
        item.spot[axis] = low - deep_low - item.low[axis]
    else:
        item.spot[axis] = high + deep_high - item.high[axis]
    ats = item.ats.get(axis, [])
    if known:
        fix_length(item, axis, size, high - low, deep_low + deep_high, solver)
    if ats and ats[0].span.start < between.span.start:
        failure = solver.put(item, axis, ats[0])
        return failure or solver.check(item, axis, ats[1:], ats[0].span, kind_of(ats[0]))
    return solver.check(item, axis, ats, between.span, "low" if first_is_low else "high")


def _fill(item: Item, axis: int, low: float, high: float, solver: Solver) -> Failure | None:
    between = item.between
    assert between is not None
    if high - low <= 0.0:
        return no_space(item, between, solver)
    failure = _reshape(item, high - low, solver)
    if failure is not None:
        return failure
    item.spot[axis] = low - item.low[axis]
    return solver.check(item, axis, item.ats.get(axis, []), between.span, "low")


def _reshape(item: Item, length: float, solver: Solver) -> Failure | None:
    body = shaped(item, length)
    if isinstance(body, Lacking):
        return solver.missing(item, body.what, body.proposals)
    item.bodies, item.low, item.high = [body], body.low, body.high
    return None


def no_space(item: Item, between: Between, solver: Solver) -> Failure:
    """The two faces leave nothing between them, or do not look at each other along the part."""
    ends = [_said(face) for face in (between.first, between.second)]
    what = f"its length (there is no space between {ends[0]} and {ends[1]})"
    return solver.missing(item, what, [])


def _said(face: Face) -> str:
    if isinstance(face, Floor):
        return "floor"
    return f"{face.side} of {face.ref}" if isinstance(face, SideOf) else str(face.ref)


def sunk_into(item: Item, face: Face, solver: Solver) -> Sunk:
    """How deep the item's end goes into the part behind a face."""
    if not solver.sinks:
        return Sunk()
    names = dict.fromkeys([name for copy in item.copies for name in copy.names])
    return sunk_at(names, faces.neighbour_names(face, solver.values), solver.sinks)


def _deep(sunk: Sunk) -> float:
    return sunk.square + sunk.along


def _depths(excess: float, low: Sunk, high: Sunk) -> tuple[float, float, bool]:
    """Depths at both ends, and whether the plan says them: an unsaid one takes up what the length leaves."""
    deep = [_deep(low), _deep(high)]
    unsaid = [end.open for end in (low, high)]
    left = excess - sum(deep)
    if not any(unsaid) or left < -_OPEN:
        return deep[0], deep[1], True
    share = max(0.0, left) / sum(unsaid)
    return deep[0] + share * unsaid[0], deep[1] + share * unsaid[1], False


def fix_length(
    item: Item, axis: int | None, size: float, opening: float, sunk: float, solver: Solver
) -> None:
    between = item.between
    assert between is not None
    entry = item.listed.entry if item.listed else None
    second = (
        entry.length.span if entry is not None and entry.length is not None else item.placement.subject.span
    )
    names = tuple([str(f.ref) for f in (between.first, between.second) if not isinstance(f, Floor)])
    solver.fits.append(FixedTwice(item, axis, size, opening, sunk, between.span, second, names))
