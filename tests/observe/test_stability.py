"""What tips over: the worked cases of benches, chairs, stools and tables, moments in whole N m beside each.

Where turning and holding balance the feet stand just far enough out; `short` tells how much further out they
would have to stand: (turning - holding) / (force down + weight).
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.observe.stability import Press, Stand, short
from planlint.trade.loads import GRAVITY
from planlint.trade.stability import seat_forces
from tests.observe.hand_worked import gaps, rows

INCH, POUND = 25.4, 0.45359237


def box(width: float, depth: float) -> tuple[tuple[float, float], ...]:
    """The outline of feet round the middle."""
    x, y = width / 2, depth / 2
    return ((-x, -y), (x, -y), (x, y), (-x, y))


def newton_metres(stand: Stand, press: Press) -> float:
    """Turning less holding."""
    return short(stand, press) * (press.down + stand.mass * GRAVITY) / 1000


@pytest.mark.parametrize(
    ("inset", "turning", "holding"), [(2, 9.6, 99), (6, 71, 81), (7, 86, 77)], ids=lambda x: str(x)
)
def test_the_end_of_a_bench(inset: float, turning: float, holding: float) -> None:
    """48 in long, 18 in high, 40 lb: 600 N 50 mm from the end, 20 N outward."""
    stand = Stand(40 * POUND, (0.0, 0.0), box((48 - 2 * inset) * INCH, 15.5 * INCH))
    press = Press((24 * INCH - 50, 0.0), 600.0, (1.0, 0.0), 20.0, 18 * INCH)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=1.0)


def test_a_person_on_the_end_of_a_bench_whose_legs_stand_11_in_in() -> None:
    """250 lb 200 mm from the end: 88 against 59."""
    stand = Stand(40 * POUND, (0.0, 0.0), box(26 * INCH, 15.5 * INCH))
    press = Press((24 * INCH - 200, 0.0), 250 * POUND * GRAVITY, (1.0, 0.0), 0.0, 18 * INCH)
    assert newton_metres(stand, press) == pytest.approx(88 - 59, abs=1.0)


@pytest.mark.parametrize(("overhang", "turning", "holding"), [(1, -6, 31), (2, 9.6, 26), (3, 25, 21.5)])
def test_the_front_of_a_bench(overhang: float, turning: float, holding: float) -> None:
    """The seat, 15 1/2 in deep, stands out over the feet."""
    stand = Stand(40 * POUND, (0.0, 0.0), box(48 * INCH, (15.5 - 2 * overhang) * INCH))
    press = Press((0.0, -(7.75 * INCH - 50)), 600.0, (0.0, -1.0), 20.0, 18 * INCH)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=1.0)


@pytest.mark.parametrize(
    ("x", "turning", "holding"), [(30, 118, 134), (60, 118, 152), (0, 118, 116), (-30, 118, 98)]
)
def test_a_chair_that_is_leaned_back_in(x: float, turning: float, holding: float) -> None:
    """Seat 450 mm high, 12 lb: 157 N at 750 mm against 600 N 175 mm before the back; x: back to rear feet."""
    forces = seat_forces()
    assert forces.on_back(450.0) == pytest.approx(157, abs=0.2)
    # the worked cases have the chair's weight, 53.4 N, hold 10.7 N m: its middle is 0.2 m before the rear feet
    hull = ((-900.0, -900.0), (900.0, -900.0), (900.0, x), (-900.0, x))
    stand = Stand(12 * POUND, (0.0, x - 200.0), hull)
    press = Press((0.0, -175.0), 600.0, (0.0, 1.0), forces.on_back(450.0), 750.0)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=1.0)


@pytest.mark.parametrize(
    ("half", "turning", "holding"), [(120, 3.9, 4.8), (125, 0.9, 5.0), (115, 6.9, 4.6), (100, 15.9, 4.0)]
)
def test_a_bar_stool(half: float, turning: float, holding: float) -> None:
    """Seat 12 in across and 737 mm high, 9 lb."""
    stand = Stand(9 * POUND, (0.0, 0.0), box(2 * half, 2 * half))
    press = Press((6 * INCH - 50, 0.0), 600.0, (1.0, 0.0), 20.0, 737.0)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=0.4)


@pytest.mark.parametrize(
    ("radius", "turning", "holding"), [(225, 2.8, 4.05), (230, 1.3, 4.1), (200, 10, 3.6)]
)
def test_a_stool_on_three_legs_tips_over_the_middle_of_two(
    radius: float, turning: float, holding: float
) -> None:
    """The line between two feet is half the radius of their circle from the middle."""
    hull = tuple((radius * c, radius * s) for c, s in ((1.0, 0.0), (-0.5, 0.8660254), (-0.5, -0.8660254)))
    stand = Stand(8.1 * POUND, (0.0, 0.0), hull)
    press = Press((-(6 * INCH - 50), 0.0), 600.0, (-1.0, 0.0), 20.0, 17.5 * INCH)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=0.4)


@pytest.mark.parametrize(
    ("length", "weight", "overhang", "turning", "holding"),
    [(60, 60, 12, 102, 122), (72, 90, 12, 102, 244), (60, 60, 14, 122, 108), (48, 35, 14, 122, 40)],
)
def test_a_table(length: float, weight: float, overhang: float, turning: float, holding: float) -> None:
    stand = Stand(weight * POUND, (0.0, 0.0), box((length - 2 * overhang) * INCH, 30 * INCH))
    press = Press((length / 2 * INCH - 50, 0.0), 400.0, (1.0, 0.0), 0.0, 29 * INCH)
    assert newton_metres(stand, press) == pytest.approx(turning - holding, abs=1.0)


@given(st.floats(100, 900), st.floats(0, 400), st.floats(1, 60))
def test_feet_moved_out_by_what_is_short_just_hold(half: float, beyond: float, mass: float) -> None:
    """The mend says how far out the feet must stand: at that place nothing is short any more."""
    press = Press((half + beyond, 0.0), 600.0, (1.0, 0.0), 20.0, 450.0)
    stand = Stand(mass, (0.0, 0.0), box(2 * half, 600.0))
    further = half + short(stand, press)
    moved = stand._replace(hull=((-half, -300.0), (further, -300.0), (further, 300.0), (-half, 300.0)))
    if further > -half + 1.0:
        assert short(moved, press) == pytest.approx(0.0, abs=1e-6)


BENCH = """\
plan "Bench"
  units in
  piece {kind}
  wood {wood}
{heading}
parts
  side: 2 of 1 1/2 x 12 @ 16 1/2
  seat: 1 of 1 1/2 x 12 @ 48
