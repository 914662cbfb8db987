"""From faults to findings: equal faults become one, and its values are computed for the texts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from planlint.judge.closures import compiled
from planlint.judge.finding import Finding, Value
from planlint.judge.mending import mend_for
from planlint.judge.rule import Rule
from planlint.judge.template import choose
from planlint.observe.facts import Missing
from planlint.source import Span

if TYPE_CHECKING:
    from planlint.judge.engine import Fault

Group = list["Fault"]


def findings_of(faults: Iterable[Fault], limits: Mapping[str, float]) -> list[Finding]:
    """The findings of the open faults, each with the number of findings that it silences."""
    faults = list(faults)
    silenced: dict[int, set[tuple[Any, ...]]] = {}  # by the root's identity: what its mending may change
    for fault in faults:
        if fault.root is not None:
            silenced.setdefault(id(fault.root), set()).add(_key(fault))
    return [_finding(group, silenced, limits) for group in groups_of(faults)]


def groups_of(faults: Iterable[Fault]) -> list[Group]:
    """The open faults, equal ones together, in the order of the findings: by place, then by rule."""
    groups: dict[tuple[Any, ...], Group] = {}
    for fault in faults:
        if fault.root is None:
            groups.setdefault(_key(fault), []).append(fault)
    return sorted(groups.values(), key=lambda group: (_start(group), group[0].rule.id))


def _start(group: Group) -> int:
    return min([fault.row.span.start for fault in group])


def _key(fault: Fault) -> tuple[Any, ...]:
    """Faults of equal keys are one finding."""
    rule, row = fault.rule, fault.row
    if rule.once:
        return rule.id, fault.severity, fault.accepted
    same: Any = tuple([_settled(row.values[column]) for column in rule.group]) if rule.group else row.span
    return rule.id, fault.severity, fault.accepted, same


def _settled(value: Any) -> Any:
    """A value for comparing: mirror images differ in the last digits of a float (never in the seventh)."""
    return round(value, 7) if isinstance(value, float) else value


def _finding(
    group: Group, silenced: Mapping[int, set[tuple[Any, ...]]], limits: Mapping[str, float]
) -> Finding:
    first = min(group, key=lambda fault: fault.row.span.start)
    shown = _worst(group, limits)
    rule = shown.rule
    names = _names(group)
    values = {**shown.values, "rows": float(len(group)), "names": names}
    mend, computed = mend_for(rule, shown, group, values, limits)
    says, said = choose(rule.says, computed, limits, must_know=False)
    why, whys = choose(rule.why, computed, limits, must_know=False)
    fix, fixes = choose(rule.fix, computed, limits, must_know=True)
    return Finding(
        rule=rule.id,
        severity=shown.severity,
        span=first.row.span,
        values={**_let_values(rule, values), **said, **whys, **fixes},
        mend=mend,
        rows=len(group),
        names=names,
        related=_related(group),
        consequences=len(set().union(*(silenced.get(id(fault), set()) for fault in group))),
        accepted=shown.accepted,
        picture=shown.row.picture,
        said=(says, why, fix),
        spans=tuple(dict.fromkeys([fault.row.span for fault in group])),
    )


def _worst(group: Group, limits: Mapping[str, float]) -> Fault:
    """The fault whose numbers are shown: where the rule's `worst` is largest, else the first in the plan."""
    size = group[0].rule.worst
    if size is None:
        return min(group, key=lambda fault: fault.row.span.start)
    from planlint.judge.engine import value_or_missing

    run = compiled(size, limits)
    sizes = [value_or_missing(run, fault.values) for fault in group]
    known = [
        (value, fault) for value, fault in zip(sizes, group, strict=True) if not isinstance(value, Missing)
    ]
    return max(known, key=lambda pair: pair[0])[1] if known else group[0]


def _names(group: Group) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for fault in group:
        for column in fault.rule.names:
            value = fault.row.values[column]
            if not isinstance(value, Missing):
                names.update(dict.fromkeys(value if isinstance(value, tuple) else (value,)))
    return tuple(names)


def _related(group: Group) -> tuple[tuple[str, Span], ...]:
    return tuple(dict.fromkeys((name, span) for fault in group for name, span in fault.row.spans.items()))


def _let_values(rule: Rule, values: Mapping[str, Any]) -> dict[str, Value]:
    return {
        name: Value(values[name], kind)
        for name, _, kind in rule.lets
        if kind and not isinstance(values[name], Missing)
    }
