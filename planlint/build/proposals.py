"""Likely clauses for a position that is missing: made from what the entry already names."""

from __future__ import annotations

from planlint.build.expressions import Values
from planlint.build.scope import Item
from planlint.build.sides import DIRECTIONS, SIDES
from planlint.read.plan import Expression, Floor


def position_proposals(item: Item, axis: int, values: Values) -> list[str]:
    """Two clauses that would place an item on an axis."""
    low, high = SIDES[axis, -1], SIDES[axis, 1]
    name = _neighbour(item, values)
    if name is None:
        return [f"{low} at 0", f"middle {DIRECTIONS[axis]} at …"]
    if axis == 2:
        return [f"top at top of {name}", f"bottom at bottom of {name}"]
    return [f"{low} at {low} of {name}", f"{high} at {high} of {name}"]


def mirror_proposals(axis: int, finished: bool) -> list[str]:
    """Two ways to say where a mirror stands."""
    direction = DIRECTIONS[axis]
    first = f"mirrored {direction} about …"
    second = f"centre {direction} at … in the plan section" if finished else f"about middle {direction} of …"
    return [first, second]


def _neighbour(item: Item, values: Values) -> str | None:
    """A part that the entry measures from."""
    if item.between is not None:
        for face in (item.between.first, item.between.second):
            if not isinstance(face, Floor):
                return str(face.ref)
    for ats in item.ats.values():
        for at in ats:
            for name in values.neighbours(at.where):
                return name
    if item.row is not None and isinstance(item.row.first, Expression):
        for name in values.neighbours(item.row.first):
            return name
    return None
