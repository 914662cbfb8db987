"""What holds what: loose parts and separate pieces, in hand-worked plans."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.piece import Piece
from planlint.observe.holding import Groups
from planlint.observe.resting import Underneath
from planlint.read.plan import Plan
from tests.build.joinery.workshop import board
from tests.observe.hand_worked import INCH, by_part, gaps, inches, known, row, rows


def stand(tray: str, step: str, more: str = "") -> str:
    """Two rails on the floor 21 apart, a board between them, and a tray over them."""
    return f"""\
plan "Stand"
  units in
  wood pine
parts
  rail: 2 of 2x4 @ 15
  board: 1 of 2x4 @ 21
  tray: 1 of 2x10 @ 24
place
  rail as rail-l: runs front-back, face left, left at 0, front at 0, bottom at 0
  rail as rail-r: runs front-back, face left, right at 24, front at 0, bottom at 0
  board: runs left-right, face front, left at right of rail-l, front at 5, bottom at 0
  tray: runs left-right, face top, {tray}
step
  rail to board: 2 wood-screws #10 x 4 in
  {step}
{more}"""


OVER = "left at 0, front at 0, bottom at top of rail-l"


def test_joined_parts_are_held_and_the_tray_rests() -> None:
    found = by_part(stand(OVER, ""), "held_part")
    assert {part: one.values["held"] for part, one in found.items()} == {
        "rail-l": True, "rail-r": True, "board": True, "tray": False,
    }  # fmt: skip
    tray = found["tray"]
    assert tray.values["rests"] is True and set(tray.values["supports"]) == {"rail-l", "rail-r", "board"}  # type: ignore[call-overload]
    assert tray.values["on_floor"] is False and tray.values["loose"] is False


def test_a_part_whose_weight_is_not_over_its_supports_does_not_rest() -> None:
    """From -23 to 1: its middle, -11, is far out over the left rail's edge."""
    tray = by_part(stand("right at 1, front at 0, bottom at top of rail-l", ""), "held_part")["tray"]
    assert tray.values["rests"] is False


def test_a_part_that_hangs_below_another_does_not_rest() -> None:
    tray = by_part(stand("left at 0, front at 0, top at -1", ""), "held_part")["tray"]
    assert tray.values["rests"] is False and tray.values["on_floor"] is True


def test_loose_is_no_hold_but_is_said() -> None:
    tray = by_part(stand(OVER, "tray to rail: loose"), "held_part")["tray"]
    assert (tray.values["held"], tray.values["loose"]) == (False, True)


@pytest.mark.parametrize("how", ["unsaid", "glue", "2 shelf-pins", "housed 1/4 deep"])
def test_every_other_fastening_holds(how: str) -> None:
    place = OVER.replace("top of rail-l", "top of rail-l - 1/4") if "housed" in how else OVER
    text = stand(place, f"tray to rail: {how}", "buy\n  4 shelf-pins")
    assert by_part(text, "held_part")["tray"].values["held"] is True


def test_a_part_joined_to_one_without_a_place_is_not_called_loose() -> None:
    text = stand(OVER, "tray to board: 2 wood-screws #8 x 2 in").replace(
        "front at 5, bottom at 0", "bottom at 0"
    )
    found = by_part(text, "held_part")
    assert "board" not in found
    assert not known(found["tray"], "held") and not known(found["rail-l"], "held")
    assert rows(text, "separate_piece") == []  # all hang on the board, wherever it is


def test_a_part_on_a_line_that_cannot_be_read_is_not_called_loose() -> None:
    text = stand(OVER, "tray to rail: 2 wood-screws #8 x x 2 in")
    assert not known(by_part(text, "held_part")["tray"], "held")


def test_a_part_that_a_misspelt_name_means_is_not_called_loose() -> None:
    text = stand(OVER, "trey to rail: 2 wood-screws #8 x 2 in")
    assert not known(by_part(text, "held_part")["tray"], "held")


def test_a_plan_without_steps_says_what_to_add() -> None:
    text = stand(OVER, "")
    text = text[: text.index("step")]
    for table in ("held_part", "separate_piece"):
        assert rows(text, table) == []
        assert gaps(text, table)[0][0] == "the plan does not say how the parts are fastened"


def test_a_single_part_needs_no_joint() -> None:
    text = """\
plan "Post"
  units in
parts
  post: 1 of 4x4 @ 16
place
  post: runs up, left at 0, front at 0, bottom at 0
"""
    assert rows(text, "held_part") == [] and gaps(text, "held_part") == []


# --- pieces ----------------------------------------------------------------------------------------------


def trestles(step: str) -> str:
    return f"""\
plan "Trestle table"
  units in
parts
  leg: 4 of 4x4 @ 27
  beam: 2 of 2x4 @ 21
  top: 1 of 2x12 @ 60
place
  leg as leg-lf, leg-rf, leg-lb, leg-rb: runs up, left at 0, front at 0, bottom at 0,
    mirrored left-right about 30 and front-back about 14
  beam as beam-l, beam-r: runs front-back, face left, between leg-lf and leg-lb, left at 0, top at {{beam}},
    mirrored left-right about 30
  top: runs left-right, face top, left at 0, middle front-back at 14, bottom at 27
step
  leg to beam: 2 wood-screws #10 x 4 in
  {step}
""".replace("{beam}", "27")


