"""The layout in characters: to scale, within the page, every piece numbered, told and counted."""

from __future__ import annotations

import re

import pytest

from planlint.auditing import audit_text
from planlint.sawing.alike import alike
from planlint.sawing.bars import bar
from planlint.sawing.layout import Layout
from planlint.sawing.page import page
from planlint.sawing.sawing import layout
from planlint.sawing.telling import cautions, ends, number_of, remarks, sources
from planlint.show.strokes import LINES, PLAIN, Strokes
from planlint.show.wrapping import columns
from tests.sawing.plans import ALL, laid, one


def _text(found: Layout, units: str = "in", width: int = 80, strokes: Strokes = LINES) -> str:
    lines = page(found, "Test", "test.plan", units, "", width, strokes)
    return "\n".join("".join(text for text, _ in line) for line in lines)


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_no_line_is_wider_than_the_page_and_every_piece_is_counted(path) -> None:  # type: ignore[no-untyped-def]
    audit = audit_text(path.read_text())
    found, units = layout(audit), audit.plan.heading.units
    for width, strokes in ((40, PLAIN), (80, LINES)):
        text = _text(found, units, width, strokes)
        assert all(columns(line.rstrip()) <= width for line in text.splitlines())
    counted = sum(int(number) for number in re.findall(r"^\[ \] +(\d+)  ", text, re.M))
    assert counted == sum(len(board.pieces) for boards in found.boards for board in boards.cut)


def test_a_bar_is_to_scale_and_each_piece_has_the_number_of_its_cut() -> None:
    boards = one("rail: 1 of 2x4 @ 48; post: 1 of 2x4 @ 24", "1 of 2x4 @ 96")
    (told,) = alike(boards, 0.0)
    top, *inner, bottom = bar(told.sawn, lambda x: f"{x / 25.4:g}", 97, LINES, scaled=False)
    assert [place for place, stroke in enumerate(top) if stroke != "─"] == [0, 48, 72, 96]
    assert top[48] == "┬" and bottom[72] == "┴"
    assert inner[0][1:48].split() == ["1", "rail"] and inner[1][1:48].split() == ["48"]
    assert "24" in inner[0][73:96] + inner[1][73:96] and "╱" in inner[1][73:96]


def test_plain_characters_where_the_output_has_no_others() -> None:
    _, found = laid("rail: 2 of 2x4 @ 40; rod: 3 of 3/4 x 1 1/2 @ 30, ripped from 2x4", "2 of 2x4 @ 96")
    assert _text(found, strokes=PLAIN).isascii()


def test_more_pieces_than_columns_are_listed_where_they_cannot_be_drawn() -> None:
    _, found = laid("peg: 90 of 2x4 @ 3/4", "1 of 2x4 @ 96")
    text = _text(found)
    assert "more pieces than a page has columns" in text and "1-90  crosscut  3/4" in text


def test_what_a_plan_calls_its_parts_cannot_move_the_cursor_or_break_the_drawing() -> None:
    _, found = laid("bjälke-😀: 2 of 2x4 @ 40; " + "x" * 90 + ": 1 of 2x4 @ 9", "2 of 2x4 @ 96")
    assert all(columns(line) <= 80 for line in _text(found).splitlines())


def test_fewest_possible_is_said_only_where_it_is_proved() -> None:
    boards = one("rail: 2 of 2x4 @ 40", "1 of 2x4 @ 96")
    assert number_of(boards) == "1 board, fewest possible"
    assert number_of(boards._replace(proved=False)) == "1 board, not proved to be the fewest"
    assert "never fewer than 2" in number_of(boards._replace(proved=False, number=3, least=2))


def test_one_end_square_and_one_not_is_told_so() -> None:
    _, found = laid("post: 1 of 2x4 @ 30, ends mitred 12 and 0", "1 of 2x4 @ 96")
    assert ends(found.entries[0]) == (
        "one end 12 deg off square on the wide face, the other square (as the cut list has it)"
    )


