"""Edits in the writer's own hand. Guards against: a mend that changes the unit, the style, or the value."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.judge.finding import Edit, Value
from planlint.show.rewriting import edited, rewritten
from planlint.source import Source, Span


@pytest.mark.parametrize(
    ("old", "inches", "new"),
    [
        ("3", 4, "4"),
        ("3 in", 4, "4 in"),
        ("3 1/2", 4.25, "4 1/4"),
        ('3-1/2"', 4.25, '4-1/4"'),
        ('3½"', 4.5, '4½"'),
        ('3½"', 4.0625, '4 1/16"'),  # no such character: the plain form
        ("3.5", 4.25, "4.25"),
        ("3.5 in", 4, "4 in"),
        ("3' 6 1/2\"", 44, "3' 8\""),
        ("3 ft 6 in", 44.5, "3 ft 8 1/2 in"),
        ("3 ft", 42, "3 1/2 ft"),
        ("1/8", 9 / 64, "9/64"),
        ("89 mm", 4, "101.6 mm"),
        ("8.9 cm", 4, "10.16 cm"),
    ],
)
def test_a_length_keeps_the_manner_of_the_old_one(old: str, inches: float, new: str) -> None:
    assert rewritten(old, Value(inches * 25.4, "length"), "", "in") == new


@pytest.mark.parametrize(
    ("old", "value", "unit", "units", "new"),
    [
        ("3", Value(4 * 25.4, "length"), "in", "mm", "4"),  # `#10 x 3 in` in a metric plan
        ("1.2", Value(1300.0, "length"), "", "m", "1.3"),
        ("76", Value(101.6, "length"), "", "mm", "101.6"),
        ("12", Value(15.0, "angle"), "deg", "in", "15"),
        ("12 deg", Value(15.0, "angle"), "deg", "in", "15 deg"),
        ("50", Value(75.0, "number"), "", "in", "75"),
        ("40 lb", Value(22.6796185, "mass"), "lb", "in", "50 lb"),
        ("40 lb", Value(222.411080763, "force"), "lb", "in", "50 lb"),
        ("zinc", Value("stainless", "word"), "", "in", "stainless"),
    ],
)
def test_other_values_keep_their_unit(old: str, value: Value, unit: str, units: str, new: str) -> None:
    assert rewritten(old, value, unit, units) == new


@given(st.integers(1, 64 * 120), st.sampled_from(["3", "3 1/2", "3-1/2", "3½"]))
def test_a_64th_survives_in_every_manner(count: int, old: str) -> None:
    new = rewritten(old, Value(count / 64 * 25.4, "length"), "in", "in")
    vulgar = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
    plain = "".join(f" {vulgar[c]}" if c in vulgar else c for c in new).replace("-", " ").split()
    total = sum(int(n) / int(d or 1) for n, _, d in (piece.partition("/") for piece in plain))
    assert total == pytest.approx(count / 64)


def test_an_edit_replaces_its_own_words_only() -> None:
    source = Source("leg to rail: 2 wood-screws #10 x 3 in")
    span = Span(source.text.index("3 in"), len(source.text))
    assert edited(Edit(span, Value(101.6, "length"), None, "in"), source, "in") == "4 in"
    assert edited(Edit(span, None, "from front", ""), source, "in") == "from front"


@pytest.mark.parametrize("size", ["#10 x 3 in", "3 x 70 in", '3"', "3 to 4 in"])
def test_a_unit_further_on_covers_the_number(size: str) -> None:
    # else a metric plan's `#10 x 3 in` would be mended to `#10 x 101.6 in`
    source = Source(f"leg to rail: 2 wood-screws {size} stainless")
    start = source.text.index("3")
    edit = Edit(Span(start, start + 1), Value(101.6, "length"), None, "")
    assert edited(edit, source, "mm") == "4"
