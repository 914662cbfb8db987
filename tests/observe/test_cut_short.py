"""What is too much to work out is told as not checked, with its line, and never passed in silence."""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text
from planlint.build.build import build
from planlint.observe.facts import Gap
from planlint.observe.observe import TABLES, observe
from planlint.read.reader import read
from planlint.source import Source
from planlint.trade.caps import most
from planlint.trade.tables import rows

HEAD = 'plan "T"\n  units in\n  wood pine\nparts\n'
SLAT = "runs left-right, face top, left at 0, bottom at 0"


def gaps(text: str) -> list[Gap]:
    """The gaps of a plan that come of a cap; every plan here is placed completely."""
    plan, unread = read(Source(HEAD + text))
    assert not unread, unread
    return [gap for gap in observe(build(plan)).gaps if "more than" in gap.reason]


def line_of(text: str, gap: Gap) -> str:
    """The line of the plan that a gap points to."""
    whole = HEAD + text
    start = whole.rfind("\n", 0, gap.span.start) + 1
    return whole[start : whole.find("\n", start)].strip()


def row(number: int, listed: int) -> str:
    return (
        f"  slat: {listed} of 1x4 @ 20\nplace\n  slat: row of {number} front-back gap 1, {SLAT}, front at 0\n"
    )


@pytest.mark.parametrize(
    ("number", "listed", "built"),
    [(300, 4, None), (301, 4, 300), (700, 400, None), (1000, 1000, None), (1001, 1001, 1000)],
)
def test_pieces_of_a_row_that_are_not_built_are_told(number: int, listed: int, built: int | None) -> None:
    """Guards: the 301st slat passed unseen; and a cap told that was not hit."""
    found = gaps(row(number, listed))
    if built is None:
        assert not found
        return
    assert {gap.reason for gap in found} == {
        f"slat: more than {built} pieces in one row, only the first {built} are built"
    }
    assert {"overlap", "fastener", "hardware", "cover_gap"} & set(TABLES) <= {gap.table for gap in found}
    assert "listed_part" not in {gap.table for gap in found}  # the count is known
    assert line_of(row(number, listed), found[0]).startswith("slat: row of")


def test_a_cover_of_which_not_all_slats_are_built_is_no_gap_at_its_end() -> None:
    """Guards: a gap found at the end of a cover that the plan does fill."""
    text = row(400, 4) + "cover\n  seat: slat from 0 to 1799\n"
    plan, unread = read(Source(HEAD + text))
    assert not unread, unread
    piece = build(plan)
    assert not piece.covers and piece.cut_short


def boards_in_one_place(number: int, screws: str = "") -> str:
    text = f"  board: {number} of 2x4 @ 20\nplace\n"
    text += f"  board: row of {number} up from 0 to 1 1/2, {SLAT.replace(', bottom at 0', '')}, front at 0\n"
    return text + (f"step\n  board to board: {screws}\n" if screws else "")


def test_overlapping_pairs_that_are_not_looked_at_are_told() -> None:
    """45 boards make 990 pairs, 46 make 1035. Guards: parts past the thousandth pair passed as free."""
    assert not gaps(boards_in_one_place(45))
    found = gaps(boards_in_one_place(46))
    assert {gap.reason for gap in found} == {
        "more than 1000 pairs of parts are drawn in one another, only the first 1000 are looked at"
    }
    assert line_of(boards_in_one_place(46), found[0]).startswith("board: row of")
    assert "board" in found[0].add


def test_what_touches_nothing_only_because_it_was_not_looked_at_is_not_called_loose() -> None:
    """Guards: a post far from the heap told to meet nothing, since the search stopped before it."""
    text = boards_in_one_place(60).replace("place\n", "  post: 1 of 4x4 @ 9\n  cap: 1 of 4x4 @ 9\nplace\n")
    text += "  post: runs up, left at 100, front at 0, bottom at 0\n"
    text += "  cap: runs up, left at 100, front at 0, bottom at top of post\n"
    text += "step\n  cap to post: 2 wood-screws #8 x 3 in\n"
    plan, unread = read(Source(HEAD + text))
    assert not unread, unread
    assert not build(plan).unmet


