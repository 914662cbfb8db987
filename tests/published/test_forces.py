"""The published forces that pieces are judged with, as the product's tables have them."""

from __future__ import annotations

import pytest

from planlint.trade import stability
from planlint.units import simple_units

from .rows import Published, published


@pytest.mark.parametrize("row", published("forces"), ids=lambda row: row.id)
def test_a_force_is_the_published_one(row: Published) -> None:
    figure = row.inputs["figure"]
    if figure == "person":
        computed = stability.bench_end().down / simple_units()["lbf"].factor
    else:
        computed = getattr(stability.seat_forces(), figure)
    assert row.agrees(computed)
