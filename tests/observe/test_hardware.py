"""What is used beside what is bought. The mistakes guarded against: a false alarm, or a box that runs out."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.observe.allotting import allotted
from planlint.observe.facts import Missing, Row
from tests.observe.hand_worked import gaps, inches, known, row, rows

FRAME = """\
plan "Frame"
buy
{buy}
parts
  post: 1 of 4x4 @ 48
  rail: 2 of 2x4 @ 48
place
  post: runs up, left at 0, front at 0, bottom at 0
  rail as rail-l, rail-r: runs up, face left, left at right of post, front at 0, bottom at 0,
    mirrored left-right about 1 3/4
step
{step}
"""
TEN = "  rail to post: 5 wood-screws #10 x 3 in"


def frame(buy: str, step: str = TEN) -> str:
    return FRAME.format(buy="\n".join(f"  {line}" for line in buy.split("\n")), step=step)


def counts(found: Row) -> tuple[object, ...]:
    return found.values["used"], found.values["bought"]


def test_every_pair_that_meets_needs_its_screws() -> None:
    """5 for each of two rails."""
    found = row(frame("25 wood-screws #10 x 3 in"), "hardware")
    assert counts(found) == (10.0, 25.0)
    assert (found.values["label"], inches(found, "length")) == ("wood-screws #10", 3.0)


def test_copies_of_a_sub_assembly_are_counted() -> None:
    """2 screws in a frame that stands three times: 6."""
    plan = """\
plan "Frames"
buy
  25 wood-screws #8 x 2 in
parts
  a: 3 of 1x4 @ 20
  b: 3 of 2x4 @ 20
place in side
  b: runs left-right, face top, left at 0, front at 0, bottom at 0
  a: runs left-right, face top, left at 0, front at 0, bottom at top of b
place
  side as side-1: left at 0, front at 0, bottom at 0
  side as side-2: left at 0, front at 10, bottom at 0
  side as side-3: left at 0, front at 20, bottom at 0
step in side
  a to b: 2 wood-screws #8 x 2 in
"""
    assert counts(row(plan, "hardware")) == (6.0, 25.0)


@pytest.mark.parametrize(
    ("step", "buy"),
    [
        (TEN, "25 wood-screws #10 x 3 in zinc"),
        (TEN + " zinc", "25 wood-screws #10 x 3 in"),
        (TEN, "5 wood-screws #10 x 3 in\n20 wood-screws #10 x 3 in zinc"),
        ("  rail to post: 5 3 in nails", "25 nails 3 in"),
        ("  rail to post: 5 hinges", "25 hinges 2 in"),
        ("  rail to post: 5 hinge 2 in", "25 2 in hinges"),
        ("  rail to post: 5 hinges #8 x 3/4 in", "25 hinges 2 in"),
        ("  rail to post: 5 wood-screws #10", "25 wood-screws #10 x 3 in"),
    ],
)
def test_what_is_left_unsaid_can_be_the_same_box(step: str, buy: str) -> None:
    assert counts(row(frame(buy, step), "hardware")) == (10.0, 25.0)


def test_the_shared_box_serves_first_what_has_no_other() -> None:
    """10 stainless and 10 zinc from 6 stainless, 10 zinc and 4 unsaid: just enough, and so for both."""
    step = TEN + " zinc\n" + TEN + " stainless"
    buy = "4 wood-screws #10 x 3 in\n10 wood-screws #10 x 3 in zinc\n6 wood-screws #10 x 3 in stainless"
    assert sorted(map(counts, rows(frame(buy, step), "hardware"))) == [(10.0, 10.0), (10.0, 10.0)]


def test_other_finish_length_and_kind_are_told() -> None:
    stainless = row(frame("25 wood-screws #10 x 3 in zinc", TEN + " stainless"), "hardware")
    assert (stainless.values["bought"], stainless.values["other_finish"]) == (0.0, "zinc")
    longer = row(frame("25 wood-screws #10 x 4 in"), "hardware")
    assert (longer.values["bought"], inches(longer, "other_length")) == (0.0, 4.0)
    deck = row(frame("25 deck-screws #10 x 3 in"), "hardware")
    assert (deck.values["bought"], deck.values["near_kind"]) == (0.0, "deck-screws")


def test_a_like_kind_that_is_needed_elsewhere_is_no_help() -> None:
    """10 wood screws and 10 deck screws out of 12 deck screws."""
    plan = frame("12 deck-screws #10 x 3 in", TEN + "\n" + TEN.replace("wood", "deck"))
    found = {one.values["kind"]: one for one in rows(plan, "hardware")}
    assert not known(found["wood-screws"], "near_kind")
    assert counts(found["deck-screws"]) == (10.0, 12.0)


def test_pocket_screws_are_no_wood_screws() -> None:
    assert not known(row(frame("25 pocket-screws #10 x 3 in"), "hardware"), "near_kind")


def test_dowels_may_be_cut_from_a_rod() -> None:
    step = "  rail to post: 2 dowels 3/8 x 2 in"
    assert rows(frame("1 of dowel-rod 3/8 in @ 36 oak\n4 hooks", step), "hardware") == []
    assert len(rows(frame("1 of dowel-rod 1/2 in @ 36 oak\n4 hooks", step), "hardware")) == 1


def test_glue_and_plugs_are_hardware_too() -> None:
    step = TEN + " counterbored 1/2 x 1/2 in plugged and glue"
    found = {
        one.values["kind"]: one
        for one in rows(frame("25 wood-screws #10 x 3 in\n8 plugs 1/2 in", step), "hardware")
    }
    assert counts(found["glue"]) == (1.0, 0.0)
    assert counts(found["plugs"]) == (10.0, 8.0)


def test_a_list_without_hardware_is_a_gap() -> None:
    reason = "the shopping list names no screws or other hardware"
    for buy in ("2 of 2x4 @ 96", "1 glue"):
        assert [gap[0] for gap in gaps(frame(buy), "hardware")] == [reason]


UNPLACED = """\
plan "Stool"
buy
  {buy} wood-screws #8 x 2 in
