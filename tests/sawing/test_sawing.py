"""Which boards a plan takes: its own, those to add, those to choose; and what nobody can know."""

from __future__ import annotations

from collections import Counter

import pytest

from planlint.auditing import audit_text
from planlint.buying.listing import shopping
from planlint.observe.wanted import wanted
from planlint.sawing.layout import Layout
from planlint.sawing.sawing import layout
from planlint.sawing.telling import against_list, number_of
from tests.sawing.plans import ALL, laid, names, one


def test_a_board_is_not_called_spare_while_pieces_of_unknown_length_wait_for_it() -> None:
    # Braces stood in the cut list by an inner edge: "1 board, fewest possible; 1 to spare", and one was bought.
    inner = "2x4 @ 20 short to short, ends mitred 45"
    audit, found = laid(f"rail: 1 of 2x4 @ 20; brace: 6 of {inner}; strut: 1 of {inner}", "2 of 2x4 @ 96")
    (boards,) = found.boards
    assert number_of(boards) == "at least 1 board"
    assert "spare" not in against_list(boards) and "brace and strut are not counted" in against_list(boards)
    (line,) = shopping(audit, audit).groups[0].lines
    assert (line.buy, line.difference) == (2, "not checked")


def test_no_more_of_the_plans_boards_than_its_pieces_take() -> None:
    boards = one("rail: 4 of 2x4 @ 40", "5 of 2x4 @ 96")
    assert (boards.own, boards.number, boards.least, boards.proved) == (5, 2, 2, True)


def test_of_as_few_boards_the_shorter_ones() -> None:
    _, found = laid("rail: 2 of 2x4 @ 40", "1 of 2x4 @ 120; 1 of 2x4 @ 96")
    assert [(boards.words, boards.number) for boards in found.boards] == [("2x4 @ 120", 0), ("2x4 @ 96", 1)]


def test_too_few_boards_are_added_to_and_the_plan_is_not_believed() -> None:
    boards = one("rail: 5 of 2x4 @ 50", "2 of 2x4 @ 96")
    assert (boards.own, boards.number, boards.proved) == (2, 5, True)
    assert not boards.why


def test_a_kerf_that_leaves_no_room_takes_another_board() -> None:
    # 2 x 48 and a kerf of 1/8 are 96 1/8.
    assert one("rail: 2 of 2x4 @ 48", "3 of 2x4 @ 96").number == 2
    assert one("rail: 2 of 2x4 @ 47 15/16", "3 of 2x4 @ 96").number == 1


def test_two_2x2_can_be_ripped_from_a_2x4_with_the_kerf_counted() -> None:
    # Trade fact (common practice, no source): 2 x 1 1/2 and a kerf of 1/8 are 3 1/8 of 3 1/2.
    boards = one("leg: 4 of 1 1/2 x 1 1/2 @ 40, ripped from 2x4", "3 of 2x4 @ 96")
    assert (boards.number, boards.proved) == (1, True)


def test_boards_that_nothing_is_cut_from_are_to_spare_but_rods_may_be_for_plugs() -> None:
    _, found = laid("rail: 1 of 2x4 @ 40", "1 of 2x4 @ 96; 2 of 6x6 @ 96; 1 of dowel-rod 1 in @ 36 oak")
    assert [(boards.words, boards.number, boards.cut) for boards in found.boards][1:] == [("6x6 @ 96", 0, ())]


def test_without_a_list_the_length_sold_that_takes_least_wood_is_chosen() -> None:
    # 3 x 30 and the kerfs: one of 8 ft is the least; 36 from 3 ft boards, two of 4 ft would be as much as one of 8.
    boards = one("rail: 3 of 2x4 @ 30")
    assert (boards.words, boards.own, boards.number, boards.purchase) == ("2x4 @ 96", 0, 1, None)
    assert boards.why == "the plan's list has no wood that can be read"
    assert one("leg: 4 of 4x4 @ 9").words == "4x4 @ 48"  # 4 x 9 and three kerfs are more than 36


def test_a_measured_part_is_cut_from_the_smallest_size_sold_that_holds_it() -> None:
    boards = one("slat: 2 of 3/4 x 3 @ 30")
    assert (boards.words, round(boards.thickness, 2), round(boards.width, 1)) == ("1x4 @ 72", 19.05, 88.9)
    assert one("slat: 2 of 21 x 95 @ 700", units="mm").words == "21 x 95 @ 1800"


def test_wood_that_is_lacking_is_bought_besides_and_says_why() -> None:
    _, found = laid("rail: 1 of 2x4 @ 100; slat: 1 of 1x4 @ 30", "1 of 2x4 @ 96; 1 of 1x4 @ 48")
    extra = found.boards[-1]
    assert (extra.words, extra.own) == ("2x4 @ 120", 0)
    assert extra.why == "the list has nothing long enough for rail; nearest is 2x4 @ 96"


