"""Every rule file of the repository: it loads, its excerpts say what they should, and it is tidy.

The folder is the list; a rule file that nobody tests can't exist.
"""

from __future__ import annotations

import difflib
import re
from pathlib import Path
from typing import Any

import pytest

from planlint.judge.rule import Rule
from tests.rules.excerpts import complaints, text_of
from tests.rules.files import PATHS, book, lesson, tables

every_rule = pytest.mark.parametrize("path", PATHS, ids=[path.stem for path in PATHS])

# Words that blame the reader or show the inside of a program.
_UNWELCOME = re.compile(r"\b(?i:illegal|invalid|error|bad|must be valid)\b|\bNone\b")


def rule_of(path: Path) -> Rule:
    assert path.stem in book().rules, "the rule is broken: see test_no_rule_file_has_a_fault"
    return book().rules[path.stem]


def test_no_rule_file_has_a_fault() -> None:
    assert [f"{fault.path}:{fault.line}:{fault.column}: {fault.says}" for fault in book().faults] == []


@every_rule
def test_excerpts_say_what_they_should(path: Path) -> None:
    assert complaints(rule_of(path), lesson(path), book()) == []


@every_rule
def test_text_is_what_the_reader_sees(path: Path) -> None:
    """A change of wording shows in review; `python -m tests.rules.bless` writes it."""
    assert text_of(rule_of(path), lesson(path), book()) == lesson(path).text


@every_rule
def test_flagged_and_passes_differ_in_few_lines(path: Path) -> None:
    """The pair teaches by itself only if the eye finds the difference."""
    flagged, passes = (
        [line.partition("--!")[0].rstrip() for line in excerpt.plan.splitlines()]
        for excerpt in lesson(path).excerpts[:2]
    )
    changes = [line for line in difflib.ndiff(flagged, passes) if line[0] in "+-"]
    assert flagged != passes
    assert max(sum(line[0] == sign for line in changes) for sign in "+-") <= 4


@every_rule
def test_texts_are_short_and_welcome(path: Path) -> None:
    rule, told = rule_of(path), lesson(path)
    assert len(rule.title) <= 60
    assert not rule.title.endswith(".")
    assert not re.match(r"(use|avoid|prefer|check|no-more)-", rule.id), "the name says the mistake"
    for texts, longest in ((rule.says, 240), (rule.why, 200), (rule.fix, 240)):
        for _, pieces in texts:
            words = "".join(piece if isinstance(piece, str) else "3 1/2 in" for piece in pieces)
            assert len(words) <= longest, words
            assert words.endswith((".", "?", "”", '"')) or not isinstance(pieces[-1], str), words
            assert not _UNWELCOME.search(words), words
    assert 80 <= len(told.lesson) <= 2000


@every_rule
def test_every_let_is_used(path: Path) -> None:
    rule = rule_of(path)
    used = set(_columns((rule.where, rule.severities, rule.worst, rule.says, rule.why, rule.fix)))
    used |= set(_columns(tuple(tuple(silence) for silence in rule.silences)))
    lets = {name: code for name, code, _ in rule.lets}
    for mend in rule.mends:
        lets |= {name: code for name, code, _ in mend.lets}
        used |= set(_columns((mend.when, mend.to, mend.was, tuple(code for _, code, _ in mend.edits))))
    used |= set(_columns(tuple(lets.values())))
    assert set(lets) - used == set()


@every_rule
def test_a_limit_has_its_source(path: Path) -> None:
    told = lesson(path)
    numbers = re.findall(r"\d+/\d+|\d+\.\d+|\d+", str(_expressions(path)))
    if [number for number in numbers if number not in ("0", "1", "2")]:
        assert told.limits, "the rule decides by a number; `limits` says which, and where it comes from"


def test_every_rule_that_may_speak_too_is_a_rule() -> None:
    for path in PATHS:
        for excerpt in lesson(path).excerpts:
            assert set(excerpt.also) <= set(book().rules) - {path.stem}, path.name


def test_no_column_takes_a_name_of_the_language() -> None:
    """`rows`, `names` and `severity` are there in every text."""
    for table in tables().values():
        assert not table.columns.keys() & {"rows", "names", "severity", "true", "false", "known"}, table.name


def _columns(code: Any) -> list[str]:
    """The names that operations use, however deep."""
    if not isinstance(code, tuple):
        return []
    if len(code) == 2 and code[0] == "column":
        return [code[1]]
    return [name for part in code for name in _columns(part)]


def _expressions(path: Path) -> list[str]:
    """The lines of `where`, `let` and `severity` as they are written."""
    text = path.read_text("utf-8")
    return re.findall(r"^(?:where: .*|(?:let|severity):\n(?:  .*\n)+)", text, re.MULTILINE)
