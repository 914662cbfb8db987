"""Escaping: what a plan says is never more than text on the page."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.sheet.html import element, joined, prose, text, visible
from tests.sheet.reading import Page


@given(st.text())
def test_any_text_comes_back_as_the_same_words_and_makes_no_element(words: str) -> None:
    read = Page(element("p", {}, text(words)))
    assert [one.tag for one in read.elements] == ["p"] and not read.faults
    assert "".join(read.text) == visible(words)


@given(st.text())
def test_any_text_as_an_attribute_stays_one_attribute(words: str) -> None:
    read = Page(element("p", {"title": words}, text("x")))
    assert [set(one.attributes) <= {"title"} for one in read.elements] == [True] and not read.faults
    assert read.having("title") in ([visible(words)], [])


@given(st.text())
def test_backticks_in_a_sentence_lose_no_words(words: str) -> None:
    read = Page(element("p", {}, prose(words)))
    assert "".join(read.text).replace("`", "") == visible(words).replace("`", "") and not read.faults


@pytest.mark.parametrize(
    ("words", "shown"),
    [
        ("\x07", "[U+0007]"),
        ("\x00", "[U+0000]"),
        ("a\u202eb", "a[U+202E]b"),
        ("\u2066", "[U+2066]"),
        ("\u200b", "[U+200B]"),
        ("\x7f", "[U+007F]"),
        ("\ufeff", "[U+FEFF]"),
        ("\ud800", "\ufffd"),
        ("1/2\u00a0in", "1/2\u00a0in"),
    ],
)
def test_characters_that_hide_or_turn_round_text_are_seen(words: str, shown: str) -> None:
    assert visible(words) == shown


@given(st.text())
def test_nothing_that_hides_or_turns_round_is_left(words: str) -> None:
    assert not set(visible(words)) & set(
        "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\x00\x1b"
    )


def test_an_attribute_that_is_off_is_not_written_and_zero_is() -> None:
    assert element("p", {"a": None, "b": False, "c": "", "d": 0, "hidden": True}) == '<p d="0" hidden></p>'


def test_words_between_elements_are_escaped_too() -> None:
    assert joined([text("a"), text("b")], " < ") == "a &lt; b"
