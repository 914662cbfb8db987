"""Rust and stain, fittings, kinds of piece."""

from __future__ import annotations

import pytest

from planlint.trade import finishes, hardware, pieces
from planlint.trade.woods import wood

INCH = 25.4
TABLE = {  # other, tannin, treated
    "plain": ("check", "check", "check"),
    "zinc": ("check", "check", "check"),
    "coated": ("silent", "hint", "hint"),
    "galvanised": ("silent", "silent", "silent"),
    "brass": ("silent", "silent", "hint"),
    "stainless": ("silent", "silent", "silent"),
    None: ("check", "check", "check"),
}


@pytest.mark.parametrize("finish", TABLE)
def test_outdoors(finish: str | None) -> None:
    found = [finishes.rusting(finish, one, "outdoors") for one in ("other", "tannin", "treated")]
    assert tuple(one.severity for one in found if one) == TABLE[finish]


@pytest.mark.parametrize("finish", TABLE)
def test_indoors_nothing_rusts(finish: str | None) -> None:
    for wood_class in ("other", "tannin", "treated"):
        found = finishes.rusting(finish, wood_class, "indoors")
        assert found is not None
        assert found.severity == "silent"


def test_an_unknown_finish_is_none() -> None:
    assert finishes.rusting("gilded", "other", "outdoors") is None
    assert finishes.rusting("gilded", "other", "indoors") is None


def test_treatment_counts_before_tannin() -> None:
    assert finishes.wood_class(wood("cedar"), treated=True) == "treated"
    assert finishes.wood_class(wood("cedar"), treated=False) == "tannin"
    assert finishes.wood_class(wood("pine"), treated=False) == "other"
    assert finishes.wood_class(None, treated=False) == "other"


def test_the_finishes_of_the_notation_are_all_there() -> None:
    assert {"plain", "zinc", "coated", "galvanised", "brass", "stainless"} <= set(finishes.finishes())


@pytest.mark.parametrize(("angle", "travel"), [(90, 0.25), (60, 0.15), (45, 0.15), (30, 0), (0, 0)])
def test_a_figure_8_gives_by_how_it_is_set(angle: float, travel: float) -> None:
    assert hardware.figure_8_travel(angle) == pytest.approx(travel * INCH)


def test_fittings() -> None:
    assert hardware.figure_8_plate() == pytest.approx(INCH / 8)
    assert hardware.figure_8_arm() == pytest.approx(INCH * 3 / 4)
    assert hardware.button_travel() == pytest.approx(INCH / 8)


def test_nobody_looks_at_the_back_of_a_shelf() -> None:
    for piece in ("shelf", "cabinet", "desk"):
        assert "back" not in pieces.seen(piece)
    assert pieces.seen("bench") == pieces.seen(None) == ("left", "right", "front", "back", "top")
    assert "bottom" not in {side for piece in pieces.kinds() for side in pieces.seen(piece)}


def test_the_kinds_of_the_notation_are_all_there() -> None:
    said = (
        "bench chair lounge-chair stool bar-stool table coffee-table side-table desk workbench "
        "shelf cabinet chest bed planter other"
    )
    assert pieces.kinds() == tuple(said.split())
    assert pieces.settings() == ("indoors", "outdoors")
    assert pieces.users() == ("children", "accessible")