place
  side as left-side: runs up, face left, left at 6, front at 0, bottom at 0
  side as right-side: runs up, face left, right at 42, front at 0, bottom at 0
  seat: runs left-right, face top, left at 0, front at 0, bottom at 16 1/2
"""


def bench(kind: str = "bench", wood: str = "douglas-fir", heading: str = "") -> str:
    return BENCH.format(kind=kind, wood=wood, heading=heading)


def test_a_bench_is_pressed_at_every_side_and_sat_on_at_its_ends() -> None:
    """Volume 2 x 1.5 x 12 x 16.5 + 1.5 x 12 x 48 = 1458 cu in of G 0.48 at 12 %: 28.3 lb."""
    found = {row.values["towards"]: row.values for row in rows(bench(), "tipping")}
    assert {towards: row["place"] for towards, row in found.items()} == {
        "front": "edge",
        "back": "edge",
        "left": "bench end",
        "right": "bench end",
    }
    assert found["left"]["weight"] == pytest.approx(1458 * INCH**3 * 0.48 * 1.12e-6)
    assert found["left"]["overhang"] == pytest.approx(6 * INCH)
    assert found["left"]["short_pushed"] == pytest.approx(found["right"]["short_pushed"])


def test_a_table_is_not_pushed_and_a_shelf_not_judged() -> None:
    assert {row.values["push"] for row in rows(bench("table"), "tipping")} == {0.0}
    assert rows(bench("shelf"), "tipping") == []
    assert gaps(bench("shelf"), "tipping") == []


def test_what_is_fixed_to_a_wall_does_not_tip() -> None:
    assert rows(bench(heading="  fixed to wall"), "tipping") == []


def test_what_is_not_known_is_said() -> None:
    assert gaps(bench(wood="scots-pine"), "tipping")[0][0] == "no table says how heavy scots-pine is"
    unsaid = bench().replace("  piece bench\n", "")
    assert gaps(unsaid, "tipping")[0][0] == "the plan does not say what kind of piece it is"


def test_a_leg_cut_too_short_is_still_a_foot() -> None:
    """It is `uneven-feet` that finds it; a piece with three good legs does not tip over besides."""
    short_side = bench().replace(
        "right at 42, front at 0, bottom at 0", "right at 42, front at 0, bottom at 1/4"
    )
    for one, other in zip(rows(short_side, "tipping"), rows(bench(), "tipping"), strict=True):
        assert one.values["short_alone"] == pytest.approx(other.values["short_alone"])
