"""Changes of a text, one after the other, and the way back."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planlint.mending.changes import Draft, changed
from planlint.source import Span

TEXT = "abcdefghijklmnopqrstuvwxyz"


@st.composite
def replacements(draw: st.DrawFn, length: int) -> list[tuple[Span, str]]:
    """Some spans of a text of this length, apart from each other, with new words for each."""
    cuts = sorted(draw(st.lists(st.integers(0, length), max_size=6, unique=True)))
    pairs = zip(cuts[::2], cuts[1::2], strict=False)
    return [(Span(first, last), draw(st.text("XYZ", max_size=4))) for first, last in pairs]


def by_hand(text: str, made: list[tuple[Span, str]]) -> str:
    for span, words in sorted(made, reverse=True):
        text = text[: span.start] + words + text[span.end :]
    return text


@given(st.data())
def test_changes_one_after_the_other_are_changes_of_the_first_text(data: st.DataObject) -> None:
    """Each mend is computed from the text as it is by then; what is told and written is about the text as it was."""
    draft, text = Draft(TEXT), TEXT
    for _ in range(3):
        made = data.draw(replacements(len(text)))
        draft, text = draft.with_replaced(made), by_hand(text, made)
        assert draft.text == text == changed(TEXT, draft.changes)
        for change in draft.changes:
            assert TEXT[change.span.start : change.span.end] == change.was
        ends = [end for change in draft.changes for end in change.span]
        assert ends == sorted(ends)


@given(st.data())
def test_untouched_letters_are_led_back_to_themselves(data: st.DataObject) -> None:
    """A finding on a later line must be the same finding after an earlier line grew longer."""
    draft = Draft(TEXT)
    for _ in range(3):
        draft = draft.with_replaced(data.draw(replacements(len(draft.text))))
    for offset, letter in enumerate(draft.text):
        if letter.islower():
            assert TEXT[draft.back(offset)] == letter
            assert draft.span_back(Span(offset, offset + 1)) in {
                Span(TEXT.index(letter), TEXT.index(letter) + 1),
                *(change.span for change in draft.changes),
            }


def test_words_put_in_twice_stay_apart_from_what_they_stand_beside() -> None:
    """`zinc` becomes `stainless` and a clause is put in right after it: two changes."""
    once = Draft("#8 zinc and glue").with_replaced([(Span(3, 7), "stainless")])
    twice = once.with_replaced([(Span(12, 12), " piloted 1/8 in")])
    assert twice.text == "#8 stainless piloted 1/8 in and glue"
    assert [(change.was, change.now) for change in twice.changes] == [
        ("zinc", "stainless"),
        ("", " piloted 1/8 in"),
    ]


def test_a_change_that_is_taken_back_is_none() -> None:
    """3 in made 4 in and then 3 in again must not be shown as a change."""
    once = Draft("3 in").with_replaced([(Span(0, 4), "4 in")])
    assert once.with_replaced([(Span(0, 4), "3 in")]).changes == ()
