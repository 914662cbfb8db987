"""Joints cut into parts: who keeps the wood, what the parts meet on, drawn depth beside the stated one."""

from __future__ import annotations

import pytest

from planlint.build.piece import Overlap, Part, Piece
from planlint.geometry.solid import Plane
from planlint.geometry.vector import WORLD, turn
from tests.build.joinery.workshop import INCH, at, board, cut, join, joined, near, passed, screws, slab

CUBIC = INCH**3


def only(piece: Piece) -> Overlap:
    (overlap,) = piece.overlaps
    return overlap


def shelf_in_side(deep: float = 0.375) -> list[Part]:
    return [
        board("side", (0, 0, 0), (0.75, 11.25, 36), "z", "x"),
        board("shelf", (0.75 - deep, 0, 10), (30, 11.25, 10.75)),
    ]


def rail_in_leg(deep: float = 1.5) -> list[Part]:
    """A rail 1 1/2 x 3 1/2 whose end stands `deep` in the right of a 3 1/2 leg."""
    return [
        board("leg", (0, 0, 0), (3.5, 3.5, 16.5), "z", "y"),
        board("rail", (3.5 - deep, 1, 12), (30, 2.5, 15.5), "x", "y"),
    ]


def test_a_housed_part_keeps_the_wood_and_the_depths_agree() -> None:
    # Guards: a dado called an overlap.
    piece = joined(shelf_in_side(), join("shelf", "side", cut("housed", 0.375)))
    overlap = only(piece)
    assert overlap.depth == pytest.approx(0.375 * INCH) == overlap.allowed
    assert overlap.fastening is not None and overlap.square_end_of_leaning is None
    (share,) = piece.shares
    assert share.keeper.name == "shelf"
    areas = sorted(patch.area / INCH**2 for patch in piece.meetings[0].patches)
    assert areas == pytest.approx([0.375 * 11.25, 0.375 * 11.25, 0.75 * 11.25])
    assert all(abs(p.normal[1]) < 0.5 for p in piece.meetings[0].patches)


def test_a_housing_drawn_deeper_than_stated_shows_both_depths() -> None:
    # Guards: any depth accepted because the joint is declared.
    overlap = only(joined(shelf_in_side(0.75), join("shelf", "side", cut("housed", 0.375))))
    assert overlap.depth == pytest.approx(0.75 * INCH)
    assert overlap.allowed == pytest.approx(0.375 * INCH)


def test_a_housing_that_is_not_drawn_has_depth_nought() -> None:
    # Guards: a declared housing passed over in silence because the parts only touch.
    overlap = only(joined(shelf_in_side(0), join("shelf", "side", cut("housed", 0.375))))
    assert (overlap.depth, overlap.solid) == (0, None)


def test_a_rabbet_may_be_measured_either_way() -> None:
    # Guards: a 1/4 back in a rabbet 3/8 deep flagged, because it could be pushed out 1/4 to the back.
    side = board("side", (0, 0, 0), (0.75, 11.25, 36), "z", "x")
    back = board("panel", (0.375, 11, 0), (30, 11.25, 36), "z", "y")
    for deep in (0.25, 0.375):
        overlap = only(joined([side, back], join("panel", "side", cut("housed", deep))))
        assert overlap.depth == pytest.approx(deep * INCH)


def test_a_notched_part_is_cut_round_the_other() -> None:
    # Guards: the post's wood given to the arm.
    arm = board("arm", (0, 0, 0), (20, 5.5, 0.75))
    post = board("post", (8, 3.5, -20), (11.5, 7, 10), "z", "y")
    piece = joined([arm, post], join("arm", "post", cut("notched")))
    assert piece.shares[0].keeper.name == "post"
    assert only(piece).allowed is None
    looks = sorted(p.normal for p in piece.meetings[0].patches)
    assert [tuple(round(x) for x in way) for way in looks] == [(-1, 0, 0), (0, 1, 0), (1, 0, 0)]


def test_a_tenon_is_only_its_block_and_the_shoulder_meets_the_leg() -> None:
    # Guards: the whole rail end counted as tenon; the shoulder called an overlap.
    tenon = cut("mortise-and-tenon", tenon=(0.5, 2.5, 1.5))
    piece = joined(rail_in_leg(), join("rail", "leg", tenon))
    whole, block = piece.shares
    assert (whole.keeper.name, block.keeper.name) == ("leg", "rail")
    assert block.solid.volume == pytest.approx(0.5 * 2.5 * 1.5 * CUBIC)
    assert near(block.solid.low, (2 * INCH, 1.5 * INCH, 12.5 * INCH))
    assert near(block.solid.high, (3.5 * INCH, 2 * INCH, 15 * INCH))
    overlap = only(piece)
    assert overlap.depth == pytest.approx(1.5 * INCH) == overlap.allowed
    shoulder = piece.meetings[0].patches[-1]
    assert shoulder.area == pytest.approx((1.5 * 3.5 - 0.5 * 2.5) * INCH**2)
    assert near(shoulder.normal, (-1, 0, 0))


