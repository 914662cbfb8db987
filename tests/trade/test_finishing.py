"""Finish and glue: what an area takes, and the can that holds it."""

from __future__ import annotations

import pytest

from planlint.trade.finishing import (
    FLUID_OUNCE,
    MILLILITRE,
    OUNCE,
    bottle_for,
    can_for,
    finish,
    finish_of,
    glue_for,
    is_finish,
    usual_finishes,
)
from planlint.trade.tables import rows

SQUARE_FOOT = 304.8**2


@pytest.mark.parametrize(
    ("ounces", "can"),
    [
        (5, (1, "half-pint can")),
        (8, (1, "half-pint can")),
        (8.1, (1, "pint can")),
        (30, (1, "quart can")),
        (38, (2, "quart can")),  # not a gallon
        (65, (1, "gallon can")),
        (400, (4, "gallon can")),
    ],
)
def test_the_can_that_holds_it_and_leaves_the_least_over(ounces: float, can: tuple[int, str]) -> None:
    assert can_for(ounces * FLUID_OUNCE, metric=False) == can


def test_metric_cans() -> None:
    assert can_for(390 * MILLILITRE, metric=True) == (1, "500 ml can")
    assert can_for(1300 * MILLILITRE, metric=True) == (2, "1 litre can")


def test_a_bottle_never_holds_less_than_the_joints_take() -> None:
    assert bottle_for(4 * OUNCE, metric=False) == (1, "4 oz")
    assert bottle_for(0.126, metric=True) == (1, "250 g")
    assert bottle_for(0.0, metric=True) == (1, "125 g")


def test_more_coats_take_more_and_the_worse_rate_takes_most() -> None:
    one, three = finish("oil-stain"), finish("film-varnish")
    low, high = one.amount(400 * SQUARE_FOOT)
    assert (low / FLUID_OUNCE, high / FLUID_OUNCE) == pytest.approx((128, 128 * 4 / 3))
    assert three.amount(500 * SQUARE_FOOT)[0] / FLUID_OUNCE == pytest.approx(3 * 128)


def test_each_usual_finish_has_its_coats_and_source() -> None:
    for setting in ("outdoors", "indoors"):
        for one in usual_finishes(setting):
            assert one.coats >= 1
            assert one.source
            assert one.confidence in ("confirmed", "one source", "from memory")
    assert usual_finishes("outdoors")[0].name == "oil-stain"


def test_nouns_of_a_list_that_are_a_finish() -> None:
    assert is_finish("exterior-paint")
    assert not is_finish("paintbrush")
    varnish = finish_of("spar-varnish")
    assert varnish is not None
    assert varnish.name == "film-varnish"
    assert finish_of("oil") is None
    assert all(
        "as" not in row or row["as"] in rows("finishing", "finishes")
        for row in rows("finishing", "named").values()
    )


def test_glue_for_a_square_metre() -> None:
    assert glue_for(1e6) == pytest.approx((0.170, 0.245))
