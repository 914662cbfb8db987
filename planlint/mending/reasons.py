"""Why a finding stays, in words."""

from __future__ import annotations

from planlint.auditing import rules
from planlint.judge.finding import Finding
from planlint.mending.standing import Key
from planlint.source import Source, Span

ADVICE = "Advice only: planlint never moves a part and never changes its size or number."
NO_MEND = "There is no computed mend."


def would_add(key: Key, before: Source) -> str:
    """A mend that brings another finding is not made."""
    rule = rules().rules[key.rule]
    line = before.place(Span(key.start, key.start)).line
    return f"Not made: it would add “{rule.title}” ({key.rule}) at line {line}."


def not_gone() -> str:
    """A mend that does not mend is not made."""
    return "Not made: audited again, the finding would still be there."


def says_so_already() -> str:
    """A computed value that is the plan's own mends nothing."""
    return "Not made: the plan says so already, and that alone does not mend it."


def not_tried() -> str:
    """After very many trials the rest is left for another time."""
    return "Not made: too many were tried before it. Keep these changes, and mend again."


def why_left(finding: Finding, refused: str) -> str:
    """Why a finding stays; `refused` says why its mend was not made."""
    if refused:
        return refused
    return NO_MEND if finding.mend is None else ADVICE
