"""What rows about a join are called in every table, so that one finding can silence what follows from it."""

from __future__ import annotations

from planlint.build.piece import Part
from planlint.read.plan import Join


def join_key(join: Join) -> str:
    """A join line's own key: its step, and where its words begin. Never shown."""
    return f"{join.step}/{join.span.start}"


def pair_name(first: str, second: str) -> str:
    """Two parts' names as one word, sorted: the same from either side."""
    return f"{first} + {second}" if first <= second else f"{second} + {first}"


def pair_of(first: Part, second: Part) -> str:
    """The `pair` of two placed parts."""
    return pair_name(first.name, second.name)
