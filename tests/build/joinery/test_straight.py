"""Screws, nails and bolts: square to where the parts meet, through the first into the second."""

from __future__ import annotations

import pytest

from planlint.build.piece import Part
from tests.build.joinery.workshop import INCH, at, board, cut, join, joined, near, passed, screws


def leg_and_rail() -> list[Part]:
    """A 4x4 leg 16 1/2 long and a 2x4 rail, its end against the leg's right, flush in front and on top."""
    return [
        board("leg", (0, 0, 0), (3.5, 3.5, 16.5), "z", "y"),
        board("rail", (3.5, 0, 13), (27.5, 1.5, 16.5), "x", "y"),
    ]


def test_a_counterbored_3_in_screw_leaves_half_an_inch_in_the_rail() -> None:
    # Guards: counterbore forgotten, or the length counted from the seat twice.
    one, two = joined(leg_and_rail(), join("leg", "rail", screws(2, length=3, bore=1))).driven
    assert one.tip == pytest.approx(101.6)
    assert one.seat == pytest.approx(25.4)
    held = one.passages[0]
    assert one.tip is not None and one.tip - held.leave == pytest.approx(12.7)
    assert passed(one) == [("leg", 0, 3.5), ("rail", 3.5, 27.5)]
    assert near(one.axis, (1, 0, 0)) and near(one.mouth, (-1, 0, 0))
    assert [(d.number, d.known_spot, d.into.name) for d in (one, two)] == [
        (1, False, "rail"),
        (2, False, "rail"),
    ]


def test_two_screws_spread_over_3_and_a_half_in_at_seven_eighths_and_2_five_eighths() -> None:
    # Guards: spread from the ends instead of (i - 1/2) W / n, or off the middle line.
    driven = joined(leg_and_rail(), join("leg", "rail", screws(2, length=4))).driven
    assert [d.entry[2] / INCH - 13 for d in driven] == pytest.approx([0.875, 2.625])
    assert [d.entry[1] / INCH for d in driven] == pytest.approx([0.75, 0.75])
    assert [d.entry[0] for d in driven] == pytest.approx([0, 0])


def test_from_names_the_first_parts_end_of_the_line() -> None:
    # Guards: `from` turning the screw round, so that it goes second to first.
    assert len(joined(leg_and_rail(), join("leg", "rail", screws(2, length=4, from_="left"))).driven) == 2


@pytest.mark.parametrize("side", ["right", "top", "front"])
def test_driven_from_a_side_that_never_goes_first_to_second(side: str) -> None:
    # Guards: a screw silently driven from somewhere else than the plan says.
    piece = joined(leg_and_rail(), join("leg", "rail", screws(2, length=4, from_=side)))
    assert piece.driven == []
    (wrong,) = piece.wrong_sides
    assert (wrong.side, wrong.sides, wrong.ends) == (side, ("left",), ("left", "right"))


def test_inside_looks_to_the_middle_of_the_piece() -> None:
    # Guards: inside and outside swapped. The leg's left face is outside: it can't be driven from inside.
    far_leg = board("far", (27.5, 0, 0), (31, 3.5, 16.5), "z", "y")
    parts = [*leg_and_rail(), far_leg]
    assert len(joined(parts, join("leg", "rail", screws(2, length=4, from_="outside"))).driven) == 2
    (wrong,) = joined(parts, join("leg", "rail", screws(2, length=4, from_="inside"))).wrong_sides
    assert wrong.sides == ("left",)


def test_without_a_length_the_way_is_known_but_not_the_tip() -> None:
    # Guards: a missing length taken for 0, so that every such screw 'stops short'.
    (one,) = joined(leg_and_rail(), join("leg", "rail", screws(1))).driven
    assert one.length is None and one.tip is None
    assert passed(one) == [("leg", 0, 3.5), ("rail", 3.5, 27.5)]


def test_a_part_behind_an_air_gap_is_passed_when_the_tip_reaches_it() -> None:
    # Guards: a tip in the open that in truth stands in the next part, or the other way round.
    slat = board("slat", (0, 0, 0), (10, 3.5, 0.75))
    rail = board("rail", (4, 0, -0.75), (5.5, 3.5, 0))
    below = board("below", (0, 0, -2.5), (10, 3.5, -1.75))
    long = joined([slat, rail, below], join("slat", "rail", screws(1, length=3))).driven[0]
    assert passed(long) == [("slat", 0, 0.75), ("rail", 0.75, 1.5), ("below", 2.5, 3.25)]
    short = joined([slat, rail, below], join("slat", "rail", screws(1, length=2))).driven[0]
    assert passed(short) == [("slat", 0, 0.75), ("rail", 0.75, 1.5)]


def test_wood_behind_the_second_part_is_passed_beyond_the_tip() -> None:
    # Guards: cover beyond the tip measured to a face that another part lies on.
    boards = [board(f"b{i}", (0, 0, -i), (10, 4, 1 - i)) for i in range(4)]
    (one,) = joined(boards, join("b0", "b1", screws(1, length=1.5))).driven
    assert passed(one) == [("b0", 0, 1), ("b1", 1, 2), ("b2", 2, 3), ("b3", 3, 4)]


def test_every_pair_that_meets_gets_the_full_count() -> None:
    # Guards: a count shared out over the pairs, or a pair taken twice.
    slats = [board(f"slat.{i}", (4 * i, 0, 0), (4 * i + 3.5, 15, 0.75), "y") for i in range(3)]
    rails = [board(f"rail.{i}", (0, 14 * i, -3.5), (12, 14 * i + 1, 0), "x", "y") for i in range(2)]
    piece = joined([*slats, *rails], join("slat", "rail", screws(2, length=2)))
    assert len(piece.meetings) == 6
    assert len(piece.driven) == 12


