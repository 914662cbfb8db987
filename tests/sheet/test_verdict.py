"""The sentence on top of the page: right in number, and never kinder than the audit."""

from __future__ import annotations

import pytest

from planlint.judge.finding import Finding, NotChecked, Verdict
from planlint.sheet.verdict import sentence, worst
from planlint.source import Span
from tests.sheet.pages import FAULTY, audit_of

HERE = Span(0, 0)


def _finding(severity: str, accepted: str | None = None) -> Finding:
    return Finding("tip-through", severity, HERE, {}, None, 1, (), (), accepted=accepted)


@pytest.mark.parametrize(
    ("severities", "accepted", "unchecked", "said", "look"),
    [
        ((), 0, 0, "Nothing wrong was found.", "sound"),
        ((), 0, 1, "Nothing wrong was found; 1 check could not be made in full.", "sound"),
        ((), 2, 0, "Nothing wrong was found; the plan accepts 2 findings.", "sound"),
        (("hint",), 0, 0, "Nothing found stops this plan; 1 could be done better.", "hint"),
        (
            ("check", "hint", "hint"),
            0,
            0,
            "Look before you cut: nothing found stops this plan, but 1 wants a second look and 2 could be done better.",
            "check",
        ),
        (("stop",), 0, 0, "Do not buy or cut yet: 1 thing stops this plan.", "stop"),
        (
            ("stop", "stop", "check", "check", "hint"),
            1,
            2,
            "Do not buy or cut yet: 2 things stop this plan, 2 want a second look and 1 could be done better; "
            "the plan accepts 1 finding; 2 checks could not be made in full.",
            "stop",
        ),
    ],
)
def test_the_verdict_counts_what_is_open_and_tells_what_is_not(
    severities: tuple[str, ...], accepted: int, unchecked: int, said: str, look: str
) -> None:
    findings = [_finding(severity) for severity in severities] + [_finding("stop", "known")] * accepted
    waiting = [NotChecked(f"rule-{number}", None, "not known", "") for number in range(unchecked)]
    audit = audit_of(FAULTY[0])._replace(verdict=Verdict(tuple(findings), tuple(waiting)))
    assert sentence(audit) == said
    assert worst(audit) == look


def test_checks_of_one_rule_are_counted_once() -> None:
    waiting = (NotChecked("a", None, "x", ""), NotChecked("a", HERE, "y", ""))
    audit = audit_of(FAULTY[0])._replace(verdict=Verdict((), waiting))
    assert sentence(audit) == "Nothing wrong was found; 1 check could not be made in full."