parts
  leg:  4 of 1 1/2 x 1 1/2 @ 16
  rail: 4 of 3/4 x 3 @ 12
step
  {join}: 2 wood-screws #8 x 2 in
"""


@pytest.mark.parametrize(("join", "least"), [("leg to rail", 8.0), ("leg to leg", 4.0)])
def test_without_places_each_first_piece_counts_once_and_no_more_is_sure(join: str, least: float) -> None:
    found = row(UNPLACED.format(buy=25, join=join), "hardware")
    assert found.values["at_least"] == least
    assert found.values["used"] == Missing("nothing is placed", "a place section: where each part goes")


# --- sharing out ------------------------------------------------------------------------------------------

amounts = st.lists(st.integers(0, 9), min_size=1, max_size=4)


@given(needs=amounts, stocks=amounts, data=st.data())
@settings(max_examples=150, deadline=None)
def test_as_much_is_met_as_can_be(needs: list[int], stocks: list[int], data: st.DataObject) -> None:
    """Held to the other side of the theorem: the least cut over all choices of needs."""
    fits = [data.draw(st.lists(st.sampled_from(range(len(stocks))), unique=True)) for _ in needs]
    given_, left = allotted(needs, stocks, fits)
    assert all(0 <= got <= need for got, need in zip(given_, needs, strict=True))
    assert all(amount >= 0 for amount in left)
    assert sum(given_) + sum(left) == sum(stocks)
    cuts = []
    for chosen in range(2 ** len(needs)):
        inside = [i for i in range(len(needs)) if chosen >> i & 1]
        reach = {stock for i in inside for stock in fits[i]}
        outside = sum(need for i, need in enumerate(needs) if i not in inside)
        cuts.append(outside + sum(stocks[stock] for stock in reach))
    assert sum(given_) == min(cuts)


def test_a_plan_that_only_glues_needs_no_screws_on_its_list() -> None:
    """A stool of turned legs and glue has no hardware to be short of."""
    text = """\
plan "Two boards"
buy
  1 of 1x4 @ 96
  1 glue
parts
  board: 2 of 1x4 @ 20
step
  board to board: glue
"""
    assert gaps(text, "hardware") == []
    assert row(text, "hardware").values["bought"] == 1.0
