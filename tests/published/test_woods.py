"""Woods: the figures of the table that were looked up."""

from __future__ import annotations

import pytest

from planlint.trade.woods import wood

from .rows import Published, published

PSI = 4.4482216152605 / 25.4**2  # N/mm2
UNITS = {"number": 1.0, "psi": PSI, "Mpsi": PSI * 1e6}


@pytest.mark.parametrize("row", published("woods"), ids=lambda row: row.id)
def test_wood(row: Published) -> None:
    found = wood(row.inputs["wood"])
    assert found is not None
    assert row.agrees(getattr(found, row.inputs["figure"]) / UNITS[row.unit])
