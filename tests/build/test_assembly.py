# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Sub-assemblies: built as they lie on the bench, then placed, leaned, mirrored, held by one of their parts."""

from __future__ import annotations

import math

import pytest

from tests.build.placing import INCH, box, part, place, troubles

BACK = """parts
  post: 2 of 2x4 @ 36
  back-rail: 1 of 2x4 @ 21
  leg: 2 of 2x4 @ 17
place in back
  post as post-l, post-r: runs up, face left, left at 0, front at 0, bottom at 0, ends cut level, mirrored left-right about 12
  back-rail as low-rail: runs left-right, face front, between post-l and post-r, front at front of post-l, bottom at 17
place
"""
LEANS = "  back: left at 0, front of post-l at 17, bottom of post-l at 0, leans 12 toward back\n"


def test_a_leaning_back_stands_on_the_edge_that_holds_it() -> None:
    piece = place(BACK + LEANS)
    solid = part(piece, "post-l of back").solid
    assert any(math.dist(p, (0, 17 * INCH, 0)) < 1e-6 for p in solid.vertices)
    # `ends cut level` is level in the finished piece: the whole foot is on the floor.
    assert len([p for p in solid.vertices if abs(p[2]) < 1e-6]) == 4
    assert piece.parts[0].assembly == "back"


def test_all_in_it_goes_along() -> None:
    """The rail's foot edge on the bench (front, 17 up) lands 17 along the lean from the held edge."""
    piece = place(BACK + LEANS)
    solid = part(piece, "low-rail of back").solid
    a = math.radians(12)
    # The posts' square end on the bench is the tip: the held edge is its front corner.
    y, z = 17 + 17 * math.sin(a), 17 * math.cos(a)
    assert any(math.dist(p[1:], (y * INCH, z * INCH)) < 1e-6 for p in solid.vertices)


def test_the_outer_scope_names_inner_parts_with_and_without_of() -> None:
    text = BACK + "  back: left at 5, front at 17, bottom at 0\n"
    text += "  leg as a: runs up, face left, left at left of post-r of back, front at 0, bottom at 0\n"
    text += "  leg as b: runs up, face left, left at right of post-l, front at 0, bottom at top of low-rail\n"
    piece = place(text)
    assert box(piece, "a")[0][0] == 27.5 and box(piece, "b")[0][0] == 6.5 and box(piece, "b")[2][0] == 20.5


def test_a_sub_assembly_may_stand_several_times_and_mirrored() -> None:
    text = BACK.replace("place in back", "place in end").replace("place\n", "") + "place\n"
    text += "  end as left-end, right-end: turns 90 toward left, left at 0, front at 0, bottom at 0, mirrored left-right about 24\n"
    piece = place(text)
    assert len(piece.parts) == 6 and {p.assembly for p in piece.parts} == {"left-end", "right-end"}
    left, right = box(piece, "post-l of left-end"), box(piece, "post-l of right-end")
    assert right[0] == (48 - left[0][1], 48 - left[0][0]) and right[1:] == left[1:]
    assert {one.entry.name: one.placed for one in piece.listed} == {"post": 4, "back-rail": 2, "leg": 0}


def test_counts_multiply_through_the_uses_of_a_sub_assembly() -> None:
    text = BACK + "  back as b1, b2: left at 0, front at 0, bottom at 0, mirrored front-back about 20\n"
    assert place(text).listed[0].placed == 4


def test_a_plain_name_of_several_copies_must_agree() -> None:
    text = BACK + "  back as b1, b2: left at 0, front at 0, bottom at 0, mirrored front-back about 20\n"
    text += "  leg as a: runs up, face left, left at 0, front at back of post-l, bottom at top of post-l\n"
    (trouble,) = troubles(place(text), "unknown-name")
    assert trouble.values == {"name": "post-l", "what": "single piece", "nearest": "post-l of b1"}


