"""Covers, placed: the slats in order and the span they must fill."""

from __future__ import annotations

from planlint.build.expressions import Values
from planlint.build.picked import axes_of, part_names
from planlint.build.piece import Part, Piece, SlatRow
from planlint.build.scope import Failure, Scope
from planlint.build.sides import DIRECTIONS
from planlint.build.troubles import Troubles
from planlint.read.plan import Cover, Plan


def slat_rows(plan: Plan, scope: Scope, piece: Piece, troubles: Troubles) -> list[SlatRow]:
    """The covers whose slats all have a place. The others are left out: `unplaced_names` or `cut_short` says
    why.
    """
    values = Values(scope, troubles)
    by_name = {part.name: part for part in piece.parts}
    found = [_row(cover, scope, values, by_name) for cover in plan.covers]
    return [row for row in found if row is not None]


def _row(cover: Cover, scope: Scope, values: Values, by_name: dict[str, Part]) -> SlatRow | None:
    if cover.first is None or cover.last is None:
        return None
    picks = scope.find(cover.slat)
    if any(pick.copy.item.is_cut_short() for pick in picks):
        return None  # its end would show a gap that the plan does not have
    names = [name for pick in picks for name in part_names(pick)]
    slats = [by_name[name] for name in names if name in by_name]
    if not slats or len(slats) < len(names):
        return None
    axis = next(iter(axes_of(cover.first) | axes_of(cover.last)), None)
    if axis is None:
        axis = _spread_axis(slats)
    start, end = values.of(cover.first, axis), values.of(cover.last, axis)
    if isinstance(start, Failure) or isinstance(end, Failure):
        return None
    slats.sort(key=lambda part: part.solid.low[axis] + part.solid.high[axis])
    return SlatRow(cover, tuple(slats), DIRECTIONS[axis], min(start, end), max(start, end))


def _spread_axis(slats: list[Part]) -> int:
    """The axis that the slats follow each other on."""
    centres = [[part.solid.low[a] + part.solid.high[a] for part in slats] for a in (0, 1, 2)]
    return max((0, 1, 2), key=lambda a: max(centres[a]) - min(centres[a]))
