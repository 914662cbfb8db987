"""Lengths sold, lumber names as measures, wide parts, rot and drying: plans worked out on paper."""

from __future__ import annotations

from types import ModuleType

import pytest

from planlint.build.build import build
from planlint.observe import lengths_bought, rot, wet_wood, widths
from planlint.observe.facts import Facts, Missing
from planlint.read.reader import read
from planlint.source import Source

INCH = 25.4


def rows(subject: ModuleType, table: str, text: str, head: str = "units in") -> list[dict[str, object]]:
    """The rows of one table for a plan's sections."""
    plan, unread = read(Source(f'plan "Test"\n  {head}\n{text}'))
    assert not unread, unread
    facts = Facts()
    subject.observe(build(plan), facts)
    return [row.values for row in facts.rows.get(table, [])]


@pytest.mark.parametrize(
    ("line", "units", "sold"),
    [
        ("2x4 @ 96", "in", True),
        ("2x4 @ 8 ft", "in", True),
        ("2x4 @ 90", "in", False),
        ("2x6 @ 104 5/8", "in", True),
        ("1x4 @ 92 5/8", "in", False),  # studs are 2x4 and 2x6
        ("45 x 95 @ 2400", "mm", True),
        ("45 x 95 @ 2000", "mm", True),
        ("45 x 95 @ 2250", "mm", False),
        ("2x4 @ 2440", "mm", True),  # 8 ft in mm
        ("sheet 18 x 1220 x 2440", "mm", True),
        ("sheet 3/4 x 96 x 48", "in", True),  # written the other way round
    ],
)
def test_lengths_that_are_sold(line: str, units: str, sold: bool) -> None:
    (row,) = rows(
        lengths_bought, "bought_length", f"buy\n  1 of {line}\n", f"units {units}\n  wood douglas-fir"
    )
    assert row["sold"] is sold


@pytest.mark.parametrize(
    "line", ["2x4 @ 90 red-oak", "4/4x6 @ 90", "1 1/4 x 4 @ 67", "panel 3/4 x 20 x 50 pine"]
)
def test_random_lengths_are_not_judged(line: str) -> None:
    assert rows(lengths_bought, "bought_length", f"buy\n  1 of {line}\n") == []


def test_a_lumber_name_as_a_measure_needs_wood_it_could_be_cut_from() -> None:
    def named(buy: str) -> tuple[object, object]:
        (row,) = rows(widths, "named_size", f"buy\n  1 of {buy}\nparts\n  rail: 1 of 2 x 4 @ 40\n")
        return row["dressed_bought"], row["larger_bought"]

    assert named("2x4 @ 96") == (True, False)
    assert named("rough 2x4 @ 96") == (False, False)
    assert named("4x6 @ 96") == (False, True)


def test_a_wide_part_is_measured_across_its_grain() -> None:
    parts = "parts\n  door: 1 of 3/4 x 10 @ 24 pine, grain across\n"
    (row,) = rows(widths, "wide_part", parts)
    assert row["width"] == pytest.approx(24 * INCH)


def test_a_wide_part_of_no_wood_is_not_judged_by_a_guess() -> None:
    (row,) = rows(widths, "wide_part", "parts\n  top: 1 of 3/4 x 20 @ 40\n")
    assert isinstance(row["widest"], Missing)


def test_what_rain_does_is_asked_of_every_wood() -> None:
    parts = (
        "parts\n  a: 1 of 2x4 @ 9 red-oak\n  b: 1 of 3/4 x 9 @ 9 marine-plywood\n"
        "  c: 1 of 2x4 @ 9 driftwood\n"
    )
    first, second, third = rows(rot, "weathered_wood", parts, "units in\n  setting outdoors")
    assert first["decay"] == "slightly or nonresistant"
    assert second["exterior"] is True
    assert isinstance(third["decay"], Missing)


TOP = "parts\n  board: 5 of 2x6 @ 60\n  top: 1 of panel from 5 board edge-glued\n"
INDOORS = "units in\n  setting indoors\n  wood douglas-fir"


def test_a_glued_top_shrinks_by_its_whole_width() -> None:
    """5 x 5 1/2 = 27 1/2 in; x 0.00267 x (15 - 8) = 0.514 in."""
    (row,) = rows(wet_wood, "drying_width", TOP, INDOORS)
    assert row["shrinkage"] == pytest.approx(0.514 * INCH, abs=0.001 * INCH)


def test_outdoors_nothing_dries_out() -> None:
    assert rows(wet_wood, "drying_width", TOP, "units in\n  setting outdoors\n  wood douglas-fir") == []


def test_furniture_wood_is_not_construction_lumber() -> None:
    assert rows(wet_wood, "drying_width", TOP.replace("2x6", "1x6"), INDOORS) == []
    assert rows(wet_wood, "drying_width", TOP, INDOORS.replace("douglas-fir", "red-oak")) == []


def test_boards_glued_side_by_side_count_as_one_width() -> None:
    """Three 2x6 placed edge to edge and glued: 16 1/2 in."""
    text = (
        "parts\n  board: 3 of 2x6 @ 40\n"
        "place\n  board: row of 3 front-back gap 0.001, runs left-right, face top, left at 0,\n"
        "    front of board.1 at 0, bottom at 0\n"
        "step\n  board.1 to board.2: glue\n  board.2 to board.3: glue\n"
    )
    (row,) = rows(wet_wood, "drying_width", text, INDOORS)
    assert row["width"] == pytest.approx(16.5 * INCH, abs=0.01 * INCH)
    assert row["glued"] is True


def test_one_board_is_held_between_its_outermost_fastenings() -> None:
    """Two screws spread over a 2x12: a quarter and three quarters of 11 1/4, 5 5/8 apart."""
    text = (
        "parts\n  shelf: 1 of 2x12 @ 40\n  end: 1 of 2x12 @ 11 1/4\n"
        "place\n  end: runs front-back, face left, left at 0, front at 0, bottom at 0\n"
        "  shelf: runs left-right, face top, left at 0, front at 0, bottom at top of end\n"
        "step\n  shelf to end: 2 wood-screws #10 x 3 in\n"
    )
    found = rows(wet_wood, "drying_width", text, INDOORS)
    (shelf,) = [row for row in found if row["part"] == "shelf"]
    assert shelf["width"] == pytest.approx(5.625 * INCH, abs=0.01 * INCH)
