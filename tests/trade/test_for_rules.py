"""What rules may call of the trade."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.judge.functions import FUNCTIONS
from planlint.judge.kinds import OF_COLUMN
from planlint.observe.facts import Missing
from planlint.trade import for_rules
from planlint.trade.screws import diameter

INCH = 25.4
OURS = {name: one for name, one in FUNCTIONS.items() if one.call.__module__ == for_rules.__name__}
LENGTHS = st.floats(0, 10_000)
NOUNS = st.sampled_from(
    ["wood-screws", "lag-screws", "figure-8", "sky-hooks", "2x4", "zinc", "tannin", "outdoors", ""]
)
VALUES = {"word": NOUNS, "length": LENGTHS, "flag": st.booleans(), "number": st.integers(0, 100).map(float)}
GIVES: dict[str, type] = {"length": float, "word": str, "number": float}


def gauge(number: int) -> float:
    found = diameter(number)
    assert found is not None
    return found


def test_the_functions_are_registered() -> None:
    assert {"next_length_sold", "pilot_drill", "next_board_length_sold", "dressed_width"} <= set(OURS)


@pytest.mark.parametrize("name", OURS)
@given(data=st.data())
def test_no_value_of_its_kinds_makes_a_function_raise(name: str, data: st.DataObject) -> None:
    """A rule must be able to call it on whatever a plan holds."""
    function = OURS[name]
    found = function.call(*(data.draw(VALUES[kind]) for kind in function.takes))
    assert isinstance(found, (GIVES[function.gives], Missing))
    assert function.gives in OF_COLUMN


def test_a_longer_screw_is_offered_in_the_screws_own_units() -> None:
    ten = for_rules.next_length_sold("wood-screws", gauge(10), 3.64 * INCH, 5.875 * INCH)
    assert ten == pytest.approx(4 * INCH)
    assert for_rules.next_length_sold("wood-screws", 5.0, 62, 90) == 70


def test_a_no_6_is_no_three_and_a_half_millimetre_screw() -> None:
    assert for_rules.next_length_sold("wood-screws", gauge(6), 31, 36) == pytest.approx(1.25 * INCH)
    assert for_rules.next_length_sold("wood-screws", 3.5, 31, 36) == 35


def test_no_length_sold_is_said_to_be_missing() -> None:
    missing = for_rules.next_length_sold("wood-screws", gauge(8), 1.083 * INCH, 1.125 * INCH)
    assert isinstance(missing, Missing)
    assert isinstance(for_rules.next_board_length_sold(9000, True), Missing)
    assert isinstance(for_rules.dressed_width("2x7", False), Missing)
    assert isinstance(for_rules.rust_severity("gilded", "other", "outdoors"), Missing)


def test_pilots_by_kind_and_diameter() -> None:
    assert for_rules.pilot_drill("wood-screws", gauge(10), True) == pytest.approx(9 / 64 * INCH)
    assert for_rules.pilot_drill("wood-screws", 5.0, False) == 2.0
    assert for_rules.root_diameter("lag-screws", 3 / 8 * INCH) == pytest.approx(0.265 * INCH)
    assert for_rules.root_diameter("lag-screws", 1 / 4 * INCH) == pytest.approx(0.173 * INCH)


def test_the_rest_agrees_with_the_tables() -> None:
    assert for_rules.rod_for_plugs(16, INCH) == pytest.approx(20 * INCH)
    assert for_rules.next_board_length_sold(90 * INCH, False) == pytest.approx(96 * INCH)
    assert for_rules.dressed_thickness("2x4", False) == pytest.approx(1.5 * INCH)
    assert for_rules.dressed_width("2x4", False) == pytest.approx(3.5 * INCH)
    assert for_rules.rust_severity("zinc", "tannin", "outdoors") == "check"
    assert for_rules.rust_severity("unsaid", "other", "outdoors") == "check"
    assert "plating" in str(for_rules.rust_reason("zinc", "tannin", "outdoors"))
