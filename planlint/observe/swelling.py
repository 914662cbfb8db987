"""How far a part's wood moves across its grain in a year, by its wood and the plan's moisture range."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.piece import Part
from planlint.observe.circumstances import moisture_range
from planlint.observe.facts import Missing
from planlint.read.plan import Plan
from planlint.trade import woods
from planlint.trade.movement import change


class Swelling(NamedTuple):
    """Shares of a width: what it moves over the year, what it swells from the middle of the range, and by which
    equation of the handbook.
    """

    year: float
    from_mid: float
    equation: str


class Swellings:
    """The swelling of each wood of one plan, worked out once."""

    __slots__ = ("_known", "moisture")

    def __init__(self, plan: Plan) -> None:
        self.moisture = moisture_range(plan)
        self._known: dict[str | None, Swelling | Missing] = {}

    @property
    def ends(self) -> tuple[float, float] | tuple[Missing, Missing]:
        """The least and the most moisture of the year, or twice why it is not known."""
        if isinstance(self.moisture, Missing):
            return self.moisture, self.moisture
        return self.moisture

    def of(self, part: Part) -> Swelling | Missing:
        """The part's swelling; missing where its wood or the moisture is not known."""
        name = part.stock.wood
        if name not in self._known:
            self._known[name] = self._work_out(name)
        return self._known[name]

    def _work_out(self, name: str | None) -> Swelling | Missing:
        if name is None:
            return Missing(
                "the plan does not say what wood this is",
                "the wood, such as wood red-oak in the plan section",
            )
        wood = woods.wood(name)
        if wood is None or wood.c_tangential is None or wood.shrink_tangential is None:
            return Missing(f"no table says how far {name} moves", woods.with_figures(name))
        if isinstance(self.moisture, Missing):
            return self.moisture
        low, high = self.moisture
        year = change(1.0, wood.shrink_tangential, wood.c_tangential, low, high)
        half = change(1.0, wood.shrink_tangential, wood.c_tangential, (low + high) / 2.0, high)
        return Swelling(year.amount, half.amount, year.equation)
