"""The order in which a load goes down."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from planlint.observe.frame import before_holders


def test_each_part_comes_before_what_holds_it_however_high_the_pile() -> None:
    """A pile of thousands must not end in Python's own limit of calls within calls."""
    pile: list[Any] = [SimpleNamespace(order=number) for number in range(5000)]
    found = before_holders(pile[:1], lambda part: iter(pile[part.order + 1 : part.order + 3]))
    assert [part.order for part in found] == list(range(5000))
