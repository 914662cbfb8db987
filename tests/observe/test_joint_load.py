"""Shares of a stated load on joints. Each test names the mistake it guards against."""

from __future__ import annotations

import pytest

from planlint.observe.facts import Missing
from tests.observe.hand_worked import gaps, rows

POUND = 4.4482216152605

BENCH = """\
plan "End frames and a seat"
  units in
  wood {wood}
  pilots everywhere
parts
  leg:  4 of 4x4 @ 16 1/2
  rail: 2 of 2x4 @ 8 1/2
  seat: 2 of 2x6 @ 48
place
  leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, left at 0, front at 0, bottom at 0,
    mirrored left-right about 24 and front-back about 7 3/4
  rail as left-rail, right-rail: runs front-back, face left, between leg-fl and leg-bl, left at left of leg-fl + 1,
    top at top of leg-fl + 1/4, mirrored left-right about 24
  seat: row of 2 front-back from 2 to 13 1/2, runs left-right, face top, left at 0, bottom at top of left-rail
step
  leg to rail: {screws}
  seat to rail: 2 wood-screws #10 x 3 in
load
  seat: {load}
"""
SCREWS = "2 wood-screws #10 x 4 in counterbored 1 x 1 in and glue"


def bench(wood: str = "douglas-fir", screws: str = SCREWS, load: str = "2 people") -> str:
    return BENCH.format(wood=wood, screws=screws, load=load)


def pounds(plan: str) -> dict[tuple[object, object], tuple[object, object]]:
    """Force and strength of each joint, in pounds."""
    found: dict[tuple[object, object], tuple[object, object]] = {}
    for one in rows(plan, "loaded_joint"):
        force, strong = one.values["force"], one.values["strength"]
        assert isinstance(force, float)
        shown = strong if isinstance(strong, Missing) else round(float(str(strong)) / POUND, 1)
        found[one.values["first"], one.values["second"]] = (round(force / POUND, 1), shown)
    return found


def test_a_person_over_an_end_frame_puts_half_on_each_of_its_joints() -> None:
    """250 on the end rail, 125 at each joint; 198 for two #10 x 4 in end grain of Douglas fir."""
    frames = {"left-rail": ("leg-fl", "leg-bl"), "right-rail": ("leg-fr", "leg-br")}
    joints = [(leg, rail) for rail, legs in frames.items() for leg in legs]
    assert pounds(bench()) == dict.fromkeys(joints, (125.0, 197.7))


def test_softer_wood_has_less() -> None:
    assert {strong for _, strong in pounds(bench("spruce-pine-fir")).values()} == {168.4}


def test_what_lies_on_wood_puts_nothing_on_its_screws() -> None:
    """Bearing before fasteners: the seat lies on the rails."""
    assert all("seat" not in str(pair) for pair in pounds(bench()))


def test_a_spread_load_is_shared_by_the_lever_rule() -> None:
    """100 lb evenly on the seat, 50 on each end rail, 25 at each joint."""
    assert {force for force, _ in pounds(bench(load="100 lb spread")).values()} == {25.0}


@pytest.mark.parametrize(
    ("screws", "reason"),
    [
        (
            "2 carriage-bolts 3/8 x 5 in",
            "planlint has no published strength for carriage-bolts and does not judge them",
        ),
        (
            "2 dowels 3/8 x 2 in and glue",
            "planlint has no published strength for dowels and does not judge them",
        ),
        (
            "2 wood-screws #10 x 4 in",
            "no strength is published for screws and nails that hold by less than six diameters",
        ),
    ],
)
def test_where_nothing_is_published_nothing_is_guessed(screws: str, reason: str) -> None:
    values = {strong for _, strong in pounds(bench(screws=screws)).values()}
    assert [one.reason for one in values if isinstance(one, Missing)] == [reason]


def test_an_unknown_wood_has_no_strength() -> None:
    values = {strong for _, strong in pounds(bench("scots-pine")).values()}
    assert [one.reason for one in values if isinstance(one, Missing)] == [
        "no table gives the weight of scots-pine"
    ]


def test_without_a_load_it_says_what_to_add() -> None:
    plan = bench().partition("load\n")[0]
    assert rows(plan, "loaded_joint") == []
    assert [reason for reason, _ in gaps(plan, "loaded_joint")] == ["the plan states no load"]


SHELF = """\
plan "Shelf between two sides"
  units in
  setting indoors
  wood eastern-white-pine
parts
  side:  2 of 1x10 @ 24
  shelf: 1 of 1x10 @ 18 1/2
place
  side as left-side, right-side: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 10
  shelf: runs left-right, face top, between left-side and right-side, front at 0, bottom at 12
step
  side to shelf: {} wood-screws #8 x 2 in
load
  shelf: 75 lb {}
"""


def test_a_shelf_of_75_lb_on_its_screws() -> None:
    """37 1/2 of 51.4 with two, of 25.7 with one: mode III s, 1 1/4 of 10 diameters, end grain, years."""
    assert set(pounds(SHELF.format(2, "spread")).values()) == {(37.5, 51.4)}
    assert set(pounds(SHELF.format(1, "spread")).values()) == {(37.5, 25.7)}


def test_wet_wood_has_seven_tenths() -> None:
    wet = SHELF.format(2, "spread").replace("setting indoors", "moisture 12 to 22 %")
    assert set(pounds(wet).values()) == {(37.5, 36.0)}


OVERHANG = """\
plan "Board on two rails"
  units in
  wood douglas-fir
parts
  rail:  2 of 4x4 @ 12
  board: 1 of 2x12 @ 72
place
  rail as near, far: runs front-back, left at {near}, front at 0, bottom at 0
  board: runs left-right, face top, left at 0, front at 0, bottom at top of near
step
  board to rail: 2 wood-screws #10 x 3 in
load
  board: 100 lb at middle
"""


def test_a_board_that_stands_out_pulls_at_its_far_end() -> None:
    """Rails at 2 to 5 1/2 and 18 to 21 1/2; 100 lb at 36, 16 1/4 beyond the second: up 100 x 16 1/4 / 16."""
    plan = OVERHANG.replace(
        "rail as near, far: runs front-back, left at {near}", "rail as near: runs front-back, left at 2"
    )
    plan = plan.replace(
        "  board: runs", "  rail as far: runs front-back, left at 18, front at 0, bottom at 0\n  board: runs"
    )
    (found,) = rows(plan, "loaded_joint")
    force, strong = found.values["force"], found.values["strength"]
    assert isinstance(force, float)
    assert isinstance(strong, float)
    assert found.values["second"] == "near"
    assert found.values["pulls"] is True
    assert force / POUND == pytest.approx(100 * 16.25 / 16, abs=0.1)
    # 2850 x 0.25 x 0.19 = 135.4 lb for each inch, 1 1/2 in deep, two screws, at the middle: factor 1
    assert strong / POUND == pytest.approx(135.375 * 1.5 * 2, abs=0.1)
