"""Facts of fasteners in hand-worked plans. Sums are in inches; D of a gauge screw is 0.060 + 0.013 N."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.build import build
from planlint.build.piece import Piece
from planlint.geometry.vector import Vec, cross, unit
from planlint.observe import fastener
from planlint.observe.facts import Facts, Missing, Row
from planlint.observe.picture import ScrewPicture
from planlint.read.reader import read
from planlint.source import Source
from tests.build.joinery.workshop import AXES, board, carried, cut, join, joined, screws

INCH = 25.4


def facts_of(piece: Piece) -> Facts:
    facts = Facts()
    fastener.observe(piece, facts)
    return facts


def facts(text: str) -> Facts:
    plan, unread = read(Source(text))
    assert not unread
    return facts_of(build(plan))


def rows(text: str, table: str = "fastener") -> list[Row]:
    return facts(text).rows[table]


def inches(row: Row, column: str) -> float:
    value = row.values[column]
    assert isinstance(value, float), value
    return value / INCH


def two(screw: str, upper: str = "3/4", lower: str = "3/4", more: str = "", head: str = "") -> str:
    """A board on a board, face to face, 24 long and 3 1/2 wide; the screw through the upper one."""
    return f"""\
plan "Two boards"
  wood pine
{head}
parts
  upper: 1 of {upper} x 3 1/2 @ 24
  lower: 1 of {lower} x 3 1/2 @ 24
place
  lower: runs left-right, face top, left at 0, front at 0, bottom at 0
  upper: runs left-right, face top, left at 0, front at 0, bottom at top of lower
step
  upper to lower: {screw}
{more}"""


LEG = """\
plan "Leg and rail"
  wood douglas-fir
buy
  25 wood-screws #10 x 3 in
parts
  leg:  1 of 4x4 @ 16 1/2
  rail: 1 of 2x4 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of leg, front at front of leg + 1, top at top of leg
step
  leg to rail: 2 wood-screws #10 x 3 in counterbored 1 x 1 in and glue
"""


def test_a_counterbored_screw_counts_its_counterbore_once() -> None:
    row = rows(LEG)[0]
    assert inches(row, "through") == pytest.approx(3.5)
    assert inches(row, "held") == pytest.approx(3.5 - 1)
    assert inches(row, "embedment") == pytest.approx(1 + 3 - 3.5)  # 12.7 mm
    assert inches(row, "receiving_depth") == pytest.approx(24)
    assert inches(row, "diameter") == pytest.approx(0.19)
    assert row.values["grain_angle"] == pytest.approx(0)  # into the rail's end


def test_a_length_is_mended_together_with_its_buy_line() -> None:
    row = rows(LEG)[0]
    assert {name: LEG[span.start : span.end] for name, span in row.spans.items()} == {
        "length": "3 in",
        "bought_length": "3 in",
        "counterbore_depth": "1 in",
        "counterbore_width": "1",
    }
    assert row.spans["bought_length"].start == LEG.index("3 in")


def test_a_buy_line_of_another_finish_is_not_changed() -> None:
    bought = "buy\n  9 wood-screws #8 x 1 in zinc\n  9 wood-screws #8 x 1 in stainless"
    named = rows(two("4 wood-screws #8 x 1 in stainless", head=bought))[0]
    unnamed = rows(two("4 wood-screws #8 x 1 in", head=bought))[0]
    text = two("4 wood-screws #8 x 1 in stainless", head=bought)
    assert text[: named.spans["bought_length"].start].endswith("zinc\n  9 wood-screws #8 x ")
    assert "bought_length" not in unnamed.spans


def test_every_placed_row_has_its_picture_with_the_receiver() -> None:
    row = rows(LEG)[0]
    assert isinstance(row.picture, ScrewPicture)
    assert row.picture.seat == pytest.approx(INCH)
    assert row.picture.passages[row.picture.receiver or 0][0] == "rail"


def test_a_pocket_screw_is_measured_from_its_seat_along_its_slope() -> None:
    text = """\
