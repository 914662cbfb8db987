"""Boards and sheets beside the plan's own list, and what is summed up of them. The layouts are made by hand."""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text
from planlint.sawing.layout import Layout

from .lists import FOOT, INCH, POUND, bench, boards, group, line, listed, total

BUY = "3 of 2x4 @ 96 costing 6.40 each\n  1 of 1x4 @ 96\n  2 of rough 1x6 @ 96"
AUDIT = bench(BUY)
TWO_BY_FOUR, ONE_BY_FOUR, ROUGH = AUDIT.plan.purchases


def layout(*laid: object, unheld: tuple[tuple[str, str], ...] = ()) -> Layout:
    return Layout(laid, 3.175, unheld)  # type: ignore[arg-type]


def test_fewer_boards_than_listed_is_less_and_no_board_at_all_is_not_needed() -> None:
    found = listed(
        AUDIT,
        layout=layout(
            boards("2x4 @ 96", 1, (1.5, 3.5), 96, purchase=TWO_BY_FOUR),
            boards("1x4 @ 96", 1, (0.75, 3.5), 96, purchase=ONE_BY_FOUR),
            boards("rough 1x6 @ 96", 0, (0.75, 5.5), 96, purchase=ROUGH, kind="rough", rough=(0.875, 5.625)),
        ),
    )
    assert [one.difference for one in group(found, "wood").lines] == ["less", "same", "not needed"]
    assert line(found, "2x4").cost == 6.40
    price = total(found, "price").amount
    assert price is not None
    assert (price.low, price.at_least) == (6.40, True)  # the other lines have no price


def test_the_lists_own_order_is_kept_and_what_is_missing_follows() -> None:
    """Whoever holds the plan beside this list reads both from the top."""
    found = listed(
        AUDIT,
        layout=layout(
            boards("2x2 @ 36", 1, (1.5, 1.5), 36),
            boards("1x4 @ 96", 1, (0.75, 3.5), 96, purchase=ONE_BY_FOUR),
            boards("2x4 @ 96", 1, (1.5, 3.5), 96, purchase=TWO_BY_FOUR),
        ),
    )
    whats = [one.what.partition(",")[0] for one in group(found, "wood").lines]
    assert whats == ["2x4", "1x4", "rough 1x6", "2x2"]
    assert line(found, "2x2").difference == "missing"


def test_rough_boards_tell_their_size_before_and_after_planing() -> None:
    laid = boards("rough 1x6 @ 96", 2, (0.75, 5.5), 96, purchase=ROUGH, kind="rough", rough=(0.875, 5.625))
    found = line(listed(AUDIT, layout=layout(laid)), "rough 1x6")
    assert found.notes == ("7/8 x 5 5/8 in as sawn, 3/4 x 5 1/2 in once planed",)


def test_what_was_not_proved_is_not_called_the_fewest() -> None:
    proved = boards("2x4 @ 96", 2, (1.5, 3.5), 96, purchase=TWO_BY_FOUR)
    not_proved = boards("1x4 @ 96", 2, (0.75, 3.5), 96, purchase=ONE_BY_FOUR, proved=False)
    both = group(listed(AUDIT, layout=layout(proved, not_proved)), "wood").notes[0]
    assert both.startswith("Not proved to be the fewest: 1x4.")
    assert (
        group(listed(AUDIT, layout=layout(proved)), "wood")
        .notes[0]
        .startswith("No way of cutting takes fewer.")
    )


def test_a_part_that_no_board_yields_is_told() -> None:
    found = listed(AUDIT, layout=layout(unheld=(("slat", "nothing is sold that long"),)))
    assert any("slat" in one.what and "that long" in one.what for one in found.not_known)


def test_boards_without_a_layout_are_as_many_as_the_list_says_and_not_checked() -> None:
    laid = boards("2x4 @ 96", 0, (1.5, 3.5), 96, purchase=TWO_BY_FOUR, cut=(), why="too many pieces")
    found = line(listed(AUDIT, layout=layout(laid)), "2x4")
    assert (found.buy, found.difference, found.why) == (3, "not checked", "too many pieces")


def test_without_a_cut_list_no_board_is_called_needless() -> None:
    audit = audit_text('plan "X"\n  units in\nbuy\n  3 of 2x4 @ 96\n')
    purchase = audit.plan.purchases[0]
    laid = boards("2x4 @ 96", 0, (1.5, 3.5), 96, purchase=purchase, cut=())
    found = line(listed(audit, layout=layout(laid)), "2x4")
    assert (found.buy, found.difference) == (3, "not checked")


@pytest.mark.parametrize(
    ("words", "kind", "section", "length", "wood", "feet"),
    [
        ("2x4 @ 96", "board", (1.5, 3.5), 96, "western-redcedar", 16 / 3),  # by name, not 3.5 as it measures
        ("3/4 x 5 1/2 @ 96", "board", (0.75, 5.5), 96, "pine", 4.0),  # dressed 1x6
        ("5/4x6 @ 96", "board", (1.0, 5.5), 96, "pine", 5.0),
        ("3/4 x 5 1/2 @ 96", "board", (0.75, 5.5), 96, "red-oak", 11 / 3),  # 4/4, random width
        ("1 3/4 x 3 1/2 @ 96", "board", (1.75, 3.5), 96, "red-oak", 14 / 3),  # 8/4
        ("1/2 x 6 @ 96", "board", (0.5, 6.0), 96, "pine", 4.0),  # thinner than 1 in counts as 1 in
        ("rough 8/4x6 @ 96", "rough", (1.75, 6.0), 96, "red-oak", 8.0),
    ],
)
def test_board_feet_go_by_nominal_size(
    words: str, kind: str, section: tuple[float, float], length: float, wood: str, feet: float
) -> None:
    laid = boards(words, 1, section, length, kind=kind, wood=wood)
    amount = total(listed(AUDIT, layout=layout(laid)), "board feet").amount
    assert amount is not None
    assert amount.low == pytest.approx(feet)