@pytest.mark.parametrize(
    ("plan", "entry", "said"),
    [
        # sawhorse: the legs lean 15 and about 9.7 deg; a compound cut is the fence's angle and the blade's tilt
        (
            "sawhorse",
            "leg",
            "both ends mitred 9.7 deg on the wide face with the blade tilted 15 deg, parallel",
        ),
        ("sawhorse", "block", "both ends 15 deg off square on the wide face, sloping opposite ways"),
        ("splayed-planter", "floor-slat", "both ends 10 deg off square on the edge, sloping opposite ways"),
        ("step-stool", "side", "both ends 8 deg off square on the edge, parallel"),
        ("ladder-chair", "back-leg", "one end 3 deg off square on the wide face, the other square"),
    ],
)
def test_end_cuts_are_measured_on_the_built_part(plan: str, entry: str, said: str) -> None:
    (path,) = [path for path in ALL if path.stem == plan]
    found = layout(audit_text(path.read_text()))
    assert [ends(each) for each in found.entries if each.name == entry] == [said]


def test_a_narrow_rip_a_short_rip_and_a_short_piece_have_their_cautions() -> None:
    def said(parts: str) -> str:
        _, found = laid(parts, "1 of 2x4 @ 96")
        return " ".join(cautions([(boards, alike(boards, found.kerf)) for boards in found.boards], "in"))

    assert "lath: ripped under 2 in wide" in said("lath: 1 of 1 1/2 x 1 1/2 @ 30, ripped from 2x4")
    assert "block: ripped from a blank under 12 in" in said("block: 1 of 1 1/2 x 1 1/2 @ 8, ripped from 2x4")
    assert "peg: crosscut to less than 6 in" in said("peg: 1 of 2x4 @ 4")
    plain = said("rail: 1 of 2x4 @ 40")
    assert "manual" in plain and "ripped" not in plain and "crosscut to less" not in plain


def test_what_is_still_to_be_done_to_a_piece_is_told_once_it_is_cut() -> None:
    _, found = laid(
        "slat: 1 of 3/4 x 3 1/2 @ 30, ripped from 2x4; arm: 1 of 2x4 @ 20, shaped", "1 of 2x4 @ 96"
    )
    told = [(boards, alike(boards, found.kerf)) for boards in found.boards]
    assert [remarks(entry, boards, "in") for entry, boards in sources(found, told)] == [
        ["plane or resaw to 3/4 in thick"],
        ["then saw it to its shape"],
    ]


def test_a_short_piece_is_not_sent_through_a_planer_by_itself() -> None:
    # Told once it was cut to 4 in: "plane or resaw to 1 3/4 in thick".
    def said(long: str) -> str:
        _, found = laid(f"foot: 2 of 1 3/4 x 1 3/4 @ {long}, ripped from 4x4", "1 of 4x4 @ 96")
        told = [(boards, alike(boards, found.kerf)) for boards in found.boards]
        ((entry, source),) = sources(found, told)
        return " ".join(remarks(entry, source, "in"))

    assert "while it is still one long piece: nothing shorter than 12 in" in said("4")
    assert said("20") == "plane or resaw to 1 3/4 in thick"


def test_wood_deeper_than_a_table_saw_reaches_is_not_simply_ripped() -> None:
    def said(parts: str, buy: str) -> str:
        _, found = laid(parts, buy)
        return " ".join(cautions([(boards, alike(boards, found.kerf)) for boards in found.boards], "in"))

    assert "post: ripped through more than 3 in of wood" in said("post: 1 of 3 1/2 x 2 @ 30", "1 of 4x4 @ 96")
    assert "through more" not in said("post: 1 of 3 1/2 x 3 1/2 @ 30", "1 of 4x4 @ 96")  # crosscut alone
    assert "through more" not in said("rail: 1 of 1 1/2 x 2 @ 30", "1 of 2x4 @ 96")


def test_a_small_piece_of_a_sheet_has_the_cautions_of_any_other() -> None:
    # Sheets had the caution of a whole sheet alone: a gusset of 4 in was crosscut by hand.
    _, found = laid("gusset: 9 of 3/4 x 4 @ 4", "1 of sheet 3/4 x 48 x 96", wood="birch-plywood")
    said = " ".join(cautions([(boards, alike(boards, found.kerf)) for boards in found.boards], "in"))
    assert "gusset: crosscut to less than 6 in" in said and "A whole sheet is not for one person" in said


