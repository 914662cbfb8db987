"""How wood moves with moisture. Moisture in percent; sizes in any unit, changes in the same."""

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import rows


class Change(NamedTuple):
    """A change of size (positive: it swells) and the handbook's equation that gave it."""

    amount: float
    equation: str  # "13-2" or "13-3"


class Range(NamedTuple):
    """The lowest and highest moisture of a year, in percent."""

    low: float
    high: float


def change(size: float, shrinkage: float, coefficient: float, start: float, end: float) -> Change:
    """The change of `size` across the grain from one moisture to another, and which equation gave it.

    `coefficient` is the change for each percent (C_T or C_R), `shrinkage` the total from green to ovendry in
    percent. Between 6 and 14 % by equation 13-2, else by 13-3.
    """
    straight = linear_range()
    if straight.low <= min(start, end) and max(start, end) <= straight.high:
        return Change(by_coefficient(size, coefficient, start, end), "13-2")
    return Change(by_shrinkage(size, shrinkage, start, end), "13-3")


def by_coefficient(size: float, coefficient: float, start: float, end: float) -> float:
    """Equation 13-2, D C (MF - MI). Source: USDA Wood Handbook FPL-GTR-190 (2010), confirmed."""
    return size * coefficient * (end - start)


def by_shrinkage(size: float, shrinkage: float, start: float, end: float) -> float:
    """Equation 13-3, D (MF - MI) / (3000 / S - 30 + MI). Source: USDA Wood Handbook (2010), from memory.

    It takes 30 % as fibre saturation for every wood: for cedar and redwood it gives a quarter less than 13-2.
    Above saturation wood does not move.
    """
    if shrinkage == 0:
        return 0.0
    start, end = min(start, saturation()), min(end, saturation())
    constants = rows("moisture", "equation_13_3")["constants"]
    return size * (end - start) / float(constants["a"] / shrinkage - constants["b"] + start)


def coefficient(shrinkage: float, fibre_saturation: float | None = None) -> float:
    """The change for each percent of moisture that follows from total shrinkage in percent.

    Source: footnotes of Table 13-5, from memory; it gives back 16 of 20 looked-up woods.
    """
    constants = rows("moisture", "coefficient")["constants"]
    full = fibre_saturation or constants["fibre_saturation"]
    part = shrinkage / 100
    found: float = (part / full) / (1 - part * (full - constants["base"]) / full)
    return found


def equilibrium(celsius: float, humidity: float) -> float:
    """The moisture in percent that wood comes to at this temperature and relative humidity (0 to 1).

    Source: USDA Wood Handbook FPL-GTR-190 (2010) eq. 4-5, from memory; within 0.1 of its table from 0 to
    35 deg C.
    """
    w, k, k1, k2 = (_terms(name, celsius) for name in ("w", "k", "k1", "k2"))
    kh = k * humidity
    one, two = k1 * kh, k1 * k2 * kh * kh
    return 1800 / w * (kh / (1 - kh) + (one + 2 * two) / (1 + one + two))


@cache
def usual_range(setting: str) -> Range:
    """The yearly moisture range taken `indoors` or `outdoors` where a plan does not say."""
    row = rows("moisture", "settings")[setting]
    return Range(row["low"], row["high"])


@cache
def as_bought(what: str) -> float:
    """The moisture of wood from the yard (`construction-lumber`, `treated`) or its `indoor-mean`."""
    found: float = rows("moisture", "as_bought")[what]["moisture"]
    return found


@cache
def linear_range() -> Range:
    """Where equation 13-2 holds."""
    row = rows("moisture", "linear_range")["range"]
    return Range(row["low"], row["high"])


@cache
def saturation() -> float:
    """The fibre saturation that equation 13-3 takes, in percent."""
    found: float = rows("moisture", "saturation")["fibre-saturation"]["moisture"]
    return found


def _terms(name: str, celsius: float) -> float:
    first, second, third = rows("moisture", "equilibrium")[name]["terms"]
    found: float = first + second * celsius + third * celsius * celsius
    return found
