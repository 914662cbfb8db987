"""The way of a tool that is held aslant, against trying every side of it."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any, cast

from hypothesis import given
from hypothesis import strategies as st

from planlint.geometry.outline import flat_axes
from planlint.geometry.solid import block
from planlint.geometry.vector import Vec, add, scale, unit
from planlint.observe.driver_way import Room, Way, clear, clear_aslant
from planlint.trade.driving import Tool, lean, tool

TOOLS = st.sampled_from(
    [tool(bit, driver) for bit in ("usual", "long") for driver in ("straight", "right-angle")]
)
PLACES = st.tuples(*[st.integers(-80, 80)] * 2, st.integers(-20, 300))
SIZES = st.tuples(*[st.integers(1, 120)] * 3)
WAYS = st.sampled_from([(1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.6, 0.0, 0.8)])


def room(places: list[tuple[Vec, Vec]], out: Vec) -> Room:
    """Blocks before and beside a head at the origin: so far out along `out`, and so far aside."""
    u, v = flat_axes(out)
    blocks = []
    for (x, y, away), (a, b, c) in places:
        middle = add(add(scale(u, x), scale(v, y)), scale(out, away))
        half = (a / 2.0, b / 2.0, c / 2.0)
        blocks.append(SimpleNamespace(solid=block(add(middle, scale(half, -1.0)), add(middle, half))))
    return Room(cast("Any", blocks), 40.0)


@given(st.lists(st.tuples(PLACES, SIZES), max_size=3), WAYS, TOOLS)
def test_a_block_right_across_the_way_is_told_to_bar_a_lean_that_passes_it(
    places: list[tuple[Vec, Vec]], out: Vec, one: Tool
) -> None:
    way, near = Way((0.0, 0.0, 0.0), out), room(places, out)
    u, v = flat_axes(out)
    slope = math.tan(math.radians(lean()))
    turns = [math.pi * i / 4.0 for i in range(8)]
    sides = [add(scale(u, math.cos(turn)), scale(v, math.sin(turn))) for turn in turns]
    leaning = [Way(way.head, unit(add(out, scale(side, slope)))) for side in sides]
    assert clear_aslant(way, near, one) == any(clear(each, near, one) for each in [way, *leaning])
