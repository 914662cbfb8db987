"""Glued joins and whether their glue stands water."""

from __future__ import annotations

from tests.observe.hand_worked import known, rows

PLAN = """\
plan "Frame"
  {setting}
buy
  {buy}
parts
  post: 2 of 2x4 @ 20
  rail: 2 of 2x4 @ 20
step
  rail to post: glue
  post to rail: 2 dowels 3/8 x 2 in and glue waterproof
"""


def test_each_join_says_its_own_and_the_list_speaks_for_all() -> None:
    found = rows(PLAN.format(setting="setting outdoors", buy="1 glue waterproof"), "glued_join")
    assert [one.values["waterproof"] for one in found] == [False, True]
    assert [one.values["bought_waterproof"] for one in found] == [True, True]


def test_a_plan_without_setting_is_not_taken_for_indoors() -> None:
    found = rows(PLAN.format(setting="units in", buy="1 glue"), "glued_join")
    assert not any(known(one, "outdoors") for one in found)
