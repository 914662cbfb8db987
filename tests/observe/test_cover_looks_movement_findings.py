"""How bad findings of these chapters are, what they silence, what their mends compute: excerpts can't show that."""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text
from planlint.judge.finding import Finding
from tests.observe.test_covers import BY_COUNT, from_front, placed
from tests.observe.test_holes import rail
from tests.observe.test_movement import board, slotted, table
from tests.observe.test_openings import GUARD


def heard(text: str) -> dict[str, Finding]:
    return {finding.rule: finding for finding in audit_text(text).verdict.findings}


def severity(text: str, rule: str) -> str | None:
    found = heard(text).get(rule)
    return None if found is None else found.severity


def mend(text: str, rule: str) -> tuple[str, float]:
    made = heard(text)[rule].mend
    assert made is not None
    value = made.to.value
    assert isinstance(value, float)
    return made.change, round(value / 25.4, 4) if made.to.kind == "length" else value


# --- cover -------------------------------------------------------------------------------------------


def test_respacing_is_tried_before_another_slat() -> None:
    """(15 3/4 - 14) / 3 = 0.583 is within 1/8 to 3/4."""
    assert mend(placed("15 3/4", 4, from_front("1/4")), "gap-too-wide") == ("gap between the slats", 0.5833)


def test_a_whole_slat_is_tried_before_a_ripped_one() -> None:
    """Three 3 1/2 in slats in 15 1/2 leave room for a fourth, with 1/2 in between."""
    assert mend(BY_COUNT.format(number=3, across=15.5), "gap-too-wide") == ("number of slats", 4.0)
    assert "1/2" in said(BY_COUNT.format(number=3, across=15.5))


def test_the_strip_is_what_is_measured_there_less_one_gap() -> None:
    """1 3/4 left at the back less the 1/4 in that lies between the others: 1 1/2."""
    assert "rip it to 1 1/2 in" in said(placed("16 1/2", 4, from_front("1/4")))


def test_no_strip_is_narrower_than_an_inch_and_a_quarter() -> None:
    """1/2 in the most; 15 15/16: 1 3/16 less 1/4 is 15/16, too narrow: the last two share (3 1/2 + 15/16) / 2."""
    text = placed("15 15/16", 4, from_front("1/4")).replace("to 3/4 in", "to 1/2 in")
    assert "rip the last two to 2 7/32 in" in said(text)
    just = placed("16 1/4", 4, from_front("1/4")).replace("to 3/4 in", "to 1/2 in")
    assert "rip it to 1 1/4 in" in said(just)


def said(text: str) -> str:
    from planlint.auditing import rules
    from planlint.show.wording import word_finding

    audit = audit_text(text)
    found = next(one for one in audit.verdict.findings if one.rule == "gap-too-wide")
    return word_finding(found, rules().rules[found.rule], audit.source, "in").fix


UNEVEN = """
plan "Uneven"
  units in
parts
  slat: 3 of 2x4 @ 24
place
  slat as slat-f: runs left-right, face top, left at 0, front at 0, bottom at 0
  slat as slat-m: like slat-f, front at 3 3/4
  slat as slat-b: like slat-f, front at 9 1/2
cover
  top: slat from front of slat-f to back of slat-b, gap 1/8 to {most} in
"""


def test_a_wide_gap_silences_the_uneven_one() -> None:
    """Gaps of 1/4 and 2 1/4: too wide where 3/4 is the most, else only uneven."""
    covers = {"gap-too-wide", "gap-uneven"}
    assert covers & set(heard(UNEVEN.format(most="3/4"))) == {"gap-too-wide"}
    assert covers & set(heard(UNEVEN.format(most="3"))) == {"gap-uneven"}


def test_a_missing_slat_is_told_as_that() -> None:
    """Four on the list, three placed: the gap it leaves is its consequence."""
    missing = placed("15 1/2", 4, from_front("1/2")).replace("row of 4", "row of 3")
    assert {"count-mismatch", "gap-too-wide"} & set(heard(missing)) == {"count-mismatch"}


@pytest.mark.parametrize(
    ("piece", "users", "expected"),
    [
        ("bed", "", "stop"),
        ("chair", "", "hint"),
        ("other", "", "check"),
        ("chair", "  users children\n", "stop"),
        ("shelf", "", None),
        ("shelf", "  users children\n", "stop"),
    ],
)
def test_an_opening_is_worst_where_children_are(piece: str, users: str, expected: str | None) -> None:
    text = GUARD.format(parts="", place="").replace("  piece bed\n", f"  piece {piece}\n{users}")
    assert severity(text, "entrapment") == expected


