"""Gaps between slats, beside sums worked by hand and beside the shadow that the slats throw on the span."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.ops import unary_union

from tests.observe.hand_worked import gaps, inches, known, row, rows

PLACED = """
plan "Slatted top"
  units in
  setting outdoors
parts
  rail: 2 of 2x4 @ {span}
  slat: {number} of 2x4 @ 24
place
  rail as rail-l, rail-r: runs front-back, face left, left at 2, front at 0, bottom at 0, mirrored left-right about 12
  slat: {how}, runs left-right, face top, left at 0, bottom at top of rail-l
cover
  top: slat from front of rail-l to back of rail-l, gap 1/8 to 3/4 in
"""
BY_COUNT = """
plan "Crate top"
  units in
parts
  slat: 9 of 2x4 @ 24
cover
  top: {number} of slat across {across} in, gap 1/8 to 3/4 in
"""


def placed(span: str, number: int, how: str) -> str:
    return PLACED.format(span=span, number=number, how=how)


def from_front(gap: str, number: int = 4) -> str:
    return f"row of {number} front-back gap {gap}, front of slat.1 at 0"


@pytest.mark.parametrize(
    ("number", "across", "gap"),
    [
        (4, 15.5, 0.5),  # (15 1/2 - 4 x 3 1/2) / 3
        (3, 12, 0.75),  # (12 - 10 1/2) / 2, exactly the most
        (3, 15.5, 2.5),  # (15 1/2 - 10 1/2) / 2
        (5, 15.5, -0.5),  # (15 1/2 - 17 1/2) / 4: they do not go in
        (1, 5, 1.5),  # 5 - 3 1/2, all at one end
    ],
)
def test_slats_by_count_count_their_own_width(number: int, across: float, gap: float) -> None:
    """A gap worked out without the slats' width is the pitch, four times too wide."""
    found = row(BY_COUNT.format(number=number, across=across), "slat_gap")
    assert inches(found, "gap") == gap
    assert found.values["at_end"] is (number == 1)
    assert inches(found, "span") == across


def test_what_is_left_at_the_back_is_a_gap_of_its_own() -> None:
    """4 x 3 1/2 + 3 x 1/4 = 14 3/4; in 16 1/2 that leaves 1 3/4 at the back. Only neighbours: it would pass."""
    found = rows(placed("16 1/2", 4, from_front("1/4")), "slat_gap")
    assert [(inches(one, "gap"), one.values["at_end"]) for one in found] == [
        (1.75, True), (0.25, False), (0.25, False), (0.25, False),
    ]  # fmt: skip
    assert found[0].values["place"] == "between slat.4 and the back end"
    assert inches(found[0], "free") == 2.5
    assert inches(found[0], "even_gap") == pytest.approx(2.5 / 3, abs=1e-4)


def test_respacing_may_do() -> None:
    """(15 3/4 - 14) / 3 = 0.583: no strip needed."""
    found = rows(placed("15 3/4", 4, from_front("1/4")), "slat_gap")
    assert inches(found[0], "even_gap") == 0.5833


def test_an_overhang_is_no_gap() -> None:
    """Slats that reach beyond the span leave nothing open there."""
    found = rows(placed("14", 4, from_front("1/4")), "slat_gap")
    assert [one.values["at_end"] for one in found] == [False, False, False]
    assert inches(found[0], "span") == 14.75


def test_a_last_slat_of_another_name_fills_its_gap() -> None:
    """The strip that mends a seat is an entry of its own; the seat must not be flagged for ever."""
    text = placed("16 1/2", 4, from_front("1/4"))
    text = text.replace("place\n", "  strip: 1 of 1 1/2 x 1 1/2 @ 24\nplace\n")
    text = text.replace(
        "cover\n", "  strip: runs left-right, left at 0, front at 15, bottom at top of rail-l\ncover\n"
    )
    found = rows(text, "slat_gap")
    assert [inches(one, "gap") for one in found] == [0.25, 0.25, 0.25, 0.25]
    assert found[0].values["slats"] == 5
    assert found[-1].values["pair"] == "slat.4 + strip"


