"""Cuts in the order to make them: what comes off the saw is what the layout promised."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.cutting import Board, CutBoard, Piece
from planlint.cutting.choose import choose
from planlint.sawing.alike import alike, steps
from planlint.sawing.layout import Boards
from planlint.sawing.order import CROSSCUT, RIP, Area, Sawn, sawn
from planlint.trade.sawing import shortest_to_rip
from tests.sawing.plans import laid

HAIR = 0.003  # mm: a layout's tolerance, here and there
KERFS = st.sampled_from([0.0, 2.0, 3.175])


@st.composite
def cut_lists(draw: st.DrawFn) -> tuple[list[Board], list[Piece], bool]:
    """Boards of one section, or sheets, in one or two lengths, and pieces that they may hold."""
    sheets = draw(st.booleans())
    thickness, width = (18.0, draw(st.sampled_from([600.0, 1220.0]))) if sheets else (38.0, 140.0)
    stock = []
    for index in range(draw(st.integers(1, 2))):
        length = draw(st.sampled_from([1200.0, 1800.0, 2400.0]))
        stock.append(Board(f"line {index}", thickness, width, length, draw(st.integers(1, 5))))
    pieces = []
    for index in range(draw(st.integers(1, 6))):
        wide = draw(
            st.sampled_from(
                [140.0, 140.0, 89.0, 66.0, 38.0, 19.0] if not sheets else [500.0, 300.0, 299.0, 80.0]
            )
        )
        long = draw(st.integers(60, 1100)) / draw(st.sampled_from([1, 3]))
        thick = 18.0 if sheets else draw(st.sampled_from([38.0, 38.0, 19.0]))
        pieces.append(Piece(f"piece {index}", wide, long, draw(st.integers(1, 5)), thick))
    return stock, pieces, sheets


@settings(max_examples=250, deadline=None, derandomize=True)
@given(cut_lists(), KERFS)
def test_no_layout_breaks_kerf_length_width_thickness_count_or_the_two_stages_of_a_sheet(
    case: tuple[list[Board], list[Piece], bool], kerf: float
) -> None:
    stock, pieces, sheets = case
    found = choose(stock, pieces, kerf, budget=200, sheets=sheets, may_turn=sheets, two_stage=sheets)
    if found is None:
        return
    used = Counter(board.key for board in found.layout)
    assert all(used[line.key] <= line.number for line in stock), "more boards than were bought"
    cut: Counter[str] = Counter()
    for board in found.layout:
        one = sawn(board, kerf, sheet=sheets)
        _sawn_right(one, kerf)
        for piece in one.pieces:
            cut[piece.name] += 1
            _right_size(one, board, piece.name, piece.area, pieces, sheets)
        if sheets:
            assert _two_stages(one), "a sheet that takes more than two stages"
    assert cut == Counter({piece.key: piece.number for piece in pieces})


def _sawn_right(one: Sawn, kerf: float) -> None:
    """Cut by cut: each goes from edge to edge of a blank that is there, takes a kerf, and leaves what is drawn."""
    board = one.board
    whole = Area(0.0, 0.0, board.length, board.width)
    areas = [piece.area for piece in one.pieces] + list(one.offcuts)
    lines = [cut.kerf for cut in one.cuts]
    for area in areas + lines:
        assert _within(area, whole), "outside the board"
    for index, area in enumerate(areas):
        assert not any(_overlap(area, other) for other in areas[index + 1 :] + lines), "two in one place"
    total = sum(area.length * area.width for area in areas + lines)
    assert total == pytest.approx(board.length * board.width, abs=HAIR * (board.length + board.width))
    at_edge = 0.0
    for cut in one.cuts:
        taken = cut.kerf.length if cut.way == CROSSCUT else cut.kerf.width
        at_edge = max(at_edge, taken)
        assert taken <= kerf + HAIR
        if taken < kerf - HAIR:  # only where the board ends within the kerf
            end = (
                board.length - cut.kerf.along - taken
                if cut.way == CROSSCUT
                else board.width - cut.kerf.across - taken
            )
            ends = [_end(area, cut.way) for area in areas]
            assert abs(end) < HAIR or any(abs(_end(cut.kerf, cut.way) - one_end) < HAIR for one_end in ends)
        across = cut.blank.width if cut.way == CROSSCUT else cut.blank.length
        reach = cut.kerf.width if cut.way == CROSSCUT else cut.kerf.length
        assert reach == pytest.approx(across), "not from edge to edge"
    assert [cut.number for cut in one.cuts] == list(range(1, len(one.cuts) + 1))
    for cut in one.cuts:
        assert cut.out_of < cut.number, "cut out of a blank that is not there yet"


def _end(area: Area, way: str) -> float:
    return area.along + area.length if way == CROSSCUT else area.across + area.width


def _within(area: Area, whole: Area) -> bool:
    return (
        area.along >= -HAIR
        and area.across >= -HAIR
        and area.along + area.length <= whole.length + HAIR
        and area.across + area.width <= whole.width + HAIR
    )


def _overlap(one: Area, other: Area) -> bool:
    along = min(one.along + one.length, other.along + other.length) - max(one.along, other.along)
    across = min(one.across + one.width, other.across + other.width) - max(one.across, other.across)
    return along > HAIR and across > HAIR


def _right_size(
    one: Sawn, board: CutBoard, name: str, area: Area, pieces: Sequence[Piece], sheets: bool
) -> None:
    piece = next(each for each in pieces if each.key == name)
    lies = [(piece.length, piece.width, piece.thickness)]
    lies.append(
        (piece.width, piece.length, piece.thickness)
        if sheets
        else (piece.length, piece.thickness, piece.width)
    )
    assert any(
        abs(area.length - long) < HAIR and abs(area.width - wide) < HAIR and through <= board.thickness + HAIR
        for long, wide, through in lies
    ), "not the size that is wanted"


def _two_stages(one: Sawn) -> bool:
    """Strips from edge to edge, each cut across into single pieces, one way or the other; and cut in that order."""
    areas = [piece.area for piece in one.pieces]
    turned = [Area(area.across, area.along, area.width, area.length) for area in areas]
    stage = {0: 0}
    for cut in one.cuts:
        stage[cut.number] = stage[cut.out_of] + 1
        if stage[cut.number] > 3 or (stage[cut.number] == 3 and not cut.piece):
            return False  # a third cut only trims a piece that is narrower than its strip
    return any(
        all(
            len(_lines([Area(a.across, a.along, a.width, a.length) for a in strip])) == len(strip)
            for strip in _lines(way)
        )
        for way in (areas, turned)
    )


def _lines(areas: Sequence[Area]) -> list[list[Area]]:
    """The strips, side by side across the board, that straight cuts along it part."""
    strips: list[list[Area]] = []
    reached = -1.0
    for area in sorted(areas, key=lambda area: area.across):
        if strips and area.across < reached - HAIR:
            strips[-1].append(area)
        else:
            strips.append([area])
        reached = max(reached, area.across + area.width)
    return strips


def _board(
    *cuts: tuple[str, float, float], length: float = 2400.0, width: float = 140.0, kerf: float = 3.0
) -> Sawn:
    """What `choose` makes of one board and these pieces: name, length, width."""
    pieces = [Piece(name, wide, long, 1, 38.0) for name, long, wide in cuts]
    found = choose([Board("b", 38.0, width, length, 1)], pieces, kerf)
    assert found is not None and len(found.layout) == 1
    return sawn(found.layout[0], kerf, sheet=False)


def _told(one: Sawn) -> list[tuple[str, str]]:
    return [(cut.way, cut.piece) for cut in one.cuts]


def test_longest_first_and_the_rest_is_left_over() -> None:
    one = _board(("short", 300.0, 140.0), ("long", 900.0, 140.0), ("middle", 600.0, 140.0))
    assert _told(one) == [(CROSSCUT, "long"), (CROSSCUT, "middle"), (CROSSCUT, "short")]
    assert [round(area.length) for area in one.offcuts] == [2400 - 1800 - 9]


def test_crosscut_to_length_before_ripping() -> None:
    one = _board(("a", 1500.0, 60.0), ("b", 1500.0, 60.0))
    assert _told(one) == [(CROSSCUT, ""), (RIP, "a"), (RIP, "b")]


def test_short_pieces_are_ripped_while_they_are_one_long_blank() -> None:
    # Two of 200 mm: ripping a blank of 200 at the table saw is how people get hurt.
    one = _board(("a", 200.0, 60.0), ("b", 200.0, 60.0))
    assert all(cut.blank.length >= shortest_to_rip() for cut in one.cuts if cut.way == RIP)
    one = _board(*[(name, 100.0, 60.0) for name in "abcdefgh"])
    assert all(cut.blank.length >= shortest_to_rip() for cut in one.cuts if cut.way == RIP)
    assert len(one.pieces) == 8


def test_the_last_piece_that_fills_the_board_needs_no_cut() -> None:
    one = _board(("a", 1000.0, 140.0), ("b", 997.0, 140.0), length=2000.0)
    assert _told(one) == [(CROSSCUT, "a")]
    assert [(piece.name, piece.number) for piece in one.pieces] == [("a", 1), ("b", 1)]
    assert not one.offcuts


def test_a_board_that_is_a_piece_is_not_cut() -> None:
    one = _board(("a", 2400.0, 140.0))
    assert not one.cuts and one.pieces[0].number == 0


def test_boards_cut_alike_are_told_once_with_their_number() -> None:
    found = choose([Board("b", 38.0, 140.0, 2400.0, 4)], [Piece("p", 140.0, 1000.0, 7, 38.0)], 3.0)
    assert found is not None
    boards = Boards(
        "b", "board", None, 38.0, 140.0, 2400.0, None, None, False, 4, 4, 4, True, found.layout, ""
    )
    told = alike(boards, 3.0)
    assert [(one.first, one.number, len(one.sawn.pieces)) for one in told] == [(1, 3, 2), (4, 1, 1)]
    assert [(step.first, step.last, step.piece) for step in steps(told[0].sawn)] == [(1, 2, "p")]


def test_small_pieces_of_a_sheet_come_from_one_strip_and_not_from_slices_across_the_whole_sheet() -> None:
    # Nine gussets of 4 in took nine cuts across 48 in of plywood, each slice ripped from a blank 4 in long.
    for number in (1, 9):
        parts, sheet = f"gusset: {number} of 3/4 x 4 @ 4", "1 of sheet 3/4 x 48 x 96"
        _, found = laid(parts, sheet, wood="birch-plywood")
        (board,) = found.boards[0].cut
        ways = [cut.way for cut in sawn(board, 3.175, sheet=True).cuts]
        assert ways == [RIP, *[CROSSCUT] * number]
