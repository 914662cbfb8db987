"""The list on paper, and as JSON."""

from __future__ import annotations

import json

import pytest

from planlint.buying.as_json import as_json
from planlint.buying.measures import shown
from planlint.buying.page import page
from planlint.buying.shopping import Measure, Shopping
from planlint.mending.mended import Mended
from planlint.show.strokes import LINES, PLAIN
from planlint.show.wrapping import columns

from .lists import bench, listed

AUDIT = bench("10 wood-screws #8 x 2 in stainless\n  25 nails 2 in\n  2 of 2x4 @ 96")


def text_of(shopping: Shopping, width: int = 80, basis: str = "", *, plain: bool = False) -> list[str]:
    strokes = PLAIN if plain else LINES
    return ["".join(text for text, _ in line).rstrip() for line in page(shopping, basis, width, strokes)]


@pytest.mark.parametrize("width", [10, 40, 57, 72, 80, 200])
def test_no_line_is_wider_than_the_paper(width: int) -> None:
    title = "A bench with a very long name " * 4 + "板" * 30
    shopping = listed(AUDIT)._replace(title=title)
    assert max(columns(line) for line in text_of(shopping, width)) <= min(max(width, 40), 100)


def test_there_is_a_box_to_tick_for_all_that_is_bought_and_none_for_what_is_not_needed() -> None:
    lines = text_of(listed(AUDIT))
    assert any(line.startswith("[ ]   25  wood screws") for line in lines)
    assert any(line.startswith("       0  nails") for line in lines)


def test_differences_read_without_colour_and_without_special_signs() -> None:
    lines = text_of(listed(AUDIT), plain=True)
    assert any(line.endswith("16     9     10 < 15 more") for line in lines)
    assert any(line.endswith("25 < not needed") for line in lines)


def test_what_is_as_the_plan_says_has_no_mark() -> None:
    lines = text_of(listed(bench("20 wood-screws #8 x 2 in stainless")))
    assert next(line for line in lines if "wood screws" in line).endswith("16     4     20")


def test_names_from_a_plan_cannot_move_the_cursor() -> None:
    shopping = listed(AUDIT)._replace(title="\x1b[2Jgone")
    assert "\x1b" not in "\n".join(text_of(shopping, basis="\x1b[31mred"))


@pytest.mark.parametrize(
    ("measure", "units", "words"),
    [
        (Measure("number", 16, 16, at_least=True), "in", "at least 16"),
        (Measure("area", 304.8**2 * 12.34, 304.8**2 * 12.34), "in", "12 sq ft"),
        (Measure("area", 2.345e6, 2.345e6), "mm", "2.35 sq m"),
        (Measure("length", 25.4 * 28.5, 25.4 * 28.5), "in", "28 1/2 in"),
        (Measure("mass", 0.2, 0.3), "mm", "200 to 300 g"),
        (Measure("mass", 20, 20), "in", "44 lb"),
        (Measure("volume", 10, 20), "mm", "0.01 to 0.02 ml"),
    ],
)
def test_amounts_are_said_as_in_a_shop(measure: Measure, units: str, words: str) -> None:
    """And one that is there never reads as 0."""
    assert shown(measure, units) == words


def test_json_has_every_key_base_units_and_the_words() -> None:
    found = json.loads(as_json(listed(AUDIT), Mended(AUDIT, AUDIT, (), ())))
    assert set(found) == {"path", "title", "units", "basis", "groups", "totals", "not_known"}
    keys = {"what", "buy", "needed", "spare", "plan_list", "difference", "why", "price", "cost", "notes"}
    lines = [line for group in found["groups"] for line in group["lines"]]
    assert lines
    assert all(set(line) == keys for line in lines)
    screws = next(line for line in lines if "wood screws" in line["what"])
    assert screws["needed"] == {"least": 16.0, "most": 16.0, "unit": "", "text": "16"}
    assert screws["plan_list"]["number"] == 10
    area = next(one for one in found["totals"] if one["key"] == "area")
    assert area["amount"]["unit"] == "mm2"