def test_places_counted_from_a_side_of_the_area() -> None:
    # Guards: places measured from the part's end instead of from the area where the two meet.
    driven = joined(leg_and_rail(), join("leg", "rail", screws(2, length=4, spots=at("top", 1, 3)))).driven
    assert [d.entry[2] / INCH for d in driven] == pytest.approx([15.5, 13.5])
    assert all(d.known_spot for d in driven)


def test_places_counted_from_each_end() -> None:
    driven = joined(
        leg_and_rail(), join("leg", "rail", screws(3, length=4, spots=at("each end", 0.75)))
    ).driven
    assert [d.entry[2] / INCH for d in driven] == pytest.approx([13.75, 15.75, 14.75])
    assert [d.known_spot for d in driven] == [True, True, False]


def test_two_screws_at_one_place_stand_side_by_side() -> None:
    # Guards: two fasteners drawn into one hole, which would collide in every such plan.
    driven = joined(leg_and_rail(), join("leg", "rail", screws(2, length=4, spots=at("top", 1)))).driven
    assert [d.entry[2] / INCH for d in driven] == pytest.approx([15.5, 15.5])
    assert sorted(d.entry[1] / INCH for d in driven) == pytest.approx([0.375, 1.125])


def test_places_from_a_side_that_the_area_lacks_are_told_and_spread() -> None:
    # Guards: places silently ignored. The area between leg and rail looks left and right: it has no left.
    spots = at("left", 1, 3)
    piece = joined(leg_and_rail(), join("leg", "rail", screws(2, length=4, spots=spots)))
    assert [d.known_spot for d in piece.driven] == [False, False]
    (trouble,) = piece.troubles
    assert trouble.kind == "unreadable"
    assert trouble.values["expected"] == "a side of the area where the two meet: front, back, bottom, top"


def test_shared_space_is_passed_once_for_its_keeper() -> None:
    # Guards: 3/8 of a housed shelf counted for the side too: the screw would seem to pass 3/4 of side.
    side = board("side", (0, 0, 0), (0.75, 11.25, 36), "z", "x")
    shelf = board("shelf", (0.375, 0, 10), (30, 11.25, 10.75))
    parts = [side, shelf]
    piece = joined(
        parts, join("shelf", "side", cut("housed", 0.375)), join("side", "shelf", screws(2, length=2))
    )
    assert [passed(d) for d in piece.driven] == [[("side", 0, 0.375), ("shelf", 0.375, 30)]] * 2


def test_a_screw_through_a_notch_passes_the_post_for_the_post() -> None:
    # Guards: the notched arm's lost wood counted. The screw goes from the arm's front edge into the post.
    arm = board("arm", (0, 0, 0), (20, 5.5, 0.75))
    post = board("post", (8, 3.5, -20), (11.5, 7, 10), "z", "y")
    lines = join("arm", "post", cut("notched"), screws(1, length=2.5, from_="front"))
    (one,) = joined([arm, post], lines).driven
    assert passed(one) == [("arm", 0, 3.5), ("post", 3.5, 7)]


def test_a_nail_without_gauge_goes_like_a_screw() -> None:
    (one,) = joined(leg_and_rail(), join("leg", "rail", screws(1, "nails", length=5, gauge=None))).driven
    assert one.tip == pytest.approx(5 * INCH)


def rabbeted(length: float) -> list[str]:
    """A drawer side let into a rabbet at the end of the drawer's front, and what its brad passes."""
    parts = [
        board("front", (0, 0, 0), (28, 0.75, 6), "x", "y"),
        board("side", (0, 0.375, 0), (0.5, 16, 6), "y", "x"),
    ]
    piece = joined(
        parts, join("side", "front", cut("housed", 0.375)), join("side", "front", screws(1, length=length))
    )
    return [name for name, *_ in passed(piece.driven[0])] if piece.driven else []


def test_a_brad_into_a_rabbet_goes_through_the_cheek_not_along_the_side() -> None:
    """Guards: the usual drawer corner called driven from the wrong side, since its end's area is the larger."""
    assert rabbeted(1.25) == ["side", "front"]


def test_a_thousand_fasteners_between_two_boards_are_not_all_drawn() -> None:
    """Guards: a slip of the pen that keeps the audit busy for a minute."""
    parts = [board("lower", (0, 0, 0), (20, 3.5, 1.5)), board("upper", (0, 0, 1.5), (20, 3.5, 2.25))]
    piece = joined(parts, join("upper", "lower", screws(9999, length=1.5)))
    assert len(piece.driven) == 100
    first, second = piece.driven[0].spot[0], piece.driven[1].spot[0]
    assert (second - first) / INCH == pytest.approx(20 / 9999)  # where they would stand if all were there


def test_boards_drawn_in_one_place_do_not_keep_the_audit_busy() -> None:
    """Guards: two hundred boards in one place, each screwed to each."""
    parts = [board(f"board.{n}", (0, 0, 0), (20, 3.5, 1.5)) for n in range(1, 201)]
    piece = joined(parts, join("board", "board", screws(1, length=2)))
    assert len(piece.overlaps) == 1000  # the most that is looked at; the rest is told (test_cut_short)
    assert len(piece.driven) < 100
