"""Numbers for a reader. Guards against wrong factors, lost units, misleading rounding."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.judge.finding import Value
from planlint.show.quantities import (
    BASE_UNITS,
    INCH,
    POUND,
    POUND_FORCE,
    listed,
    scale_of,
    word,
    word_all,
)
from planlint.units import simple_units


def inches(number: float) -> Value:
    return Value(number * 25.4, "length")


@pytest.mark.parametrize(
    ("number", "text"),
    [
        (3.5, "3 1/2 in"),
        (0.5, "1/2 in"),
        (15.5, "15 1/2 in"),
        (0, "0 in"),
        (96, "96 in"),
        (-1.5, "-1 1/2 in"),
        (15 + 17 / 32, "15 17/32 in"),  # an exact 1/32 is not rounded away
        (7 / 64, "7/64 in"),  # a drill is sold by this name
        (0.7604, "3/4 in"),
        (0.9999, "1 in"),
        (1 / 128, "1/64 in"),  # never 0 when it is not
        (0.004, "0.004 in"),
    ],
)
def test_lengths_read_as_a_shop_writes_them(number: float, text: str) -> None:
    assert word(inches(number), "in") == text
    assert word(inches(number), "ft") == text


@pytest.mark.parametrize(
    ("number", "text"),
    [(12.7, "12.7 mm"), (89, "89 mm"), (0, "0 mm"), (1219.2, "1219.2 mm"), (0.04, "0.04 mm")],
)
@pytest.mark.parametrize("units", ["mm", "cm", "m"])
def test_every_metric_plan_reads_millimetres(number: float, text: str, units: str) -> None:
    assert word(Value(number, "length"), units) == text


@pytest.mark.parametrize(
    ("value", "inch", "metric"),
    [
        (Value(12.04, "angle"), "12 deg", "12 deg"),
        (Value(22.5, "angle"), "22.5 deg", "22.5 deg"),
        (Value(23.0, "mass"), "50.7 lb", "23 kg"),
        (Value(1112.0, "force"), "250 lb", "1112 N"),
        (Value(9.0, "moisture"), "9 %", "9 %"),
        (Value(4.0, "number"), "4", "4"),
        (Value(2.6349, "number"), "2.63", "2.63"),
        (Value(2540.0, "area"), "3.9 sq in", "25.4 sq cm"),
        (Value("leg-fl", "word"), "leg-fl", "leg-fl"),
        (Value(("a", "b", "c"), "words"), "a, b and c", "a, b and c"),
        (Value(True, "flag"), "yes", "yes"),
        (Value(None, "unknown"), "not known", "not known"),
        (Value(float("inf"), "length"), "no limit", "no limit"),
    ],
)
def test_each_kind_has_its_own_unit(value: Value, inch: str, metric: str) -> None:
    assert word(value, "in") == inch
    assert word(value, "mm") == metric


def test_a_64th_past_the_limit_does_not_read_like_the_limit() -> None:
    words = word_all({"gap": inches(0.75 + 1 / 64), "most": inches(0.75)}, "in")
    assert words == {"gap": "49/64 in", "most": "3/4 in"}


def test_rounding_is_finer_only_for_the_two_that_clash() -> None:
    words = word_all({"a": inches(0.7604), "b": inches(0.7488), "c": inches(3.5104)}, "in")
    assert words == {"a": "49/64 in", "b": "3/4 in", "c": "3 1/2 in"}


def test_an_exact_64th_never_reads_shorter_than_a_rounded_number_below_it() -> None:
    # 0.0463 alone reads 1/16, which is more than 3/64 = 0.0469
    words = word_all({"less": inches(0.0463), "more": inches(3 / 64)}, "in")
    assert words == {"less": "1/32 in", "more": "3/64 in"}


def test_equal_values_keep_the_plain_text() -> None:
    assert word_all({"a": inches(0.5), "b": inches(0.5)}, "in") == {"a": "1/2 in", "b": "1/2 in"}


def test_a_length_and_a_number_that_look_alike_are_left_alone() -> None:
    assert word_all({"a": Value(2.0, "number"), "b": Value(2.001, "length")}, "mm") == {"a": "2", "b": "2 mm"}


def read_back(text: str) -> Fraction:
    number = text.rsplit(" ", 1)[0]
    sign = -1 if number.startswith("-") else 1
    return sign * sum((Fraction(piece) for piece in number.lstrip("-").split(" ")), Fraction(0))


lengths = st.floats(-3000, 3000, allow_nan=False)


@given(lengths, st.sampled_from(["in", "mm"]))
def test_what_is_shown_is_never_far_from_what_is_so(x: float, units: str) -> None:
    factor, most = (25.4, 1 / 32) if units == "in" else (1.0, 0.05)
    assert abs(float(read_back(word(Value(x, "length"), units))) - x / factor) <= most + 1e-6


# near each other, where rounding has something to get wrong
close = st.integers(-100, 100).map(lambda n: n * 0.05)


@given(st.lists(close, min_size=2, max_size=6), st.sampled_from(["in", "mm"]))
def test_texts_keep_the_order_of_the_values(numbers: list[float], units: str) -> None:
    words = word_all({str(i): Value(x, "length") for i, x in enumerate(numbers)}, units)
    shown = [read_back(words[str(i)]) for i in range(len(numbers))]
    in_order = [text for _, text in sorted(zip(numbers, shown, strict=True))]
    assert in_order == sorted(in_order)


@given(lengths, st.floats(0.0201, 2), st.sampled_from(["in", "mm"]))
def test_two_that_differ_never_read_the_same(x: float, apart: float, units: str) -> None:
    factor = 25.4 if units == "in" else 1.0
    words = word_all({"a": Value(x, "length"), "b": Value(x + apart * factor, "length")}, units)
    assert words["a"] != words["b"]


def test_the_factors_are_those_of_the_units_table() -> None:
    units = simple_units()
    assert (units["in"].factor, units["lb"].factor, units["lbf"].factor) == (INCH, POUND, POUND_FORCE)


def test_every_measured_kind_has_a_base_unit_and_a_scale_with_a_unit() -> None:
    from planlint.observe.facts import KINDS

    measured = set(KINDS) - {"number", "flag", "word", "words"}
    assert measured == set(BASE_UNITS)
    assert all(scale_of(kind, units).unit for kind in measured for units in ("in", "mm"))


def test_a_long_list_of_names_ends_in_a_count() -> None:
    assert listed(["a"]) == "a"
    assert listed([]) == ""
    assert listed(["a", "b", "c", "d"], 2) == "a, b and 2 more"
