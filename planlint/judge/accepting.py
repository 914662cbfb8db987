"""Findings that the plan accepts, and `accept` entries that accept nothing.

The judge step makes one fact table itself: how each `accept` entry fared. The rule about stale entries reads
it as any other rule reads its table.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planlint.judge.nearest import nearest
from planlint.observe.facts import Column, Missing, Row, Table
from planlint.source import Span

ACCEPTED = Table(
    "accept_entry",
    "an `accept` entry of the plan, after all other rules were judged",
    {
        "rule": Column("word", "the rule it names"),
        "on": Column("word", "the part it names; missing when it names none"),
        "reason": Column("word", "the reason it gives"),
        "rule_known": Column("flag", "there is such a rule"),
        "nearest": Column(
            "word", "the nearest rule there is; missing when the rule is known or none is near"
        ),
        "matches": Column("number", "how many faults it covers"),
        "not_checked": Column("flag", "the rule could not be judged on everything"),
        "silenced": Column("flag", "the rule has findings that are not shown because of another's"),
    },
)


class Acceptance(NamedTuple):
    """One `accept` entry: the rule, the name as written ("" for none), and every instance it stands for."""

    rule: str
    on: str
    names: frozenset[str]
    reason: str
    span: Span


def accepting(rule: str, row: Row, acceptances: Iterable[Acceptance]) -> list[Acceptance]:
    """The entries that cover a fault of this rule on this row: each names a word of it, or nothing."""
    return [
        acceptance
        for acceptance in acceptances
        if acceptance.rule == rule and (not acceptance.on or _names(row) & acceptance.names)
    ]


def _names(row: Row) -> set[str]:
    names: set[str] = set()
    for value in row.values.values():
        if isinstance(value, str):
            names.add(value)
        elif isinstance(value, tuple) and not isinstance(value, Missing):
            names.update(value)
    return names


def entry_row(
    acceptance: Acceptance, rules: Iterable[str], matches: int, *, not_checked: bool, silenced: bool
) -> Row:
    """The fact row of one entry."""
    known = acceptance.rule in set(rules)
    near = None if known else nearest(acceptance.rule, rules)
    return Row(
        {
            "rule": acceptance.rule,
            "on": acceptance.on or Missing("the entry names no part", ""),
            "reason": acceptance.reason,
            "rule_known": known,
            "nearest": near or Missing("no rule has a name like it", ""),
            "matches": float(matches),
            "not_checked": not_checked,
            "silenced": silenced,
        },
        acceptance.span,
    )
