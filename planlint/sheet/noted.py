"""The findings as the page shows them: in words, numbered as in the drawings, with the parts each lights there."""

from __future__ import annotations

from typing import NamedTuple

from planlint.auditing import Audit, rules
from planlint.drawing.marks import numbered
from planlint.show.report import Worded
from planlint.show.wording import word_finding


class Noted(NamedTuple):
    """A finding in words; `number` is as in the drawings, from 1, and 0 when the plan accepts it.

    `parts` are the placed parts it is about, in the plan's words. `anchor` is the id of its card on the page.
    """

    number: int
    worded: Worded
    parts: tuple[str, ...]
    anchor: str


def noted(audit: Audit) -> tuple[Noted, ...]:
    """All findings in the order of the audit, accepted ones too."""
    open_ones = iter(numbered(audit))
    told = []
    for place, finding in enumerate(audit.verdict.findings, start=1):
        worded = word_finding(finding, rules().rules[finding.rule], audit.source, audit.plan.heading.units)
        if finding.accepted is not None:
            told.append(Noted(0, worded, (), f"accepted-{place}"))
        else:
            one = next(open_ones)
            told.append(Noted(one.number, worded, one.parts, f"finding-{one.number}"))
    return tuple(told)
