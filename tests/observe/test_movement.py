"""Wood across its grain: what holds it and over how far, beside sums worked by hand.

A wood's movement over the year indoors (6 to 11 %) is 5 times its tangential coefficient (Wood Handbook table 13-5,
equation 13-2): white pine 5 x 0.00212 = 0.0106, Douglas fir 5 x 0.00267 = 0.01335, red oak 5 x 0.00369 = 0.01845,
black cherry 5 x 0.00248 = 0.0124 of the width.
"""

from __future__ import annotations

import pytest

from planlint.observe.facts import Missing
from tests.observe.hand_worked import by_part, gaps, inches, known, row, rows

PINE, FIR, OAK, CHERRY = 0.0106, 0.01335, 0.01845, 0.0124
WOODS = {PINE: "eastern-white-pine", FIR: "douglas-fir", OAK: "red-oak"}

BOARD = """
plan "Board on two rails"
  units in
  setting indoors
  wood {wood}
parts
  rail: 2 of 1 1/2 x 1 1/2 @ {width}
  board: 1 of 3/4 x {width} @ 24
place
  rail as rail-l, rail-r: runs front-back, left at 2, front at 0, bottom at 0, mirrored left-right about 12
  board: runs left-right, face top, left at 0, front at 0, bottom at top of rail-l
step
  board to rail: {screws}
"""


def board(wood: str, width: float, edge: float, noun: str = "wood-screws #8 x 1 5/8 in") -> str:
    return BOARD.format(wood=wood, width=width, screws=f"2 {noun} at {edge} from each end")


@pytest.mark.parametrize("share", list(WOODS))
@pytest.mark.parametrize(
    ("width", "edge", "between"),
    [
        (3.5, 0.75, 2.0),  # a slat
        (5.5, 1.0, 3.5),
        (7.25, 1.0, 5.25),  # a 1x8, screws at its edges
        (8.0, 0.75, 6.5),
        (14.0, 1.0, 12.0),
        (29.0, 2.5, 24.0),
    ],
)
def test_what_moves_is_between_the_outermost_screws(
    share: float, width: float, edge: float, between: float
) -> None:
    """F = width - 2 x edge, and it moves F times the share: the part's whole width would flag every slat."""
    found = row(board(WOODS[share], width, edge), "held_panel")
    assert inches(found, "between") == between
    assert inches(found, "moves") == pytest.approx(between * share, abs=1e-4)
    assert found.values["equation"] == "13-2"


def test_beyond_6_to_14_percent_the_other_equation_speaks() -> None:
    """5 to 16 %: F (MF - MI) / (3000 / S - 30 + MI), S of red oak 8.6: 12 x 11 / (348.84 - 25) = 0.4076."""
    text = board("red-oak", 14, 1).replace("setting indoors", "setting indoors\n  moisture 5 to 16 %")
    found = row(text, "held_panel")
    assert found.values["equation"] == "13-3"
    assert inches(found, "moves") == pytest.approx(12 * 11 / (3000 / 8.6 - 30 + 5), abs=1e-4)


@pytest.mark.parametrize(
    "noun",
    [
        "figure-8 #8 x 5/8 in",
        "buttons #8 x 1 1/4 in",
        "brads 1 1/4 in",
        "2 in nails",
        "wood-screws #8 x 1 5/8 in slotted 1/2 in",
    ],
)
def test_what_gives_does_not_hold(noun: str) -> None:
    """Brads, 6d nails and fittings let the wood move; counting them flags sound tops."""
    assert rows(board("red-oak", 14, 1, noun), "held_panel") == []


def test_a_long_nail_holds() -> None:
    assert inches(row(board("red-oak", 14, 1, "3 in nails"), "held_panel"), "between") == 12.0


def test_an_unknown_wood_is_said_and_not_guessed() -> None:
    found = row(board("moonwood", 14, 1), "held_panel")
    assert inches(found, "between") == 12.0
    moves = found.values["moves"]
    assert isinstance(moves, Missing)
    assert moves.reason == "no table says how far moonwood moves"


def test_without_a_setting_the_moisture_is_missing() -> None:
    found = row(board("red-oak", 14, 1).replace("  setting indoors\n", ""), "held_panel")
    assert not known(found, "moves")
    assert not known(found, "driest")


