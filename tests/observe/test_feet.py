"""What a piece stands on, in hand-worked plans. All sums in inches."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.observe.hand_worked import by_part, inches, rows


def stool(fl: str = "0", fr: str = "0", bl: str = "0", br: str = "0", more: str = "", parts: str = "") -> str:
    return f"""\
plan "Stool"
  units in
parts
  leg: 4 of 4x4 @ 16 1/2
  seat: 1 of 2 x 16 @ 20
{parts}
place
  leg as leg-fl: runs up, left at 0, front at 0, bottom at {fl}
  leg as leg-fr: runs up, left at 16 1/2, front at 0, bottom at {fr}
  leg as leg-bl: runs up, left at 0, front at 12 1/2, bottom at {bl}
  leg as leg-br: runs up, left at 16 1/2, front at 12 1/2, bottom at {br}
  seat: runs left-right, face top, left at 0, front at 0, bottom at 17
{more}
"""


def test_four_level_feet() -> None:
    found = rows(stool(), "foot")
    assert [one.values["above"] for one in found] == [0, 0, 0, 0]
    assert found[0].values["feet"] == 4


def test_one_short_leg_hangs_and_the_other_three_are_the_long_ones() -> None:
    found = by_part(stool(bl="1/8"), "foot")
    assert inches(found["leg-bl"], "above") == 0.125
    assert [inches(found[leg], "above") for leg in ("leg-fl", "leg-fr", "leg-br")] == [0, 0, 0]
    assert found["leg-bl"].values["longer"] == ("leg-fl", "leg-fr", "leg-br")
    assert inches(found["leg-bl"], "by") == 0.125


def test_one_long_leg_is_the_only_one_to_shorten() -> None:
    """It stands on the long one, its opposite and a third; the fourth hangs as far as the leg is long."""
    found = by_part(stool(bl="-1/8"), "foot")
    assert sorted(inches(one, "above") for one in found.values()) == [0, 0, 0, 0.125]
    assert found["leg-bl"].values["longer"] == ("leg-bl",)


def test_legs_that_are_shorter_at_the_back_find_a_plane() -> None:
    assert [inches(one, "above") for one in rows(stool(bl="1/2", br="1/2"), "foot")] == [0, 0, 0, 0]


def test_a_shorter_leg_of_its_own_entry_at_a_corner_is_a_foot() -> None:
    text = (
        stool()
        .replace("leg: 4 of", "leg: 3 of")
        .replace("  seat: 1", "  back-leg: 1 of 4x4 @ 16 1/4\n  seat: 1")
    )
    text = text.replace(
        "leg as leg-br: runs up, left at 16 1/2, front at 12 1/2, bottom at 0",
        "back-leg: runs up, left at 16 1/2, front at 12 1/2, bottom at 1/4",
    )
    assert inches(by_part(text, "foot")["back-leg"], "above") == 0.25


@pytest.mark.parametrize(
    ("entry", "place"),
    [
        ("stretcher: 1 of 2x4 @ 13", "runs left-right, face front, left at 3 1/2, front at 1, bottom at 1/2"),
        ("slat: 1 of 1x4 @ 16", "runs up, face front, left at 8, front at 1, bottom at 1/2"),
        ("spare: 1 of 4x4 @ 16", "runs up, left at 8, front at 6, bottom at 1/2"),
    ],
)
def test_what_merely_ends_near_the_floor_is_no_foot(entry: str, place: str) -> None:
    """A low stretcher, a board between the legs, a post inside them: none would make the piece rock."""
    name = entry.partition(":")[0]
    text = stool(more=f"  {name}: {place}", parts=f"  {entry}")
    assert len(rows(text, "foot")) == 4


def test_three_feet_of_any_length_find_a_plane() -> None:
    text = stool(fr="-1/4", bl="1/2").replace("leg: 4 of", "leg: 3 of")
    text = "\n".join(line for line in text.splitlines() if "leg-br" not in line)
    assert [inches(one, "above") for one in rows(text, "foot")] == [0, 0, 0]


@given(st.lists(st.integers(-16, 16), min_size=4, max_size=4))
@settings(max_examples=60, deadline=None)
def test_of_four_feet_at_the_corners_the_fourth_hangs_by_what_the_diagonals_differ(
    sixtyfourths: list[int],
) -> None:
    """A plane has fl + br = fr + bl."""
    fl, fr, bl, br = sixtyfourths
    found = rows(stool(*(f"{n / 64}" for n in sixtyfourths)), "foot")
    heights = [inches(one, "above") for one in found]
    assert max(heights) == pytest.approx(abs(fl + br - fr - bl) / 64, abs=2e-3)
    assert sorted(heights)[:3] == pytest.approx([0, 0, 0], abs=2e-3)


@pytest.mark.parametrize(
    ("wide", "lean", "wedge"),
    [("1 1/2", 2, 0.052), ("1 1/2", 5, 0.131), ("3 1/2", 12, 0.744)],
)
def test_the_wedge_is_width_times_the_tangent(wide: str, lean: int, wedge: float) -> None:
    text = f"""\
plan "Prop"
  units in
parts
  post: 1 of {wide} x {wide} @ 16
place
  post: runs up, leans {lean} toward back, left at 0, front at 0, bottom at 0
"""
    foot = rows(text, "foot")[0]
    assert inches(foot, "wedge") == pytest.approx(wedge, abs=1e-3)
    assert foot.values["leans"] == pytest.approx(lean)
    assert rows(text.replace("bottom at 0", "bottom at 0, bottom cut level"), "foot")[0].values["wedge"] == (
        pytest.approx(0, abs=1e-6)
    )


@given(a=st.floats(1, 20), b=st.floats(1, 20))
@settings(max_examples=25, deadline=None)
def test_a_leg_splayed_two_ways_has_the_wedge_of_its_whole_lean(a: float, b: float) -> None:
    """As seen from the front and from the side: tan2 = tan2 a + tan2 b."""
    text = f"""\
plan "Splay"
  units in
parts
  leg: 1 of 1 1/2 x 1 1/2 @ 16
place
  leg: runs up, leans {a:.3f} toward back, leans {b:.3f} toward left, left at 0, front at 0, bottom at 0
"""
    foot = rows(text, "foot")[0]
    lean = foot.values["leans"]
    assert isinstance(lean, float)
    both = math.hypot(math.tan(math.radians(round(a, 3))), math.tan(math.radians(round(b, 3))))
    assert math.tan(math.radians(lean)) == pytest.approx(both, rel=1e-6)
    least, most = 1.5 * math.tan(math.radians(lean)), 1.5 * math.sqrt(2) * math.tan(math.radians(lean))
    assert least - 1e-3 <= inches(foot, "wedge") <= most + 1e-3


def test_feet_on_one_edge_in_a_line_span_no_area() -> None:
    """Two leaning legs that stand on their back edges: the other two are feet, and nothing is raised."""
    text = (
        stool()
        .replace("leg as leg-bl: runs up,", "leg as leg-bl: runs up, leans 3 toward back,")
        .replace("leg as leg-br: runs up,", "leg as leg-br: runs up, leans 3 toward back,")
    )
    assert {one.values["part"] for one in rows(text, "foot")} == {"leg-fl", "leg-fr", "leg-bl", "leg-br"}
