"""Beams: the closed formulas held to the known ones and to the bending worked out by numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.trade import beams
from planlint.trade.beams import Load

SPANS = st.floats(100.0, 3000.0)
SHARES = st.lists(
    st.tuples(st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(1.0, 1000.0)), min_size=1, max_size=4
)
STEPS = 1000


def loads_of(span: float, shares: list[tuple[float, float, float]]) -> list[Load]:
    """Loads over shares of the span; what is short becomes a load at a point, as in a plan."""
    found = []
    for a, b, force in shares:
        start, end = min(a, b) * span, max(a, b) * span
        found.append(Load(start, end if end - start > 1.0 else start, force))
    return found


def cut(loads: list[Load], x: float) -> float:
    """The moment about x of what lies left of it, counted piece by piece."""
    total = 0.0
    for start, end, force in loads:
        if end <= start:
            total += force * max(0.0, x - start)
        elif x > start:
            part = min(1.0, (x - start) / (end - start))
            total += force * part * (x - (start + min(x, end)) / 2.0)
    return total


def moment(span: float, loads: list[Load], x: float) -> float:
    up = sum(force * (span - (start + end) / 2.0) for start, end, force in loads) / span
    return up * x - cut(loads, x)


def test_a_spread_load_and_one_in_the_middle_are_the_handbook_s() -> None:
    assert beams.sag(100.0, [Load(0, 100, 8)], 2.0) == pytest.approx(5 * 8 * 100**3 / (384 * 2))
    assert beams.sag(100.0, [Load(50, 50, 8)], 2.0) == pytest.approx(8 * 100**3 / (48 * 2))
    assert beams.most_moment(100.0, [Load(0, 100, 8)]) == pytest.approx(8 * 100 / 8)
    assert beams.most_moment(100.0, [Load(50, 50, 8)]) == pytest.approx(8 * 100 / 4)


def test_what_stands_out_is_the_handbook_s() -> None:
    assert beams.tip_sag(100.0, [Load(100, 100, 8)], 2.0) == pytest.approx(8 * 100**3 / (3 * 2))
    assert beams.tip_sag(100.0, [Load(0, 100, 8)], 2.0) == pytest.approx(8 * 100**3 / (8 * 2))
    assert beams.root_moment([Load(0, 100, 8)]) == pytest.approx(8 * 50)


def test_sections() -> None:
    assert beams.rectangle(3.0, 2.0) == (2.0, 2.0)
    assert beams.leaning_rectangle(3.0, 2.0, 0.0) == pytest.approx(beams.rectangle(3.0, 2.0))
    assert beams.leaning_rectangle(3.0, 2.0, 1.0) == pytest.approx(beams.rectangle(2.0, 3.0))
    assert beams.round_section(2.0) == pytest.approx((math.pi / 4, math.pi / 4))


@settings(deadline=None)
@given(SPANS, SHARES)
def test_the_largest_moment_is_the_largest_of_all_places(
    span: float, shares: list[tuple[float, float, float]]
) -> None:
    """A formula that looked only at the middle would miss a load near one end."""
    loads = loads_of(span, shares)
    most = max(moment(span, loads, span * i / STEPS) for i in range(STEPS + 1))
    found = beams.most_moment(span, loads)
    assert found >= most * (1.0 - 1e-9) - 1e-6
    assert found <= most + sum(load.force for load in loads) * span / STEPS


@settings(deadline=None)
@given(SPANS, SHARES)
def test_the_sag_is_the_moments_summed_up(span: float, shares: list[tuple[float, float, float]]) -> None:
    """Virtual work: the middle goes down by the integral of the moment times that of a load of one there."""
    loads = loads_of(span, shares)
    step = span / STEPS
    total = 0.0
    for i in range(STEPS):
        x = (i + 0.5) * step
        total += moment(span, loads, x) * min(x, span - x) / 2.0 * step
    most = sum(load.force for load in loads) * span**3 / 48.0
    assert beams.sag(span, loads, 1.0) == pytest.approx(total, abs=1e-3 * most)


@settings(deadline=None)
@given(SPANS, SHARES)
def test_the_tip_goes_down_by_the_moments_summed_up(
    reach: float, shares: list[tuple[float, float, float]]
) -> None:
    loads = loads_of(reach, shares)
    step = reach / STEPS
    total = 0.0
    for i in range(STEPS):
        x = (i + 0.5) * step
        right = sum(force * ((start + end) / 2.0 - x) for start, end, force in loads) + cut(loads, x)
        total += right * (reach - x) * step
    most = sum(load.force for load in loads) * reach**3 / 3.0
    assert beams.tip_sag(reach, loads, 1.0) == pytest.approx(total, abs=1e-3 * most)


@settings(deadline=None)
@given(SPANS, SHARES)
def test_no_way_of_lying_bends_more_than_all_in_the_middle(
    span: float, shares: list[tuple[float, float, float]]
) -> None:
    """`Beam.bend` passes over loads by this bound."""
    loads = loads_of(span, shares)
    force = sum(load.force for load in loads)
    assert beams.most_moment(span, loads) <= force * span / 4.0 * (1.0 + 1e-9)
    assert beams.sag(span, loads, 1.0) <= force * span**3 / 48.0 * (1.0 + 1e-9)
    assert beams.tip_sag(span, loads, 1.0) <= force * span**3 / 3.0 * (1.0 + 1e-9)
