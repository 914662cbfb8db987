"""The cut list's stock: a wrong look-up here makes every later number wrong."""

from __future__ import annotations

import pytest

from planlint.trade import lumber
from tests.build.placing import INCH, place, troubles


def _size(text: str, head: str = 'plan "T"\n  units in\n  wood pine\n') -> tuple[float, float, float]:
    size = place(f"parts\n{text}\n", head).listed[-1].size
    assert size is not None
    return (round(size.thickness / INCH, 6), round(size.width / INCH, 6), round(size.length / INCH, 6))


@pytest.mark.parametrize(
    ("stock", "thickness", "width"),
    [
        ("2x4", 1.5, 3.5),  # PS 20: a nominal size is never what it measures
        ("1x12", 0.75, 11.25),
        ("5/4x6", 1.0, 5.5),
        ("3/4 x 11 1/4", 0.75, 11.25),
        ("3 1/2 x 1 1/2", 1.5, 3.5),  # written the other way round: the wider side is the width
    ],
)
def test_a_size_is_looked_up_or_taken_as_measured(stock: str, thickness: float, width: float) -> None:
    assert _size(f"  a: 1 of {stock} @ 20") == (thickness, width, 20.0)


def test_a_round_part_is_as_thick_as_wide() -> None:
    piece = place("parts\n  rung: 1 of 1 in round @ 20\n")
    assert piece.listed[0].stock is not None and piece.listed[0].stock.diameter == INCH


def test_a_panel_is_as_wide_as_its_boards_together() -> None:
    text = "  top-board: 4 of 1x8 @ 40\n  top: 1 of panel from 4 top-board edge-glued"
    assert _size(text) == (0.75, 29.0, 40.0)  # 4 x 7 1/4


def test_a_trimmed_panel_measures_what_the_plan_says() -> None:
    text = "  top-board: 4 of 1x8 @ 40\n  top: 1 of panel 28 x 39 1/2 from 4 top-board edge-glued"
    assert _size(text) == (0.75, 28.0, 39.5)


def test_boards_of_a_panel_count_as_used() -> None:
    piece = place("parts\n  b: 4 of 1x8 @ 40\n  top: 1 of panel from 4 b\n  c: 1 of 1x8 @ 40\n")
    assert [one.used_in_panel for one in piece.listed] == [True, False, False]


def test_a_spaceless_metric_size_in_no_table_is_measured() -> None:
    size = place("parts\n  a: 1 of 45x95 @ 500\n", 'plan "T"\n  units mm\n').listed[0].size
    assert size is not None and (size.thickness, size.width, size.length) == (45.0, 95.0, 500.0)


def test_a_metric_plan_may_still_name_lumber() -> None:
    size = place("parts\n  a: 1 of 2x4 @ 500\n", 'plan "T"\n  units mm\n').listed[0].size
    assert size is not None and (size.thickness, size.width) == pytest.approx((38.1, 88.9))


def test_a_hardwood_of_random_width_measures_what_it_says() -> None:
    assert _size("  a: 1 of 8/4x6 @ 20 red-oak") == (1.75, 6.0, 20.0)  # NHLA: 8/4 surfaced is 1 3/4


@pytest.mark.parametrize("stock", ["2x44 @ 20 red-oak", "2x7 @ 20"])
def test_a_slip_of_the_pen_is_no_hardwood_size(stock: str) -> None:
    assert troubles(place(f"parts\n  a: 1 of {stock}\n"), "unknown-name")


def test_an_unknown_size_offers_the_nearest_and_has_no_size() -> None:
    piece = place("parts\n  a: 1 of 2x7 @ 20\n")
    (trouble,) = troubles(piece, "unknown-name")
    assert trouble.values["name"] == "2x7" and trouble.values["what"] == "size"
    assert lumber.dressed(str(trouble.values["nearest"])) is not None
    assert piece.listed[0].stock is None


def test_an_unknown_wood_is_told_once_and_sizes_hold() -> None:
    piece = place("parts\n  a: 1 of 2x4 @ 20\n  b: 1 of 2x4 @ 20\n", 'plan "T"\n  units in\n  wood pien\n')
    (trouble,) = troubles(piece, "unknown-name")
    assert (trouble.values["what"], trouble.values["nearest"]) == ("wood", "pine")
    assert all(
        one.size is not None and one.stock is not None and not one.stock.wood_known for one in piece.listed
    )


def test_a_plan_that_places_nothing_has_a_list_and_no_troubles() -> None:
    piece = place("parts\n  leg: 4 of 4x4 @ 16 1/2\n  shelf: 1 of 1x12 @ fit\n")
    assert [one.entry.name for one in piece.listed] == ["leg", "shelf"]
    assert not piece.parts and not piece.troubles and piece.listed[1].size is None


def test_plywood_is_a_sheet() -> None:
    piece = place("parts\n  side: 1 of 3/4 x 11 1/4 @ 36 birch-plywood\n")
    assert piece.listed[0].stock is not None and piece.listed[0].stock.sheet