def test_sheets_and_rods_are_no_board_feet_but_weigh() -> None:
    sheet = boards("sheet 3/4 x 48 x 96", 1, (0.75, 48), 96, kind="sheet", wood="birch-plywood")
    found = listed(AUDIT, layout=layout(sheet))
    assert all(one.key != "board feet" for one in found.totals)
    weight = total(found, "weight")
    assert weight.amount is not None
    assert weight.amount.low / POUND > 51
    assert any("Two people" in note for note in weight.notes)


def test_the_weight_is_that_of_the_wood_as_the_yard_hands_it_out() -> None:
    """A dressed 1x6 of redcedar, 8 ft: G 0.32, 15 % from the yard: 0.32 x 1.15 x 62.43 lb/cu ft."""
    found = listed(AUDIT, layout=layout(boards("1x6 @ 96", 3, (0.75, 5.5), 96)))
    amount = total(found, "weight").amount
    assert amount is not None
    cubic_feet = 0.75 * 5.5 * 96 / 1728
    assert amount.low / POUND == pytest.approx(3 * cubic_feet * 0.32 * 1.15 * 62.428, rel=1e-3)


def test_rough_boards_weigh_what_they_weigh_before_planing() -> None:
    planed = boards("1x6 @ 96", 1, (0.75, 5.5), 96)
    rough = boards("rough 1x6 @ 96", 1, (0.75, 5.5), 96, kind="rough", rough=(0.875, 5.625))
    amounts = [total(listed(AUDIT, layout=layout(one)), "weight").amount for one in (planed, rough)]
    assert amounts[0] is not None
    assert amounts[1] is not None
    assert amounts[1].low / amounts[0].low == pytest.approx(0.875 * 5.625 / (0.75 * 5.5))


def test_a_wood_that_no_table_has_leaves_the_weight_open() -> None:
    unknown = boards("2x4 @ 96", 1, (1.5, 3.5), 96, wood="moonwood")
    known = boards("1x4 @ 96", 1, (0.75, 3.5), 96)
    only = total(listed(AUDIT, layout=layout(unknown)), "weight")
    assert only.amount is None
    assert "moonwood" in only.notes[0]
    both = total(listed(AUDIT, layout=layout(unknown, known)), "weight").amount
    assert both is not None
    assert both.at_least


def test_metric_boards_are_measured_in_cubic_metres() -> None:
    audit = audit_text(
        'plan "X"\n  units mm\nbuy\n  2 of 45 x 95 @ 3000 scots-pine\nparts\n  a: 1 of 45 x 95 @ 900\n'
    )
    laid = boards("45 x 95 @ 3000", 2, (45 / INCH, 95 / INCH), 3000 / INCH, purchase=audit.plan.purchases[0])
    found = total(listed(audit, layout=layout(laid)), "timber").amount
    assert found is not None
    assert found.low == pytest.approx(2 * 45 * 95 * 3000)


def test_whole_feet_are_said_beside_inches() -> None:
    laid = boards("2x4 @ 8 ft", 1, (1.5, 3.5), 96)
    assert laid.length == pytest.approx(8 * FOOT)
    assert (
        listed(AUDIT, layout=layout(laid)).groups[0].lines[-1].what
        == "2x4, 96 in (8 ft) long, western redcedar"
    )


@pytest.mark.parametrize(
    ("buy", "section", "wood", "note"),
    [
        ("2 of 3/4 x 5 1/2 @ 96 pine", (0.75, 5.5), "pine", "sold as 1x6"),
        (
            "2 of 3/4 x 5 1/2 @ 96 red-oak",
            (0.75, 5.5),
            "red-oak",
            "in the rough 4/4, by its planed thickness",
        ),
        ("2 of 1 1/2 x 3 @ 96 red-oak", (1.5, 3.0), "red-oak", "in the rough 8/4, by its planed thickness"),
        ("2 of 5/8 x 5 @ 96 pine", (0.625, 5.0), "pine", ""),
    ],
)
def test_a_measured_board_is_told_by_what_yards_call_it(
    buy: str, section: tuple[float, float], wood: str, note: str
) -> None:
    """6/4 oak planes to 1 5/16 in: whoever needs 1 1/2 in and buys 6/4 comes home with too thin a board."""
    audit = bench(buy)
    laid = boards(buy[5:18], 2, section, 96, purchase=audit.plan.purchases[0], wood=wood)
    found = listed(audit, layout=layout(laid)).groups[0].lines[0]
    assert found.notes == ((note,) if note else ())


def test_what_planing_takes_is_said_with_how_sure_that_is() -> None:
    laid = boards("rough 1x6 @ 96", 2, (0.75, 5.5), 96, purchase=ROUGH, kind="rough", rough=(0.875, 5.625))
    notes = group(listed(AUDIT, layout=layout(laid)), "wood").notes
    assert any("about 1/8 in" in note and "from memory" in note for note in notes)
