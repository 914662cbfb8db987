"""The command: `planlint audit` and `planlint lesson`.

Exit codes: 0 nothing reaches the severity asked for, 1 something does, 2 the input or the call is unusable.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from functools import partial

from planlint import __version__
from planlint.auditing import Audit, audit_source, rules
from planlint.judge.rulebook import Rulebook
from planlint.read.files import plans_below, read_file
from planlint.show import terminal
from planlint.show.report import Unusable
from planlint.source import Source

SEVERITIES = ("stop", "check", "hint")
SOUND, FAULTY, UNUSABLE = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; returns the exit code. The reader's window may close early: that is no fault."""
    wanted = _parser().parse_args(arguments)
    try:
        code: int = wanted.run(wanted)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return SOUND
    except KeyboardInterrupt:
        return UNUSABLE
    return code


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="planlint", description="Audits furniture build plans before the wood is bought."
    )
    parser.add_argument("--version", action="version", version=f"planlint {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    audit = commands.add_parser("audit", help="say by line what is wrong with plans, why, and what to change")
    audit.add_argument("paths", nargs="+", metavar="PATH", help="a plan, or a folder of plans (*.plan)")
    audit.add_argument("--as", dest="form", choices=("text", "json"), default="text", help="how to answer")
    audit.add_argument(
        "--fail-at",
        choices=SEVERITIES,
        default="stop",
        help="the least severity that makes the exit code 1 (default: stop)",
    )
    audit.set_defaults(run=_audit)
    lesson = commands.add_parser("lesson", help="explain a rule, or list them all by chapter")
    lesson.add_argument("rule", nargs="?", metavar="RULE")
    lesson.set_defaults(run=_lesson)
    return parser


def _audit(wanted: argparse.Namespace) -> int:
    book = rules()
    _report_broken_rules(book)
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


def _lesson(wanted: argparse.Namespace) -> int:
    from planlint.show.lesson import lesson_list, lesson_page, not_a_rule

    book = rules()
    _report_broken_rules(book)
    if wanted.rule is None:
        terminal.print_page(partial(lesson_list, book.rules.values()), sys.stdout)
        return SOUND
    rule = book.rules.get(wanted.rule)
    lesson = None if rule is None else _read_lesson(rule.path)
    if lesson is None:
        print(f"planlint: {not_a_rule(wanted.rule, book.rules)}", file=sys.stderr)
        return UNUSABLE
    terminal.print_page(partial(lesson_page, lesson), sys.stdout)
    return SOUND


def _read_lesson(path: str):  # type: ignore[no-untyped-def]
    from planlint.judge.lesson import read_lesson
    from planlint.resources import data

    return read_lesson(path, data("rules", path.removeprefix("rules/")))
