"""Judging: facts and the rulebook in, findings out.

Every rule is tried on every row of its table. A row that has the mistake is a fault; faults that an open
cause silences are counted with it, and the rest become findings, equal ones together.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from planlint.judge.accepting import ACCEPTED, Acceptance, accepting, entry_row
from planlint.judge.alike import Alike, Read, alike, read_together, reading
from planlint.judge.closures import Unknown, compiled
from planlint.judge.consequences import silence
from planlint.judge.finding import NotChecked, Verdict
from planlint.judge.grouping import findings_of
from planlint.judge.rule import Rule
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


class Outcome(NamedTuple):
    """What a rule says of rows that hold the same in all it reads: its mistake, or why nobody can tell."""

    severity: str
    lets: dict[str, Any]
    missing: Missing | None = None


_UNTRIED = Outcome("", {})


class ReadyRule:
    """A rule's expressions made to run, when it first has a row: `where`, the `let`s, the severities.

    `read_all` takes of a row all that any rule about its table decides by.
    """

    __slots__ = ("_lets", "_limits", "_read", "_severities", "_where", "read_all", "rule")

    def __init__(self, rule: Rule, limits: dict[str, float], read_all: Read) -> None:
        self.rule = rule
        self.read_all = read_all
        self._limits = limits
        self._read: Read | None = None

    def tried(self, table: Alike) -> Iterator[tuple[Row, Outcome]]:
        """The rows that are not sound; of those that are alike in what this rule decides by, one is judged."""
        read = self._read or self._made()
        known: dict[object, Outcome | None] = {}
        outcomes: list[Outcome | None] = []
        for row in table.samples:
            values = row.values
            deciding = read(values)
            outcome = known.get(deciding, _UNTRIED)
            if outcome is _UNTRIED:
                outcome = known[deciding] = self._outcome(values)
            outcomes.append(outcome)
        if any(outcomes):
            for row, kind in zip(table.rows, table.kinds, strict=True):
                outcome = outcomes[kind]
                if outcome is not None:
                    yield row, outcome

    def _made(self) -> Read:
        rule = self.rule
        self._where = compiled(rule.where, self._limits) if rule.where else None
        self._lets = [(name, compiled(code, self._limits)) for name, code, _ in rule.lets]
        self._severities = [(severity, compiled(code, self._limits)) for severity, code in rule.severities]
        self._read = reading(rule.reads)
        return self._read

    def _outcome(self, values: dict[str, Any]) -> Outcome | None:
        lets: dict[str, Any] = {}
        try:
            if self._where is not None and not self._where(values):
                return None
            if self._lets:
                values = dict(values)
            for name, run in self._lets:
                values[name] = lets[name] = value_or_missing(run, values)
            for severity, holds in self._severities:
                if holds(values):
                    return Outcome(severity, lets)
        except Unknown as met:
            return Outcome("", lets, met.missing)
        return None


def judge(
    facts: Facts, book: Rulebook, accepts: Iterable[Acceptance] = (), *, metric: bool = False
) -> Verdict:
    """All findings of the rulebook on these facts, by line, column and rule; and what could not be checked.

    `metric` says whether the plan's unit is metric: some tolerances differ.
    """
    faults, not_checked = judged(facts, book, accepts, metric=metric)
    findings = findings_of(faults, book.limits(metric))
    return Verdict(tuple(findings), tuple(not_checked))


def judged(
    facts: Facts, book: Rulebook, accepts: Iterable[Acceptance] = (), *, metric: bool = False
) -> tuple[list[Fault], list[NotChecked]]:
    """Every single fault, also those that the plan accepts or that an open cause silences."""
    accepts = list(accepts)
    limits = book.limits(metric)
    if metric not in book.ready:
        together = read_together(book.rules.values())
        book.ready[metric] = [ReadyRule(rule, limits, together[rule.about]) for rule in book.rules.values()]
    ready: list[ReadyRule] = book.ready[metric]
    faults, unknown = _tried(ready, facts.rows)
    matches = _accept(faults, accepts)
    silence(faults, limits)
    not_checked = [*_gaps(facts, book), *unknown]
    entries = _entry_rows(book, accepts, matches, faults, not_checked)
    stale, _ = _tried([one for one in ready if one.rule.about == ACCEPTED.name], {ACCEPTED.name: entries})
    if stale:  # an entry may match nothing only because of what another rule tells already
        silence([*faults, *stale], limits)
    return [*faults, *stale], not_checked


def _tried(ready: list[ReadyRule], tables: dict[str, list[Row]]) -> tuple[list[Fault], list[NotChecked]]:
    """One reason is said once a rule, where it is first met."""
    faults: list[Fault] = []
    unknown: dict[tuple[str, str, str], NotChecked] = {}
    sorted_out: dict[str, Alike] = {}
    for one in ready:
        about = one.rule.about
        rows = tables.get(about)
        if not rows:
            continue
        if about not in sorted_out:
            sorted_out[about] = alike(rows, one.read_all)
        for row, (severity, lets, missing) in one.tried(sorted_out[about]):
            if missing is None:
                values = {**row.values, **lets, "severity": severity}
                faults.append(Fault(one.rule, row, severity, values))
            else:
                reason, add = missing
                unchecked = NotChecked(one.rule.id, row.span, reason, add)
                unknown.setdefault((one.rule.id, reason, add), unchecked)
    return faults, list(unknown.values())


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
            for entry in accepting(fault.rule.id, fault.row, accepts):
                if fault.accepted is None:
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