def test_boards_by_count_may_be_a_thirty_second_too_wide() -> None:
    """4 x 3 1/2 in 14: gaps of 0; in 13 15/16 they are -1/48 each, within the tolerance, in 13 7/8 -1/24."""
    text = BY_COUNT.replace(", gap 1/8 to 3/4 in", "").replace("units in", "units in\n  setting indoors")
    assert severity(text.format(number=4, across=13.9375), "gap-too-tight") is None
    assert severity(text.format(number=4, across=13.875), "gap-too-tight") == "check"


# --- looks -------------------------------------------------------------------------------------------


def test_a_pocket_in_the_back_is_a_hint_while_nobody_said_what_is_seen() -> None:
    assert severity(rail("back", seen=""), "hole-in-view") == "hint"
    assert severity(rail("front", seen=""), "hole-in-view") == "check"
    assert severity(rail("back", seen="  seen back\n"), "hole-in-view") == "check"


def test_the_mend_turns_the_pocket_to_a_face_that_works() -> None:
    """The edit changes the side in the text, and only to where the tip stays covered."""
    made = heard(rail("front"))["hole-in-view"].mend
    assert made is not None
    assert [edit.text for edit in made.edits] == [made.to.value]


# --- movement ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wood", "width", "edge", "expected"),
    [
        ("red-oak", 5.5, 1, None),  # F 3 1/2: 0.065, but no more than 4 in
        ("eastern-white-pine", 7.25, 1, None),  # F 5 1/4: 0.056
        ("douglas-fir", 7.25, 1, "check"),  # 0.070
        ("red-oak", 8, 0.75, "check"),  # F 6 1/2: 0.120
        ("eastern-white-pine", 13.25, 1, "check"),  # F 11 1/4: 0.119
        ("eastern-white-pine", 14, 1, "stop"),  # F 12: 0.127
        ("red-oak", 29, 2.5, "stop"),  # F 24: 0.443
    ],
)
def test_how_far_it_moves_says_how_bad_it_is(
    wood: str, width: float, edge: float, expected: str | None
) -> None:
    assert severity(board(wood, width, edge), "top-cannot-move") == expected


def test_unknown_wood_is_not_checked() -> None:
    verdict = audit_text(board("moonwood", 14, 1)).verdict
    assert "top-cannot-move" in {one.rule for one in verdict.not_checked}


def test_a_narrow_board_needs_no_wood_to_be_passed() -> None:
    """Held over 4 in or less it is left alone whatever its wood: no word about it."""
    verdict = audit_text(board("moonwood", 5.5, 1)).verdict
    assert "top-cannot-move" not in {one.rule for one in verdict.not_checked}


def test_the_slot_that_a_mend_prints_is_enough() -> None:
    """12 x 0.01845 / 2 + 0.164 = 0.275, so 5/16; the plan mended so is silent."""
    assert mend(board("red-oak", 14, 1), "top-cannot-move") == ("slot for the outer screws", 0.3125)
    mended = board("red-oak", 14, 1, "wood-screws #8 x 1 5/8 in slotted 5/16 in")
    assert not {"top-cannot-move", "slot-too-short"} & set(heard(mended))


def test_a_slot_too_short_is_made_longer() -> None:
    """0.2214 + 0.190 = 0.411: 7/16."""
    assert mend(slotted("red-oak", "3/8"), "slot-too-short") == ("slot length", 0.4375)
    assert severity(slotted("red-oak", "3/8"), "slot-too-short") == "check"


@pytest.mark.parametrize(
    ("apart", "expected"),
    [
        (6.5, None),  # 3 1/4 x 0.01335 = 0.043: any fixing takes 1/16 in
        (16, "hint"),  # 8 x 0.01335 = 0.107: turned 45 deg it gives 0.15
        (24, "hint"),  # 12 x 0.01335 = 0.160: not 1/64 more than 0.15
        (26, "check"),  # 13 x 0.01335 = 0.174
    ],
)
def test_a_figure_8_on_a_long_apron(apart: float, expected: str | None) -> None:
    text = table(apart + 4, apart, "top to long-apron: 3 figure-8 #8 x 5/8 in")
    assert severity(text, "slot-too-short") == expected
