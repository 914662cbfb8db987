"""`planlint audit`: every plan that is named, and every plan in the folders that are named."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from planlint.auditing import Audit, audit_source, rules
from planlint.commands.exit_codes import FAULTY, SOUND, UNUSABLE
from planlint.commands.opening import report_broken_rules
from planlint.judge.finding import SEVERITIES
from planlint.judge.rulebook import Rulebook
from planlint.read.files import plans_below, read_file
from planlint.show import terminal
from planlint.show.report import Unusable
from planlint.source import Source

if TYPE_CHECKING:
    from planlint.judge.finding import Verdict


def run(wanted: argparse.Namespace) -> int:
    """Audit `wanted.paths`, answer in `wanted.form`; what reaches `wanted.fail_at` makes it FAULTY."""
    book = rules()
    report_broken_rules(book)
    outcomes = list(_outcomes(wanted.paths, book))
    show = _show_json if wanted.form == "json" else _show_text
    show(outcomes, book)
    if book.faults or any(isinstance(outcome, Unusable) for outcome in outcomes):
        return UNUSABLE
    counted = SEVERITIES[: SEVERITIES.index(wanted.fail_at) + 1]
    return FAULTY if any(_reaches(outcome, counted) for outcome in outcomes) else SOUND


def _outcomes(paths: Sequence[str], book: Rulebook) -> Iterator[Audit | Unusable]:
    for path in paths:
        for found in plans_below(path):
            read = read_file(found) if isinstance(found, str) else found
            yield audit_source(read, book) if isinstance(read, Source) else Unusable(read.path, read.reason)


def _reaches(outcome: Audit | Unusable, severities: Sequence[str]) -> bool:
    return isinstance(outcome, Audit) and any(
        finding.severity in severities and finding.accepted is None for finding in outcome.verdict.findings
    )


def _show_text(outcomes: Sequence[Audit | Unusable], book: Rulebook) -> None:
    from planlint.show.wording import word_plan

    terminal.print_reports(
        (one if isinstance(one, Unusable) else word_plan(*_told(one), book.rules) for one in outcomes),
        sys.stdout,
    )


def _show_json(outcomes: Sequence[Audit | Unusable], book: Rulebook) -> None:
    from planlint.show.as_json import as_json, plan_json, unusable_json

    plans = [
        unusable_json(one) if isinstance(one, Unusable) else plan_json(*_told(one), book.rules)
        for one in outcomes
    ]
    print(as_json(plans))


def _told(audit: Audit) -> tuple[Source, str, str, Verdict]:
    """What a report needs of an audit: its text, title, units and verdict."""
    heading = audit.plan.heading
    return audit.source, heading.title, heading.units, audit.verdict
