"""Dimension lines in rows along one axis, placed so that no text lies on another or on an extension line.

All numbers are mm on paper along the axis; rows count from 0, nearest to what is measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations
from typing import NamedTuple

from planlint.drawing.letters import width

_GAP = 1.2  # between a text and what is beside it
_ARROWS = 2.0  # what the two arrowheads take of a line
_MOST = 12
_LEFT = 2  # a text to the left is only so many rows better than one elsewhere
_FEW = 5  # so many are tried in every order


class Dim(NamedTuple):
    """From where to where, what it says, and its pen."""

    start: float
    end: float
    text: str
    pen: str = "measure"


class Set(NamedTuple):
    """A dimension in its row: its text begins at `left`; `inside` its arrows, or beside them."""

    dim: Dim
    row: int
    left: float
    right: float
    inside: bool

    @property
    def low(self) -> float:
        """Where its line begins, the part under a text beside it included."""
        return min(self.dim.start, self.left)

    @property
    def high(self) -> float:
        """Where its line ends."""
        return max(self.dim.end, self.right)


def arranged(dims: Sequence[Dim], size: float) -> list[Set]:
    """Each dimension in the first row where it fits: short ones nearest, or in the order that crosses least."""
    best: list[Set] = []
    for order in _orders(dims):
        placed = _placed(order, size)
        if not best or _cost(placed) < _cost(best):
            best = placed
        if not _cost(best)[0]:
            break
    return best


def _orders(dims: Sequence[Dim]) -> Iterator[Sequence[Dim]]:
    """Short ones first; and where there are few, every order."""
    yield sorted(dims, key=lambda one: (one.end - one.start, one.start))
    if len(dims) <= _FEW:
        yield from permutations(dims)


def _placed(dims: Sequence[Dim], size: float) -> list[Set]:
    placed: list[Set] = []
    for index, dim in enumerate(dims):
        fitting = [way for way in _ways(dim, size) if _fits(way, placed)]
        clear = [way for way in fitting if not _crossed(way, placed)]
        ahead = [at for later in dims[index + 1 :] for at in (later.start, later.end)]
        # A line that comes later may run through here: better where none can, in the same row.
        best = [way for way in clear if way.row == clear[0].row and not any(_in(at, way) for at in ahead)]
        placed.append([*best, *clear, *fitting][0])
    return placed


def _cost(placed: Sequence[Set]) -> tuple[int, int, int]:
    """Texts that are crossed, rows, and texts beside their lines: the fewer the better."""
    crossed = sum([_crossed(one, [other for other in placed if other is not one]) for one in placed])
    return crossed, max([one.row for one in placed], default=0), sum([not one.inside for one in placed])


def _ways(dim: Dim, size: float) -> Iterator[Set]:
    """Between its arrows, to their right, or (since that reads worst) to their left; near rows first."""
    wide = width(dim.text, size)
    middle = (dim.start + dim.end) / 2.0
    for row in range(_MOST):
        if wide + 2.0 * _ARROWS <= dim.end - dim.start:
            # In the middle, or to one side of it where a line runs through the middle.
            for left in (middle - wide / 2.0, dim.start + _ARROWS, dim.end - _ARROWS - wide):
                yield Set(dim, row, left, left + wide, True)
        yield Set(dim, row, dim.end + _GAP, dim.end + _GAP + wide, False)
        if row >= _LEFT:
            yield Set(dim, row - _LEFT, dim.start - _GAP - wide, dim.start - _GAP, False)
    yield Set(dim, _MOST + len(dim.text), dim.end + _GAP, dim.end + _GAP + wide, False)


def _fits(way: Set, placed: Sequence[Set]) -> bool:
    """Whether nothing of its row is in the way; two that share an end may meet there."""
    return all(
        way.high <= other.low + 0.01 or other.high <= way.low + 0.01
        for other in placed
        if other.row == way.row
    )


def _crossed(way: Set, placed: Sequence[Set]) -> bool:
    """Whether an extension line runs through a text: its own through one nearer, or another's through its text."""
    for other in placed:
        if other.row < way.row and any(_in(at, other) for at in (way.dim.start, way.dim.end)):
            return True
        if other.row >= way.row and any(_in(at, way) for at in (other.dim.start, other.dim.end)):
            return True
    return False


def _in(at: float, way: Set) -> bool:
    return way.left - _GAP / 2.0 < at < way.right + _GAP / 2.0