def test_nothing_placed_is_a_gap() -> None:
    text = 'plan "List"\n  units in\nparts\n  board: 1 of 1x12 @ 24\n'
    assert gaps(text, "held_panel") == [("nothing is placed", "a place section: where each part goes")]


# --- what it is held on ----------------------------------------------------------------------------

BOOKCASE = """
plan "Bookcase"
  units in
  setting indoors
  wood red-oak
parts
  side:  2 of 1x12 @ 30{side}
  shelf: 1 of 1x12 @ 31 1/2
  cleat: 2 of 1x2 @ 11 1/4
place
  side as side-l, side-r: runs up, face left, left at 0, front at 0, bottom at 0, mirrored left-right about 16 1/2
  shelf: runs left-right, face top, between side-l and side-r, front at 0, bottom at 20
  cleat as cleat-l, cleat-r: runs front-back, face left, left at right of side-l, front at 0, top at {top},
    mirrored left-right about 16 1/2
step
  side to shelf: 4 wood-screws #8 x 2 in and glue
  {more}
"""


def shelf_of(
    side: str = "", top: str = "bottom of shelf", more: str = "side to shelf: glue"
) -> dict[object, object]:
    return dict(by_part(BOOKCASE.format(side=side, top=top, more=more), "held_panel"))


def test_a_shelf_moves_with_its_solid_sides() -> None:
    """Two solid parts of one grain direction move together: no fault, though 11 1/4 in are glued."""
    assert "shelf" not in shelf_of()


def test_a_shelf_is_held_by_plywood_sides() -> None:
    """Sheets keep their size."""
    held = by_part(
        BOOKCASE.format(side=" birch-plywood", top="bottom of shelf", more="side to shelf: glue"),
        "held_panel",
    )
    assert inches(held["shelf"], "between") == 11.25


def test_a_cleat_under_the_shelf_holds_it() -> None:
    """Its screws stand at 1 and 10 1/4: 9 1/4 apart, on grain that runs across the shelf's."""
    text = BOOKCASE.format(
        side="", top="bottom of shelf", more="shelf to cleat: 2 wood-screws #8 x 2 in at 1 from each end"
    )
    assert inches(by_part(text, "held_panel")["shelf"], "between") == 9.25


def test_a_cleat_elsewhere_does_not() -> None:
    """A cleat low on the sides keeps the sides there; the shelf still moves with them at its own height."""
    more = "cleat to side: 2 wood-screws #8 x 1 1/4 in at 4 from each end"
    assert "shelf" not in shelf_of(top="4", more=more)


TABLE = """
plan "Table"
  units in
  setting indoors
  wood douglas-fir
parts
  leg:        4 of 1x1 @ 28
  long-apron: 2 of 3/4 x 3 1/2 @ 33
  end-apron:  2 of 3/4 x 3 1/2 @ {inside}
  top:        1 of 3/4 x {width} @ 40
place
  leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, left at 2, front at {front}, bottom at 0,
    mirrored left-right about 20 and front-back about {middle}
  long-apron as front-apron, back-apron: runs left-right, face front, between leg-fl and leg-fr,
    front at front of leg-fl, top at top of leg-fl, mirrored front-back about {middle}
  end-apron as left-apron, right-apron: runs front-back, face left, between leg-fl and leg-bl,
    left at left of leg-fl, top at top of leg-fl, mirrored left-right about 20
  top: runs left-right, face top, left at 0, front at 0, bottom at top of leg-fl
step
  long-apron to leg: 2 dowels 3/8 x 2 in and glue
  end-apron to leg: 2 dowels 3/8 x 2 in and glue
  {top}
"""


def table(width: float, apart: float, top: str) -> str:
    """A table whose long aprons' middles are `apart`; they lie flush with the legs' outside, 3/4 thick in 1."""
    front = (width - apart) / 2 - 0.375
    legs = "  leg:        4 of 1x1 @ 28"
    return TABLE.format(
        width=width, inside=apart + 0.75 - 1.5, front=front, middle=width / 2, top=top
    ).replace(legs, legs.replace("1x1", "3/4 x 3/4"))


def test_aprons_hold_a_top_at_their_middles() -> None:
    """An 8 in top on aprons 5 apart: F = 5, Douglas fir 0.067. The end aprons hold the long ones apart."""
    found = by_part(table(8, 5, "top to long-apron: 3 wood-screws #8 x 1 1/2 in"), "held_panel")["top"]
    assert inches(found, "between") == 5.0
    assert inches(found, "moves") == pytest.approx(0.0668, abs=1e-4)
    assert (found.values["first"], found.values["second"]) == ("front-apron", "back-apron")


