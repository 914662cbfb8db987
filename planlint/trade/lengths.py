"""Lengths that are sold: fasteners, boards, rods, sheets. All in mm; None where none is sold that long."""

from __future__ import annotations

from functools import cache

from planlint.trade.screws import kind
from planlint.trade.tables import rows

CLOSE = 0.01
"""Two lengths this near are one: floats must not decide (mm)."""


def next_length_sold(
    noun: str, least: float, most: float, metric: bool = False, gauge: int | None = None
) -> float | None:
    """The shortest length of that fastener that is sold and lies between `least` and `most`, both allowed.

    With a gauge, nothing longer than that gauge is usually sold in. None where no length fits.
    """
    limit = min(most, _longest(gauge))
    return next(
        (one for one in fastener_lengths(noun, metric) if least - CLOSE <= one <= limit + CLOSE), None
    )


@cache
def fastener_lengths(noun: str, metric: bool = False) -> tuple[float, ...]:
    """The lengths that kind is sold in, shortest first; empty where no list is kept."""
    found = kind(noun)
    if found is None or found.lengths is None:
        return ()
    return tuple(rows("screws", "lengths")[found.lengths]["metric" if metric else "inches"])


def longest_sold(noun: str, metric: bool = False, gauge: int | None = None) -> float | None:
    """The longest of that fastener that is sold, in that gauge if given; None where no list is kept."""
    limit = _longest(gauge)
    return max([one for one in fastener_lengths(noun, metric) if one <= limit + CLOSE], default=None)


@cache
def board_lengths(metric: bool = False) -> tuple[float, ...]:
    """The lengths softwood boards are sold in, shortest first, studs too."""
    if not metric:
        sold = rows("lengths_sold", "boards")
        return tuple(sorted([*sold["boards"]["lengths"], *sold["studs"]["lengths"]]))
    row = rows("lengths_sold", "metric_boards")["boards"]
    steps = (range(0, round(row["longest"]) + 1, round(step)) for step in row["steps"])
    return tuple(sorted({float(long) for some in steps for long in some if long >= row["shortest"]}))


def board_length_sold(length: float, metric: bool = False) -> bool:
    """Whether softwood boards are sold in this length."""
    return any(abs(one - length) < CLOSE for one in board_lengths(metric))


def next_board_length_sold(least: float, metric: bool = False) -> float | None:
    """The shortest board sold that is no shorter than `least`; studs are left out: they are for walls."""
    return next((one for one in without_studs(metric) if one >= least - CLOSE), None)


@cache
def without_studs(metric: bool = False) -> tuple[float, ...]:
    """The lengths softwood boards are sold in, but for studs, which are for walls."""
    studs = rows("lengths_sold", "boards")["studs"]["lengths"]
    return tuple([one for one in board_lengths(metric) if metric or one not in studs])


@cache
def rod_lengths(metric: bool = False) -> tuple[float, ...]:
    """The lengths dowel rods are sold in."""
    return tuple(rows("lengths_sold", "rods")["metric" if metric else "inches"]["lengths"])


@cache
def rod_diameters(metric: bool = False) -> tuple[float, ...]:
    """The diameters dowel rods are sold in."""
    return tuple(rows("lengths_sold", "rods")["metric" if metric else "inches"]["diameters"])


@cache
def sheet_sizes() -> tuple[tuple[float, float], ...]:
    """The sheets sold, width x length."""
    return tuple((row["width"], row["length"]) for row in rows("lengths_sold", "sheets").values())


@cache
def sheets_of(metric: bool) -> tuple[tuple[float, float], ...]:
    """The sheets sold where a plan of these units is built, width x length."""
    named = rows("lengths_sold", "sheets").items()
    return tuple((row["width"], row["length"]) for name, row in named if name.startswith("metric") == metric)


def widest_panel() -> float:
    """How wide solid panels are sold glued up."""
    found: float = rows("lengths_sold", "panels")["widest"]["width"]
    return found


@cache
def _longest(gauge: int | None) -> float:
    row = rows("screws", "gauges").get(str(gauge)) if gauge is not None else None
    return float("inf") if row is None else row["longest"]
