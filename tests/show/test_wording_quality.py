"""The words of every rule, held to one standard. Guards against messages nobody read before they were kept.

A text that must break a habit is listed in `EXCEPTIONS` with the reason; an exception nobody needs fails too.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
import yaml

from planlint.resources import files

EXCEPTIONS: dict[tuple[str, str], str] = {
    (
        "unreadable",
        "sentence without a full stop",
    ): "ends in a line to copy; a full stop would be copied with it",
    (
        "unreadable",
        "fraction without unit",
    ): "the line to copy is in the plan's own units",
}

# (habit, keys it holds for, what must not be found)
PATTERNS = [
    ("internal name", "title says why fix caution text", r"\b[a-z]+_[a-z_]+\b"),
    ("Python's words", "title says why fix caution text", r"\bNone\b|\bTrue\b|\bFalse\b|\bnan\b|\binf\b"),
    ("angle bracket", "title says why fix caution", r"[<>]"),
    ("harsh word", "title says why fix caution", r"(?i)\b(illegal|invalid|errors?|forbidden|failed|bad)\b"),
    (
        "scolding",
        "title says why fix caution",
        r"(?i)\byou (must|should|have to|forgot|failed)\b|\byour (mistake|fault)\b|!",
    ),
    (
        "American spelling",
        "title says why fix caution lesson",
        r"(?i)\b(colors?|centers?|centered|fibers?|gray|molded|plow|aluminum|millimeters?|meters?)\b",
    ),
    ("fraction without unit", "says why fix caution text", r"\d/\d+\b(?! ?(in|ft|lb)\b| x |/|\d)"),
    ("sentence without a full stop", "says why fix caution", r"[^.?]$"),
    ("small first letter", "title says why fix caution", r"^[a-z]"),
    ("full stop in a heading", "title", r"\.$"),
    ("two sentences", "why", r"[.?] +[A-Z“]"),
    ("text is doubled in spaces", "says why fix caution", r"\S  +\S"),
]
LONGEST = {"title": 60, "says": 260, "why": 200, "fix": 240, "caution": 240}


def rules() -> dict[str, dict[str, object]]:
    found = {}
    for path, content in files("rules", ".yaml"):
        if not path.startswith("tables/"):
            found[path.rpartition("/")[2].removesuffix(".yaml")] = yaml.safe_load(content)
    return found


RULES = rules()


def texts(rule: str, key: str) -> Iterator[str]:
    """The texts under a key, what stands in {…} taken out: it is worded by show."""
    entry = RULES[rule].get(key) or []
    for each in entry if isinstance(entry, list) else [entry]:
        text = each["say"] if isinstance(each, dict) else each
        joined = str(text).strip() if key == "text" else " ".join(str(text).split())
        yield re.sub(r"\{[^{}]*\}", "{}", joined)


def habits() -> Iterator[tuple[str, str, str]]:
    """Every (rule, habit, text) that breaks a habit."""
    for rule in RULES:
        for habit, keys, pattern in PATTERNS:
            for key in keys.split():
                for text in texts(rule, key):
                    if re.search(pattern, text):
                        yield rule, habit, text
        for key, most in LONGEST.items():
            for text in texts(rule, key):
                if len(text) > most:
                    yield rule, f"{key} too long", text


BROKEN = list(habits())


@pytest.mark.parametrize("rule", RULES)
def test_the_words_of_a_rule_keep_the_habits(rule: str) -> None:
    assert [(habit, text) for r, habit, text in BROKEN if r == rule and (r, habit) not in EXCEPTIONS] == []


def test_every_exception_is_needed() -> None:
    assert set(EXCEPTIONS) - {(rule, habit) for rule, habit, _ in BROKEN} == set()


@pytest.mark.parametrize(
    ("habit", "text"),
    [
        ("internal name", "The receiving_depth is 3 in."),
        ("Python's words", "The wood None is too thin."),
        ("angle bracket", "It is < 3 in."),
        ("harsh word", "An invalid screw."),
        ("scolding", "You should measure again."),
        ("American spelling", "Measure from the center."),
        ("American spelling", "The color fades."),
        ("fraction without unit", "It needs 3 1/2 of wood."),
        ("sentence without a full stop", "It needs 3 in"),
        ("small first letter", "it needs 3 in."),
        ("full stop in a heading", "A short screw."),
        ("two sentences", "It breaks. Then it falls."),
    ],
)
def test_each_habit_finds_what_it_is_for(habit: str, text: str) -> None:
    assert any(re.search(pattern, text) for name, _, pattern in PATTERNS if name == habit)


@pytest.mark.parametrize(
    "text", ["It needs 3 1/2 in.", "The colours of 2 centres.", "A hole 1/2 x 3 in wide.", "Use {}."]
)
def test_sound_texts_keep_every_habit(text: str) -> None:
    broken = [name for name, keys, pattern in PATTERNS if "says" in keys and re.search(pattern, text)]
    assert broken == []
