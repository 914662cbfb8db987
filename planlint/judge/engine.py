"""Judging: facts and the rulebook in, findings out.

Every rule is tried on every row of its table. A row that has the mistake is a fault; faults that an open
cause silences are counted with it, and the rest become findings, equal ones together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from planlint.judge.accepting import ACCEPTED, Acceptance, accepted_by, entry_row
from planlint.judge.closures import Run, Unknown, compiled
from planlint.judge.consequences import silence
from planlint.judge.finding import NotChecked, Verdict
from planlint.judge.grouping import findings_of
from planlint.judge.rule import Code, Rule
from planlint.judge.rulebook import Rulebook
from planlint.observe.facts import Facts, Missing, Row


class Fault:
    """A row that has a rule's mistake. `root` is the open fault that silences it, if one does."""

    __slots__ = ("accepted", "root", "row", "rule", "severity", "values")

    def __init__(self, rule: Rule, row: Row, severity: str, values: dict[str, Any]) -> None:
        self.rule = rule
        self.row = row
        self.severity = severity
        self.values = values  # the row's, the rule's `let`s, and the severity
        self.accepted: str | None = None
        self.root: Fault | None = None


class Parts:
    """A rule's expressions made to run: `where`, the `let`s, the severities."""

    __slots__ = ("lets", "severities", "where")

    def __init__(self, rule: Rule, limits: dict[str, float], *, all_known: bool) -> None:
        def run(code: Code) -> Run:
            return compiled(code, limits, all_known=all_known)

        self.where = run(rule.where) if rule.where else None
        self.lets = [(name, run(code)) for name, code, _ in rule.lets]
        self.severities = [(severity, run(code)) for severity, code in rule.severities]


class ReadyRule:
    """A rule compiled when it first has a row: quickly for rows it knows all of, carefully for the others."""

    __slots__ = ("_careful", "_limits", "_quick", "rule")

    def __init__(self, rule: Rule, limits: dict[str, float]) -> None:
        self.rule = rule
        self._limits = limits
        self._quick: Parts | None = None
        self._careful: Parts | None = None

    def quick(self) -> Parts:
        """For rows on which all that the rule reads is known."""
        if self._quick is None:
            self._quick = Parts(self.rule, self._limits, all_known=True)
        return self._quick

    def careful(self) -> Parts:
        """For any row."""
        if self._careful is None:
            self._careful = Parts(self.rule, self._limits, all_known=False)
        return self._careful


class Trial:
    """A row on trial: a copy of its values, where each rule puts its `let`s, and the columns not known."""

    __slots__ = ("row", "unknown", "values")

    def __init__(self, row: Row) -> None:
        self.row = row
        self.values = dict(row.values)
        self.unknown = [name for name, value in row.values.items() if value.__class__ in _NOT_VALUES]


_NOT_VALUES = (Missing, type(None))


def judge(
    facts: Facts, book: Rulebook, accepts: Iterable[Acceptance] = (), *, metric: bool = False
) -> Verdict:
    """All findings of the rulebook on these facts, by line, column and rule; and what could not be checked.

    `metric` says whether the plan's unit is metric: some tolerances differ.
    """
    accepts = list(accepts)
    limits = book.limits(metric)
    if metric not in book.ready:
        book.ready[metric] = [ReadyRule(rule, limits) for rule in book.rules.values()]
    ready: list[ReadyRule] = book.ready[metric]
    faults, unknown = _tried(ready, facts.rows)
    matches = _accept(faults, accepts)
    silence(faults, limits)
    not_checked = [*_gaps(facts, book), *unknown]
    entries = _entry_rows(book, accepts, matches, faults, not_checked)
    stale, _ = _tried([one for one in ready if one.rule.about == ACCEPTED.name], {ACCEPTED.name: entries})
    findings = findings_of([*faults, *stale], limits)
    return Verdict(
        tuple(sorted(findings, key=lambda finding: (finding.span.start, finding.rule))),
        tuple(not_checked),
    )


