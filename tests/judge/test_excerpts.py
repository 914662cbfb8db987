"""The excerpts of a rule file: they run, they name what is wrong, and they notice every slip in the rule."""

from __future__ import annotations

import pytest

from planlint.judge.lesson import read_lesson
from tests.judge.toy import book, rule, toy_audit
from tests.rules.bless import blessed
from tests.rules.excerpts import complaints, text_of
from tests.rules.mutants import mutants

EXAMPLE = rule(
    "too-short",
    let="\n  needed: 4 * diameter",
    severity="\n  stop: embedment < needed - 1/16 in",
    flagged="""|
  screw: embedment 0.93 diameter 0.25 --! here""",
    passes="""|
  screw: embedment 1.5 diameter 0.25""",
    cases="""
  - title: exactly at the limit is allowed
    passes: |
      screw: embedment 0.9375 diameter 0.25
  - title: a sixteenth and a little short
    flagged: |
      screw: embedment 2 diameter 0.25
      screw: embedment 0.937 diameter 0.25 --! here
  - title: a step of the limit matters
    passes: |
      screw: embedment 0.875 diameter 0.225""",
)[1]


def said(text: str, *others: tuple[str, str]) -> list[str]:
    """The complaints about a rule file's excerpts."""
    made = book(("too-short", text), *others)
    assert made.faults == ()
    lesson = read_lesson("rules/fastenings/too-short.yaml", text.encode())
    assert lesson is not None
    return complaints(made.rules["too-short"], lesson, made, toy_audit)


def test_the_example_is_sound() -> None:
    assert said(EXAMPLE) == []


@pytest.mark.parametrize(("what", "text"), list(mutants(EXAMPLE)))
def test_a_slip_in_the_rule_is_noticed(what: str, text: str) -> None:
    assert text != EXAMPLE
    assert said(text) != [], what


def test_there_are_mutants_of_every_sort() -> None:
    assert [what for what, _ in mutants(EXAMPLE)] == [
        "4 became 3",
        "4 became 5",
        "1 became 0",
        "1 became 2",
        "< became <=",
        "stop: embedment < needed - 1/16 in became true",
        "stop: embedment < needed - 1/16 in became false",
    ]


def test_a_complaint_names_the_line_of_the_rule_file() -> None:
    text = EXAMPLE.replace("screw: embedment 2 ", "screw: embedment 0.5 ")
    line = text[: text.index("screw: embedment 0.5 ")].count("\n") + 1
    assert said(text) == [
        f"rules/fastenings/too-short.yaml:{line}: a sixteenth and a little short: flagged, and should not be"
    ]


def test_a_line_that_should_be_flagged_and_is_not_is_a_complaint() -> None:
    text = EXAMPLE.replace("embedment 0.93 ", "embedment 1.93 ")
    assert [complaint.rpartition(": ")[2] for complaint in said(text)] == ["not flagged, and should be"]


def test_a_flagged_excerpt_without_the_mark_is_a_complaint() -> None:
    assert "ends in `--! here`" in said(EXAMPLE.replace("diameter 0.25 --! here", "diameter 0.25", 1))[0]


def test_another_finding_spoils_an_excerpt_unless_it_is_named() -> None:
    other = rule("other", severity="{check: embedment < 1 in}")
    assert any("other (check) speaks too" in complaint for complaint in said(EXAMPLE, other))
    assert said(EXAMPLE + "also: [other]\n", other) == []


def test_a_hint_spoils_only_a_flagged_excerpt() -> None:
    other = rule("other", severity="{hint: embedment > 1.4 in}")
    assert [complaint.split(": ")[1] for complaint in said(EXAMPLE, other)] == [
        "a sixteenth and a little short"
    ]


def test_the_text_is_the_finding_as_show_words_it() -> None:
    made = book(("too-short", EXAMPLE))
    lesson = read_lesson("x/too-short.yaml", EXAMPLE.encode())
    assert lesson is not None
    text = text_of(made.rules["too-short"], lesson, made, toy_audit)
    assert text.splitlines()[1] == "Threads hold only where they are."
    assert "1 in" in text.splitlines()[0]


def test_blessing_changes_only_the_text() -> None:
    text = EXAMPLE.replace("text: x\n", "text: |\n  old\n\n  words\n") + "also: [other]\n"
    assert blessed(text, "new\n\nwords") == text.replace("  old\n\n  words\n", "  new\n\n  words\n")
