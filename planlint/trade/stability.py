"""The forces under which furniture must not tip: see rules/tables/stability.yaml. Lengths mm, forces N."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows


class SeatForces(NamedTuple):
    """The forces on a seat and its back, and where they are."""

    down: float
    push: float
    in_from_edge: float
    before_back: float
    above_seat: float
    lean: float
    lean_from: float

    def on_back(self, seat_height: float) -> float:
        """The force on a back: the less, the higher the seat."""
        return max(0.0, self.lean * (self.lean_from - seat_height))


class Press(NamedTuple):
    """A force down, at a distance inside an edge."""

    down: float
    in_from_edge: float


@cache
def seat_forces() -> SeatForces:
    """The forces on a seat."""
    return SeatForces(**rows("stability", "seats")["seat"])


@cache
def bench_end() -> Press:
    """A person on the end of a bench."""
    return Press(**rows("stability", "bench_ends")["bench"])


@cache
def table_edge() -> Press:
    """A force near a table's edge."""
    return Press(**rows("stability", "tables")["table"])
