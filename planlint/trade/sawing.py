"""Limits and cautions for cutting wood to size. Lengths mm; all common practice without a source."""

from __future__ import annotations

from functools import cache

from planlint.trade.tables import rows


@cache
def limit(name: str, metric: bool = False) -> float:
    """A length by its name in the table, round in the plan's units."""
    found: float = rows("sawing", "limits")[name]["metric" if metric else "length"]
    return found


def turns() -> tuple[float, float]:
    """How far off square most saws turn, and how far their blade tilts, degrees."""
    found = rows("sawing", "angles")
    return found["turns"]["degrees"], found["tilts"]["degrees"]


def shortest_to_rip() -> float:
    """A shorter blank is not ripped on a table saw."""
    return limit("shortest")


def caution(name: str) -> str:
    """A caution's words, with the names of what they are filled with in braces."""
    return str(rows("sawing", "cautions")[name]["says"])
