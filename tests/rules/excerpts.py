"""Running a rule file's excerpts: what each must and must not say, and the finding's text.

One function, `complaints`, is read by the tests, by `check` and by the mutants, so that they can't disagree.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from planlint.judge.finding import Finding, Verdict
from planlint.judge.lesson import Excerpt, Lesson
from planlint.judge.rule import Rule
from planlint.judge.rulebook import Rulebook
from planlint.source import Source

MARK = "--! here"


class Heard(NamedTuple):
    """What an audit said of an excerpt, and the plan's units."""

    source: Source
    verdict: Verdict
    units: str


Auditor = Callable[[str, Rulebook], Heard]


def whole_audit(plan: str, book: Rulebook) -> Heard:
    """The excerpt through all five steps."""
    from planlint.auditing import audit_source

    audit = audit_source(Source(plan), book)
    return Heard(audit.source, audit.verdict, audit.plan.heading.units)


def complaints(rule: Rule, lesson: Lesson, book: Rulebook, auditor: Auditor = whole_audit) -> list[str]:
    """What the rule file's excerpts say otherwise than they should, each with its line in the file."""
    found = []
    for excerpt in lesson.excerpts:
        heard = auditor(excerpt.plan, book)
        for line, says in _wrong(rule, excerpt, heard):
            found.append(f"{rule.path}:{excerpt.line + line - 1}: {excerpt.title}: {says}")
    return found


def _wrong(rule: Rule, excerpt: Excerpt, heard: Heard) -> list[tuple[int, str]]:
    numbered = enumerate(excerpt.plan.splitlines(), 1)
    lines = [line for line, text in numbered if text.rstrip().endswith(MARK)]
    if bool(lines) != excerpt.flagged:
        return [(1, f"a flagged excerpt has a line that ends in `{MARK}`, a passing one has none")]
    own = [finding for finding in heard.verdict.findings if finding.rule == rule.id]
    at = sorted({heard.source.place(finding.span).line for finding in own})
    wrong = [(line, "flagged, and should not be") for line in at if line not in lines]
    for line in lines:
        if line not in at:
            wrong.append((line, "not flagged, and should be" + _why_not(rule, heard)))
    return wrong + [
        (heard.source.place(finding.span).line, f"{finding.rule} ({finding.severity}) speaks too")
        for finding in heard.verdict.findings
        if finding.rule != rule.id and finding.rule not in excerpt.also and _counts(excerpt, finding)
    ]


def _why_not(rule: Rule, heard: Heard) -> str:
    """Why a rule may have kept silent, for the one who writes it."""
    reasons = [one.reason for one in heard.verdict.not_checked if one.rule == rule.id]
    silent = [finding.rule for finding in heard.verdict.findings if finding.consequences]
    return "".join(
        [
            f"; not checked: {'; '.join(reasons)}" if reasons else "",
            f"; silenced by {silent}?" if silent else "",
        ]
    )


def _counts(excerpt: Excerpt, finding: Finding) -> bool:
    """A hint about something else does not spoil a passing excerpt."""
    return excerpt.flagged or finding.severity != "hint"


def text_of(rule: Rule, lesson: Lesson, book: Rulebook, auditor: Auditor = whole_audit) -> str:
    """The finding on the flagged excerpt as the reader sees it; "" when there is none."""
    from planlint.show.wording import word_finding

    excerpt = next(excerpt for excerpt in lesson.excerpts if excerpt.flagged)
    heard = auditor(excerpt.plan, book)
    own = [finding for finding in heard.verdict.findings if finding.rule == rule.id]
    texts = []
    for finding in own:
        worded = word_finding(finding, rule, heard.source, heard.units)
        texts.append("\n".join(text for text in (worded.says, worded.why, worded.fix) if text))
    return "\n\n".join(dict.fromkeys(texts))