def test_two_trestles_are_two_pieces_and_the_top_a_third() -> None:
    found = rows(trestles(""), "separate_piece")
    assert [(one.values["alone"], one.values["stand"]) for one in found] == [(False, True), (True, False)]
    assert set(found[0].values["parts"]) == {"leg-rf", "leg-rb", "beam-r"}  # type: ignore[call-overload]


def test_a_top_written_as_loose_connects_them() -> None:
    assert rows(trestles("top to beam: loose"), "separate_piece") == []


def test_a_piece_that_hangs_does_not_stand() -> None:
    found = row(
        stand(OVER, "tray to lip: 2 wood-screws #8 x 2 in").replace(
            "place\n",
            "  lip: 1 of 2x4 @ 24\nplace\n"
            "  lip: runs left-right, face top, left at 0, front at 0, bottom at top of tray\n",
        ),
        "separate_piece",
    )
    assert (found.values["alone"], found.values["stand"]) == (False, False)
    assert found.values["touching"] == "tray"


def test_a_chair_with_a_leaning_back_built_by_itself_is_one_piece() -> None:
    text = """\
plan "Chair"
  units in
  centre left-right at 12
parts
  leg: 2 of 2x4 @ 16
  post: 2 of 2x4 @ 38
  side-rail: 2 of 2x4 @ 20 1/2
  low-rail: 1 of 2x4 @ 18
  seat-slat: 4 of 1x4 @ 24
place in back
  post as post-l, post-r: runs up, face left, left at 0, front at 0, bottom at 0, ends cut level,
    mirrored left-right about 10 1/2
  low-rail: runs left-right, face front, between post-l and post-r, front at front of post-l, bottom at 17 1/2
place
  back: left at 1 1/2, front of post-l at 17, bottom of post-l at 0, leans 12 toward back
  leg as leg-l, leg-r: runs up, face left, left at 1 1/2, front at 0, bottom at 0, mirrored left-right
  side-rail as rail-l, rail-r: runs front-back, face left, left at 0, front at 0, top at 16,
    mirrored left-right
  seat-slat: row of 4 front-back from front of leg-l to 15, runs left-right, face top, left at 0, bottom at 16
step in back
  post to low-rail: 2 wood-screws #10 x 4 in
step
  side-rail to post: 2 wood-screws #10 x 2 1/2 in
  side-rail to leg: 2 wood-screws #10 x 2 1/2 in
  seat-slat to side-rail: 2 wood-screws #8 x 2 in
"""
    assert all(one.values["held"] is True for one in rows(text, "held_part"))
    for table in ("separate_piece", "overlap", "unmet_piece"):
        assert rows(text, table) == [], table
    assert all(inches(one, "wedge") == 0 and inches(one, "above") == 0 for one in rows(text, "foot"))


# --- geometry against an oracle --------------------------------------------------------------------------


@given(
    blocks=st.lists(st.tuples(st.floats(0, 40), st.floats(0, 40), st.floats(1, 6)), min_size=1, max_size=5),
    top=st.tuples(st.floats(-20, 40), st.floats(-20, 40), st.floats(4, 40)),
)
@settings(max_examples=150, deadline=None)
def test_what_stands_is_what_has_its_weight_over_the_hull_of_its_feet(
    blocks: list[tuple[float, float, float]], top: tuple[float, float, float]
) -> None:
    parts = [board(f"b{i}", (x, y, 0), (x + s, y + s, 5)) for i, (x, y, s) in enumerate(blocks)]
    x, y, s = top
    parts.append(board("top", (x, y, 5), (x + s, y + s, 6)))
    piece = Piece(Plan())
    piece.parts += parts
    volume = sum(part.solid.volume for part in parts)
    centre = [sum(part.solid.centroid[i] * part.solid.volume for part in parts) / volume for i in (0, 1)]
    feet = shapely.MultiPoint([p[:2] for part in parts[:-1] for p in part.solid.vertices]).convex_hull
    away = feet.exterior.distance(shapely.Point(centre))
    if away > 0.02 * INCH:  # nearer than that the two may differ
        assert Underneath(piece).stands(parts) is feet.contains(shapely.Point(centre))


@given(pairs=st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=12))
def test_groups_are_what_can_be_reached(pairs: list[tuple[int, int]]) -> None:
    groups = Groups(pairs)
    for start in range(10):
        reached = {start}
        for _ in range(10):
            reached |= {b for a, b in pairs if a in reached} | {a for a, b in pairs if b in reached}
        assert reached == {other for other in range(10) if groups.of(other) == groups.of(start)}


def two_shelves(heading: str) -> str:
    return f"""\
plan "Shelves on a wall"
  units in
{heading}
parts
  shelf: 2 of 1x8 @ 30
  cleat: 2 of 1x2 @ 28
place
  cleat as low-cleat: runs left-right, face front, left at 1, back at 10, bottom at 30
  cleat as high-cleat: like low-cleat, bottom at 45
  shelf as low-shelf: runs left-right, face top, left at 0, back at 10, bottom at top of low-cleat
  shelf as high-shelf: like low-shelf, bottom at top of high-cleat
step
  shelf to cleat: 3 wood-screws #8 x 1 3/4 in
"""


def test_what_reaches_the_back_may_hang_on_the_wall_by_itself() -> None:
    """Alcove shelves are each screwed to the wall; without a wall nothing holds them together."""
    assert [one.values["wall"] for one in rows(two_shelves("  fixed to wall"), "separate_piece")] == [True]
    assert [one.values["wall"] for one in rows(two_shelves(""), "separate_piece")] == [False]
