"""Screws, nails, bolts and fittings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.trade import screws
from planlint.trade.tables import rows

INCH = 25.4
NOUNS = [
    "wood-screws",
    "deck-screws",
    "pocket-screws",
    "lag-screws",
    "carriage-bolts",
    "nails",
    "brads",
    "dowels",
    "biscuits",
    "figure-8",
    "buttons",
]


def kind(noun: str) -> screws.FastenerKind:
    found = screws.kind(noun)
    assert found is not None, noun
    return found


def root(gauge: int) -> float:
    found = screws.root(gauge)
    assert found is not None
    return found


@pytest.mark.parametrize("noun", NOUNS)
def test_every_fastener_of_the_notation_is_known_also_in_the_singular(noun: str) -> None:
    assert screws.kind(noun.removesuffix("s")) == screws.kind(noun) == kind(noun)


def test_a_noun_of_no_table_is_none() -> None:
    assert screws.kind("sky-hooks") is None


def test_every_list_of_lengths_a_kind_names_is_there_and_in_order() -> None:
    for noun in [*rows("screws", "kinds"), *rows("screws", "fittings")]:
        lengths = kind(noun).lengths
        if lengths is not None:
            for sold in (rows("screws", "lengths")[lengths][unit] for unit in ("inches", "metric")):
                assert sold == sorted(sold), noun


@pytest.mark.parametrize("gauge", [-1, 13, 25, 100])
def test_a_gauge_that_is_not_sold_has_no_diameter(gauge: int) -> None:
    assert screws.diameter(gauge) is None
    assert screws.root(gauge) is None


def test_every_root_is_less_than_its_diameter_and_not_thin() -> None:
    for gauge in map(int, rows("screws", "gauges")):
        across = screws.diameter(gauge)
        assert across is not None
        assert 0.75 < root(gauge) / across < 0.85


def test_a_lag_screw_goes_by_its_own_roots() -> None:
    assert screws.root_of(3 / 8 * INCH, "lag-screws") == pytest.approx(0.265 * INCH)
    assert screws.root_of(5, "wood-screws") == pytest.approx(3.15)


@pytest.mark.parametrize(
    ("gauge", "hardwood", "sixtyfourths"), [(8, False, 6), (8, True, 8), (10, False, 7), (10, True, 9)]
)
def test_the_drill_for_a_pilot(gauge: int, hardwood: bool, sixtyfourths: int) -> None:
    assert screws.pilot_drill(root(gauge), hardwood) == pytest.approx(sixtyfourths / 64 * INCH)


def test_a_metric_pilot_goes_by_half_millimetres() -> None:
    assert screws.pilot_drill(screws.root_of(5, "wood-screws"), hardwood=False, metric=True) == 2.0


@given(st.sampled_from([4, 6, 8, 9, 10, 12, 14]), st.booleans(), st.booleans())
def test_a_drill_is_never_larger_than_the_root(gauge: int, hardwood: bool, metric: bool) -> None:
    """Rounded up past the root the threads would grip air."""
    assert screws.pilot_drill(root(gauge), hardwood, metric) <= root(gauge)


def test_what_holds_wood_fast() -> None:
    assert kind("wood-screws").rigid(50)
    assert kind("pocket-screws").rigid(30)
    assert kind("nails").rigid(3 * INCH)
    assert not kind("nails").rigid(2 * INCH)
    assert not kind("brads").rigid(2 * INCH)
    assert not kind("figure-8").rigid(19)
    assert not kind("buttons").rigid(19)


def test_bolts_do_not_hurt_where_they_come_out() -> None:
    assert not kind("carriage-bolts").sharp
    assert kind("wood-screws").sharp


def test_which_embedment_limits_judge_a_kind() -> None:
    judged = {noun: kind(noun).holds for noun in NOUNS}
    assert judged["wood-screws"] == judged["deck-screws"] == judged["lag-screws"] == "threads"
    assert judged["pocket-screws"] == "pocket"
    assert judged["figure-8"] == judged["buttons"] == kind("hinges").holds == "light"
    assert judged["brads"] == judged["nails"] == judged["carriage-bolts"] == "none"


def test_short_screws_are_threaded_all_along() -> None:
    assert screws.threaded_length(12, 4.2, "wood-screws") == 12
    assert screws.threaded_length(4 * INCH, 3 / 8 * INCH, "lag-screws") == pytest.approx(2.5 * INCH)


def test_a_nail_between_two_sizes_is_taken_as_the_shorter() -> None:
    assert screws.nail_diameter(2.6 * INCH) == screws.nail_diameter(2.5 * INCH)
    assert screws.nail_diameter(0.5 * INCH) == pytest.approx(0.072 * INCH)


@pytest.mark.parametrize(("plugs", "rod", "enough"), [(16, 36, True), (28, 36, True), (29, 36, False)])
def test_plugs_from_a_rod(plugs: int, rod: int, enough: bool) -> None:
    """Common practice, no source: 1 in deep counterbores from a 36 in rod."""
    assert (plugs * screws.rod_for_plug(INCH) <= rod * INCH) is enough