def test_nothing_holds_a_top_on_one_apron() -> None:
    assert "top" not in by_part(table(8, 5, "top to front-apron: 3 wood-screws #8 x 1 1/2 in"), "held_panel")


def test_a_narrow_part_between_wide_ones_is_no_panel() -> None:
    """An apron 3 1/2 high, dowelled and glued to its leg: F is its height."""
    found = by_part(table(8, 5, "top to long-apron: 3 figure-8 #8 x 5/8 in"), "held_panel")["front-apron"]
    assert inches(found, "between") == 3.5


# --- glue ------------------------------------------------------------------------------------------

TENON = """
plan "Rail in a leg"
  units in
  setting indoors
  wood {wood}
parts
  leg:  1 of 4x4 @ 12
  rail: 1 of 3/4 x {width} @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of leg - 1 1/2,
    middle front-back at middle front-back of leg, top at top of leg
step
  leg to rail: mortise-and-tenon 3/8 x {tenon} x 1 1/2 in{glue}
"""


@pytest.mark.parametrize(
    ("share", "width", "moves"),
    [(OAK, 3.5, 0.0646), (OAK, 5.5, 0.1015), (OAK, 7.25, 0.1338), (PINE, 7.25, 0.0768)],
)
def test_a_glued_tenon_is_held_over_its_width(share: float, width: float, moves: float) -> None:
    text = TENON.format(wood=WOODS[share], width=width, tenon=width, glue=" and glue")
    found = by_part(text, "held_panel")["rail"]
    assert inches(found, "between") == width
    assert inches(found, "moves") == pytest.approx(moves, abs=1e-4)


def test_the_shoulder_does_not_count() -> None:
    """Glue on the shoulder's end grain holds little: a 4 in tenon on a 5 1/2 in rail is held over 4."""
    text = TENON.format(wood="red-oak", width=5.5, tenon=4, glue=" and glue")
    assert inches(by_part(text, "held_panel")["rail"], "between") == 4.0


def test_a_dry_tenon_is_free() -> None:
    assert rows(TENON.format(wood="red-oak", width=5.5, tenon=4, glue=""), "held_panel") == []


BREADBOARD = """
plan "Top with a breadboard end"
  units in
  setting indoors
  wood red-oak
parts
  top: 1 of 3/4 x 29 @ 40
  breadboard: 1 of 3/4 x 3 @ 29
place
  top: runs left-right, face top, left at 0, front at 0, bottom at 0
  breadboard: runs front-back, face top, left at right of top - 1, front at 0, bottom at 0
step
  top to breadboard: mortise-and-tenon 1/4 x 27 x 1 in and {glue}
"""


def test_a_breadboard_end_is_held_as_far_as_it_is_glued() -> None:
    """Glued over its 27 in tenon; glued in the middle 4 it is held over 4."""
    assert inches(by_part(BREADBOARD.format(glue="glue"), "held_panel")["top"], "between") == 27.0
    assert inches(by_part(BREADBOARD.format(glue="glue middle 4 in"), "held_panel")["top"], "between") == 4.0


DRAWER = """
plan "Drawer"
  units in
  setting indoors
  wood cherry
parts
  side:   2 of 1/2 x 4 @ 16
  bottom: 1 of 1/4 x {deep} @ 12{wood}
place
  side as side-l, side-r: runs front-back, face left, left at 0, front at 0, bottom at 0,
    mirrored left-right about 6 1/4
  bottom: runs left-right, face top, left at right of side-l - 1/4, front at 0, bottom at 1/2
step
  bottom to side: housed 1/4 deep{glue}
"""


@pytest.mark.parametrize(
    ("deep", "wood", "glue", "moves"),
    [
        (16, "", " and glue", 0.1984),  # glued all round in the grooves
        (5, "", " and glue", 0.062),
        (16, "", "", None),  # in a groove without glue
        (16, " birch-plywood", " and glue", None),  # plywood never
    ],
)
def test_a_drawer_bottom(deep: float, wood: str, glue: str, moves: float | None) -> None:
    found = by_part(DRAWER.format(deep=deep, wood=wood, glue=glue), "held_panel").get("bottom")
    assert (None if found is None else inches(found, "moves")) == (
        None if moves is None else pytest.approx(moves, abs=1e-4)
    )