plan "Face frame"
parts
  stile: 1 of 3/4 x 3 1/2 @ 24
  rail:  1 of 3/4 x 3 1/2 @ 16
place
  stile: runs up, face front, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of stile, front at 0, top at top of stile
step
  rail to stile: 2 pocket-screws #8 x 1 1/4 in from back
"""
    row = rows(text)[0]
    assert inches(row, "held") == pytest.approx(0.9 * 0.75)
    assert inches(row, "embedment") == pytest.approx(1.25 - 0.675)
    assert row.values["slope"] == pytest.approx(15)
    assert inches(row, "receiver_thickness") == pytest.approx(3.5)
    assert inches(row, "side_room") == pytest.approx(0.375)
    side = 0.375 - 0.575 * math.sin(math.radians(15))
    assert inches(row, "cover") == pytest.approx(side)  # 0.226, the flush edge's side
    assert row.values["cover_side"] == "front"


def test_the_plate_of_a_figure_8_is_held_and_no_wood() -> None:
    text = """\
plan "Top"
parts
  top:   1 of 3/4 x 9 1/4 @ 24
  apron: 1 of 3/4 x 3 1/2 @ 24
place
  apron: runs left-right, face front, left at 0, front at 1, bottom at 0
  top: runs left-right, face top, left at 0, front at 0, bottom at top of apron
step
  top to apron: 3 figure-8 #8 x 3/4 in
"""
    found = rows(text)
    assert {row.values["into"] for row in found} == {"top", "apron"}
    for row in found:
        assert inches(row, "held") == pytest.approx(1 / 8)
        assert inches(row, "embedment") == pytest.approx(3 / 4 - 1 / 8)
        assert row.values["holds"] == "light"
    into_top = next(row for row in found if row.values["into"] == "top")
    assert inches(into_top, "cover") == pytest.approx(3 / 4 - 5 / 8)


THREE = """\
plan "Three boards"
parts
  board: 3 of 3/4 x 3 1/2 @ 24
place
  board as low: runs left-right, face top, left at 0, front at 0, bottom at 0
  board as mid: runs left-right, face top, left at 0, front at 0, bottom at top of low
  board as high: runs left-right, face top, left at 0, front at 0, bottom at top of mid
step
  mid to low: {how}
  high to mid: 4 wood-screws #8 x 1 1/4 in
"""


@pytest.mark.parametrize(("how", "deep"), [("glue", 1.5), ("2 wood-screws #8 x 1 1/4 in", 0.75)])
def test_only_what_is_glued_on_counts_as_one_part(how: str, deep: float) -> None:
    row = rows(THREE.format(how=how))[-1]
    assert inches(row, "receiving_depth") == pytest.approx(deep)
    assert inches(row, "wood_ahead") == pytest.approx(1.5)


def test_glue_on_end_grain_makes_nothing_one() -> None:
    """A rail glued to a leg with its end: a screw through the leg's other side holds in the leg alone."""
    text = LEG.replace(
        "leg to rail: 2 wood-screws #10 x 3 in counterbored 1 x 1 in and glue", "leg to rail: glue"
    )
    text = text.replace("  rail: 1 of", "  cleat: 1 of 3/4 x 3 1/2 @ 8\n  rail: 1 of")
    text = text.replace(
        "\nstep", "\n  cleat: runs up, face left, right at 0, front at 0, bottom at 8 1/2\nstep"
    )
    row = rows(text + "  cleat to leg: 2 wood-screws #8 x 2 in\n")[-1]  # the upper one, level with the rail
    assert inches(row, "receiving_depth") == pytest.approx(3.5)
    assert inches(row, "wood_ahead") == pytest.approx(3.5 + 24)


def test_a_tip_in_a_third_part_is_covered_by_it() -> None:
    row = rows(THREE.format(how="glue").replace("1 1/4 in", "1 3/4 in"))[-1]
    assert inches(row, "cover") == pytest.approx(3 * 0.75 - 1.75)
    assert row.values["cover_part"] == "low"


