"""Rows of a table that hold the same in all that any rule about it decides by: a rule is tried on one of them.

Of a piece's many rows most are alike: mirror images, a row of screws.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from operator import itemgetter
from typing import Any, NamedTuple

from planlint.judge.rule import Rule
from planlint.observe.facts import Row

Read = Callable[[dict[str, Any]], Any]


class Alike(NamedTuple):
    """The rows of a table in order; one of each kind; and by row the index of its kind."""

    rows: list[Row]
    samples: list[Row]
    kinds: list[int]


def alike(rows: list[Row], read: Read) -> Alike:
    """The rows by what `read` takes of their values."""
    found: dict[object, int] = {}
    samples: list[Row] = []
    kinds: list[int] = []
    new = 0
    for row in rows:
        kind = found.setdefault(read(row.values), new)
        if kind == new:
            samples.append(row)
            new += 1
        kinds.append(kind)
    return Alike(rows, samples, kinds)


def reading(columns: Iterable[str]) -> Read:
    """A function that takes these columns of a row's values."""
    names = tuple(columns)
    return itemgetter(*names) if names else lambda values: ()


def read_together(rules: Iterable[Rule]) -> dict[str, Read]:
    """By a table's name, what takes all that any of the rules about it decides by."""
    columns: dict[str, dict[str, None]] = {}
    for rule in rules:
        columns.setdefault(rule.about, {}).update(dict.fromkeys(rule.reads))
    return {about: reading(names) for about, names in columns.items()}
