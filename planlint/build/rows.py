"""Rows: pieces at one pitch, flush with two places, evenly between two, or a block with a given gap."""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build import faces
from planlint.build.expressions import Values
from planlint.build.scope import Failure, Item
from planlint.read.plan import Between, Expression, Row

if TYPE_CHECKING:
    from planlint.build.solve import Solver


def settle_row(item: Item, solver: Solver) -> Failure | None:
    """The pitch of a row; of rows from one place to another, the first piece's place on its axis too."""
    row, axis = item.row, item.row_axis
    assert row is not None, "only rows are settled here"
    size = item.high[axis] - item.low[axis]
    if row.how == "gap":
        item.pitch = size + (row.gap.value if row.gap else 0.0)
        return None
    ends = row_ends(row, axis, solver.values)
    if isinstance(ends, Failure):
        return ends
    start, item.pitch = spread(row.how, max(1, row.number), size, ends[0], ends[1])
    item.spot[axis] = start - item.low[axis]
    return None


def row_ends(row: Row, axis: int, values: Values) -> tuple[float, float] | Failure:
    """The two places a row goes between, from where it starts."""
    if isinstance(row.first, Expression) and isinstance(row.last, Expression):
        first, last = values.of(row.first, axis), values.of(row.last, axis)
        if isinstance(first, Failure):
            return first
        return last if isinstance(last, Failure) else (first, last)
    assert not isinstance(row.first, (Expression, type(None))), "the reader gives both ends of such a row"
    assert not isinstance(row.last, (Expression, type(None))), "the reader gives both ends of such a row"
    space = faces.opening(Between(row.first, row.last, row.span), axis, values)
    if isinstance(space, Failure):
        return space
    low, high, first_is_low = space
    return (low, high) if first_is_low else (high, low)


def spread(how: str, number: int, size: float, first: float, last: float) -> tuple[float, float]:
    """Where the first of `number` pieces begins, and the pitch (negative: it runs left, forward, down).

    "from": first and last flush with `first` and `last`. "between": the same gap at both ends too.
    """
    way = 1.0 if last >= first else -1.0
    room = abs(last - first)
    if how == "between":
        gap = (room - number * size) / (number + 1)
        near, pitch = first + way * gap, size + gap
    else:
        near, pitch = first, (room - size) / (number - 1) if number > 1 else 0.0
    return (near if way > 0 else near - size), way * pitch


def row_block(item: Item, axis: int) -> tuple[float, float]:
    """An item's sides on an axis, about its origin; along a row, those of the whole row."""
    low, high = item.low[axis], item.high[axis]
    if item.row is None or item.row_axis != axis:
        return low, high
    way = (max(1, item.row.number) - 1) * item.pitch
    return low + min(0.0, way), high + max(0.0, way)
