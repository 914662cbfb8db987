"""How parts stand. A wrong sign here leans every chair back forward."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.build.orient import Lacking, Pose, nearest_quarter, pose_of
from planlint.build.sides import OF_SIDE
from planlint.geometry.vector import Vec, cross, dot
from planlint.read.plan import Quantity, Turned
from planlint.source import Span

NOWHERE = Span(0, 0)
LEVEL_SIDES = ("left", "right", "front", "back")


def turned(how: str, angle: float, toward: str) -> Turned:
    return Turned(how, Quantity(angle, "deg", "angle", NOWHERE), toward, NOWHERE)  # type: ignore[arg-type]


def axes(runs: str | None, face: str | None, *clauses: Turned) -> tuple[Vec, Vec, Vec]:
    pose = pose_of(runs, face, face is not None, clauses)
    assert isinstance(pose, Pose), pose
    return pose.axes


def near(a: Sequence[float], b: Sequence[float]) -> bool:
    return all(math.isclose(x, y, abs_tol=1e-9) for x, y in zip(a, b, strict=True))


def test_the_wide_face_looks_where_the_plan_says() -> None:
    along, across, through = axes("left-right", "front")
    assert (along, through) == ((1, 0, 0), (0, -1, 0)) and abs(across[2]) == 1


def test_a_lean_carries_the_top_toward_its_side() -> None:
    s, c = math.sin(math.radians(12)), math.cos(math.radians(12))
    along, _, through = axes("up", "front", turned("leans", 12, "back"))
    assert near(along, (0, s, c)) and near(through, (0, -c, s))  # the front face now looks a little up


def test_what_rises_has_its_named_end_higher() -> None:
    along = axes("front-back", "left", turned("rises", 35, "front"))[0]
    assert along[2] * along[1] < 0 and math.isclose(abs(along[2]), math.sin(math.radians(35)))


@pytest.mark.parametrize("side", LEVEL_SIDES)
def test_leaning_and_rising_say_the_same_from_upright_and_from_level(side: str) -> None:
    """`leans 30` is `rises 60`: both say how the part stands, whichever way it is said to run."""
    axis, sign = OF_SIDE[side]
    level = ("left-right", "front-back")[axis]
    expected = [0.0, 0.0, math.cos(math.radians(30))]
    expected[axis] = sign * math.sin(math.radians(30))
    for runs, clause in (
        ("up", turned("leans", 30, side)), ("up", turned("rises", 60, side)),
        (level, turned("leans", 30, side)), (level, turned("rises", 60, side)),
    ):  # fmt: skip
        along = axes(runs, None, clause)[0]
        up = along if along[2] > 0 else tuple(-a for a in along)
        assert near(up, expected), (runs, clause.how)


def test_a_rail_that_leans_keeps_its_length_level() -> None:
    along, across, through = axes("left-right", "front", turned("leans", 12, "back"))
    assert near(along, (1, 0, 0)) and math.isclose(abs(across[2]), math.cos(math.radians(12)))
    assert through[2] > 0


@given(st.floats(1, 40), st.floats(1, 40), st.booleans())
def test_two_leans_are_what_the_two_views_show(side_lean: float, front_lean: float, faced: bool) -> None:
    clauses = (turned("leans", side_lean, "left"), turned("leans", front_lean, "back"))
    along, across, through = axes("up", "front" if faced else None, *clauses)
    assert math.isclose(math.degrees(math.atan2(-along[0], along[2])), side_lean)
    assert math.isclose(math.degrees(math.atan2(along[1], along[2])), front_lean)
    if faced:  # the wide face keeps its level lines: left-right for a front
        assert abs(through[0]) < 1e-9
    assert math.isclose(dot(cross(along, across), through), 1.0)


def test_a_turn_comes_after_the_rise_and_leaves_it() -> None:
    along = axes("front-back", "left", turned("rises", 30, "back"), turned("turns", 20, "left"))[0]
    assert math.isclose(along[2], 0.5) and math.isclose(
        along[0], -math.cos(math.pi / 6) * math.sin(math.radians(20))
    )


@given(
    st.sampled_from(["left-right", "front-back", "up"]),
    st.sampled_from(list(OF_SIDE)),
    st.lists(
        st.tuples(
            st.sampled_from(["leans", "rises", "turns"]), st.floats(0, 89), st.sampled_from(list(OF_SIDE))
        ),
        max_size=3,
    ),
)
def test_axes_are_always_square_to_each_other_and_one_long(
    runs: str, face: str, said: list[tuple[str, float, str]]
) -> None:
    pose = pose_of(runs, face, True, [turned(*one) for one in said])
    if isinstance(pose, Lacking):
        return
    for i in (0, 1, 2):
        for j in (0, 1, 2):
            assert math.isclose(dot(pose.axes[i], pose.axes[j]), 1.0 if i == j else 0.0, abs_tol=1e-9)
    assert math.isclose(dot(cross(pose.axes[0], pose.axes[1]), pose.axes[2]), 1.0)


@pytest.mark.parametrize(
    ("runs", "face", "clauses", "what"),
    [
        (None, "front", (), "its length"),
        ("up", None, (), "its wide face"),
        ("up", "top", (), "its wide face"),  # a face at the end of the length
        ("up", "front", (turned("leans", 5, "top"),), "where it leans to"),
        ("left-right", "front", (turned("turns", 5, "left"),), "where it turns to"),
    ],
)
def test_what_cannot_be_known_is_asked_not_guessed(
    runs: str | None, face: str | None, clauses: tuple[Turned, ...], what: str
) -> None:
    pose = pose_of(runs, face, True, clauses)
    assert isinstance(pose, Lacking) and pose.what == what and len(pose.proposals) == 2


def test_what_leans_runs_up_and_what_rises_runs_toward_its_side() -> None:
    assert axes(None, "left", turned("leans", 5, "back"))[0][2] > 0.9
    assert axes(None, "left", turned("rises", 5, "back"))[0][1] > 0.9


def test_a_bench_keeps_its_side_names_until_it_is_laid_flat() -> None:
    c, s = math.cos(math.radians(12)), math.sin(math.radians(12))
    assert nearest_quarter(((1, 0, 0), (0, c, -s), (0, s, c))) == ((1, 0, 0), (0, 1, 0), (0, 0, 1))
    assert nearest_quarter(((1, 0, 0), (0, 0, 1), (0, -1, 0))) == ((1, 0, 0), (0, 0, 1), (0, -1, 0))