def test_boards_glued_edge_to_edge_are_one_panel() -> None:
    """Four boards placed one by one, each with two screws 3 5/8 apart, are held as one: over 25 3/8."""
    text = """
plan "Top of four"
  units in
  setting indoors
  wood red-oak
parts
  rail: 2 of 1 1/2 x 1 1/2 @ 29
  board: 4 of 1x8 @ 24
place
  rail as rail-l, rail-r: runs front-back, left at 2, front at 0, bottom at 0, mirrored left-right about 12
  board: row of 4 front-back from 0 to 29, runs left-right, face top, left at 0, bottom at top of rail-l
step
  board.1 to board.2: glue
  board.2 to board.3: glue
  board.3 to board.4: glue
  board to rail: 2 wood-screws #8 x 1 5/8 in
"""
    found = row(text, "held_panel")
    assert found.values["boards"] == 4
    assert inches(found, "between") == 29 - 2 * 7.25 / 4
    loose = text.replace(
        "  board.1 to board.2: glue\n  board.2 to board.3: glue\n  board.3 to board.4: glue\n", ""
    )
    assert [inches(one, "between") for one in rows(loose, "held_panel")] == [3.625] * 4


# --- slots -----------------------------------------------------------------------------------------


def slotted(wood: str, slot: str) -> str:
    """Screws 1 in from the edges of a 26 in board: 12 in from its middle."""
    return board(wood, 26, 1, f"wood-screws #10 x 1 5/8 in slotted {slot} in")


@pytest.mark.parametrize(
    ("share", "slot", "travel", "room"),
    [
        (OAK, "7/16", 0.2214, 0.2475),  # 7/16 - 0.190
        (OAK, "3/8", 0.2214, 0.185),
        (PINE, "3/8", 0.1272, 0.185),
        (PINE, "1/4", 0.1272, 0.06),
    ],
)
def test_a_slot_gives_its_length_less_the_screw(share: float, slot: str, travel: float, room: float) -> None:
    found = rows(slotted(WOODS[share], slot), "sliding_fixing")[0]
    assert inches(found, "from_held") == 12.0
    assert inches(found, "travel") == pytest.approx(travel, abs=1e-4)
    assert inches(found, "room") == pytest.approx(room, abs=1e-4)
    assert found.values["held"] is False


def test_a_held_edge_doubles_the_way() -> None:
    """Fast at the front (1 in from the edge), slotted at the back: the slot is 24 in from what is held."""
    text = (
        BOARD.format(wood="red-oak", width=26, screws="1 wood-screws #8 x 1 5/8 in at 1 from front")
        + "  board to rail: 1 wood-screws #8 x 1 5/8 in slotted 1/2 in at 1 from back\n"
    )
    found = rows(text, "sliding_fixing")[0]
    assert inches(found, "from_held") == 24.0
    assert found.values["held"] is True


@pytest.mark.parametrize(
    ("on", "room", "turned"),
    [
        ("end-apron", 0.25, 0.25),  # its arm lies square to the movement
        ("long-apron", 0.0, 0.15),  # it points along the movement and can't swing, unless it is turned 45 deg
    ],
)
def test_a_figure_8_swings_only_across(on: str, room: float, turned: float) -> None:
    found = rows(table(24, 20, f"top to {on}: 3 figure-8 #8 x 5/8 in"), "sliding_fixing")
    tops = [one for one in found if one.values["panel"] == "top"]
    assert {(inches(one, "room"), inches(one, "turned_room")) for one in tops} == {(room, turned)}


def test_a_button_slides_in_and_out_but_freely_along() -> None:
    """1/8 in where its tongue goes in and out; along the groove of an end apron it is free, and no row is made."""
    long = rows(table(24, 20, "top to long-apron: 3 buttons #8 x 1 1/4 in"), "sliding_fixing")
    ends = rows(table(24, 20, "top to end-apron: 3 buttons #8 x 1 1/4 in"), "sliding_fixing")
    assert {inches(one, "room") for one in long if one.values["panel"] == "top"} == {0.125}
    assert [one for one in ends if one.values["panel"] == "top"] == []


# --- fitted tight ----------------------------------------------------------------------------------

