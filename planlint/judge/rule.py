"""A rule as it is judged: plain tuples of checked expressions, ready to be cached.

Lessons, sources and excerpts are not here: an audit does not need them (see `lesson.py`).
"""

from __future__ import annotations

from typing import Any, NamedTuple

Code = tuple[Any, ...]  # the operations of one expression; see checking.py

# A text is a tuple of pieces: words as they stand, or (key in Finding.values, code, kind).
Piece = Any
# One way to say something: (when or None, its pieces).
Saying = tuple[Any, tuple[Piece, ...]]
# A name for a value: (name, code, kind or "" when no text can show it).
Let = tuple[str, Code, str]


class Rule(NamedTuple):
    """One rule. The comments give the shapes of what is inside the tuples."""

    id: str
    chapter: str
    path: str
    title: str
    about: str
    where: Code | None
    lets: tuple[Let, ...]
    severities: tuple[tuple[str, Code], ...]
    group: tuple[str, ...]
    once: bool
    worst: Code | None
    reads: tuple[str, ...]  # the columns that decide: those of `where`, the `let`s and the severities
    names: tuple[str, ...]
    says: tuple[Saying, ...]
    why: tuple[Saying, ...]
    fix: tuple[Saying, ...]
    mends: tuple[MendRecipe, ...]
    silences: tuple[Silence, ...]
    caution: str


def columns_of(code: Code) -> tuple[str, ...]:
    """The columns that operations read."""
    found: set[str] = set()
    waiting: list[Any] = [code]
    while waiting:
        here = waiting.pop()
        if isinstance(here, tuple):
            if len(here) == 2 and here[0] == "column":
                found.add(here[1])
            else:
                waiting += here
    return tuple(sorted(found))


class MendRecipe(NamedTuple):
    """How a mend is computed: taken when `when` is true (or None) and all its values are known."""

    when: Code | None
    lets: tuple[Let, ...]
    change: str
    to: tuple[Code, str]  # with its kind
    was: tuple[Code, str] | None
    edits: tuple[tuple[str, Code, str], ...]  # span of the row, code, kind
    leads: tuple[tuple[str, str], ...] = ()  # span of the row, the word that is put in before the value


class Silence(NamedTuple):
    """What is not shown while a finding is open: these rules, where the own column and theirs hold the same."""

    rules: tuple[str, ...]
    same: tuple[tuple[str, str], ...]  # (own column, theirs)
    when: Code | None


class RuleFault(NamedTuple):
    """What is wrong in a rule file, and where, counted from 1. That rule is left out; the others hold."""

    path: str
    line: int
    column: int
    says: str


def packed(rule: Rule) -> tuple[Any, ...]:
    """The rule as bare tuples, which marshal can keep."""
    inner = {"mends": [tuple(mend) for mend in rule.mends], "silences": [tuple(one) for one in rule.silences]}
    return tuple(inner.get(name, value) for name, value in zip(Rule._fields, rule, strict=True))


def unpacked(bare: tuple[Any, ...]) -> Rule:
    """A rule from what `packed` made of it."""
    rule = Rule._make(bare)
    if rule.mends or rule.silences:
        return rule._replace(
            mends=tuple(MendRecipe._make(mend) for mend in rule.mends),
            silences=tuple(Silence._make(silence) for silence in rule.silences),
        )
    return rule