def test_a_tip_level_with_the_face_has_no_cover() -> None:
    assert inches(rows(two("4 wood-screws #8 x 1 1/2 in"))[0], "cover") == pytest.approx(0)


@pytest.mark.parametrize(("seen", "is_seen"), [("bottom", True), ("front, top", False)])
def test_a_face_is_seen_only_from_the_sides_people_look_at(seen: str, is_seen: bool) -> None:
    row = rows(two("4 wood-screws #8 x 1 1/4 in", head=f"  seen {seen}"))[0]
    assert (row.values["cover_side"], row.values["cover_seen"]) == ("bottom", is_seen)


def test_a_face_behind_another_part_is_not_seen() -> None:
    panel = two("4 wood-screws #8 x 1 1/4 in", head="  seen bottom")
    panel = panel.replace("  upper: 1", "  skirt: 1 of 3/4 x 3 1/2 @ 24\n  upper: 1")
    panel = panel.replace(
        "bottom at 0\n",
        "bottom at 10\n  skirt: runs left-right, face top, left at 0, front at 0, bottom at 0\n",
        1,
    )
    assert rows(panel)[0].values["cover_seen"] is False


def test_the_sides_of_a_part_count_only_where_the_place_is_stated() -> None:
    """The lower board is narrow: 1/2 wide, so even its middle is 1/4 from its sides; cover ahead is 3/4."""
    free = two("2 wood-screws #8 x 1 1/2 in", lower="1 1/2").replace("1 of 1 1/2 x 3 1/2", "1 of 1 1/2 x 1/2")
    free = free.replace("lower: runs left-right, face top", "lower: runs left-right, face front")
    stated = free.replace("1 1/2 in\n", "1 1/2 in at 3 from each end\n")
    assert inches(rows(free)[0], "cover") == pytest.approx(0.75 + 1.5 - 1.5)
    assert inches(rows(stated)[0], "cover") == pytest.approx(0.25)


def test_a_screw_through_a_half_lap_passes_half_of_each() -> None:
    text = """\
plan "Lap"
parts
  bar: 2 of 1 1/2 x 3 1/2 @ 24
place
  bar as one: runs left-right, face top, left at 0, front at 10, bottom at 0
  bar as other: runs front-back, face top, left at 10, front at 0, bottom at 0
step
  other to one: half-lap and 2 wood-screws #8 x 1 1/4 in from top
"""
    row = rows(text)[0]
    assert inches(row, "through") == pytest.approx(0.75)
    assert inches(row, "embedment") == pytest.approx(0.5)
    assert inches(row, "receiving_depth") == pytest.approx(0.75)


def test_plywood_has_an_edge_and_no_end_grain() -> None:
    text = two("4 wood-screws #8 x 2 in", head="").replace(
        "3 1/2 @ 24\nplace", "11 @ 24 birch-plywood\nplace"
    )
    text = text.replace("lower: runs left-right, face top", "lower: runs up, face front")
    row = rows(text)[0]
    assert row.values["sheet_edge"] is True
    assert row.values["grain_angle"] == 90.0


def test_without_a_length_nothing_is_guessed() -> None:
    row = rows(two("4 wood-screws #8"))[0]
    for column in ("length", "embedment", "cover"):
        value = row.values[column]
        assert isinstance(value, Missing)
        assert value.reason == "the plan gives no length for these wood-screws"
    assert inches(row, "through") == pytest.approx(0.75)


# --- nothing is placed ---------------------------------------------------------------------------


def listed(step: str) -> str:
    return f"""\
plan "List"
parts
  side:  1 of 3/4 x 11 1/4 @ 30
  shelf: 1 of 1 1/2 x 11 1/4 @ 24
step
  side to shelf: {step}
"""


def test_a_cut_list_that_says_through_knows_the_embedment_and_the_least_depth() -> None:
    row = rows(listed("4 wood-screws #8 x 2 in through 3/4 counterbored 3/8 x 1/4 in"))[0]
    assert inches(row, "held") == pytest.approx(3 / 4 - 1 / 4)
    assert inches(row, "embedment") == pytest.approx(2 + 1 / 4 - 3 / 4)
    assert inches(row, "receiving_depth") == pytest.approx(1.5)
    assert isinstance(row.values["cover"], Missing)
    assert row.values["placed"] is False


