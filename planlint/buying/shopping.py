"""The shopping list: what the page, CSV, JSON and the printed sheet all take. Base units; no layout."""

from __future__ import annotations

from typing import Literal, NamedTuple

Difference = Literal["same", "more", "less", "missing", "not needed", "changed", "not checked"]


class Measure(NamedTuple):
    """An amount from `low` to `high` in base units (`kind`: "number", "length" mm, "area" mm², "volume" of a
    liquid and "timber" mm³, "mass" kg, "board feet"). `at_least`: there may be more of it than is known.
    """

    kind: str
    low: float
    high: float
    at_least: bool = False


class Own(NamedTuple):
    """What the plan's own list, as written, says of a line: how many, its words where they differ, the line."""

    number: int
    words: str  # "wood screws #10 x 3 in" where the list as written means another article; else ""
    line: int


class Line(NamedTuple):
    """One thing to buy.

    `needed` is what the plan uses (None: nobody knows), `buy` how many to buy (None: not known), `spare` what
    is left of those. `difference` tells `buy` from the plan's own list: "more" is to buy more than it says,
    "changed" another size or kind, "not checked" that nothing in the plan tells. `price` is of one, as the plan
    gives it, in whatever currency. `why` says where the number comes from or why it differs; `notes` what else
    to know, with the source of a rate.
    """

    what: str
    needed: Measure | None
    buy: int | None
    spare: int | None
    own: Own | None
    difference: Difference
    why: str
    price: float | None
    notes: tuple[str, ...]

    @property
    def cost(self) -> float | None:
        """The price of all of them, where the plan gives one."""
        return None if self.price is None or self.buy is None else round(self.price * self.buy, 2)


class Group(NamedTuple):
    """Lines under one title; `notes` hold for all of them."""

    key: str
    title: str
    lines: tuple[Line, ...]
    notes: tuple[str, ...] = ()


class Total(NamedTuple):
    """A sum over the list or the piece; None where it is not known, and then a note says why."""

    key: str
    title: str
    amount: Measure | None
    notes: tuple[str, ...]


class NotKnown(NamedTuple):
    """What could not be worked out, and what the plan would have to add."""

    what: str
    add: str


class Shopping(NamedTuple):
    """A plan's whole list, in the plan's units."""

    path: str
    title: str
    units: str
    groups: tuple[Group, ...]
    totals: tuple[Total, ...]
    not_known: tuple[NotKnown, ...]


def exactly(number: float, kind: str = "number") -> Measure:
    """An amount that is known."""
    return Measure(kind, number, number)


def differs(buy: int, own: Own | None) -> Difference:
    """What the list as written says, beside how many to buy."""
    if own is None:
        return "missing"
    if not buy:
        return "not needed" if own.number else "same"
    if own.words:
        return "changed"
    return "same" if buy == own.number else "more" if buy > own.number else "less"
