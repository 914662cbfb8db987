"""How much of one thing is worked out, so that a slip of the pen does not keep the audit busy."""

from __future__ import annotations

from functools import cache

from planlint.trade.tables import rows


@cache
def most(what: str) -> int:
    """The most of a thing that is built or looked at, by its row in `rules/tables/caps.yaml`."""
    return int(rows("caps", "caps")[what]["most"])