def test_a_cut_list_without_through_does_not_know_the_embedment() -> None:
    value = rows(listed("4 wood-screws #8 x 2 in"))[0].values["embedment"]
    assert isinstance(value, Missing)
    assert value.reason == "the plan does not say how much of side the wood-screws pass"


def test_a_pocket_screw_of_a_cut_list_is_measured_by_the_thickness() -> None:
    row = rows(listed("4 pocket-screws #8 x 1 1/4 in"))[0]
    assert inches(row, "embedment") == pytest.approx(1.25 - 0.9 * 0.75)


def test_what_needs_places_is_a_gap_and_not_passed() -> None:
    gaps = facts(listed("4 wood-screws #8 x 2 in")).gaps
    assert {gap.table for gap in gaps} == {"fastener_edge", "fastener_pair", "wrong_side"}
    assert {gap.reason for gap in gaps} == {"nothing is placed"}


# --- loads ---------------------------------------------------------------------------------------

FRAME = """\
plan "Frame"
parts
  post: 2 of 4x4 @ 30
  rail: 1 of 2x4 @ 36
  slat: 1 of 3/4 x 3 1/2 @ 12
place
  post as post-l, post-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about 18
  rail: {rail}
  slat: runs front-back, face top, left at 16, centred front-back on rail, bottom at top of rail
step
  rail to post: {how}2 wood-screws #10 x 3 in
  slat to rail: 1 wood-screws #8 x 1 1/2 in
{load}"""
BESIDE = "runs left-right, face front, left at 0, back at front of post-l, top at top of post-l"
ON_TOP = "runs left-right, face top, left at 0, front at 0, bottom at top of post-l"


def loaded(rail: str, load: str, how: str = "") -> dict[str, object]:
    found = rows(FRAME.format(rail=rail, load=load and f"load\n  {load}\n", how=how))
    return {str(row.values["pair"]): row.values["carries_load"] for row in found}


def test_a_load_hangs_on_the_screws_of_a_rail_beside_its_posts() -> None:
    assert loaded(BESIDE, "slat: 1 person") == {
        "post-l + rail": True,
        "post-r + rail": True,
        "rail + slat": False,  # the slat lies on the rail
    }


def test_a_load_passes_by_bearing_where_the_rail_lies_on_its_posts() -> None:
    assert not any(loaded(ON_TOP, "slat: 1 person").values())


def test_a_load_on_a_post_does_not_climb_into_the_rail() -> None:
    assert not any(loaded(BESIDE, "post-l: 1 person").values())


def test_without_a_load_it_is_not_known_what_the_screws_carry() -> None:
    assert all(isinstance(value, Missing) for value in loaded(BESIDE, "").values())


def test_a_housing_bears_whatever_line_its_screws_stand_in() -> None:
    parts = [
        board("side-l", (0, 0, 0), (0.75, 11, 30), runs="z", face="x"),
        board("side-r", (23.625, 0, 0), (24.375, 11, 30), runs="z", face="x"),
        board("shelf", (0.375, 0, 15), (23.625, 11, 15.75), runs="x", face="z"),
    ]
    plan, _ = read(Source('plan "Shelf"\nload\n  shelf: 40 kg spread\n'))
    lines = [join("shelf", "side-l", cut("housed", 0.375))]
    lines += [join(side, "shelf", screws(2, length=2)) for side in ("side-l", "side-r")]
    found = facts_of(joined(parts, *lines, plan=plan)).rows["fastener"]
    carries = {row.values["first"]: row.values["carries_load"] for row in found}
    assert carries == {"side-l": False, "side-r": True}


# --- edges ---------------------------------------------------------------------------------------


def measured(text: str) -> dict[tuple[str, str], float]:
    return {
        (str(row.values["part"]), str(row.values["measure"])): inches(row, "distance")
        for row in rows(text, "fastener_edge")
    }