def test_a_tenon_is_on_the_part_that_ends_there_whichever_is_named_first() -> None:
    # Guards: the leg given a tenon because a plan writes `leg to rail: mortise-and-tenon`.
    tenon = cut("mortise-and-tenon", tenon=(0.5, 2.5, 1.5))
    piece = joined(rail_in_leg(), join("leg", "rail", tenon))
    assert [share.keeper.name for share in piece.shares] == ["leg", "rail"]
    assert only(piece).depth == pytest.approx(1.5 * INCH)
    assert near(piece.meetings[0].patches[-1].normal, (1, 0, 0))  # looks from the leg into the rail


def test_the_wood_along_a_tenoned_end_goes_to_the_leg_outside_the_tenon() -> None:
    # Guards: wood passed beside a tenon counted as rail: it was sawn off.
    tenon = cut("mortise-and-tenon", tenon=(0.5, 2.5, 1.5))
    nails = screws(1, "nails", 4, None, "front", spots=at("top", 0.1))
    piece = joined(rail_in_leg(), join("rail", "leg", tenon), join("leg", "rail", nails))
    above = piece.driven[0]
    assert above.entry[2] / INCH == pytest.approx(14.9)
    assert passed(above) == [("leg", 0, 1.5), ("rail", 1.5, 2), ("leg", 2, 3.5)]


def test_a_tenon_drawn_too_long_shows_both_lengths() -> None:
    tenon = cut("mortise-and-tenon", tenon=(0.5, 2.5, 1.5))
    overlap = only(joined(rail_in_leg(2), join("rail", "leg", tenon)))
    assert overlap.depth == pytest.approx(2 * INCH)
    assert overlap.allowed == pytest.approx(1.5 * INCH)


def test_each_half_of_a_lap_goes_to_the_part_on_that_side() -> None:
    # Guards: both halves given to one part, or to the wrong one.
    low = board("low", (0, 0, 0), (20, 3.5, 1.5))
    high = board("high", (8, -8, 0.5), (11.5, 12, 2), "y")
    piece = joined([low, high], join("low", "high", cut("half-lap"), screws(1, length=1, from_="bottom")))
    upper, lower = piece.shares
    assert (upper.keeper.name, lower.keeper.name) == ("high", "low")
    assert upper.solid.volume == pytest.approx(lower.solid.volume) == pytest.approx(3.5 * 3.5 * 0.5 * CUBIC)
    assert passed(piece.driven[0]) == [("low", 0, 1), ("high", 1, 2)]


@pytest.mark.parametrize("side", ["bottom", "top"])
def test_a_flush_lap_gives_the_first_part_the_side_it_is_driven_from(side: str) -> None:
    # Guards: a screw through the first part's half called wrong because the halves were dealt the other way.
    one = board("one", (0, 0, 0), (20, 3.5, 1.5))
    two = board("two", (8, -8, 0), (11.5, 12, 1.5), "y")
    piece = joined([one, two], join("one", "two", cut("half-lap"), screws(1, length=1.25, from_=side)))
    assert piece.wrong_sides == []
    assert passed(piece.driven[0]) == [("one", 0, 0.75), ("two", 0.75, 1.5)]


def test_undeclared_space_is_an_overlap_with_the_least_push() -> None:
    # Guards: overlap measured by volume; the direction pointing into the wood.
    leg = board("leg", (0, 0, 0), (3.5, 3.5, 16.5), "z", "y")
    slat = board("slat", (3, 0, 10), (20, 3.5, 10.75))
    overlap = only(joined([leg, slat], join("slat", "leg", screws(1, length=2))))
    assert overlap.depth == pytest.approx(0.5 * INCH)
    assert near(overlap.push, (1, 0, 0))
    assert (overlap.allowed, overlap.join, overlap.square_end_of_leaning) == (0, None, None)