FRAME = """
plan "Board in a frame"
  units in
  setting indoors
  wood {wood}
parts
  rail:  2 of 2x4 @ 30
  end:   2 of 2x4 @ {space}
  board: 1 of 3/4 x {width} @ 27
place
  rail as front-rail: runs left-right, face front, left at 0, front at 0, bottom at 0
  rail as back-rail: like front-rail, front at {space} + 1 1/2
  end as left-end, right-end: runs front-back, face left, between front-rail and back-rail, left at 0, bottom at 0,
    mirrored left-right about 15
  board: runs left-right, face top, left at right of left-end, front at back of front-rail, bottom at 1
step
  {joined}
  end to board: 1 dowels 3/8 x 2 in
"""
JOINED = "rail to end: 2 wood-screws #10 x 3 1/2 in and glue"


@pytest.mark.parametrize(
    ("wood", "width", "swells"),
    [
        ("eastern-white-pine", 11.25, 0.0596),  # half the range: 2.5 x 0.00212 x 11 1/4
        ("eastern-white-pine", 12, 0.0636),
        ("red-oak", 10, 0.0923),
    ],
)
def test_a_board_between_rigid_faces_swells_from_mid_range(wood: str, width: float, swells: float) -> None:
    found = by_part(FRAME.format(wood=wood, space=width, width=width, joined=JOINED), "fitted_panel")["board"]
    assert inches(found, "swells") == pytest.approx(swells, abs=1e-4)
    assert (inches(found, "room"), found.values["first"], found.values["second"]) == (
        0.0,
        "front-rail",
        "back-rail",
    )


def test_room_enough_is_no_row() -> None:
    """10 in of oak swell 0.092; with 1/8 in of room they are not fitted tight."""
    text = FRAME.format(wood="red-oak", space=10, width="9 7/8", joined=JOINED)
    assert "board" not in by_part(text, "fitted_panel")


def test_faces_that_nothing_holds_apart_are_not_rigid() -> None:
    """Without the ends the rails only lie there and give way."""
    text = FRAME.format(wood="red-oak", space=10, width=10, joined="left-end to board: 1 dowels 3/8 x 2 in")
    assert "board" not in by_part(text, "fitted_panel")


def test_a_panel_in_grooves_has_room_in_them() -> None:
    """A panel that is let in by its edges is no board between faces."""
    text = (
        FRAME.format(wood="red-oak", space=10, width="10 3/4", joined=JOINED).replace(
            "front at back of front-rail, bottom", "front at back of front-rail - 3/8, bottom"
        )
        + "  board to rail: housed 3/8 deep\n"
    )
    assert "board" not in by_part(text, "fitted_panel")


def test_a_cap_on_leaning_legs_is_held_where_it_lies_on_them() -> None:
    """Guards: the middle of a leaning leg's box taken for where it holds a board at its top."""
    text = """\
plan "Cap"
  units in
  setting outdoors
  wood douglas-fir
parts
  leg: 2 of 2x4 @ 40
  cap: 1 of 1x6 @ 20
place
  leg as front-leg, back-leg: runs up, face left, left at 9, front at 0, bottom at 0, leans 15 toward back,
    ends cut level, mirrored front-back about 13
  cap: runs left-right, face top, left at 0, middle front-back at 13, bottom at top of front-leg
step
  cap to leg: 1 wood-screws #8 x 2 in
  front-leg to back-leg: unsaid
"""
    held = [inches(one, "between") for one in rows(text, "held_panel") if one.values["part"] == "cap"]
    assert all(width < 5.5 for width in held)


def test_a_batten_goes_along_with_its_lid() -> None:
    """Guards: a hinge at the lid's edge taken for what holds a batten's slots."""
    text = """\
plan "Lid"
  units in
  setting indoors
  wood red-oak
parts
  back: 1 of 3/4 x 6 @ 20
  lid: 1 of 3/4 x 10 @ 20
  batten: 1 of 3/4 x 2 @ 8
place
  back: runs left-right, face front, left at 0, back at 10, bottom at 0
  lid: runs left-right, face top, left at 0, front at 0, bottom at top of back
  batten: runs front-back, face top, left at 5, front at 1, top at bottom of lid
step
  lid to back: 2 hinges #4 x 1/2 in
  batten to lid: 2 wood-screws #8 x 1 1/4 in slotted 1/4
"""
    slots = [one for one in rows(text, "sliding_fixing") if one.values["second"] == "batten"]
    assert [inches(one, "from_held") for one in slots] == [2.0]
    assert not slots[0].values["held"]