def test_distances_of_stated_places_are_taken_as_they_are() -> None:
    found = measured(two("2 deck-screws #8 x 1 1/4 in at 1/4 from each end"))
    assert found["upper", "end"] == pytest.approx(0.25)
    assert found["upper", "edge"] == pytest.approx(1.75)
    assert found["lower", "row"] == pytest.approx(24 - 0.5)


def test_two_in_a_small_end_cannot_both_be_in_its_middle() -> None:
    text = """\
plan "Bar"
parts
  side: 1 of 3/4 x 3 1/2 @ 24
  bar:  1 of 3/4 x 3/4 @ 16
place
  side: runs up, face left, left at 0, front at 0, bottom at 0
  bar: runs left-right, left at right of side, front at 1, bottom at 12
step
  side to bar: {n} wood-screws #8 x 2 1/2 in
"""
    assert measured(text.format(n=2))["bar", "edge"] == pytest.approx(3 / 16)
    assert measured(text.format(n=1))["bar", "edge"] == pytest.approx(3 / 8)


def test_open_places_are_judged_by_their_best_spread() -> None:
    """Four on a 3 1/2 x 3 1/2 area: across the grain of one board none is in a row along it, and all four are
    1 3/4 from its edges in the other spread.
    """
    text = two("4 wood-screws #8 x 1 1/4 in").replace("lower: runs left-right", "lower: runs front-back")
    found = measured(text)
    assert ("upper", "row") not in found
    assert found["upper", "edge"] == pytest.approx(1.75)
    assert found["upper", "end"] == pytest.approx(1.75)


def test_a_shaped_part_has_no_known_edges() -> None:
    text = two("4 wood-screws #8 x 1 1/4 in").replace(
        "upper: 1 of 3/4 x 3 1/2 @ 24", "upper: 1 of 3/4 x 3 1/2 @ 24, shaped"
    )
    found = [row.values["distance"] for row in rows(text, "fastener_edge") if row.values["part"] == "upper"]
    assert found and all(isinstance(value, Missing) for value in found)


# --- fasteners near each other -------------------------------------------------------------------

CORNER = """\
plan "Corner"
parts
  leg:        1 of 4x4 @ 16 1/2
  front-rail: 1 of 2x4 @ 24
  side-rail:  1 of 2x4 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  front-rail: runs left-right, face front, left at right of leg, front at front of leg + 1, top at top of leg
  side-rail: runs front-back, face left, left at left of leg + 1, front at back of leg, top at top of leg
step
  leg to front-rail: 2 wood-screws #10 x 4 in counterbored 1 x 1 in{0}
  leg to side-rail: 2 wood-screws #10 x 4 in counterbored 1 x 1 in{1}
"""


def test_even_spread_from_two_faces_meets_and_can_be_shifted() -> None:
    found = rows(CORNER.format("", ""), "fastener_pair")
    assert sorted(round(inches(row, "lower_at"), 3) for row in found) == [0.875, 2.625]
    for row in found:
        assert inches(row, "distance") == pytest.approx(0)
        assert inches(row, "radii") == pytest.approx(0.19)
        assert row.values["lower_free"] is row.values["upper_free"] is True
        assert inches(row, "lower_margin") == inches(row, "upper_margin") == pytest.approx(0.875)
        assert row.values["part"] == "leg"


def test_stated_places_cannot_be_shifted() -> None:
    found = rows(CORNER.format(" at 1 and 2 1/2 from top", " at 1 and 2 1/2 from top"), "fastener_pair")
    assert found and not any(row.values["lower_free"] or row.values["upper_free"] for row in found)


def test_the_sweep_misses_no_two_that_come_close() -> None:
    """All heights of the second screw against the first: those within a diameter are rows."""
    for sixteenths in range(8, 44):
        at = f" at {sixteenths}/16 from top"
        text = CORNER.format(" at 1 from top", at).replace("2 wood-screws", "1 wood-screws")
        gap = abs(sixteenths / 16 - 1)
        found = [inches(row, "distance") for row in rows(text, "fastener_pair")]
        assert found == ([pytest.approx(gap)] if gap < 2 * 0.19 - 1e-9 else [])


