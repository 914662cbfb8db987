"""What every command begins with: the rulebook's own faults told, and one plan read and audited."""

from __future__ import annotations

import sys

from planlint.auditing import Audit, audit_source, rules
from planlint.judge.rulebook import Rulebook
from planlint.read.files import read_file
from planlint.source import Source


def report_broken_rules(book: Rulebook) -> None:
    """Name each rule file that could not be taken, on stderr."""
    for fault in book.faults:
        print(f"planlint: {fault.path}, line {fault.line}: {fault.says}", file=sys.stderr)


def opened(path: str) -> Audit | None:
    """The audit of the plan in this file; None when it cannot be read, which is then told on stderr."""
    book = rules()
    report_broken_rules(book)
    read = read_file(path)
    if isinstance(read, Source):
        return audit_source(read, book)
    print(f"planlint: {read.path}: {read.reason}", file=sys.stderr)
    return None
