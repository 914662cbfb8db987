"""Plugs and dowels: bought as such, cut from a rod, or from what is left of the rods that parts are cut from."""

from __future__ import annotations

import pytest

from planlint.auditing import Audit, audit_text
from planlint.cutting import Cut, CutBoard, Strip
from planlint.sawing.layout import Layout

from .lists import INCH, bench, boards, line, listed

BORED = "2 wood-screws #8 x 2 in counterbored 3/8 x 1/4 plugged"  # 16 plugs, 1/4 + 1/8 + 1/8 in of rod each


def test_the_lists_rod_is_enough_for_its_plugs() -> None:
    found = line(listed(bench("1 of dowel-rod 3/8 in @ 36 oak", BORED)), "dowel rod")
    assert found.needed is not None
    assert found.needed.low == pytest.approx(16 * 0.5 * INCH)
    assert (found.buy, found.difference) == (1, "same")


def test_a_second_rod_is_bought_when_a_plug_would_not_come_off_whole() -> None:
    """16 plugs of 2 1/4 in take 36 in: exactly one rod; 2 3/8 in each is 15 a rod."""
    deep = "2 wood-screws #8 x 4 in counterbored 3/8 x {} plugged"
    exact = line(listed(bench("1 of dowel-rod 3/8 in @ 36", deep.format("2"))), "dowel rod")
    more = line(listed(bench("1 of dowel-rod 3/8 in @ 36", deep.format("2 1/8"))), "dowel rod")
    assert (exact.buy, more.buy, more.difference) == (1, 2, "more")


def test_without_a_rod_the_shortest_one_sold_is_missing_and_offcuts_do_too() -> None:
    found = line(listed(bench("1 glue", BORED)), "dowel rod")
    assert (found.what, found.buy, found.difference) == ("dowel rod 3/8 in, 36 in long", 1, "missing")
    assert "plug cutter" in found.notes[0]


def test_a_rod_of_another_size_fills_no_counterbore() -> None:
    found = listed(bench("1 of dowel-rod 1/2 in @ 36", BORED))
    assert line(found, "1/2 in").difference == "not needed"
    assert line(found, "3/8 in").difference == "missing"


def test_plugs_bought_as_such_are_counted_like_screws() -> None:
    found = line(listed(bench("20 plugs 3/8 in", BORED)), "plugs")
    assert (found.needed and found.needed.low, found.buy, found.difference) == (16, 20, "same")
    assert line(listed(bench("10 plugs 3/8 in", BORED)), "plugs").buy == 25


def test_dowels_cut_from_rod_take_their_length_and_a_saw_cut() -> None:
    found = line(listed(bench("1 of dowel-rod 3/8 in @ 36", "1 dowels 3/8 x 2 in")), "dowel rod")
    assert found.needed is not None
    assert found.needed.low == pytest.approx(8 * (2 + 1 / 8) * INCH)
    assert "8 dowels" in found.why


def test_dowels_bought_as_such_stand_with_the_plugs() -> None:
    found = listed(bench("10 dowels 3/8 x 2 in", "1 dowels 3/8 x 2 in"))
    assert line(found, "dowels").difference == "same"
    assert [one.key for one in found.groups if any("dowels" in each.what for each in one.lines)] == ["plugs"]


def pegged() -> Audit:
    """Three pegs of 10 in and six plugs, all from 3/8 in rod."""
    text = bench("1 of dowel-rod 3/8 in @ 36 oak", BORED).source.text
    return audit_text(text.replace("  slat: 4", "  peg: 3 of 3/8 in round @ 10\n  slat: 4"))


@pytest.mark.parametrize(
    ("pegs", "each", "rods"),
    [
        (2, 10.0, 1),  # 15 3/4 in are left, 16 plugs of 1/2 in take 8
        (3, 10.0, 2),  # 5 5/8 in are left
        (2, 13.875, 1),  # 8 in are left, to the hair
        (2, 14.0, 2),  # 7 3/4 in: the pegs' own saw cuts take the last plug
    ],
)
def test_plugs_come_off_what_the_pegs_leave_of_a_rod(pegs: int, each: float, rods: int) -> None:
    audit = pegged()
    cuts = tuple(
        Cut("peg", i * (each + 0.125) * INCH, 0.0, each * INCH, 0.375 * INCH, turned=False)
        for i in range(pegs)
    )
    strip = Strip(0.0, 0.0, 36 * INCH, 0.375 * INCH, cuts)
    rod = CutBoard("0", 0.375 * INCH, 0.375 * INCH, 36 * INCH, (strip,))
    purchase = next(one for one in audit.plan.purchases if one.kind == "rod")
    laid = boards(
        "dowel-rod 3/8 in @ 36", 1, (0.375, 0.375), 36, purchase=purchase, kind="rod", wood="oak", cut=(rod,)
    )
    found = line(listed(audit, layout=Layout((laid,), 0.125 * INCH, ())), "dowel rod")
    assert found.buy == rods
    assert any("also for 16 plugs" in note for note in found.notes)


def test_a_rod_is_not_called_needless_where_no_step_tells() -> None:
    text = bench("1 of dowel-rod 3/8 in @ 36").source.text.partition("step")[0]
    assert line(listed(audit_text(text)), "dowel rod").difference == "not checked"