# --- the wrong side ------------------------------------------------------------------------------


def wrong(step: str) -> list[Row]:
    return rows(LEG.partition("step")[0] + f"step\n  {step}\n", "wrong_side")


def test_a_side_from_which_nothing_is_met_offers_the_one_that_is() -> None:
    (row,) = wrong("leg to rail: 2 wood-screws #10 x 4 in from top")
    assert row.values["mistake"] == "side"
    assert row.values["best_side"] == "left"
    assert "side" in row.spans


def test_a_rail_screwed_through_its_whole_length_is_told() -> None:
    (row,) = wrong("rail to leg: 2 wood-screws #10 x 4 in")
    assert row.values["mistake"] == "lengthwise"
    assert inches(row, "through") == pytest.approx(24)
    assert inches(row, "longest_sold") == pytest.approx(4)


def test_the_right_side_is_no_row() -> None:
    assert wrong("leg to rail: 2 wood-screws #10 x 4 in from left") == []


# --- any thickness, any way it stands ------------------------------------------------------------

eighths = st.integers(2, 24).map(lambda n: n / 8)


@settings(max_examples=40, deadline=None)
@given(eighths, eighths, st.integers(2, 40).map(lambda n: n / 8), st.integers(0, 8).map(lambda n: n / 8))
def test_embedment_and_cover_are_what_is_left_of_the_length(
    t: float, d: float, length: float, bore: float
) -> None:
    """p = cb + L - t, and what lies beyond the tip is t + d - cb - L, whatever the sizes."""
    parts = [board("upper", (0, 0, d), (24, 4, d + t)), board("lower", (0, 0, 0), (24, 4, d))]
    piece = joined(parts, join("upper", "lower", screws(2, length=length, bore=bore)))
    row = facts_of(piece).rows["fastener"][0]
    assert inches(row, "embedment") == pytest.approx(bore + length - t, abs=1e-6)
    assert inches(row, "cover") == pytest.approx(t + d - bore - length, abs=1e-6)
    assert inches(row, "under_head") == pytest.approx(t - bore, abs=1e-6)


@st.composite
def frames(draw: st.DrawFn) -> tuple[Vec, Vec, Vec]:
    """Three unit axes square to each other, any way round."""
    part = st.floats(-1, 1).map(lambda x: round(x, 3))
    first = draw(st.tuples(part, part, part).filter(lambda v: sum(x * x for x in v) > 0.1))
    other = draw(st.sampled_from(list(AXES.values())))
    side = cross(first, other)
    if sum(x * x for x in side) < 0.01:
        return AXES["x"], AXES["y"], AXES["z"]
    x, y = unit(first), unit(side)
    return x, y, cross(x, y)


SAME = ("through", "held", "under_head", "embedment", "receiving_depth", "wood_ahead", "cover", "grain_angle")


@settings(max_examples=40, deadline=None)
@given(frames())
def test_how_a_piece_stands_changes_no_length(axes: tuple[Vec, Vec, Vec]) -> None:
    """Boxes along the axes take a quick way through the geometry; turned, the general one must agree."""
    parts = [
        board("leg", (0, 0, 0), (3.5, 3.5, 16.5), runs="z", face="y"),
        board("rail", (3.5, 1, 13), (27.5, 2.5, 16.5), runs="x", face="y"),
    ]
    joins = (
        join("leg", "rail", screws(2, length=4, bore=1)),
        join("rail", "leg", screws(2, "pocket-screws", 2.5, 8)),
    )
    straight = facts_of(joined(parts, *joins)).rows
    turned = facts_of(joined([carried(part, (100.0, 50.0, 25.0), axes) for part in parts], *joins)).rows
    for one, other in zip(straight["fastener"], turned["fastener"], strict=True):
        for column in SAME:
            assert other.values[column] == pytest.approx(one.values[column], abs=0.01), column
    nearest = [
        sorted(inches(row, "distance") for row in some["fastener_edge"]) for some in (straight, turned)
    ]
    assert nearest[1] == pytest.approx(nearest[0], abs=0.001)