def test_nineteen_millimetres_for_three_quarters_is_still_a_contact() -> None:
    # Guards: 0.05 mm of rounding treated as a joint that shares space.
    slat = board("slat", (0, 0, 0.75 - 0.05 / INCH), (20, 3.5, 1.5))
    rail = board("rail", (0, 0, 0), (1.5, 20, 0.75), "y")
    piece = joined([slat, rail], join("slat", "rail", screws(1, length=1.25)))
    assert piece.meetings[0].share is None
    assert piece.overlaps[0].depth == pytest.approx(0.05)
    assert [p[0] for p in passed(piece.driven[0])] == ["slat", "rail"]


def leaning_post(sunk: float, bevelled: bool = False) -> list[Part]:
    """A 2x4 post leaning 12 deg whose lowest edge stands `sunk` mm below a floor board's top."""
    x, y, z = (turn(way, WORLD[0], -12) for way in WORLD)
    length, wide, thick = 500.0, 1.5 * INCH, 3.5 * INCH
    lowest = max(abs(z[2] * length / 2) + abs(y[2] * wide / 2), 0.0)
    cuts = (Plane((0.0, 0.0, -1.0), 0.0),) if bevelled else ()
    centre = (0.0, 0.0, lowest - sunk)
    return [
        board("sill", (-10, -10, -2), (10, 10, 0)),
        slab("post", centre, (z, x, y), (length, thick, wide), None, cuts),
    ]


def test_a_square_end_that_digs_in_with_its_edge_is_recognised() -> None:
    # Guards: 'shorten the part' said where the end wants a bevel: 1 1/2 in at 12 deg digs in 0.31 in.
    digs = 1.5 * INCH * 0.20791
    overlap = only(joined(leaning_post(digs)))
    assert overlap.depth == pytest.approx(digs, abs=0.01)
    assert overlap.square_end_of_leaning is not None and overlap.square_end_of_leaning.name == "post"


def test_a_leaning_end_sunk_deeper_than_its_bevel_is_a_plain_overlap() -> None:
    assert only(joined(leaning_post(1.5 * INCH * 0.20791 + 5))).square_end_of_leaning is None


def test_a_bevelled_end_stands_on_its_face() -> None:
    piece = joined(leaning_post(3.0, bevelled=True), join("post", "sill", cut("glue")))
    assert piece.overlaps == []
    assert len(piece.meetings) == 1


def test_boards_side_by_side_are_no_square_end() -> None:
    # Guards: the ends of two boards that overlap along their edges taken for feet that dig in.
    one = board("one", (0, 0, 0), (20, 3.5, 0.75))
    two = board("two", (0, 3, 0), (20, 6.5, 0.75))
    assert only(joined([one, two])).square_end_of_leaning is None


@pytest.mark.parametrize(
    ("stated", "drawn"), [(0.9, 0.9), (1.0, 1.0), (1.2, 1.2), (1.5, 1.222), (0.5, 0.849)]
)
def test_a_leaning_tenon_may_be_measured_on_its_long_or_its_short_side(stated: float, drawn: float) -> None:
    """Guards: a leg cut level in its seat called too deep by the slant of its end, and a wrong depth let pass.

    A leg 1 in thick, leaning 15 deg, reaches 1 in up into the seat: 1 / cos 15 = 1.035 along its middle, and
    half its end's slant 1 x tan 15 = 0.268 more or less on its sides (of which the entry has as much: 0.187 at most).
    """
    x, y, z = (turn(way, WORLD[0], -15) for way in WORLD)
    ends = (Plane((0.0, 0.0, 1.0), 1.0 * INCH),)
    leg = slab("leg", (0.0, 0.0, 0.0), (z, x, y), (200.0, INCH, INCH), None, ends)
    seat = board("seat", (-6, -6, 0), (6, 6, 2))
    overlap = only(joined([seat, leg], join("leg", "seat", cut("mortise-and-tenon", None, (1, 1, stated)))))
    assert overlap.depth / INCH == pytest.approx(drawn, abs=0.1)


def test_a_slat_has_no_rail_under_it_where_the_rail_is_tenoned_into_the_leg() -> None:
    """Guards: a slat's screw drawn through the leg beside the tenon, into wood that the joint took away."""
    parts = [
        *rail_in_leg(),
        board("slat", (1, -1, 15.5), (4.5, 5, 16.25), "y", "z"),
    ]
    piece = joined(
        parts,
        join("rail", "leg", cut("mortise-and-tenon", None, (0.5, 2, 1.5))),
        join("slat", "rail", screws(1, length=2)),
    )
    (screw,) = piece.driven
    assert screw.spot[0] / INCH == pytest.approx(
        4.0
    )  # between the shoulder at 3 1/2 and the slat's edge at 4 1/2
    assert [name for name, *_ in passed(screw)] == ["slat", "rail"]
