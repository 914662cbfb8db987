# ruff: noqa: E501 (an entry of a plan stays on one line)
"""Positions: one clause a direction, worked out in any order; what is missing, circular or unknown is told once."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.order import in_order
from tests.build.placing import INCH, box, part, place, troubles

FRAME = """parts
  leg: 4 of 4x4 @ 16 1/2
  rail: 2 of 2x4 @ 41
  slat: 1 of 2x4 @ 48
place
"""
LEG = """  leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, left at 0, front at 0, bottom at 0,
    mirrored left-right about 24 and front-back about 7 3/4
"""
RAIL = """  rail as front-rail, back-rail: runs left-right, face front, between leg-fl and leg-fr,
    front at front of leg-fl + 1, top at top of leg-fl, mirrored front-back about 7 3/4
"""
SLAT = "  slat: runs left-right, face top, middle left-right at 24, front at back of front-rail - 1/4, bottom at top of leg\n"


def test_the_bench_stands_where_its_drawing_says() -> None:
    piece = place(FRAME + LEG + RAIL + SLAT)
    assert box(piece, "leg-br") == ((44.5, 48), (12, 15.5), (0, 16.5))
    assert box(piece, "back-rail") == ((3.5, 44.5), (13, 14.5), (13, 16.5))
    assert box(piece, "slat") == ((0, 48), (2.25, 5.75), (16.5, 18))
    assert not piece.troubles and not piece.unplaced_names


@given(st.permutations([LEG, RAIL, SLAT]))
@settings(max_examples=6)
def test_the_order_of_the_entries_does_not_matter(entries: list[str]) -> None:
    piece, same = place(FRAME + LEG + RAIL + SLAT), place(FRAME + "".join(entries))
    assert {p.name: box(same, p.name) for p in same.parts} == {
        p.name: box(piece, p.name) for p in piece.parts
    }


@given(st.integers(-900, 900), st.integers(-900, 900), st.integers(-900, 900))
@settings(max_examples=20)
def test_moving_the_first_part_moves_all_that_hang_on_it(x: int, y: int, z: int) -> None:
    text = "parts\n  a: 1 of 2x4 @ 20\n  b: 1 of 2x4 @ 9\nplace\n"
    text += "  b: runs front-back, face left, front at front of a - 2, top at bottom of a, middle left-right at left of a + 1\n"
    text += f"  a: runs left-right, face front, left at {x} mm, front at {y} mm, bottom at {z} mm\n"
    b = part(place(text), "b").solid
    assert b.low == pytest.approx((x + INCH / 4, y - 2 * INCH, z - 3.5 * INCH))


def test_a_chain_longer_than_the_stack_costs_no_more_than_its_length() -> None:
    rows = ["  a as a0: runs up, left at 0, front at 0, bottom at 0\n"]
    rows += [
        f"  a as a{i}: runs up, left at right of a{i - 1}, front at 0, bottom at 0\n" for i in range(1, 1500)
    ]
    text = "parts\n  a: 1500 of 1 in round @ 2\nplace\n"
    from planlint.build.piece import Piece
    from planlint.build.place import place_parts
    from planlint.read.reader import read
    from planlint.source import Source

    def seconds(number: int) -> float:
        plan, _ = read(Source('plan "T"\n  units in\n' + text + "".join(reversed(rows[:number]))))
        start = time.perf_counter()
        piece = Piece(plan)
        place_parts(plan, piece)
        assert len(piece.parts) == number
        assert max(p.solid.high[0] for p in piece.parts) == pytest.approx(number * INCH)
        return time.perf_counter() - start

    small = seconds(300)
    assert seconds(1500) < 15 * small  # 5 times as many; a square law would be 25 times


@given(st.dictionaries(st.integers(0, 12), st.lists(st.integers(0, 12), max_size=4), max_size=12))
def test_every_node_comes_after_its_needs_unless_they_ring(needs: dict[int, list[int]]) -> None:
    order, rings = in_order(needs)
    assert sorted(order) == sorted(needs)
    for ring in rings:
        for node, following in zip(ring, [*ring[1:], ring[0]], strict=True):
            assert following in needs[node]
    if not rings:
        place_of = {node: i for i, node in enumerate(order)}
        assert all(
            place_of[other] < place_of[node] for node in needs for other in needs[node] if other in needs
        )


def test_a_direction_without_a_clause_is_missing_and_two_are_proposed() -> None:
    piece = place(
        FRAME + LEG + "  rail: runs left-right, face front, between leg-fl and leg-fr, front at 1\n"
    )
    (trouble,) = troubles(piece, "position-missing")
    assert trouble.values["part"] == "rail" and trouble.values["direction"] == "up"
    assert trouble.values["proposal"] == "top at top of leg-fl"
    assert trouble.values["other_proposal"] == "bottom at bottom of leg-fl"
    assert piece.unplaced_names == {"rail": "nothing fixes its place up"}


def test_what_is_measured_from_a_lost_part_is_lost_without_a_trouble_of_its_own() -> None:
    text = FRAME + "  leg: runs up, left at 0, front at 0\n"
    text += "  rail: runs left-right, face front, left at 0, front at 0, bottom at top of leg\n"
    text += "  slat: runs left-right, face top, left at 0, front at 0, bottom at top of rail\n"
    piece = place(text)
    (trouble,) = troubles(piece, "position-missing")
    assert set(trouble.values["parts"]) == {"leg", "rail", "slat"}  # type: ignore[call-overload]
    assert piece.unplaced_names["rail"] == "it is measured from leg, which has no place"
    assert not piece.parts


def test_a_part_lost_in_one_direction_still_holds_others_in_the_rest() -> None:
    text = FRAME + "  leg: runs up, left at 0, front at 0\n"
    text += "  rail: runs left-right, face front, left at right of leg, front at 0, bottom at 3\n"
    assert box(place(text), "rail")[0] == (3.5, 44.5)


def test_each_ring_is_one_trouble_and_shows_itself() -> None:
    text = FRAME + "  leg: runs up, left at right of rail, front at 0, bottom at 0\n"
    text += "  rail: runs left-right, face front, left at right of leg, front at 0, bottom at 0\n"
    text += "  slat: runs left-right, face top, left at 0, front at back of rail, bottom at right of slat\n"
    piece = place(text.replace("bottom at right of slat", "bottom at top of slat"))
    rings = {str(trouble.values["ring"]) for trouble in troubles(piece, "position-circular")}
    assert len(rings) == 2 and "slat -> slat" in rings
    assert rings & {"leg -> rail -> leg", "rail -> leg -> rail"}


def test_mutual_positions_on_different_directions_are_no_ring() -> None:
    text = FRAME + "  leg: runs up, left at 0, front at back of rail, bottom at 0\n"
    text += "  rail: runs left-right, face front, left at right of leg, front at 0, bottom at 0\n"
    piece = place(text)
    assert not piece.troubles and box(piece, "leg")[1] == (1.5, 5)


def test_an_unknown_name_is_told_at_each_place_with_the_nearest() -> None:
    """A mend of the first place alone would leave the others wrong."""
    text = (
        FRAME
        + LEG
        + "  rail as front-rail: runs left-right, face front, left at 0, front at 0, top at top of leg-fl\n"
    )
    text += "  slat: runs left-right, face top, left at left of frnt-rail, front at front of frnt-rail, bottom at 0\n"
    head = 'plan "T"\n  units in\n'
    told = troubles(place(text, head), "unknown-name")
    assert [(head + text)[one.span.start : one.span.end] for one in told] == ["frnt-rail", "frnt-rail"]
    for trouble in told:
        assert trouble.values == {"name": "frnt-rail", "what": "part", "nearest": "front-rail"}


def test_a_name_on_an_unreadable_line_is_not_unknown_too() -> None:
    from planlint.build.piece import Piece
    from planlint.build.place import place_parts
    from planlint.read.reader import read
    from planlint.source import Source

    text = 'plan "T"\n  units in\nparts\n  leg: 1 of 4x4 16\n  rail: 1 of 2x4 @ 20\nplace\n'
    text += "  leg: runs up, left at 0, front at 0, bottom at 0\n"
    text += "  rail: runs left-right, face front, left at right of leg, front at 0, bottom at 0\n"
    plan, unread = read(Source(text))
    piece = Piece(plan)
    place_parts(plan, piece)
    assert unread and not piece.troubles


def test_the_number_past_a_row_is_unknown() -> None:
    text = (
        FRAME
        + "  slat: row of 4 front-back gap 1, runs left-right, face top, left at 0, front at 0, bottom at 0\n"
    )
    text += (
        "  rail: runs left-right, face front, left at left of slat.5, front at back of slat.4, bottom at 0\n"
    )
    (trouble,) = troubles(place(text), "unknown-name")
    assert trouble.values["name"] == "slat.5"


def test_pieces_of_one_name_must_agree_on_what_is_asked() -> None:
    """`top of leg` is one height for four legs, `right of leg` is two places."""
    text = (
        FRAME
        + LEG
        + "  slat: runs left-right, face top, left at right of leg, front at 0, bottom at top of leg\n"
    )
    piece = place(text)
    (trouble,) = troubles(piece, "unknown-name")
    assert trouble.values["what"] == "single piece" and trouble.values["nearest"] == "leg-fl"
    assert "slat" in piece.unplaced_names


def test_a_side_of_another_direction_is_the_wrong_kind() -> None:
    text = (
        FRAME + LEG + "  slat: runs left-right, face top, left at front of leg-fl, front at 0, bottom at 0\n"
    )
    (trouble,) = troubles(place(text), "wrong-kind-of-unit")
    assert (
        trouble.values["written"] == "front of leg-fl" and trouble.values["expected"] == "a place left-right"
    )


def test_a_second_clause_on_a_direction_checks_the_size() -> None:
    piece = place(
        FRAME + "  rail: runs left-right, face front, left at 0, right at 40 1/2, front at 0, bottom at 0\n"
    )
    (fit,) = piece.fits
    assert (fit.size / INCH, fit.opening / INCH) == pytest.approx((41, 40.5))
    assert box(piece, "rail")[0] == (0, 41)  # built as cut, from the first


def test_a_second_clause_about_the_middle_counts_twice() -> None:
    piece = place(
        FRAME
        + "  rail: runs left-right, face front, left at 0, middle left-right at 20, front at 0, bottom at 0\n"
    )
    assert piece.fits[0].opening / INCH == pytest.approx(40)  # from 0 to 2 x 20


def test_a_name_given_twice_in_one_scope_is_told() -> None:
    text = FRAME + "  leg as a: runs up, left at 0, front at 0, bottom at 0\n"
    text += "  rail as a: runs left-right, face front, left at 0, front at 0, bottom at 0\n"
    (trouble,) = troubles(place(text), "name-twice")
    assert trouble.values["name"] == "a"


def test_a_part_named_as_its_entry_is_not_named_twice() -> None:
    assert not place(FRAME + "  leg as leg: runs up, left at 0, front at 0, bottom at 0\n").troubles


def test_a_square_part_needs_no_face_and_a_flat_one_does() -> None:
    piece = place(
        FRAME
        + "  leg: runs up, left at 0, front at 0, bottom at 0\n  rail: runs up, left at 9, front at 0, bottom at 0\n"
    )
    (trouble,) = troubles(piece, "position-missing")
    assert trouble.values["part"] == "rail" and trouble.values["direction"] == "its wide face"
    assert trouble.values["proposal"] == "face left"


def test_runs_and_face_may_stand_in_the_cut_list() -> None:
    text = "parts\n  side: 2 of 3/4 x 11 1/4 @ 36, runs up, face left\nplace\n  side: left at 0, front at 0, bottom at 0\n"
    assert box(place(text), "side") == ((0, 0.75), (0, 11.25), (0, 36))


def test_counts_are_of_what_the_plan_places_even_when_lost() -> None:
    piece = place(FRAME + LEG + "  rail: runs left-right, face front, left at 0\n")
    assert {one.entry.name: one.placed for one in piece.listed} == {"leg": 4, "rail": 1, "slat": 0}


def test_a_piece_called_like_an_entry_that_is_placed_nowhere_is_told() -> None:
    """A join that names the entry would mean the piece."""
    text = FRAME + "  leg as rail: runs up, left at 0, front at 0, bottom at 0\n"
    piece = place(text)
    (trouble,) = troubles(piece, "name-twice")
    assert trouble.values["first"] == next(one.name_span for one in piece.plan.parts if one.name == "rail")


def test_a_piece_may_be_called_like_an_entry_placed_on_another_bench() -> None:
    text = (
        FRAME.replace("place\n", "place in end\n")
        + "  rail: runs left-right, face front, left at 0, front at 0, bottom at 0\n"
    )
    text += "place\n  end: left at 0, front at 0, bottom at 0\n  leg as rail: runs up, left at 30, front at 0, bottom at 0\n"
    assert not troubles(place(text), "name-twice")


def test_a_sub_assembly_called_like_a_part_is_told_with_all_that_stands_on_it() -> None:
    text = (
        FRAME.replace("place\n", "place in leg\n")
        + "  rail: runs left-right, face front, left at 0, front at 0, bottom at 0\n"
    )
    piece = place(text)
    (trouble,) = troubles(piece, "name-twice")
    assert trouble.values["parts"] == ("leg", "rail")
    assert trouble.span == piece.plan.placements[0].assembly.span  # type: ignore[union-attr]
