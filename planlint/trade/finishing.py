"""Finish and glue: how much an area takes, and what it is sold in. Areas mm², volumes mm³, masses kg."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import load, rows

_GALLON = 231 * 25.4**3  # mm³, exact: the US gallon of 231 cubic inches
FLUID_OUNCE = _GALLON / 128
MILLILITRE = 1000.0  # mm³
OUNCE = 0.45359237 / 16  # kg
_SQUARE_FOOT = 304.8**2
_SQUARE_METRE = 1e6
_CANS = 2  # rather two small ones than one that is mostly left over


class Finish(NamedTuple):
    """A finish: square mm that a cubic mm covers in one coat, `least` to `most`, and its coats."""

    name: str
    word: str
    least: float
    most: float
    coats: int
    told: str  # the coats in words
    rates: tuple[str, str]  # "300 to 400 sq ft a gallon", as the source has it, and in metres and litres
    source: str
    confidence: str
    note: str
    caution: str

    def amount(self, area: float) -> tuple[float, float]:
        """What all coats on an area take, mm³: least and most."""
        return area * self.coats / self.most, area * self.coats / self.least


@cache
def finish(name: str) -> Finish:
    """A finish of the table by its name. KeyError where there is none (our mistake)."""
    row, coats = rows("finishing", "finishes")[name], rows("finishing", "coats")[name]
    return Finish(
        name=name,
        word=row["word"],
        least=row["least"] * _SQUARE_FOOT / _GALLON,
        most=row["most"] * _SQUARE_FOOT / _GALLON,
        coats=coats["coats"],
        told=coats["told"],
        rates=_rates(row["least"], row["most"]),
        source=_said("finishes", row, "source"),
        confidence=_said("finishes", row, "confidence"),
        note=row.get("note", ""),
        caution=row.get("caution", ""),
    )


@cache
def usual_finishes(setting: str) -> tuple[Finish, ...]:
    """What is reckoned with `indoors` or `outdoors` where a plan names no finish, best first."""
    return tuple([finish(name) for name in rows("finishing", "choice")[setting]["finishes"]])


def is_finish(noun: str) -> bool:
    """Whether a noun of a shopping list is a finish: `varnish`, `outdoor-oil`."""
    return _own_name(noun) in rows("finishing", "named")


def finish_of(noun: str) -> Finish | None:
    """The finish that a noun of a shopping list means; None where no rate is known for it."""
    found = rows("finishing", "named").get(_own_name(noun), {}).get("as")
    return None if found is None else finish(found)


def _own_name(noun: str) -> str:
    """The noun where the table has it, else its last word: what stands before only says which."""
    return noun if noun in rows("finishing", "named") else noun.rpartition("-")[2]


def can_for(volume: float, metric: bool) -> tuple[int, str]:
    """How many cans of which size hold a volume (mm³) and leave the least over."""
    row = rows("finishing", "cans")["metric" if metric else "inches"]
    one = MILLILITRE if metric else FLUID_OUNCE
    return _packed(volume / one, row["holds"], row["words"])


def glue_for(area: float) -> tuple[float, float]:
    """What a joint's area takes of glue, kg: least and most (a rule of thumb, from memory)."""
    row = rows("finishing", "glue")["pva"]
    grams = area / _SQUARE_METRE
    return grams * row["least"] / 1000, grams * row["most"] / 1000


def glue_rate() -> str:
    """That rate in words, with how sure it is."""
    row, group = rows("finishing", "glue")["pva"], load("finishing")["glue"]
    return (
        f"rule of thumb ({group['confidence']}): {row['least']} to {row['most']} g for each square metre of joint, "
        "one of the two faces spread"
    )


def bottle_for(mass: float, metric: bool) -> tuple[int, str]:
    """How many bottles of which size hold so much glue (kg) and leave the least over."""
    holds = rows("finishing", "bottles")["metric" if metric else "inches"]["holds"]
    unit, one = ("g", 0.001) if metric else ("oz", OUNCE)
    return _packed(mass / one, holds, [f"{size} {unit}" for size in holds])


def _packed(amount: float, holds: list[float], words: list[str]) -> tuple[int, str]:
    """One or two of the size that leaves the least over; of the largest, as many as it takes."""
    counts = [max(1, int(-(-amount // size))) for size in holds]
    fits = [i for i, count in enumerate(counts) if count <= _CANS] or [len(holds) - 1]
    best = min(fits, key=lambda i: (counts[i] * holds[i], counts[i]))
    return counts[best], words[best]


def _said(group: str, row: dict[str, str], key: str) -> str:
    return row.get(key) or str(load("finishing")[group][key])


def _rates(least: float, most: float) -> tuple[str, str]:
    """The rate as it is written, and in square metres a litre."""
    low, high = [round(one * _SQUARE_FOOT / _GALLON, 1) for one in (least, most)]  # mm²/mm³ is m²/l
    return f"{least:g} to {most:g} sq ft a gallon", f"{low:g} to {high:g} sq m a litre"
