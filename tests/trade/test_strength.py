"""Strength of screws across their axis: the worked table of a bench joint, from memory of the yield formulas."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planlint.trade import screws, strength
from planlint.trade.strength import Member
from planlint.trade.woods import wood

INCH = 25.4
POUND = 4.4482216152605
DEEP = 1.5 * INCH


def lateral(gauge: int, g: float, depth: float = DEEP, side: float = DEEP) -> float:
    across, root = screws.diameter(gauge), screws.root(gauge)
    assert across is not None
    assert root is not None
    found = strength.lateral(across, root, Member(g, depth), Member(g, side))
    assert found is not None
    return found / POUND


@pytest.mark.parametrize(
    ("gauge", "g", "published", "two"),
    [
        *((10, 0.36, 86, 146), (10, 0.42, 99, 168), (10, 0.50, 117, 198), (10, 0.67, 153, 259)),
        *((8, 0.36, 68, 133), (8, 0.42, 78, 154), (8, 0.50, 92, 180), (8, 0.67, 120, 236)),
    ],
)
def test_two_screws_in_end_grain_under_people(gauge: int, g: float, published: float, two: float) -> None:
    """Z, and Z x min(1, p / 10 D) x 0.67 end grain x 1.6 people x 2 screws, p 1 1/2 in."""
    across = screws.diameter(gauge)
    assert across is not None
    z = lateral(gauge, g)
    assert z == pytest.approx(published, abs=0.6)
    share = strength.depth_share(DEEP, across) * strength.factor("end-grain") * strength.factor("people")
    assert 2 * z * share == pytest.approx(two, abs=0.6)


def test_a_thin_side_makes_another_mode_govern() -> None:
    """3/4 in of pine under the head of a #8: mode III s gives 55.9, not the 68 of mode IV."""
    assert lateral(8, 0.36, 1.25 * INCH, 0.75 * INCH) == pytest.approx(55.95, abs=0.05)


@given(
    st.sampled_from([6, 8, 10, 12, 14]),
    st.floats(0.31, 0.73),
    st.floats(0.31, 0.73),
    st.floats(5.0, 80.0),
    st.floats(5.0, 80.0),
    st.floats(1.0, 2.0),
)
def test_more_wood_or_denser_wood_never_holds_less(
    gauge: int, g: float, other: float, main: float, side: float, more: float
) -> None:
    across, root = screws.diameter(gauge), screws.root(gauge)
    assert across is not None
    assert root is not None

    def found(g_main: float, g_side: float, in_main: float, in_side: float) -> float:
        value = strength.lateral(across, root, Member(g_main, in_main), Member(g_side, in_side))
        assert value is not None
        return value

    first = found(g, other, main, side)
    assert 0.0 < first <= found(g, other, main * more, side) * (1 + 1e-9)
    assert first <= found(g, other, main, side * more) * (1 + 1e-9)
    assert first <= found(g * more, other * more, main, side) * (1 + 1e-9)


def test_the_formula_for_thin_fasteners_ends_at_a_quarter_inch() -> None:
    """A #24 has a root of 0.298 in: no figure, rather than a wrong one."""
    across, root = screws.diameter(24), screws.root(24)
    assert across is not None
    assert root is not None
    assert strength.lateral(across, root, Member(0.5, DEEP), Member(0.5, DEEP)) is None


def test_full_strength_at_ten_diameters_exactly() -> None:
    assert strength.depth_share(50.0, 5.0) == 1.0
    assert strength.depth_share(30.0, 5.0) == pytest.approx(0.6)


def test_wood_is_wet_above_nineteen_percent_only() -> None:
    assert not strength.wet_above(19.0)
    assert strength.wet_above(20.0)


def test_the_design_g_is_never_mixed_with_the_handbooks() -> None:
    """Assigned where the standard does; else 1.05 times the handbook's; sheets and unknown woods have none."""
    assert strength.design_g(wood("douglas-fir")) == 0.50
    assert strength.design_g(wood("basswood")) == pytest.approx(0.37 * 1.05)
    assert strength.design_g(wood("birch-plywood")) is None
    assert strength.design_g(wood("scots-pine")) is None
    assert strength.design_g(None) is None
