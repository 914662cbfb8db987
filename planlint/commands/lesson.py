"""`planlint lesson`: one rule explained, or the list of them all by chapter."""

from __future__ import annotations

import argparse
import sys
from functools import partial
from typing import TYPE_CHECKING

from planlint.auditing import rules
from planlint.commands.exit_codes import SOUND, UNUSABLE
from planlint.commands.opening import report_broken_rules
from planlint.show import terminal

if TYPE_CHECKING:
    from planlint.judge.lesson import Lesson


def run(wanted: argparse.Namespace) -> int:
    """Explain `wanted.rule`; without its name, list all."""
    from planlint.show.lesson import lesson_list, lesson_page, not_a_rule

    book = rules()
    report_broken_rules(book)
    if wanted.rule is None:
        terminal.print_page(partial(lesson_list, book.rules.values()), sys.stdout)
        return SOUND
    rule = book.rules.get(wanted.rule)
    read = None if rule is None else _read_lesson(rule.path)
    if read is None:
        print(f"planlint: {not_a_rule(wanted.rule, book.rules)}", file=sys.stderr)
        return UNUSABLE
    terminal.print_page(partial(lesson_page, read), sys.stdout)
    return SOUND


def _read_lesson(path: str) -> Lesson | None:
    from planlint.judge.lesson import read_lesson
    from planlint.resources import data

    return read_lesson(path, data("rules", path.removeprefix("rules/")))
