"""What mending makes of a plan."""

from __future__ import annotations

from typing import NamedTuple

from planlint.auditing import Audit
from planlint.judge.finding import Finding
from planlint.source import Span


class Change(NamedTuple):
    """One value replaced: where it stood in the text as it was, its words before and after."""

    span: Span
    was: str
    now: str


class Made(NamedTuple):
    """A finding whose mend was made, with its changes in the order of the text."""

    finding: Finding
    changes: tuple[Change, ...]


class Left(NamedTuple):
    """A finding that stays: its mend is advice only, there is none, or making it was not kept, and why."""

    finding: Finding
    why: str


class Mended(NamedTuple):
    """The plan with every mend made that holds: `audit` is the audit of the new text, `before` of the old."""

    before: Audit
    audit: Audit
    made: tuple[Made, ...]
    left: tuple[Left, ...]
