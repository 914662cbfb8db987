"""What the boards and sheets on the shopping list weigh, each by itself."""

from __future__ import annotations

from planlint.judge.finding import Value
from planlint.read.plan import Measured, Nominal, Plan, Purchase
from planlint.show.quantities import word
from planlint.trade import lumber
from planlint.trade.boards import weight
from planlint.trade.carrying import moisture_when_carried
from planlint.trade.woods import wood

_WOODEN = ("board", "rough", "sheet")


def heaviest_bought(plan: Plan) -> tuple[float, str]:
    """The heaviest single board or sheet, in kg, and its size in words; 0 and "" where nothing can be weighed."""
    weighed = [(_weight(one, plan), one) for one in plan.purchases if one.kind in _WOODEN]
    if not weighed:
        return 0.0, ""
    heaviest, purchase = max(weighed, key=lambda each: each[0])
    return heaviest, _size(purchase, plan.heading.units)


def _weight(one: Purchase, plan: Plan) -> float:
    """One of this purchase, kg; 0 where its size or its wood is not known."""
    section = _section(one)
    name = one.wood or plan.heading.wood
    known = None if name is None else wood(name.text)
    if section is None or one.length is None or known is None:
        return 0.0
    volume = section[0] * section[1] * one.length.value
    return weight(volume, known, moisture_when_carried(one.treated or plan.heading.treated)) or 0.0


def _section(one: Purchase) -> tuple[float, float] | None:
    if isinstance(one.stock, Nominal):
        size = lumber.nominal(one.stock.name)
        return None if size is None else (size.thickness, size.width)
    if isinstance(one.stock, Measured):
        return one.stock.thickness.value, one.stock.width.value
    return None


def _size(one: Purchase, units: str) -> str:
    section = _section(one)
    if section is None or one.length is None:
        return ""
    sides = [one.stock.name] if isinstance(one.stock, Nominal) else [_length(x, units) for x in section]
    return " x ".join([*sides, _length(one.length.value, units)])


def _length(x: float, units: str) -> str:
    return word(Value(x, "length"), units)