def two_boards(screws: int) -> str:
    return (
        "  low: 1 of 2x4 @ 20\n  high: 1 of 1x4 @ 20\nplace\n"
        f"  low: {SLAT}, front at 0\n"
        f"  high: {SLAT.removesuffix('bottom at 0')}bottom at top of low, front at 0\n"
        f"step\n  high to low: {screws} wood-screws #8 x 1 1/4 in\n"
    )


def test_fasteners_that_are_not_drawn_are_told() -> None:
    """Guards: the 101st screw passed as sound."""
    assert not gaps(two_boards(100))
    found = gaps(two_boards(101))
    assert {gap.reason for gap in found} == {
        "wood-screws: more than 100 between two parts, only the first 100 are drawn"
    }
    tables = {gap.table for gap in found}
    assert "fastener" in tables and "overlap" not in tables
    assert line_of(two_boards(101), found[0]).startswith("high to low: 101")


def test_fasteners_of_overlapping_pairs_that_are_not_drawn_are_told() -> None:
    """9 boards make 36 pairs, 10 make 45. Guards: joints past the fortieth passed without a screw drawn."""
    screws = "1 wood-screws #8 x 2 in"
    assert not gaps(boards_in_one_place(9, screws))
    found = gaps(boards_in_one_place(10, screws))
    assert {gap.reason for gap in found} == {
        "more than 40 joined pairs are drawn in one another, the fasteners of further ones are not drawn"
    }
    assert line_of(boards_in_one_place(10, screws), found[0]).startswith("board to board")


def nested(depth: int) -> str:
    text = "  slat: 1 of 1x4 @ 20\n"
    text += f"place in b-1\n  slat: {SLAT}, front at 0\n"
    for n in range(2, depth + 1):
        text += f"place in b-{n}\n  b-{n - 1}: left at 0, front at 0, bottom at 0\n"
    return text + f"place\n  b-{depth}: left at 0, front at 0, bottom at 0\n"


def test_sub_assemblies_too_deep_to_be_built_are_told() -> None:
    """Guards: the innermost parts left out without a word."""
    assert not gaps(nested(20))
    found = gaps(nested(21))
    assert {gap.reason for gap in found} == {
        "b-1: more than 20 sub-assemblies within each other, what is further in is not built"
    }


def test_a_sub_assembly_of_too_many_parts_has_no_place_and_says_why() -> None:
    """6 x 1000 parts. Guards: thousands of parts passed because none was built."""
    text = f"  slat: 6000 of 1x4 @ 20\nplace in bench-a\n  slat: row of 1000 front-back gap 1, {SLAT}, front at 0\n"
    text += "place\n  bench-a: row of 6 up gap 1, left at 0, front at 0, bottom at 0\n"
    plan, unread = read(Source(HEAD + text))
    assert not unread, unread
    piece = build(plan)
    assert not piece.parts
    assert set(piece.unplaced_names.values()) == {"it has more than 5000 parts"}
    assert any("has no place" in gap.reason for gap in observe(piece).gaps)


def test_the_reader_of_an_audit_sees_that_rules_were_not_checked() -> None:
    """Guards: a cap that stays inside: the verdict must name the rules and the number."""
    verdict = audit_text(HEAD + row(9999, 9999)).verdict
    said = [one for one in verdict.not_checked if "more than 1000 pieces in one row" in one.reason]
    assert {"overlap"} <= {one.rule for one in said}
    assert all(one.add for one in said)


def test_every_cap_says_why() -> None:
    """Guards: a number that nobody can judge, and one that no code reads."""
    for what, cap in rows("caps", "caps").items():
        assert cap["why"] and most(what) > 0
