"""The tools for each way of fastening, and what is done first: words from the table, sizes by name."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from planlint.trade.screws import FastenerKind
from planlint.trade.tables import rows


class ToolRow(NamedTuple):
    """A tool as the table has it: `size` names the number that goes with it, "" for none."""

    key: str
    name: str
    size: str
    purpose: str


@cache
def for_fastener(noun: str, kind: FastenerKind | None) -> tuple[ToolRow, ...]:
    """The tools for a fastener: by its own noun, else by what it is; for a noun no table has, what its maker says."""
    listed = rows("tools", "fastenings")
    by = kind.noun if kind is not None and kind.noun in listed else None if kind is None else kind.what
    return _tools(listed[by or "other"]["tools"])


@cache
def for_joint(way: str) -> tuple[ToolRow, ...]:
    """The tools for a joint that is cut, for glue, counterbores or plugs; none for a way without a row."""
    row = rows("tools", "joints").get(way)
    return () if row is None else _tools(row["tools"])


def hint(name: str) -> str:
    """What is done before, in words with places for `{name}` and `{number}`."""
    found: str = rows("tools", "hints")[name]["says"]
    return found


def hints() -> tuple[str, ...]:
    """The names of all hints, in the order they are told."""
    return tuple(rows("tools", "hints"))


def _tools(keys: list[str]) -> tuple[ToolRow, ...]:
    table = rows("tools", "tools")
    return tuple(
        [ToolRow(key, table[key]["name"], table[key].get("size", ""), table[key]["purpose"]) for key in keys]
    )
