"""Whether two texts mean the same: plans, troubles and findings held against each other, places aside."""

from __future__ import annotations

from typing import Any

from planlint.auditing import Audit
from planlint.read.plan import Trouble
from planlint.read.reader import read
from planlint.source import Source, Span


def same(one: Any, other: Any) -> bool:
    """Whether two records say the same, wherever they stand: all values equal exactly, spans aside."""
    if isinstance(one, Span) or isinstance(other, Span):
        return isinstance(one, Span) and isinstance(other, Span)
    if type(one) is not type(other):
        return False
    if isinstance(one, (tuple, list)):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, dict):
        return list(one) == list(other) and all(same(value, other[key]) for key, value in one.items())
    if hasattr(type(one), "__slots__"):  # a plain record of ours, or a named tuple
        return all(
            same(value, other_value) for value, other_value in zip(_fields(one), _fields(other), strict=True)
        )
    return bool(one == other)


def same_plan(one: Source, other: Source) -> bool:
    """Whether two texts are read as the same plan with the same troubles."""
    (plan, unread), (other_plan, other_unread) = read(one), read(other)
    return same(plan, other_plan) and list(map(_told, unread)) == list(map(_told, other_unread))


def same_findings(one: Audit, other: Audit) -> bool:
    """Whether two audits find the same, in the same order."""
    return _found(one) == _found(other)


def _told(trouble: Trouble) -> tuple[str, object, object, object]:
    """A trouble without what tells its place."""
    values = trouble.values
    return trouble.kind, values.get("name"), values.get("found"), values.get("written")


def _found(audit: Audit) -> list[tuple[object, ...]]:
    found = [
        (one.rule, one.severity, one.rows, one.names, one.consequences, one.accepted)
        for one in audit.verdict.findings
    ]
    return [*found, *sorted({(one.rule, one.reason) for one in audit.verdict.not_checked})]


def _fields(record: Any) -> list[Any]:
    return [getattr(record, name) for name in _names(type(record))]


def _names(kind: type) -> tuple[str, ...]:
    return kind._fields if hasattr(kind, "_fields") else kind.__slots__  # type: ignore[attr-defined,no-any-return]
