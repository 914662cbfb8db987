"""Getting a piece home. Lengths in mm, moisture in percent."""

from __future__ import annotations

from functools import cache

from planlint.trade.lengths import CLOSE
from planlint.trade.movement import as_bought
from planlint.trade.tables import rows


def lifters(longest: float) -> int:
    """How many lift a piece of that length, where its plan does not say (common practice, no source)."""
    return 2 if longest > float(rows("carrying", "lifting")["two"]["longer_than"]) + CLOSE else 1


@cache
def moisture_when_carried(treated: bool) -> float:
    """The moisture at which wood is weighed: dry, or treated and fresh from the yard."""
    return as_bought("treated") if treated else float(rows("carrying", "moisture")["dry"]["moisture"])


@cache
def closed_share() -> float:
    """The share of each side that a closed piece covers (common practice, no source)."""
    found: float = rows("carrying", "closed")["side"]["share"]
    return found
