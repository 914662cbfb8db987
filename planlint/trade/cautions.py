"""The cautions' words, and from where on each is told. Lengths in mm, masses in kg."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.tables import load, rows


class CautionRow(NamedTuple):
    """A caution as the table has it; names in braces are to be filled in."""

    name: str
    title: str
    says: tuple[str, ...]
    source: str
    confidence: str


@cache
def caution_rows() -> tuple[CautionRow, ...]:
    """All cautions, in the order they are told."""
    group = load("cautions")["cautions"]
    return tuple(
        [
            CautionRow(
                name,
                row["title"],
                tuple(row["says"]),
                row.get("source", group["source"]),
                row.get("confidence", group["confidence"]),
            )
            for name, row in group["rows"].items()
        ]
    )


@cache
def limit(of: str, field: str) -> float:
    """From where on a caution is told."""
    return float(rows("cautions", "limits")[of][field])


def is_dusty(wood: str) -> bool:
    """Whether this wood's dust is known to harm more than most (from memory)."""
    return wood in rows("cautions", "dusty")
