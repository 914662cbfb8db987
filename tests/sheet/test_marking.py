"""The plan's text on the page: whole, in order, with the right words marked."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planlint.sheet.marking import Mark, marks, stretches
from planlint.sheet.noted import noted
from planlint.sheet.plan_text import listing, sections
from planlint.source import Source
from tests.sheet.pages import FAULTY, audit_of
from tests.sheet.reading import Page

LINES = st.text('ab -"', max_size=20)


@st.composite
def marked_lines(draw: st.DrawFn) -> tuple[str, list[Mark]]:
    words = draw(LINES)
    places = st.integers(1, len(words) + 1)
    on_line = []
    for number in range(draw(st.integers(0, 4))):
        first, last = sorted((draw(places), draw(places)))
        on_line.append(Mark(first, last, number + 1, draw(st.sampled_from(["stop", "check"])), "x"))
    return words, on_line


@given(marked_lines())
def test_overlapping_marks_lose_and_repeat_no_word(line: tuple[str, list[Mark]]) -> None:
    words, on_line = line
    told = stretches(words, on_line)
    assert "".join(stretch.text for stretch in told) == words
    for mark in on_line:
        own = "".join(stretch.text for stretch in told if mark in stretch.marks)
        assert own == words[mark.first - 1 : mark.last - 1]
        if mark.first == mark.last:
            assert any(mark in stretch.marks for stretch in told)


@given(marked_lines())
def test_each_change_of_words_is_told(line: tuple[str, list[Mark]]) -> None:
    words, on_line = line
    told = [becomes for stretch in stretches(words, on_line) for becomes in stretch.becomes]
    assert bool(told) == bool(on_line)


@given(st.lists(st.sampled_from(['plan "x"', "  leg: 1", "", "-- a note", "parts", " x"]), max_size=12))
def test_sections_hold_every_line_once_and_in_order(lines: list[str]) -> None:
    text = "\n".join(lines)
    told = [line for lines in sections(Source(text)) for line in lines]
    assert told == list(range(1, len(told) + 1))
    assert not "".join(text.split("\n")[len(told) :]).strip()


def test_a_note_above_a_section_goes_with_it() -> None:
    source = Source('plan "x"\n  units in\n\n-- what to buy\nbuy\n  1 glue\n')
    assert [list(lines) for lines in sections(source)] == [[1, 2], [3, 4, 5, 6]]


def test_the_words_on_the_page_are_the_plans_words() -> None:
    for path in FAULTY:
        source = audit_of(path).source
        by_line = marks(noted(audit_of(path)), source)
        for lines in sections(source):
            for line in lines:
                read = Page(listing(source, range(line, line + 1), by_line))
                told = "".join(read.text).removeprefix(str(line))
                becomes = {mark.becomes for mark in by_line.get(line, []) if mark.becomes}
                for words in becomes:
                    told = told.replace(words, "", 1)
                assert told.startswith(source.line_text(line)) or becomes


def test_a_changed_value_is_marked_and_what_it_becomes_stands_after_it() -> None:
    audit = audit_of(next(path for path in FAULTY if path.stem == "balcony-bench"))
    on_line = marks(noted(audit), audit.source)[16]
    words = audit.source.line_text(16)
    told = {(words[mark.first - 1 : mark.last - 1], mark.becomes) for mark in on_line}
    assert told == {("3 in", "make it 4 in"), ("zinc", "make it stainless")}
