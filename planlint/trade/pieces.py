"""The kinds of piece a plan can name, and what follows from each."""

from __future__ import annotations

from functools import cache

from planlint.trade.tables import rows


@cache
def kinds() -> tuple[str, ...]:
    """The kinds of piece, `bench` to `other`."""
    return tuple(rows("pieces", "kinds"))


@cache
def settings() -> tuple[str, ...]:
    """Where a piece can stand."""
    return tuple(rows("pieces", "settings"))


@cache
def users() -> tuple[str, ...]:
    """Who a plan can name as users."""
    return tuple(rows("pieces", "users"))


@cache
def seen(piece: str | None) -> tuple[str, ...]:
    """The sides people look at, unless the plan says; an unknown kind is looked at as `other`."""
    known = rows("pieces", "kinds")
    return tuple(known.get(piece or "other", known["other"])["seen"])


@cache
def is_case(piece: str | None) -> bool:
    """Whether this kind of piece is a case: a box, whose front edges people look at."""
    return bool(rows("pieces", "kinds").get(piece or "other", {}).get("case", False))
