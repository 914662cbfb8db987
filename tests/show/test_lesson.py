"""Lessons on a page. Guards against lost sources and cautions, reflowed plans, dead ends."""

from __future__ import annotations

from planlint.judge.lesson import Excerpt, Lesson, Limit
from planlint.show.layout import Line
from planlint.show.lesson import lesson_list, lesson_page, not_a_rule
from planlint.show.strokes import LINES
from tests.show.cases import RULES, SHORT
from tests.show.stored import check

LESSON = Lesson(
    rule="screw-embedment",
    title="A screw that stops short",
    lesson=(
        "Threads hold only where they are. What lies in the first part only pulls the head down;\n"
        "what lies in the second part holds the two together.\n\nCount the counterbore too.\n"
    ),
    caution="A seat that lets go can hurt whoever sits on it.",
    limits=(
        Limit(
            "least length held",
            "four screw diameters",
            "Wood handbook, table 8-2",
            "confirmed",
        ),
        Limit("least of the part", "half of it", "common practice, no source", "common practice, no source"),
    ),
    excerpts=(
        Excerpt(
            "flagged", True, 'plan "Leg"\n  units in\nstep\n  leg to rail: 2 nails 2 in --! here\n', (), 30
        ),
        Excerpt("passes", False, 'plan "Leg"\n  units in\nstep\n  leg to rail: 2 nails 3 in\n', (), 40),
        Excerpt("exactly at the limit", False, 'plan "At the limit"\n', (), 50),
    ),
    text=(
        "The screw passes 3 1/2 in of leg, and only 1/2 in is left in rail; a #10 needs 3/4 in.\n"
        "Threads hold only where they are.\nUse 4 in screws."
    ),
)


def text(lines: list[Line]) -> str:
    return "\n".join("".join(piece for piece, _ in line).rstrip() for line in lines)


def test_the_lesson_is_the_stored_one() -> None:
    check("pages", "lesson", text(lesson_page(LESSON, 80, LINES)))


def test_the_list_is_the_stored_one() -> None:
    rules = [
        *RULES.values(),
        SHORT._replace(
            id="overlap",
            chapter="fit",
            title="Two parts in one place",
            severities=(("check", ()), ("stop", ())),
        ),
        SHORT._replace(id="our-own", chapter="workshop", title="A rule of our own"),
    ]
    check("pages", "lesson-list", text(lesson_list(rules, 80, LINES)))


def test_every_limit_has_its_source_and_its_confidence() -> None:
    page = text(lesson_page(LESSON, 80, LINES))
    assert "Source: Wood handbook, table 8-2 (confirmed)." in page
    assert "Source: common practice, no source." in page  # not said twice


def test_the_flagged_line_is_marked_and_the_mark_of_the_file_is_gone() -> None:
    page = text(lesson_page(LESSON, 80, LINES))
    assert "--!" not in page
    flagged = "leg to rail: 2 nails 2 in"
    indent = " " * 10
    assert f"{indent}{flagged}\n{indent}{LINES.under * len(flagged)} here\n" in page


def test_the_lesson_fits_the_page() -> None:
    assert max(map(len, text(lesson_page(LESSON, 60, LINES)).split("\n"))) <= 60


def test_a_misspelt_rule_gets_the_nearest_names() -> None:
    assert not_a_rule("screw-embedmnt", RULES) == (
        "There is no rule named “screw-embedmnt”. Is it one of these: screw-embedment?"
    )
    assert "hole-in-view" in not_a_rule("view", RULES)
    assert "screw-embedment" in not_a_rule("fastenings", RULES)
    assert not_a_rule("xyzzy", RULES).endswith("planlint lesson lists them all.")
