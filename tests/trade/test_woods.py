"""Woods and sheet goods by name."""

from __future__ import annotations

import pytest

from planlint.trade import woods
from planlint.trade.movement import coefficient
from planlint.trade.tables import rows

DECAY = {"very resistant", "resistant", "moderately resistant", "slightly or nonresistant"}
# Their coefficients come from a mean of species or from another set of data; each row's note says so.
COEFFICIENTS_FROM_ELSEWHERE = {"white-oak", "red-oak", "teak", "mahogany"}


def known(name: str) -> woods.Wood:
    found = woods.wood(name)
    assert found is not None, name
    return found


def test_every_name_gives_a_wood() -> None:
    for name in woods.names():
        assert known(name).kind in ("softwood", "hardwood", "sheet")


def test_a_name_is_a_wood_or_an_alias_but_not_both() -> None:
    """An alias would hide the wood of the same name."""
    assert len(woods.names()) == len(set(woods.names()))


def test_an_unknown_wood_is_none_and_the_nearest_is_offered() -> None:
    assert woods.wood("western-redcedr") is None
    assert woods.nearest("western-redcedr")[0] == "western-redcedar"


def test_an_alias_says_what_it_was_taken_for_and_whether_that_is_sure() -> None:
    oak = known("oak")
    assert (oak.name, oak.taken_from, oak.sure) == ("red-oak", "oak", False)
    walnut = known("walnut")
    assert (walnut.name, walnut.taken_from, walnut.sure) == ("black-walnut", "walnut", True)
    assert known("red-oak").taken_from is None


def test_any_plywood_is_a_sheet_that_does_not_move() -> None:
    for name in ("birch-plywood", "okoume-plywood", "mdf"):
        sheet = known(name)
        assert sheet.sheet
        assert sheet.c_tangential == 0
        assert not sheet.exterior
    assert known("marine-plywood").exterior
    assert known("exterior-okoume-plywood").exterior


def test_a_board_is_no_sheet() -> None:
    assert not known("pine").sheet


@pytest.mark.parametrize("name", ["western-redcedar", "redwood", "red-oak", "white-oak", "american-chestnut"])
def test_woods_that_stain_on_iron(name: str) -> None:
    assert known(name).tannin


@pytest.mark.parametrize("name", ["douglas-fir", "eastern-white-pine", "sugar-maple"])
def test_woods_that_do_not(name: str) -> None:
    assert not known(name).tannin


def test_decay_classes_are_of_one_vocabulary() -> None:
    """A misspelt class would never match a rule."""
    for name in woods.names():
        found = known(name)
        assert found.sheet or found.decay in DECAY, name


def test_coefficients_follow_from_the_shrinkage_but_for_the_four_that_say_why() -> None:
    """A slipped digit in a coefficient or a shrinkage shows here."""
    differ = set()
    for name, row in rows("woods", "woods").items():
        for way in ("radial", "tangential"):
            if f"c_{way}" in row:
                computed = coefficient(row[f"shrink_{way}"], row["fibre_saturation"])
                if abs(computed - row[f"c_{way}"]) > 1e-5:
                    differ.add(name)
    assert differ == COEFFICIENTS_FROM_ELSEWHERE
    assert all(known(name).note for name in differ)


def test_figures_are_those_of_wood() -> None:
    """A figure in the wrong field or unit falls far out of these bands."""
    for name in woods.names():
        found = known(name)
        if found.sheet:
            continue
        assert found.g12 is None or 0.25 < found.g12 < 1.1, name
        assert found.mor is None or 40 < found.mor < 200, name
        assert found.moe is None or 5_000 < found.moe < 25_000, name
        if found.shrink_radial is not None and found.shrink_tangential is not None:
            assert found.shrink_radial < found.shrink_tangential < 13, name


def test_a_wood_without_figures_has_none_rather_than_a_guess() -> None:
    oak = known("european-oak")
    assert oak.g12 is None
    assert oak.c_tangential is None


def test_wet_wood_weighs_more() -> None:
    assert woods.density(0.5, 35) == pytest.approx(675e-9)


def test_a_wood_without_figures_is_offered_one_that_has_them() -> None:
    """The nearest must be a wood of the tables, with weight and strength: else the advice leads nowhere."""
    for name, row in rows("woods", "nearest").items():
        lacking, near = woods.wood(name), woods.wood(row["wood"])
        assert lacking is not None and lacking.mor is None, name
        assert near is not None and None not in (near.g12, near.mor, near.moe, near.c_tangential), name
    assert woods.with_figures("scots-pine") == "a wood with known figures; hem-fir comes nearest"
    assert woods.with_figures(None) == "a wood with known figures"