def test_a_bench_may_hold_another_bench() -> None:
    text = BACK.replace("place\n", "") + "place in chair\n  back: left at 1, front at 17, bottom at 0\n"
    text += "  leg as leg-l: runs up, face left, left at left of post-l of back, front at 0, bottom at 0\n"
    text += "place\n  chair as one: left at 10, front at 0, bottom at 0\n"
    text += "  leg as far: runs up, face left, left at left of post-l of one, front at 60, bottom at 0\n"
    piece = place(text)
    assert box(piece, "post-l of back of one")[0][0] == 10  # the chair's left side is the back's
    assert box(piece, "far")[0][0] == 10 and part(piece, "post-l of back of one").assembly == "back of one"


def test_laid_flat_on_the_bench_and_stood_up_its_sides_have_new_names() -> None:
    text = """parts
  stile: 2 of 1x4 @ 30
  rail: 1 of 1x4 @ 10
place in door
  stile as s1, s2: runs front-back, face top, left at 0, front at 0, bottom at 0, mirrored left-right about 9
  rail: runs left-right, face top, between s1 and s2, front at 0, bottom at 0
place
  door: rises 90 toward back, left at 0, front at 2, bottom at 0
  rail as shelf: runs left-right, face top, left at 0, front at 2, bottom at top of s1
"""
    piece = place(text.replace("1 of 1x4 @ 10", "2 of 1x4 @ 11"))
    assert box(piece, "s1 of door") == ((0, 3.5), (2, 2.75), (0, 30))
    assert not part(piece, "s1 of door").leaning and box(piece, "shelf")[2][0] == 30


def test_a_held_part_that_is_not_in_it_is_unknown() -> None:
    text = BACK + "  back: left at 0, front of post-m at 17, bottom of post-l at 0, leans 12 toward back\n"
    (trouble,) = troubles(place(text), "unknown-name")
    assert trouble.values["name"] == "post-m" and trouble.values["nearest"] == "post-l"


def test_what_is_lost_on_the_bench_is_lost_in_the_piece_and_not_unknown() -> None:
    text = BACK.replace(", bottom at 17", "") + "  back: left at 0, front at 0, bottom at 0\n"
    text += "  leg as a: runs up, face left, left at 0, front at 0, bottom at top of low-rail\n"
    piece = place(text)
    assert [t.kind for t in piece.troubles] == ["position-missing"]
    assert {"low-rail of back", "a"} <= set(piece.unplaced_names) and part(piece, "post-l of back")


def test_a_bench_that_nothing_places_is_said_and_its_mistakes_are_told() -> None:
    piece = place(
        BACK.replace(", bottom at 17", "") + "  leg: runs up, face left, left at 0, front at 0, bottom at 0\n"
    )
    assert piece.unplaced_names["post-l"] == "back is built on the bench, and nothing places it"
    assert troubles(piece, "position-missing") and [p.name for p in piece.parts] == ["leg"]


def test_a_bench_inside_itself_is_a_ring() -> None:
    text = (
        BACK.replace("place\n", "")
        + "  b2: left at 0, front at 0, bottom at 0\nplace in b2\n  back: left at 0, front at 0, bottom at 0\nplace\n  back: left at 0, front at 0, bottom at 0\n"
    )
    (trouble,) = troubles(place(text), "position-circular")
    assert "back" in str(trouble.values["ring"]) and "b2" in str(trouble.values["ring"])


def test_sunk_depths_are_those_of_the_steps_on_that_bench() -> None:
    text = (
        BACK
        + "  back: left at 0, front at 0, bottom at 0\nstep in back\n  low-rail to post-l: housed 1/2 deep\n"
    )
    fit = place(text).fits[0]
    assert fit.sunk / INCH == pytest.approx(0.5) and fit.part.name == "low-rail of back"


def test_a_part_and_its_sub_assembly_may_lean_both() -> None:
    text = BACK.replace("bottom at 17\n", "bottom at 17, leans 5 toward back\n") + LEANS
    rail = part(place(text), "low-rail of back")
    assert math.degrees(math.acos(abs(rail.across[2]))) == pytest.approx(17)