def test_a_rail_under_the_slats_fills_no_gap() -> None:
    """The rails lie below the whole span."""
    assert (
        inches(row(placed("15 1/2", 3, "row of 3 front-back from 0 to 15 1/2"), "slat_row"), "widest") == 2.5
    )


def test_leaning_slats_are_measured_square_to_their_edges() -> None:
    """Slats 3 1/2 wide at a pitch of 4 have 1/2 in between them; plumb over a 12 deg lean it would read 0.33."""
    text = """
plan "Back"
  units in
parts
  post: 2 of 2x4 @ 24
  slat: 3 of 3/4 x 3 1/2 @ 20
place in back
  post as post-l, post-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 10
  slat: row of 3 up gap 1/2, runs left-right, face front, left at 0, back at front of post-l, bottom of slat.1 at 4
place
  back: left at 0, front of post-l at 0, bottom of post-l at 0, leans 12 toward back
cover
  back: slat of back from floor to top of post-l of back, gap 1/8 to 3/4 in
"""
    found = rows(text, "slat_gap")
    assert [inches(one, "gap") for one in found if not one.values["at_end"]] == [0.5, 0.5]


def test_level_is_told_from_upright() -> None:
    """A planter's wall sheds water, a seat does not."""
    seat = rows(placed("15 1/2", 4, from_front("1/2")), "slat_gap")[0]
    wall = rows(
        placed("15 1/2", 4, "row of 4 up gap 1/2, bottom of slat.1 at 0, front at 1")
        .replace("face top, left at 0, bottom at top of rail-l", "face front, left at 0")
        .replace("from front of rail-l to back of rail-l", "from bottom of slat.1 to top of slat.4"),
        "slat_gap",
    )[0]
    assert seat.values["level"] is True
    assert wall.values["level"] is False
    assert not known(row(BY_COUNT.format(number=4, across="15 1/2"), "slat_gap"), "level")


def test_a_cover_whose_slats_have_no_place_is_said() -> None:
    text = placed("15 1/2", 4, "row of 4 front-back gap 1/2")  # no front
    assert gaps(text, "slat_gap") == [("not every slat of this cover has a place", "the place of each slat")]
    assert rows(text, "slat_gap") == []


@settings(max_examples=25, deadline=None)
@given(
    widths=st.lists(st.integers(8, 60), min_size=2, max_size=6),
    spaces=st.lists(st.integers(0, 40), min_size=7, max_size=7),
)
def test_gaps_are_the_shadow_the_slats_leave(widths: list[int], spaces: list[int]) -> None:
    """Whatever the widths and places: the gaps are what shapely leaves of the span without the slats."""
    entries, places, at = [], [], float(spaces[0])
    slats = []
    for i, width in enumerate(widths):
        entries.append(f"  slat-{i}: 1 of 5 x {width} @ 500")
        places.append(f"  slat-{i}: runs left-right, face top, left at 0, front at {at:g}, bottom at 0")
        slats.append(LineString([(at, 0), (at + width, 0)]))
        at += width + spaces[i + 1]
    span = LineString([(0, 0), (at, 0)])
    text = "\n".join(
        [
            'plan "Rows"',
            "  units mm",
            "parts",
            *entries,
            "place",
            *places,
            "cover",
            f"  all: slat-0 from 0 to {at:g}",
        ]
    ).replace("from 0 to", f"from front of slat-0 - {spaces[0]} to")
    left = span.difference(unary_union(slats))
    expected = sorted(round(part.length, 3) for part in getattr(left, "geoms", [left]) if part.length > 0.01)
    found = sorted(round(float(one.values["gap"]), 3) for one in rows(text, "slat_gap"))  # type: ignore[arg-type]
    assert [gap for gap in found if gap > 0.01] == expected
