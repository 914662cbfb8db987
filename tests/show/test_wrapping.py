"""Lines of text. Guards against: `3` on one line and `1/2 in` on the next, lines too wide, lost words."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planlint.show.wrapping import columns, printable, shortened, wrapped


def test_a_number_stays_with_its_fraction_and_unit() -> None:
    assert wrapped("It is 3 1/2 in.", 11) == ["It is", "3 1/2 in."]
    assert wrapped("Use the #10 x 4 in screws", 13) == ["Use the", "#10 x 4 in", "screws"]


def test_a_word_longer_than_the_line_is_broken() -> None:
    assert wrapped("abcdefgh ij", 4) == ["abcd", "efgh", "ij"]


@given(st.text(st.characters(codec="utf-8"), max_size=200), st.integers(4, 60))
def test_nothing_is_lost_and_nothing_is_too_wide(text: str, width: int) -> None:
    lines = wrapped(text, width)
    assert all(columns(line) <= width for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


@given(st.text(max_size=60))
def test_what_is_printed_cannot_steer_the_terminal(text: str) -> None:
    assert printable(text).isprintable()
    assert len(printable(text)) == len(text)  # marks are placed by column


def test_wide_characters_count_two() -> None:
    assert columns("板 1") == 4
    assert shortened("abcdef", 4) == "ab.."


def test_a_line_without_a_blank_is_broken_as_fast_as_it_is_long() -> None:
    """A hundred thousand digits on a line of the plan took twenty seconds."""
    from time import process_time

    start = process_time()
    lines = wrapped("½" * 100_000, 70)
    assert len(lines) == -(-100_000 // 70)
    assert process_time() - start < 2.0