def test_a_board_used_up_to_its_end_says_that_nothing_is_left_to_square_it() -> None:
    # "Square one end of a board": these pieces and kerfs leave 3/8 in, or nothing.
    def said(parts: str) -> str:
        _, found = laid(parts, "1 of 2x4 @ 96")
        return re.sub(r"\s+", " ", _text(found))

    assert "tight Only 3/8 in is to spare: measure the board first." in said("rail: 5 of 2x4 @ 19")
    assert "tight Nothing is to spare" in said("rail: 1 of 2x4 @ 96")
    assert "tight" not in said("rail: 4 of 2x4 @ 20")


def test_an_angle_that_the_cut_list_has_otherwise_is_not_told_without_it() -> None:
    # The audit says that they differ, and the saw was set to one of them all the same.
    (path,) = [path for path in ALL if path.stem == "porch-chair"]
    found = layout(audit_text(path.read_text()))
    (said,) = [ends(each) for each in found.entries if each.name == "post"]
    assert "15 deg off square" in said and "the cut list says 12 deg: settle that before you saw" in said
    (path,) = [path for path in ALL if path.stem == "reading-chair"]
    assert "cut list says" not in ends(
        next(each for each in layout(audit_text(path.read_text())).entries if each.ends)
    )


def test_an_end_that_no_saw_turns_to_is_not_told_like_any_other() -> None:
    def said(angle: int) -> str:
        _, found = laid(f"brace: 1 of 2x4 @ 30, ends mitred {angle} parallel", "1 of 2x4 @ 96")
        return " ".join(remarks(found.entries[0], None, "in"))

    assert "steeper than most saws turn" in said(60)
    assert "steeper" not in said(45)


def test_a_kerf_that_the_plan_does_not_name_is_said_to_be_the_usual_one() -> None:
    parts, buy = "rail: 1 of 2x4 @ 40", "1 of 2x4 @ 96"
    assert "Saw kerf 1/8 in (the usual one: the plan names none that can be read)" in _text(
        laid(parts, buy)[1]
    )
    own = audit_text(f'plan "T"\n  units in\n  wood pine\n  kerf 1/8\nbuy\n  {buy}\nparts\n  {parts}\n')
    assert "Saw kerf 1/8 in. Lengths" in _text(layout(own))
    # "kerf 3" in a plan of inches: millimetres were meant, and every cut took 3 in.
    wide = audit_text(own.source.text.replace("kerf 1/8", "kerf 3"))
    assert "Saw kerf 3 in (no saw cuts that wide" in _text(layout(wide))


def test_a_long_sliver_is_no_off_cut_worth_keeping_and_is_not_said_to_be_short() -> None:
    # "No off-cut is 12 in long", above a list that had one of 7/8 x 58.
    text = _text(laid("board: 1 of 3/4 x 8 @ 58", "1 of 3/4 x 9 @ 60")[1])
    assert "7/8 x 58" in text and "no off-cut is 12 in long and 2 in wide" in re.sub(r"\s+", " ", text)


def test_a_panel_is_not_forgotten_once_its_boards_are_cut() -> None:
    # Its boards were counted, and nothing said that they become a top, nor to what it is then cut.
    text = _text(
        laid("top: 2 of panel 10 x 38 from 3 slat edge-glued; slat: 6 of 1x4 @ 40", "3 of 1x4 @ 96")[1]
    )
    assert "Then    top: 2, each of 3 slat, glued edge to edge; then cut to 10 x 38 in." in text


def test_rods_are_not_counted_as_sheets() -> None:
    text = _text(
        laid("rail: 1 of 2x4 @ 40; peg: 2 of 3/4 round @ 9", "1 of 2x4 @ 96; 1 of dowel-rod 3/4 @ 36")[1]
    )
    assert "2 boards and rods, fewest possible" in text


def test_an_off_cut_of_a_metric_plan_is_measured_by_the_metric_limit() -> None:
    # 302 x 2440 mm of plywood was "not worth keeping": the limit was 12 in, not 300 mm.
    (path,) = [path for path in ALL if path.stem == "hall-bookcase"]
    assert "off-cuts worth keeping: 302 x 2440." in _text(layout(audit_text(path.read_text())), "mm")


@pytest.mark.parametrize(
    "text", ["", 'plan "x"\n  units mm\n', 'plan "x"\n  units in\nparts\n  a: 1 of 2x44 @ 3\n']
)
def test_a_plan_with_nothing_to_cut_says_so(text: str) -> None:
    found = layout(audit_text(text))
    assert ("Missing a" if found.unheld else "nothing to cut") in _text(found)