KINDS = {"flag": bool, "word": str, "words": tuple}


@pytest.mark.parametrize("place", ["", " from top", " from left", " at 1 from left", " at 1 from each end"])
@pytest.mark.parametrize(
    "what",
    [
        "lag-screws 3/8 x 4 in", "carriage-bolts 3/8 x 5", "nails 2 in", "nails", "brads 1 in",
        "dowels 3/8 x 2 in", "dowels", "biscuits", "buttons", "hinges 2 in", "pocket-screws #8 x 9 in",
        "wood-screws 4 x 40", "wood-screws #99 x 2 in",
    ],
)  # fmt: skip
def test_whatever_is_driven_fills_every_column_with_its_kind(what: str, place: str) -> None:
    """A column left out, or of another kind than declared, would break the first rule that reads it."""
    found = facts(two(f"3 {what}{place}"))
    tables = {table.name: table for table in fastener.TABLES}
    for name, some in found.rows.items():
        for row in some:
            assert row.values.keys() == tables[name].columns.keys()
            for column, value in row.values.items():
                kind = KINDS.get(tables[name].columns[column].kind, float)
                assert isinstance(value, (kind, Missing)), (name, column, value)


def test_a_nut_that_is_let_in_is_known_by_what_is_bought() -> None:
    """A bolt into a T-nut need not come out behind it."""
    plan = """\
plan "Rail"
  wood pine
buy
  {buy}
parts
  post: 1 of 2x4 @ 24
  rail: 1 of 2x4 @ 24
place
  post: runs up, face front, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at 0, back at front of post, bottom at 0
step
  rail to post: 1 hex-bolts 3/8 x 3 in
"""
    told = {
        buy: {one.values["nut_let_in"] for one in rows(plan.format(buy=buy), "fastener")}
        for buy in ("2 t-nuts 3/8 in", "1 barrel-nut", "2 hinges 2 in")
    }
    assert told == {"2 t-nuts 3/8 in": {True}, "1 barrel-nut": {True}, "2 hinges 2 in": {False}}


def test_one_of_two_that_passes_by_the_second_part_is_told() -> None:
    """Places measured for a wider rail: the second screw never meets the strip. It once ended in a traceback."""
    text = (
        'plan "x"\n  units in\nparts\n  leg: 1 of 4x4 @ 16 1/2\n  strip: 1 of 1x2 @ 24\nplace\n'
        "  leg: runs up, left at 0, front at 0, bottom at 0\n"
        "  strip: runs left-right, face front, left at right of leg, front at front of leg, top at top of leg\n"
        "step\n  leg to strip: 2 wood-screws #10 x 6 in at 5/8 and 2 3/8 from top\n"
    )
    (row,) = rows(text, "wrong_side")
    assert row.values["mistake"] == "place"


def test_a_part_that_only_lies_on_an_edge_is_no_more_wood() -> None:
    """A leg that a rail is glued to ends at its top, although a board lies on it without glue."""
    text = (
        'plan "x"\n  units in\nparts\n  leg: 1 of 2x4 @ 30\n  rail: 1 of 2x4 @ 24\n  board: 1 of 2x6 @ 24\nplace\n'
        "  leg: runs up, face front, left at 0, front at 0, bottom at 0\n"
        "  rail: runs left-right, face front, left at 0, front at back of leg, top at top of leg\n"
        "  board: runs left-right, face top, left at 0, front at 0, bottom at top of leg\n"
        "step\n  leg to rail: 1 wood-screws #10 x 2 1/2 in at 1/4 from top and glue\n"
    )
    (end,) = [
        row
        for row in rows(text, "fastener_edge")
        if row.values["part"] == "leg" and row.values["measure"] == "end"
    ]
    assert inches(end, "distance") == pytest.approx(1 / 4)
