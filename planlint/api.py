"""The audit for programs: `planlint.audit(text)` and what it returns."""

from typing import NamedTuple

from planlint.auditing import Audit, audit_text, rules
from planlint.judge.finding import Finding, Mend, Value
from planlint.show.wording import word_finding


class Told(NamedTuple):
    """One finding. Lines and columns count from 1, `end_column` is one past the last character.

    `values` are in base units (mm, mm2, mm3, degrees, kg, N, percent points) with their kind; the texts are in the
    plan's own units. `accepted` is the reason where the plan accepts the finding.
    """

    rule: str
    severity: str  # "stop", "check" or "hint"
    line: int
    column: int
    end_line: int
    end_column: int
    message: str
    why: str
    fix: str
    caution: str
    values: dict[str, Value]
    mend: Mend | None
    names: tuple[str, ...]
    accepted: str | None


class Open(NamedTuple):
    """A check that could not be made: its rule, the line it is about, why, and what the plan would have to add."""

    rule: str
    line: int | None
    reason: str
    add: str


class PlanAudit(NamedTuple):
    """What an audit says of one plan: its title, the findings by line, and the checks that could not be made."""

    title: str
    findings: tuple[Told, ...]
    not_checked: tuple[Open, ...]


def audit(text: str) -> PlanAudit:
    """Audit a plan given as text.

    A mistake in the plan is a finding, never an exception: also a text that is no plan at all gives findings.
    """
    made = audit_text(text)
    verdict = made.verdict
    return PlanAudit(
        made.plan.heading.title,
        tuple(_told(finding, made) for finding in verdict.findings),
        tuple(
            Open(
                each.rule,
                None if each.span is None else made.source.place(each.span).line,
                each.reason,
                each.add,
            )
            for each in verdict.not_checked
        ),
    )


def _told(finding: Finding, made: Audit) -> Told:
    worded = word_finding(finding, rules().rules[finding.rule], made.source, made.plan.heading.units)
    return Told(
        finding.rule,
        finding.severity,
        *worded.place,
        worded.says,
        worded.why,
        worded.fix,
        worded.caution,
        finding.values,
        finding.mend,
        finding.names,
        finding.accepted,
    )
