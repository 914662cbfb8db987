"""A finding: what a rule says about some rows of facts. No text: the show step words it."""

from typing import NamedTuple

from planlint.observe.picture import Picture
from planlint.source import Span

SEVERITIES = ("stop", "check", "hint")  # the gravest first


class Value(NamedTuple):
    """A computed value in base units with its kind: `length` in mm, `angle` in degrees (observe.facts.KINDS).

    The kind `unknown` with the value None is a value that a text names and nobody knows.
    """

    value: object
    kind: str


class Edit(NamedTuple):
    """One change of the text: these words become `value`, in the plan's own writing, or `text` as it stands.

    With both, a clause is put in: the word `text`, and the value after it.
    """

    span: Span
    value: Value | None
    text: str | None
    unit: str  # the unit the old value was written in ("" when it had none)


class Mend(NamedTuple):
    """What to change, computed: `change` names the thing in trade words, `to` is its new value.

    `edits` is empty for advice (positions, part sizes, counts of slats), which planlint never makes by itself.
    """

    change: str
    was: Value | None
    to: Value
    edits: tuple[Edit, ...]


class Finding(NamedTuple):
    """One finding: `rows` counts the equal faults it stands for, `names` are their parts in the plan's words."""

    rule: str
    severity: str  # one of SEVERITIES
    span: Span
    values: dict[str, Value]
    mend: Mend | None
    rows: int
    names: tuple[str, ...]
    related: tuple[tuple[str, Span], ...]  # further words of the plan, by what they are
    consequences: int = 0  # findings not shown while this one is open
    accepted: str | None = None  # the reason, when an `accept` entry covers it
    picture: Picture | None = None  # the row's, to be drawn beside the finding
    said: tuple[int, int, int] = (0, 0, -1)  # which of the rule's `says`, `why` and `fix` fits; -1: none
    spans: tuple[Span, ...] = ()  # the words of every row it stands for, each once


class NotChecked(NamedTuple):
    """A rule that could not be judged on some rows: why, and what the plan would have to add."""

    rule: str
    span: Span | None
    reason: str
    add: str


class Verdict(NamedTuple):
    """All that the judge step says of one plan."""

    findings: tuple[Finding, ...]
    not_checked: tuple[NotChecked, ...]
