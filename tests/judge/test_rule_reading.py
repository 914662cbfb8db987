"""Reading a rule file strictly: every slip of its author is said where it stands, and nothing else breaks."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.judge.strict_yaml import Document, Keyed
from tests.judge.toy import RULE, book, rule

TITLE = "title: A screw that stops short"
SEVERITY = "severity:\n  stop: embedment < needed - tolerance.fastening"

# A mend that computes a length `b`: no other mend may use it, for only one of them is taken.
ONE = "{let: {b: held}, change: {a: held}}"


def faults(text: str) -> list[tuple[int, int, str]]:
    return [(fault.line, fault.column, fault.says) for fault in book(("too-short", text)).faults]


def line_of(piece: str) -> int:
    return RULE[: RULE.index(piece)].count("\n") + 1


def test_the_toy_rule_is_sound() -> None:
    assert faults(RULE) == []


@pytest.mark.parametrize(
    ("was", "becomes", "column", "says"),
    [
        ("rule: too-short", "rule: to-short", 1, "the file is named too-short"),
        ("about: fastener", "about: fastner", 8, "there is no fact table `fastner`; did you mean `fast"),
        ("where: threaded", "where: treaded", 8, "there is no `treaded` here; did you mean `threaded`?"),
        ("4 * diameter", "4 * diametre", 19, "there is no `diametre` here; did you mean `diameter`?"),
        ("needed: min", "held: min", 3, "`held` is a name already"),
        ("needed: min", "Needed: min", 3, "a name is lower-case letters"),
        ("stop: embedment", "stops: embedment", 3, "there is no key `stops`; did you mean `stop`?"),
        ("< needed - tolerance.fastening", "< weight", 21, "a length can't be compared with a mass"),
        ("tolerance.fastening", "tolerance.fastenings", 30, "there is no `tolerance.fastenings` here"),
        ("names: name", "names: nane", 8, "the table `fastener` has no column `nane`; did you mean `name`?"),
        ("names: name", "names: held", 8, "`held` is a length; a column of words belongs here"),
        ("{embedment}", "{embedmint}", 13, "there is no `embedmint` here; did you mean `embedment`?"),
        ("{embedment}", "{load / held}", 13, "a text has no way to show a force / length"),
        ("{embedment}", "{embedment", 7, "a { without its }"),
        ("why: Threads", "wy: Threads", 1, "there is no key `wy`; did you mean `why`?"),
        ("limits: []", "limits: [{what: x}]", 10, "the key `value` is missing"),
        ("limits: []", "limits: []\nonce: piece", 1, "`once` can only be `plan`"),
        ("limits: []", "limits: []\nlimits: []", 1, "`limits` is written twice"),
        ("limits: []", "limits: []\ncases: [{title: x}]", 9, "a case has either `flagged` or `passes`"),
        ("limits: []", "limits: []\nworst: name", 1, "`worst` needs a size; this is a word"),
        ("limits: []", "limits: []\nmend: {change: {}}", 7, "`change` is one trade word"),
        ("why: T", "mend: {change: {a: held}, edits: {lenght: held}}\nwhy: T", 35, "the table"),
        ("why: T", f"mend: [{ONE}, {{let: {{c: b}}, change: {{a: held}}}}]\nwhy: T", 55, "there is no `b` here"),
        ("why: T", f"mend: [{ONE}, {{let: {{c: b, b: held}}, change: {{a: held}}}}]\nwhy: T", 55, "there is no `b`"),
        ("why: T", f"mend: [{ONE}, {{let: {{b: load}}, change: {{a: held}}}}]\nwhy: T", 52, "`b` was a length before"),
        (TITLE, "title: no", 8, "YAML reads `no` as yes or no; put quotes round it"),
        (TITLE, "title: 012", 8, "YAML reads `012` as another number"),
        (TITLE, "title: 1:30", 8, "YAML reads `1:30` as another number"),
        (TITLE, "title: 2024-01-02", 8, "YAML reads `2024-01-02` as a date"),
        (TITLE, "title:", 7, "nothing is written here"),
        (TITLE, "title: ~", 8, "YAML reads `~` as nothing"),
        (TITLE, "title: [&a x, *a]", 9, "anchors and aliases are not used here"),
        (TITLE, "title: A screw: short", 15, "a colon inside a text"),
        (TITLE, "title: [a, b]", 1, "`title` is a text"),
        (SEVERITY, "severity: {}", 1, "at least one of stop, check and hint"),
    ],
)  # fmt: skip
def test_a_slip_is_said_where_it_stands(was: str, becomes: str, column: int, says: str) -> None:
    assert was in RULE
    lines = {line_of(was), line_of(was) + 1}  # the key itself, or one that was put below it
    found = faults(RULE.replace(was, becomes, 1))
    assert any(line in lines and at == column and text.startswith(says) for line, at, text in found), found


@pytest.mark.parametrize(
    "key", ["title", "about", "severity", "says", "why", "lesson", "limits", "flagged", "passes", "text"]
)
def test_a_missing_key_is_said(key: str) -> None:
    _, text = rule("too-short", **{key: None})
    assert any(says == f"the key `{key}` is missing" for _, _, says in faults(text))


def test_all_slips_are_said_at_once_and_an_unsound_let_only_once() -> None:
    slips = (
        RULE.replace("4 * diameter", "4 * diametre").replace("{embedment}", "{embed}").replace("why:", "wy:")
    )
    assert [line for line, _, _ in faults(slips)] == [1, 6, 10, 11]


def test_a_broken_file_leaves_the_others_alone() -> None:
    made = book(("broken", "rule: [\n"), ("empty", ""), ("list", "- a\n"), rule("sound"))
    assert list(made.rules) == ["sound"]
    assert [fault.path.rpartition("/")[2] for fault in made.faults] == [
        "broken.yaml",
        "empty.yaml",
        "list.yaml",
    ]


def test_a_plain_word_of_the_expressions_is_no_surprise() -> None:
    assert faults(rule("too-short", severity="{check: true}")[1]) == []


def test_a_file_that_is_not_utf_8_is_said_to_be_so() -> None:
    document = Document("x.yaml", b"title: caf\xe9\n")
    assert [fault.says for fault in document.faults] == ["the file is not UTF-8"]


def test_windows_line_ends_are_read() -> None:
    document = Document("x.yaml", b"a: b\r\nc: |\r\n  d\r\n")
    assert isinstance(document.root, Keyed)
    assert document.faults == []


@settings(max_examples=150, deadline=None)
@given(
    st.integers(0, len(RULE)), st.integers(0, 12), st.text(alphabet="abc{}[]:\"'|>-&*!%#\n 01?,", max_size=6)
)
def test_no_rule_file_ends_in_a_traceback(start: int, length: int, put: str) -> None:
    faults(RULE[:start] + put + RULE[start + length :])
