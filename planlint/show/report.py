"""What a reader is told about one plan, in words, before any layout: the record that every printer uses.

Texts are whole sentences in the plan's own units. Lines and columns count from 1.
"""

from typing import NamedTuple

from planlint.judge.finding import Finding
from planlint.source import Place


class Quoted(NamedTuple):
    """A line of the plan, the words on it that are meant (`last` is one past them), and what they are."""

    line: int
    text: str
    first: int
    last: int
    label: str


class Worded(NamedTuple):
    """One finding in words. `others` names what it also stands for; a text that is not needed is empty."""

    finding: Finding
    title: str
    place: Place
    quoted: tuple[Quoted, ...]
    says: str
    why: str
    fix: str
    caution: str
    others: str
    consequences: str
    lines: tuple[int, ...]  # where the equal faults begin
    needed: float | None  # mm of a screw that the receiving part must hold, for the drawing


class Unmade(NamedTuple):
    """Checks that could not be made for one reason: what to add, and their titles."""

    reason: str
    add: str
    titles: tuple[str, ...]
    lines: tuple[int, ...]


class Report(NamedTuple):
    """Everything the terminal says of one plan.

    `shown` holds, in order, the findings to print; `more` says, after the last of a rule that has too many to
    print, how many there are besides (by the index in `shown` after which it stands).
    """

    path: str
    title: str
    units: str
    shown: tuple[Worded, ...]
    more: dict[int, str]
    accepted: tuple[str, ...]
    unmade: tuple[Unmade, ...]
    tally: str


class Unusable(NamedTuple):
    """A file that could not be read at all, and why."""

    path: str
    reason: str