def _tried(ready: list[ReadyRule], tables: dict[str, list[Row]]) -> tuple[list[Fault], list[NotChecked]]:
    faults: list[Fault] = []
    unknown: dict[tuple[str, str, str], NotChecked] = {}
    trials: dict[str, list[Trial]] = {}
    for one in ready:
        table = one.rule.about
        if table not in trials:
            trials[table] = [Trial(row) for row in tables.get(table, ())]
        if trials[table]:
            _try(one, trials[table], faults, unknown)
    return faults, list(unknown.values())


def _try(
    one: ReadyRule, trials: list[Trial], faults: list[Fault], unknown: dict[tuple[str, str, str], NotChecked]
) -> None:
    """Try one rule on its rows. One reason is said once a rule, where it is first met."""
    quick, reads = one.quick(), frozenset(one.rule.reads)
    for trial in trials:
        try:
            if trial.unknown and not reads.isdisjoint(trial.unknown):
                severity = _carefully(one.careful(), trial.values)
            else:
                severity = _quickly(one, quick, trial.values)
        except Unknown as met:
            reason, add = met.missing
            unchecked = NotChecked(one.rule.id, trial.row.span, reason, add)
            unknown.setdefault((one.rule.id, reason, add), unchecked)
            continue
        if severity is not None:
            faults.append(_fault(one.rule, trial, severity))


def _quickly(one: ReadyRule, parts: Parts, values: dict[str, Any]) -> str | None:
    """The severity of a row on which all columns are known; a sum without an answer needs care after all."""
    try:
        if parts.where is not None and not parts.where(values):
            return None
        for name, run in parts.lets:
            values[name] = run(values)
        for severity, holds in parts.severities:
            if holds(values):
                return severity
    except Unknown:
        return _carefully(one.careful(), values)
    return None


def _carefully(parts: Parts, values: dict[str, Any]) -> str | None:
    """The severity of any row; `Unknown` is raised where something is needed that is not known."""
    if parts.where is not None and not parts.where(values):
        return None
    for name, run in parts.lets:
        values[name] = value_or_missing(run, values)
    return next((severity for severity, holds in parts.severities if holds(values)), None)


def _fault(rule: Rule, trial: Trial, severity: str) -> Fault:
    """The fault, with the row's own values and this rule's `let`s; the trial holds other rules' too."""
    lets = {name: trial.values[name] for name, _, _ in rule.lets}
    return Fault(rule, trial.row, severity, {**trial.row.values, **lets, "severity": severity})


def value_or_missing(run: Callable[[Any], Any], values: dict[str, Any]) -> Any:
    """The value, or the `Missing` that says why there is none."""
    try:
        return run(values)
    except Unknown as met:
        return met.missing


def _accept(faults: list[Fault], accepts: list[Acceptance]) -> dict[Acceptance, int]:
    """Mark the faults that the plan accepts; how many each entry covers."""
    matches = dict.fromkeys(accepts, 0)
    if accepts:
        for fault in faults:
            entry = accepted_by(fault.rule.id, fault.row, accepts)
            if entry is not None:
                fault.accepted = entry.reason
                matches[entry] += 1
    return matches


def _entry_rows(
    book: Rulebook,
    accepts: list[Acceptance],
    matches: dict[Acceptance, int],
    faults: list[Fault],
    unchecked: list[NotChecked],
) -> list[Row]:
    if not accepts:
        return []
    not_checked = {one.rule for one in unchecked}
    silenced = {fault.rule.id for fault in faults if fault.root is not None}
    return [
        entry_row(
            entry,
            book.rules,
            matches[entry],
            not_checked=entry.rule in not_checked,
            silenced=entry.rule in silenced,
        )
        for entry in accepts
    ]


def _gaps(facts: Facts, book: Rulebook) -> list[NotChecked]:
    """Every rule about a table that has rows nobody could make."""
    found: dict[tuple[str, str, str], NotChecked] = {}
    for gap in facts.gaps:
        for rule in book.rules.values():
            if rule.about == gap.table:
                found.setdefault(
                    (rule.id, gap.reason, gap.add), NotChecked(rule.id, gap.span, gap.reason, gap.add)
                )
    return list(found.values())
