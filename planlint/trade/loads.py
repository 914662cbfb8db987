"""What furniture is loaded with: a person, and the forces of the stability standards. mm, kg, N."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows


class Person(NamedTuple):
    """Somebody who sits or stands on a piece, on a square of `footprint` on each side."""

    mass: float
    footprint: float


class SeatForces(NamedTuple):
    """The forces under which a seat must not tip; see `seat_stability` in rules/tables/loads.yaml."""

    down: float
    push: float
    in_from_edge: float
    before_back: float
    above_seat: float
    lean: float
    lean_from: float

    def on_back(self, seat_height: float) -> float:
        """The force on a back, less the higher the seat."""
        return max(0.0, self.lean * (self.lean_from - seat_height))


class Press(NamedTuple):
    """A force down, at a distance inside an edge."""

    down: float
    in_from_edge: float


@cache
def person() -> Person:
    """One person."""
    return Person(**rows("loads", "people")["person"])


@cache
def across_the_grain() -> float:
    """How stiff and strong wood is across its grain, as a share of along it."""
    share: float = rows("loads", "across_the_grain")["wood"]["share"]
    return share


@cache
def seat_forces() -> SeatForces:
    """The forces on a seat."""
    return SeatForces(**rows("loads", "seat_stability")["seat"])


@cache
def bench_end() -> Press:
    """A person on the end of a bench."""
    return Press(**rows("loads", "bench_end")["bench"])


@cache
def table_edge() -> Press:
    """A force near a table's edge."""
    return Press(**rows("loads", "table_stability")["table"])