def test_hardwood_without_a_list_is_not_guessed_at() -> None:
    _, found = laid("rail: 2 of 3/4 x 3 @ 30", wood="red-oak")
    assert not found.boards
    ((name, reason),) = found.unheld
    assert name == "rail" and "random widths and lengths" in reason and "4/4" in reason


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ("top: 1 of 3/4 x 20 @ 30", "glued up"),
        ("leg: 1 of 2 in round @ 30", "no rod of 2 in is sold"),
        ("rail: 1 of 2x44 @ 30", "in no table of sizes"),
        ("rail: 1 of 2x4 @ fit", "length of rail is not known"),
        ("beam: 1 of 2x4 @ 300", "no 2x4 is sold that yields 300 in"),
    ],
)
def test_what_nobody_can_know_is_said_with_the_reason_and_never_laid(parts: str, said: str) -> None:
    _, found = laid(parts)
    assert not found.boards
    assert said in found.unheld[0][1]


def test_an_entry_of_unknown_length_does_not_pass_as_counted() -> None:
    _, found = laid("rail: 2 of 2x4 @ 40; post: 1 of 2x4 @ fit", "2 of 2x4 @ 96")
    assert "post is not counted" in found.boards[0].why
    assert [name for name, _ in found.unheld] == ["post"]
    assert found.boards[0].number == 1


def test_rough_boards_are_cut_from_what_is_left_of_them_once_planed() -> None:
    boards = one("rail: 2 of 13/16 x 3 @ 30", "1 of rough 4/4x6 @ 96 red-oak", wood="red-oak")
    assert boards.rough == pytest.approx((25.4, 152.4))
    assert boards.thickness == pytest.approx(13 / 16 * 25.4)


def test_treated_parts_never_come_from_untreated_boards() -> None:
    _, found = laid(
        "post: 2 of 2x4 @ 40 treated; rail: 2 of 2x4 @ 40", "2 of 2x4 @ 96; 1 of 2x4 @ 96 treated"
    )
    for boards in found.boards:
        if not boards.treated:
            assert "post" not in [name for board in names(boards) for name in board]
    assert _pieces(found) == {"post": 2, "rail": 2}


def test_mitred_ends_that_could_nest_are_no_proof() -> None:
    # Tip to tip 4 x 24 is 96 3/8; the waste of 45 degree ends could be shared: then one board does.
    _, found = laid("brace: 4 of 2x4 @ 24, ends mitred 45", "2 of 2x4 @ 96")
    (boards,) = found.boards
    assert (boards.number, boards.least, boards.proved) == (2, 1, False)


def test_shaped_parts_could_be_laid_into_one_another_so_they_prove_nothing() -> None:
    square, shaped = (one(f"arm: 5 of 1x6 @ 20{how}", "3 of 1x6 @ 96") for how in ("", ", shaped"))
    assert (square.number, square.proved) == (2, True)
    assert (shaped.number, shaped.proved) == (2, False)


def test_on_a_sheet_the_grain_runs_along_where_that_takes_no_more_sheets() -> None:
    boards = one("shelf: 4 of 3/4 x 11 @ 30", "1 of sheet 3/4 x 48 x 96", wood="birch-plywood")
    assert not any(cut.turned for board in boards.cut for cut in board.pieces)
    across = one("side: 2 of 3/4 x 40 @ 48", "1 of sheet 3/4 x 48 x 96", wood="birch-plywood")
    assert across.number == 1 and all(cut.turned for cut in across.cut[0].pieces)


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_every_piece_of_every_plan_is_cut_once_or_is_said_to_be_missing(path) -> None:  # type: ignore[no-untyped-def]
    audit = audit_text(path.read_text())
    found = layout(audit)
    missing = {name for name, _ in found.unheld}
    asked = {want.name: sum(one.number for one in want.lengths) for want in wanted(audit.piece)[0]}
    assert _pieces(found) == {name: number for name, number in asked.items() if name not in missing}
    for boards in found.boards:
        assert boards.number == len(boards.cut)
        assert boards.least is None or boards.least <= boards.number
        assert not boards.proved or boards.least in (None, boards.number)


@pytest.mark.parametrize(
    "text", ["", "plan", 'plan "x"\n  units in\n', "parts\n", "buy\n  2 of 2x4 @ 96\n", "?"]
)
def test_a_plan_with_nothing_in_it_is_no_error(text: str) -> None:
    found = layout(audit_text(text))
    assert _pieces(found) == {}


def _pieces(found: Layout) -> dict[str, int]:
    return dict(Counter(name for boards in found.boards for board in names(boards) for name in board))
