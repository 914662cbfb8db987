"""Openings closed all round, beside frames worked by hand and beside the holes that shapely finds in a frame."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box
from shapely.ops import unary_union

from tests.observe.hand_worked import inches, rows

GUARD = """
plan "Guard"
  units in
  piece bed
parts
  post: 2 of 2x4 @ 30
  rail: 2 of 2x4 @ 24
{parts}
place
  post as post-l: runs up, face left, left at 0, front at 0, bottom at 0
  post as post-r: like post-l, left at 25 1/2
  rail as low-rail: runs left-right, face front, between post-l and post-r, front at 0, bottom at 12
  rail as high-rail: like low-rail, bottom at top of low-rail + 4
{place}
"""


def sizes(text: str) -> list[tuple[float, float]]:
    return sorted((inches(one, "lesser"), inches(one, "greater")) for one in rows(text, "opening"))


def test_two_rails_between_two_posts() -> None:
    """One opening, told once, though either pair of parts runs along it."""
    assert sizes(GUARD.format(parts="", place="")) == [(4.0, 24.0)]


def test_below_the_low_rail_is_the_ground() -> None:
    """An opening that the ground closes is none: 12 in high below the rail is not told."""
    found = rows(GUARD.format(parts="", place=""), "opening")
    assert [one.values["pair"] for one in found] == ["high-rail + low-rail"]


def test_a_bar_parts_an_opening_in_two() -> None:
    """(24 - 1 1/2) / 2 = 11 1/4 each; the whole is no opening any more."""
    text = GUARD.format(
        parts="  bar: 1 of 2x2 @ 4",
        place="  bar: runs up, between low-rail and high-rail, front at 0, centred left-right on low-rail",
    )
    assert sizes(text) == [(4.0, 11.25), (4.0, 11.25)]


def test_a_panel_over_it_closes_an_opening() -> None:
    """A back nailed over a frame leaves a recess, not an opening. What is left open is the slit behind each rail."""
    text = GUARD.format(
        parts="  sheet: 1 of 1/4 x 15 @ 27 birch-plywood",
        place="  sheet: runs left-right, face front, left at 0, front at back of post-l, bottom at 10",
    )
    assert sizes(text) == [(2.0, 24.0), (2.0, 24.0)]


def test_slats_on_the_face_of_posts_close_it_too() -> None:
    """The four parts need not lie in one plane: slats nailed on posts leave the opening between them."""
    text = """
plan "Back"
  units in
parts
  post: 2 of 2x4 @ 30
  slat: 2 of 3/4 x 3 1/2 @ 27
place
  post as post-l, post-r: runs up, face left, left at 0, front at 1, bottom at 0, mirrored left-right about 13 1/2
  slat: row of 2 up gap 5, runs left-right, face front, left at 0, back at front of post-l, bottom of slat.1 at 12
"""
    assert sizes(text) == [(5.0, 24.0)]


@settings(max_examples=25, deadline=None)
@given(
    rails=st.lists(st.tuples(st.integers(10, 60), st.integers(20, 300)), min_size=2, max_size=4),
    bars=st.lists(st.tuples(st.integers(10, 40), st.integers(30, 200)), min_size=0, max_size=3),
)
def test_openings_of_a_flat_frame_are_its_holes(
    rails: list[tuple[int, int]], bars: list[tuple[int, int]]
) -> None:
    """A frame with bars between its lowest two rails: our openings are the holes of its outline."""
    inner = sum(width + space for width, space in bars) + 50
    entries = ["  post: 2 of 5 x 60 @ 1500"]
    places = [
        "  post as post-l: runs up, face front, left at 0, front at 0, bottom at 0",
        f"  post as post-r: like post-l, left at {60 + inner}",
    ]
    solids = [box(0, 0, 60, 1500), box(60 + inner, 0, 120 + inner, 1500)]
    low, first = 100, 0
    for i, (width, space) in enumerate(rails):
        entries.append(f"  rail-{i}: 1 of 5 x {width} @ {inner}")
        places.append(f"  rail-{i}: runs left-right, face front, left at 60, front at 0, bottom at {low}")
        solids.append(box(60, low, 60 + inner, low + width))
        first = low + width if i == 0 else first
        low += width + space
    at = 60
    for i, (width, space) in enumerate(bars):
        at += space
        height = rails[0][1]
        entries.append(f"  bar-{i}: 1 of 5 x {width} @ {height}")
        places.append(f"  bar-{i}: runs up, face front, left at {at}, front at 0, bottom at {first}")
        solids.append(box(at, first, at + width, first + height))
        at += width
    text = "\n".join(['plan "Frame"', "  units mm", "parts", *entries, "place", *places])
    outline = unary_union(solids)
    holes = [ring for part in getattr(outline, "geoms", [outline]) for ring in part.interiors]
    spans = [(ring.bounds[2] - ring.bounds[0], ring.bounds[3] - ring.bounds[1]) for ring in holes]
    expected = sorted((min(span), max(span)) for span in spans)
    found = sorted(
        (round(float(one.values["lesser"]), 3), round(float(one.values["greater"]), 3))  # type: ignore[arg-type]
        for one in rows(text, "opening")
    )
    assert found == expected
