"""Screws and other hardware: how many are used, how many to buy, and what the plan's list says."""

from __future__ import annotations

import pytest

from .lists import bench, group, line, listed


def test_a_list_that_covers_the_steps_stands_as_it_is() -> None:
    found = line(listed(bench("20 wood-screws #8 x 2 in stainless")), "#8 x 2 in")
    assert (found.needed and found.needed.low, found.buy, found.spare, found.difference) == (
        16,
        20,
        4,
        "same",
    )


def test_each_copy_is_counted_and_a_short_box_becomes_more() -> None:
    """Two screws in each of eight crossings are 16, not 2."""
    found = line(listed(bench("10 wood-screws #8 x 2 in stainless")), "#8 x 2 in")
    assert (found.buy, found.spare, found.difference) == (25, 9, "more")
    assert found.own is not None
    assert found.own.number == 10


def test_boxes_that_nobody_needs_are_not_bought() -> None:
    found = line(listed(bench("100 wood-screws #8 x 2 in stainless")), "#8 x 2 in")
    assert (found.buy, found.difference) == (25, "less")


def test_one_box_over_is_no_fault() -> None:
    """16 used: 25 with the spare, and boxes of 50 are what shops sell."""
    assert line(listed(bench("50 wood-screws #8 x 2 in stainless")), "#8 x 2 in").difference == "same"


def test_screws_that_are_not_on_the_list_are_missing_and_another_length_does_not_count() -> None:
    found = listed(bench("25 wood-screws #8 x 1 1/4 in stainless"))
    assert line(found, "#8 x 2 in").difference == "missing"
    assert line(found, "#8 x 2 in").buy == 25
    assert (line(found, "1 1/4 in").buy, line(found, "1 1/4 in").difference) == (0, "not needed")


def test_bolts_are_bought_to_the_piece() -> None:
    found = line(
        listed(bench("20 carriage-bolts 3/8 x 3 in zinc", "1 carriage-bolts 3/8 x 3 in zinc")), "3/8"
    )
    assert (found.buy, found.spare, found.difference) == (8, 0, "less")
    assert found.what == "carriage bolts 3/8 x 3 in, zinc"


def test_a_bolt_is_no_use_without_its_washer_and_its_nut() -> None:
    found = listed(bench("8 carriage-bolts 3/8 x 3 in zinc", "1 carriage-bolts 3/8 x 3 in zinc"))
    assert any("washer, and a nut" in note for note in line(found, "3/8").notes)
    assert not line(listed(bench("20 wood-screws #8 x 2 in stainless")), "#8 x 2 in").notes


def test_two_lines_of_one_screw_share_the_work_in_their_order() -> None:
    found = listed(bench("10 wood-screws #8 x 2 in stainless\n  10 wood-screws #8 x 2 in"))
    used = [one.needed and one.needed.low for one in group(found, "hardware").lines]
    assert used == [10, 6]
    spare = listed(bench("25 wood-screws #8 x 2 in stainless\n  25 wood-screws #8 x 2 in"))
    assert [one.difference for one in group(spare, "hardware").lines] == ["same", "not needed"]


def test_hardware_that_no_step_uses_is_kept_and_not_called_needless() -> None:
    found = line(listed(bench("4 rubber-feet")), "rubber feet")
    assert (found.buy, found.needed, found.difference) == (4, None, "not checked")


def test_screws_that_may_be_for_hinges_are_not_called_needless() -> None:
    """A hinge's own screws stand in no join line."""
    found = listed(bench("2 hinges 2 in\n  12 wood-screws #6 x 5/8 in brass", "1 hinges 2 in"))
    assert line(found, "#6 x 5/8 in").difference == "not checked"


def test_screws_for_home_made_buttons_are_the_buttons_line() -> None:
    """Buttons are cut from offcuts: nobody sends the builder to buy them when their screws are listed."""
    found = listed(bench("25 wood-screws #8 x 1 1/4 in", "1 buttons #8 x 1 1/4 in"))
    assert [one.what for one in group(found, "hardware").lines] == ["wood screws #8 x 1 1/4 in"]
    assert line(found, "#8").needed is not None
    assert "offcuts" in line(found, "#8").notes[0]


def test_a_plan_without_steps_keeps_its_list_and_says_why_nothing_is_counted() -> None:
    text = bench("25 wood-screws #8 x 2 in").source.text.partition("step")[0]
    from planlint.auditing import audit_text

    found = listed(audit_text(text))
    assert (line(found, "#8").buy, line(found, "#8").difference) == (25, "not checked")
    assert any("no steps" in one.what for one in found.not_known)


def test_a_mended_screw_stands_beside_the_one_that_is_written() -> None:
    """Whoever reads the plan's list must find the line that changed."""
    own = bench("25 wood-screws #8 x 1 1/4 in stainless", "2 wood-screws #8 x 1 1/4 in stainless")
    mended = bench("25 wood-screws #8 x 2 in stainless")
    found = line(listed(mended, own), "#8 x 2 in")
    assert found.difference == "changed"
    assert found.own is not None
    assert (found.own.number, found.own.words) == (25, "wood screws #8 x 1 1/4 in, stainless")
    assert own.source.line_text(found.own.line).strip().startswith("25 wood-screws")


def test_a_mended_count_is_more_than_the_list_as_written() -> None:
    own = bench("10 wood-screws #8 x 2 in stainless")
    mended = bench("25 wood-screws #8 x 2 in stainless")
    assert line(listed(mended, own), "#8").difference == "more"


def test_nobody_counts_screws_whose_parts_are_not_known() -> None:
    audit = bench("20 wood-screws #8 x 2 in").source.text.replace("slat to rail", "slt to ril")
    from planlint.auditing import audit_text

    found = line(listed(audit_text(audit)), "#8")
    assert found.buy == 20
    assert found.difference in ("not checked", "same")
    assert found.needed is None or found.needed.at_least


@pytest.mark.parametrize(
    ("buy", "words"),
    [
        ("8 hex-bolts M8 x 140 zinc", "hex bolts M8 x 140 mm, zinc"),
        ("10 wood-screws 4.5 x 50 stainless", "wood screws 4.5 x 50 mm, stainless"),
        ("10 wood-screws #10 x 2 1/2 in", "wood screws #10 x 2 1/2 in"),
        ("4 carriage-bolts 1/4 x 2 in", "carriage bolts 1/4 x 2 in"),
        ("2 hinges 2 in brass", "hinges 2 in, brass"),
        ("50 brads 1 1/4 in", "brads 1 1/4 in"),
    ],
)
def test_sizes_are_called_what_a_shop_calls_them(buy: str, words: str) -> None:
    assert line(listed(bench(buy)), words.partition(",")[0]).what == words
