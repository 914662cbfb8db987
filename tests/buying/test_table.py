"""The list in a spreadsheet: RFC 4180, plain numbers, and no cell that runs."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.buying.shopping import Group, Line, Own, Shopping, exactly
from planlint.buying.table import COLUMNS, safe, table

from .lists import bench, listed


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def with_words(what: str) -> Shopping:
    line = Line(what, exactly(3), 4, 1, Own(2, what, 7), "more", what, 0.5, (what,))
    return Shopping("x.plan", "X", "in", (Group("wood", "Boards and sheets", (line,)),), (), ())


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", " =", "＝", "＋", "－", "＠"])
def test_no_word_of_a_plan_runs_as_a_formula(start: str) -> None:
    """A part named `=HYPERLINK(...)` would send whoever opens the list somewhere."""
    row = rows(table(with_words(f"{start}SUM(A1)")))[0]
    assert row["item"].startswith("'")
    assert all(not cell.lstrip().startswith(tuple("=+-@＝＋－＠")) for cell in row.values())


@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.text(st.characters(exclude_categories=("Cs", "Cc"), include_characters='",;\n\r\t=+-@')))
def test_every_word_comes_back_from_the_table_in_its_own_cell(what: str) -> None:
    text = table(with_words(what))
    found = rows(text)
    assert len(found) == 1
    assert found[0]["item"] == safe(what)
    assert found[0]["spare"] == "1"
    assert None not in found[0]


def test_rows_end_in_cr_lf_and_each_has_every_column() -> None:
    text = table(listed(bench("20 wood-screws #8 x 2 in stainless\n  1 glue")))
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert all(len(row) == len(COLUMNS) for row in csv.reader(io.StringIO(text, newline="")))


def test_numbers_are_plain_and_their_unit_stands_beside_them() -> None:
    """`at least 16` or `1/2 in` is no number to a spreadsheet."""
    found = rows(
        table(
            listed(
                bench(
                    "1 of dowel-rod 3/8 in @ 36\n  1 glue waterproof",
                    "2 wood-screws #8 x 2 in counterbored 3/8 x 1/4 plugged and glue waterproof",
                )
            )
        )
    )
    rod = next(row for row in found if row["item"].startswith("dowel rod"))
    assert (rod["needed_least"], rod["needed_unit"], rod["buy"], rod["plan_list"]) == ("8", "in", "1", "1")
    for row in found:
        for column in ("buy", "needed_least", "needed_most", "spare", "plan_list", "price_each", "price_all"):
            assert not row[column] or float(row[column]) >= 0


def test_prices_have_no_currency_and_no_thousands_mark() -> None:
    found = rows(table(with_words("2x4")))[0]
    assert (found["price_each"], found["price_all"]) == ("0.50", "2.00")


def test_what_the_list_stands_on_is_a_row_of_it() -> None:
    assert (
        rows(table(with_words("2x4"), "This list counts in 1 mend."))[-1]["item"]
        == "This list counts in 1 mend."
    )
