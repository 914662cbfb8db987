"""What the command does once its arguments are read: audits and lessons."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from planlint.auditing import Audit, audit_source, rules
from planlint.exit_codes import FAULTY, SOUND, UNUSABLE
from planlint.judge.rulebook import Rulebook
from planlint.read.files import plans_below, read_file
from planlint.show import terminal
from planlint.show.report import Unusable
from planlint.source import Source

if TYPE_CHECKING:
    from planlint.judge.lesson import Lesson


def audit(paths: Sequence[str], form: str, counted: Sequence[str]) -> int:
    """Audit plans and folders of plans, answering as `text` or `json`; `counted` severities make it FAULTY."""
    book = rules()
    _report_broken_rules(book)
    outcomes = list(_outcomes(paths, book))
    show = _show_json if form == "json" else _show_text
    show(outcomes, book)
    if book.faults or any(isinstance(outcome, Unusable) for outcome in outcomes):
        return UNUSABLE
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


def _report_broken_rules(book: Rulebook) -> None:
    for fault in book.faults:
        print(f"planlint: {fault.path}, line {fault.line}: {fault.says}", file=sys.stderr)


def _show_text(outcomes: Sequence[Audit | Unusable], book: Rulebook) -> None:
    from planlint.show.wording import word_plan

    terminal.print_reports(
        (
            outcome
            if isinstance(outcome, Unusable)
            else word_plan(
                outcome.source,
                outcome.plan.heading.title,
                outcome.plan.heading.units,
                outcome.verdict,
                book.rules,
            )
            for outcome in outcomes
        ),
        sys.stdout,
    )


def _show_json(outcomes: Sequence[Audit | Unusable], book: Rulebook) -> None:
    from planlint.show.as_json import as_json, plan_json, unusable_json

    plans = [
        unusable_json(outcome)
        if isinstance(outcome, Unusable)
        else plan_json(
            outcome.source,
            outcome.plan.heading.title,
            outcome.plan.heading.units,
            outcome.verdict,
            book.rules,
        )
        for outcome in outcomes
    ]
    print(as_json(plans))


def lesson(name: str | None) -> int:
    """Explain a rule; without its name, list all by chapter."""
    from planlint.show.lesson import lesson_list, lesson_page, not_a_rule

    book = rules()
    _report_broken_rules(book)
    if name is None:
        terminal.print_page(partial(lesson_list, book.rules.values()), sys.stdout)
        return SOUND
    rule = book.rules.get(name)
    read = None if rule is None else _read_lesson(rule.path)
    if read is None:
        print(f"planlint: {not_a_rule(name, book.rules)}", file=sys.stderr)
        return UNUSABLE
    terminal.print_page(partial(lesson_page, read), sys.stdout)
    return SOUND


def _read_lesson(path: str) -> Lesson | None:
    from planlint.judge.lesson import read_lesson
    from planlint.resources import data

    return read_lesson(path, data("rules", path.removeprefix("rules/")))
