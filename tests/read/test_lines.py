"""Logical lines: notes, continued entries, quotes, and the same plan in any file format."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.read.lines import content, logical_lines
from planlint.read.reader import read
from planlint.read.spelling import plain
from planlint.source import Source
from tests.read.texts import plan_of, said, samples


def texts(text: str) -> list[str]:
    return [line.text for line in logical_lines(Source(text))]


def test_notes_and_empty_lines_do_not_end_an_entry() -> None:
    read = texts("place\n  a: runs up, -- x,\n\n -- y:\n  top at 3 -- z\n b: c")
    assert [" ".join(text.split()) for text in read] == [
        "place", "a: runs up, top at 3", "b: c",
    ]  # fmt: skip


def test_a_comma_before_and_says_no_more_than_and() -> None:
    """A fastening continued in a second line ends in a comma, and `, and` was refused."""
    read = texts("step\n a to b: 1 dowels plugged, and glue\n c to d: glue,\n   and 2 nails\n")
    assert [" ".join(text.split()) for text in read] == [
        "step", "a to b: 1 dowels plugged and glue", "c to d: glue and 2 nails",
    ]  # fmt: skip


def test_an_entry_after_a_comma_too_many_is_not_swallowed() -> None:
    assert texts("parts\n  a: 1,\n  b: 2\n") == ["parts", "a: 1,", "b: 2"]


def test_a_section_ends_an_entry_that_ends_in_a_comma() -> None:
    assert texts("parts\n  a: 1,\nplace\n") == ["parts", "a: 1,", "place"]


def test_names_may_go_on_before_the_colon() -> None:
    assert " ".join(texts("place\n leg as a,\n  b: runs up")[1].split()) == "leg as a, b: runs up"


@pytest.mark.parametrize(
    ("line", "title"),
    [
        ('plan "A" -- b', "A"),
        ('plan "A -- b"', "A -- b"),
        ('plan "A -- b" -- "c"', "A -- b"),
        ('plan "The "small" bench"', 'The "small" bench'),
        ('plan "Tisch — groß"', "Tisch — groß"),
        ("plan “Ein Stuhl” — die Notiz", "Ein Stuhl"),
        ('plan "3\' bench" -- 3" high', "3' bench"),
        ('plan ""', ""),
    ],
)
def test_a_text_runs_to_the_last_quote_and_a_note_may_follow(line: str, title: str) -> None:
    assert plan_of(line).heading.title == title


def test_inch_marks_open_no_text() -> None:
    plan = plan_of('parts\n  a: 1 of 2x4 @ 16" -- "note"\n  b: 1 of 2x4 @ 3\' 2" -- a -- b\n')
    assert [part.length.value for part in plan.parts if part.length] == pytest.approx([16 * 25.4, 38 * 25.4])


@pytest.mark.parametrize("text", samples()[-3:])
@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_line_ends_a_mark_and_tabs_change_no_value(text: str, end: str) -> None:
    wanted = said(plan_of(text))
    assert said(plan_of(text.replace("\n", end))) == wanted
    assert said(plan_of("\ufeff" + text.replace("\n  ", "\n\t"))) == wanted
    assert said(plan_of(text.rstrip("\n"))) == wanted
    assert (
        said(plan_of(text.replace(" ", "\u00a0"))) != []
        and read(Source(text.replace(" ", "\u00a0")))[1] == []
    )


@pytest.mark.parametrize("text", samples())
def test_capitals_and_typographic_signs_change_no_value(text: str) -> None:
    if '"small"' in text or "“" in text:
        return
    dressed = text.replace(" x ", " × ").replace(" - ", " – ").replace("1/2", "½").replace('"', "”")
    wanted, found = said(plan_of(text)), said(plan_of(dressed))
    assert found == wanted
    shouted = "\n".join(line if '"' in line else line.upper() for line in text.split("\n"))
    assert said(plan_of(shouted)) == wanted


@pytest.mark.parametrize("text", ["", "\n\n", "\ufeff", "-- only a note", "   \n\t\n"])
def test_an_empty_file_lacks_its_plan_section(text: str) -> None:
    plan, (trouble,) = read(Source(text))
    assert (trouble.kind, plan.parts) == ("unreadable", [])
    assert "plan" in str(trouble.values["expected"])


@given(st.text())
def test_the_plain_form_keeps_every_offset(text: str) -> None:
    assert len(plain(text)) == len(text)


@given(
    st.lists(
        st.sampled_from(
            ['"', "--", "—", ",", ":", " ", "a", "plan ", "step ", " because ", "\n", "\r", '3"', "½"]
        )
    )
)
def test_a_logical_line_stands_where_it_says(pieces: list[str]) -> None:
    """Every character of a line is the plain form of the text's, or a blank where a note or quote was."""
    text = "".join(pieces)
    flat = plain(text)
    for line in logical_lines(Source(text)):
        for at, letter in enumerate(line.text):
            assert letter in (" ", flat[line.base + at])


def test_long_entries_take_time_in_proportion() -> None:
    """A quadratic reader would need minutes for this."""
    many = "place\n  a: runs up" + ",\n  left at 0" * 20_000
    (_, entry) = logical_lines(Source(many))
    assert entry.text.count("left") == 20_000


def test_content_is_what_stands_before_the_note() -> None:
    rows = ["  a: b -- c", '  plan "x -- y" -- z', "a", "-- a", ""]
    random.Random(1).shuffle(rows)
    assert {row: row[: content(row)] for row in rows} == {
        "  a: b -- c": "  a: b", '  plan "x -- y" -- z': '  plan "x -- y"', "a": "a", "-- a": "", "": "",
    }  # fmt: skip
