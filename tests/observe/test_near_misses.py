"""Pieces that are named second, and that a join misses by a little."""

from __future__ import annotations

import pytest

from planlint.observe.facts import Row
from tests.observe.hand_worked import by_part, inches

PLAN = """\
plan "Shelf"
  wood pine
parts
  bearer: 3 of 1x2 @ 24
  slat:   1 of 1x3 @ 8
place
  bearer as front-bearer: runs left-right, face front, left at 0, front at 0, bottom at 10
  bearer as middle-bearer: like front-bearer, front at 3, bottom at {height}
  bearer as back-bearer: like front-bearer, front at {front}
  slat: runs front-back, face top, left at 8, front at -1, bottom at top of front-bearer
step
  slat to bearer: {how}
"""


def missed(
    height: str = "10", front: str = "5 1/2", how: str = "2 wood-screws #8 x 1 1/2 in"
) -> dict[object, Row]:
    return by_part(PLAN.format(height=height, front=front, how=how), "near_miss")


def test_a_bearer_too_low_is_missed_by_as_much() -> None:
    (found,) = missed(height="9 3/4").values()
    assert found.values["part"] == "middle-bearer" and found.values["sister"] == "front-bearer"
    assert inches(found, "gap") == 0.25 and found.values["toward"] == "top"


@pytest.mark.parametrize(
    "other", [{}, {"front": "7 1/4"}, {"height": "7"}, {"height": "9 3/4", "how": "loose"}]
)  # met; beside the slat's end and below it; two inches and more below; meant to be free
def test_what_is_met_or_far_off_is_not_missed(other: dict[str, str]) -> None:
    assert missed(**other) == {}
