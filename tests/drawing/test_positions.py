"""Which edges a view is dimensioned by. Guards against: chains that differ by side, and lengths nobody needs."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

from planlint.drawing.dimension_lines import Stretch, thinned
from planlint.drawing.views import views
from planlint.svg import number

from .plans import SAMPLES, audited, sheet


def told(stretches: list[Stretch]) -> list[str]:
    return [one.text for one in stretches]


def room_for_all(_: Stretch) -> bool:
    return True


def length(start: float, end: float) -> str:
    return number(end - start)


def test_a_frame_is_dimensioned_alike_on_both_sides() -> None:
    """Left to right, the first number without room took the edge on its left with it, and not the one on the right."""
    ends, weights = float("inf"), (90.0, 80.0, 70.0)
    left = list(zip((20.0, 22.0, 24.0), weights, strict=True))
    right = [(100.0 - at, weight) for at, weight in reversed(left)]
    found = told(thinned([(0.0, ends), *left, *right, (100.0, ends)], length, room_for_all))
    assert found == ["20", "2", "56", "2", "20"]


def test_an_edge_is_not_given_up_for_evenness_alone() -> None:
    """A rail that is cut too short has an edge on one side only: the leg's on the other side has to stay."""
    ends, legs = float("inf"), 90.0
    positions = [(0.0, ends), (20.0, legs), (78.0, 70.0), (79.0, 95.0), (80.0, legs), (100.0, ends)]
    assert told(thinned(positions, length, room_for_all)) == ["20", "58", "1", "21"]


def named(name: str) -> Path:
    return next(path for path in SAMPLES if path.stem == name)


def numbers(name: str) -> list[str]:
    """The dimensions of a sheet, in the order they are drawn."""
    return re.findall(r'class="measure"[^>]*>([^<]+)</text>', "".join(sheet(named(name), views).content))


def test_where_splayed_feet_stand_is_dimensioned() -> None:
    """They have no upright edge: without it nobody can set them out on the floor."""
    assert "6 3/8" in numbers("park-table") and "8 3/8" in numbers("park-table")


def test_the_two_edges_of_a_leaning_end_are_one_position() -> None:
    """5/32 between them is no length that anybody marks out."""
    assert "5/32" not in numbers("reading-chair")


def test_a_row_that_is_only_seen_through_gaps_has_no_ends_there() -> None:
    """The lower shelf's slats, glimpsed between those of the top, gave the top view lengths of their own."""
    assert "100.5" not in numbers("potting-bench") and "406.5" not in numbers("potting-bench")


@pytest.mark.parametrize("name", ["drawer-chest", "console-table", "blanket-chest"])
def test_the_notes_end_above_the_title_block(name: str) -> None:
    """A long list of hidden parts ran into it."""
    drawing = sheet(named(name), views)
    text = "".join(drawing.content)
    captions = [float(y) for y in re.findall(r'<text class="caption" x="[\d.]+" y="([\d.]+)"', text)]
    blocks = [
        (float(y), float(high))
        for y, high in re.findall(
            r'<rect class="[^"]*" x="[\d.]+" y="([\d.]+)" width="[\d.]+" height="([\d.]+)"', text
        )
    ]
    top = max(y for y, high in blocks if high < 30.0)
    assert captions and max(captions) < top
    assert all(before < after for before, after in pairwise(captions))
    assert audited(named(name)).piece.parts
