"""The joinery table agrees with the numbers that stand elsewhere."""

from __future__ import annotations

import yaml

from planlint.resources import data
from planlint.trade.joinery import plate, reach
from planlint.trade.tables import amount, rows


def test_parts_meet_within_the_rules_fit_tolerance() -> None:
    # Guards: the build step and the rules disagreeing on what still touches.
    fit = yaml.safe_load(data("rules", "tables/limits.yaml"))["tolerance"]["fit"]
    assert reach(metric=False) == amount(fit["inch"], "in")
    assert reach(metric=True) == amount(fit["metric"], "mm")


def test_every_fitting_of_the_screw_tables_can_be_drawn() -> None:
    # Guards: a fitting added to the screw tables whose screws would be driven through the whole first part.
    fittings = {*rows("screws", "fittings"), *rows("screws", "kinds")}
    plates = [
        noun
        for noun in fittings
        if {**rows("screws", "kinds"), **rows("screws", "fittings")}[noun]["what"] == "plate"
    ]
    assert all(plate(noun) is not None for noun in plates)
    assert set(rows("joinery", "plates")) == set(plates)
