"""Which lines of the shopping list a fastening can come from: kind, gauge, length and finish, as far as said.

What one of the two does not say (most often the finish) can be the same: a box is only another box where
both say so and differ.
"""

from __future__ import annotations

from planlint.read.plan import FastenerSize, Fastening, Plan, Purchase, Quantity, Word
from planlint.trade.screws import kind

_SAME = 0.01  # mm: sizes nearer than this are one


def hardware_of(plan: Plan) -> list[Purchase]:
    """The lines that buy screws, fittings and other hardware."""
    return [one for one in plan.purchases if one.kind in ("fastener", "hardware")]


def could_be(fastening: Fastening, purchase: Purchase) -> bool:
    """Whether the fastening can come from this line."""
    return (
        singular(fastening.noun.text) == singular(purchase.noun.text)
        and same_size(fastening, purchase.size)
        and same_word(fastening.finish, purchase.finish)
    )


def finishes_bought(fastening: Fastening, plan: Plan) -> list[Word | None]:
    """The finishes of the lines that a fastening can come from; None for a line that names none."""
    return [one.finish for one in hardware_of(plan) if could_be(fastening, one)]


def same_size(fastening: Fastening, bought: FastenerSize | None) -> bool:
    """Whether the sizes can be one. A fitting's may be its own or its screws': only like is compared."""
    own = fastening.size
    if own is None or bought is None:
        return True
    found = kind(fastening.noun.text)
    if (found is None or found.what == "plate") and _bare(own) != _bare(bought):
        return True
    return (
        own.gauge == bought.gauge
        and _near(own.diameter, bought.diameter)
        and _near(own.length, bought.length)
    )


def same_word(one: Word | None, other: Word | None) -> bool:
    """Whether two finishes can be one."""
    return one is None or other is None or one.text == other.text


def singular(noun: str) -> str:
    """`hinges` and `hinge` are one noun."""
    return noun.removesuffix("s")


def _bare(size: FastenerSize) -> bool:
    return size.gauge is None and size.diameter is None


def _near(one: Quantity | None, other: Quantity | None) -> bool:
    return one is None or other is None or abs(one.value - other.value) < _SAME
