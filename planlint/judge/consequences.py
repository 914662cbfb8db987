"""One mistake, one finding: faults that only follow from another are not shown while that one is open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from planlint.judge.rule import Silence
from planlint.judge.template import holds
from planlint.observe.facts import Missing, Row

if TYPE_CHECKING:
    from planlint.judge.engine import Fault


def silence(faults: list[Fault], limits: Mapping[str, float]) -> None:
    """Set the `root` of each fault that an open one silences: its first open cause, by place, then by rule.

    The faults come with causes before what they silence, as the rulebook orders its rules. A silenced fault
    still silences, for its root; a fault that the plan accepts is not open.
    """
    by_rule: dict[str, list[Fault]] = {}
    for fault in faults:
        by_rule.setdefault(fault.rule.id, []).append(fault)
    for cause_id in list(by_rule):
        causes = [fault for fault in by_rule[cause_id] if fault.accepted is None]
        for rule in causes[0].rule.silences if causes else ():
            open_causes = [
                fault for fault in causes if rule.when is None or holds(rule.when, fault.values, limits)
            ]
            _apply(rule, open_causes, by_rule)


def _apply(rule: Silence, causes: list[Fault], by_rule: Mapping[str, list[Fault]]) -> None:
    by_value: dict[Any, list[Fault]] = {}
    for cause in causes:
        for value in _values(cause.row, rule.same[0][0]) if rule.same else ("",):
            by_value.setdefault(value, []).append(cause)
    for name in rule.rules:
        for fault in by_rule.get(name, ()):
            roots = [cause.root or cause for cause in _matching(rule, fault, by_value)]
            if fault.root is not None:
                roots.append(fault.root)
            if roots:
                fault.root = min(roots, key=lambda root: (root.row.span.start, root.rule.id))


def _matching(rule: Silence, fault: Fault, by_value: Mapping[Any, list[Fault]]) -> Iterator[Fault]:
    for value in _values(fault.row, rule.same[0][1]) if rule.same else ("",):
        for cause in by_value.get(value, ()):
            if all(_share(cause.row, own, fault.row, theirs) for own, theirs in rule.same[1:]):
                yield cause


def _share(first: Row, own: str, second: Row, theirs: str) -> bool:
    return not set(_values(first, own)).isdisjoint(_values(second, theirs))


def _values(row: Row, column: str) -> tuple[Any, ...]:
    """What a column holds: its words, its one value, or nothing when it is not known."""
    value = row.values[column]
    if isinstance(value, Missing):
        return ()
    return value if isinstance(value, tuple) else (value,)
