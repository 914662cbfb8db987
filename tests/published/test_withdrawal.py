"""What screws hold along their axis, against the cells of the design standard's tables."""

from __future__ import annotations

import pytest

from planlint.trade import strength

from .rows import Published, published

INCH = 25.4
POUND = 4.4482216152605


@pytest.mark.parametrize("row", published("withdrawal"), ids=lambda row: row.id)
def test_withdrawal(row: Published) -> None:
    given = row.inputs
    found = strength.withdrawal(given["what"], float(given["g"]), float(given["diameter"]) * INCH)
    assert row.agrees(found / POUND * INCH)


def test_a_nail_holds_by_its_own_equation() -> None:
    """NDS 2018 eq. 12.2-3, 1380 G^2.5 D: an 8d common nail in Douglas fir, 1380 x 0.1768 x 0.131 = 31.96."""
    assert strength.withdrawal("nail", 0.5, 0.131 * INCH) / POUND * INCH == pytest.approx(31.96, abs=0.01)
