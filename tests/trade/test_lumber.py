"""Lumber sizes."""

from __future__ import annotations

import pytest

from planlint.trade import lumber

INCH = 25.4


@pytest.mark.parametrize("name", ["2x7", "8x8", "4", "x", "1/0x4", "leg", "2 x 4", "2x4x8", ""])
def test_a_size_no_table_has_is_none_and_never_a_traceback(name: str) -> None:
    assert lumber.dressed(name) is None
    assert lumber.rough(name) is None


def test_every_dressed_size_is_less_than_its_name_and_within_an_inch_of_it() -> None:
    """A width typed into the wrong row shows here."""
    for name, size in lumber._softwood().items():
        said = lumber.nominal(name)
        assert said is not None
        assert 0 < said.thickness - size.thickness <= 0.5 * INCH + 0.01, name
        assert 0 < said.width - size.width <= 0.75 * INCH + 0.01, name


def test_softwood_boards_lose_an_eighth_to_planing() -> None:
    rough = lumber.rough("1x6")
    assert rough is not None
    assert rough.thickness == pytest.approx(7 / 8 * INCH)
    assert lumber.planed(rough.thickness) == pytest.approx(3 / 4 * INCH)


def measures(size: lumber.Size | None) -> tuple[float, float]:
    assert size is not None
    return round(size.thickness / INCH, 6), round(size.width / INCH, 6)


def test_hardwood_is_surfaced_by_its_own_table() -> None:
    assert measures(lumber.rough("4/4x6", hardwood=True)) == (1, 6)
    assert measures(lumber.rough("1x6", hardwood=True)) == (1, 6)
    assert measures(lumber.dressed("4/4x6", hardwood=True)) == (0.8125, 6)
    assert lumber.planed(INCH, hardwood=True) == pytest.approx(13 / 16 * INCH)


def test_five_quarter_is_one_inch_in_softwood_and_more_in_hardwood() -> None:
    assert measures(lumber.dressed("5/4x6")) == (1, 5.5)
    assert measures(lumber.dressed("5/4x6", hardwood=True)) == (1.0625, 6)


def test_quarters_that_softwood_is_not_sold_by_are_hardwood() -> None:
    assert measures(lumber.dressed("8/4x6")) == (1.75, 6)


def test_hardwood_bought_as_1x6_is_dressed_like_softwood() -> None:
    """Common practice, no source: home centres sell red oak 3/4 in thick as 1x6."""
    assert measures(lumber.dressed("1x6", hardwood=True)) == (0.75, 5.5)


def test_a_measured_size_that_equals_a_nominal_one_is_found() -> None:
    assert lumber.nominal_like(2 * INCH, 4 * INCH) == "2x4"
    assert lumber.nominal_like(1.5 * INCH, 3.5 * INCH) is None


def test_the_nearest_sizes_are_near() -> None:
    assert "2x6" in lumber.nearest("2x7")
    assert lumber.nearest("leg") == ()


def test_the_saw_cut_follows_the_plans_units() -> None:
    assert lumber.kerf(metric=False) == pytest.approx(INCH / 8)
    assert lumber.kerf(metric=True) == 3


def test_boards_wider_than_these_are_glued_up() -> None:
    assert lumber.widest_board("softwood") == pytest.approx(11.25 * INCH)
    assert lumber.widest_board("hardwood") == pytest.approx(12 * INCH)
    assert lumber.widest_board("sheet") is None
