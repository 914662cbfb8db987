"""What the design standard publishes for screws and nails. Lengths in mm, forces in N; G is the design G.

The forms and the withdrawal figures are NDS 2018's; the yield formulas, the steel and all factors stand in
`rules/tables/strength.yaml` with their confidence, most of them from memory.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import NamedTuple

from planlint.trade.tables import rows
from planlint.trade.woods import Wood
from planlint.units import simple_units


class Member(NamedTuple):
    """A part as a fastener meets it: its design G, and how much of the fastener lies in it (mm)."""

    g: float
    depth: float


def withdrawal(what: str, g: float, across: float) -> float:
    """What a `screw`, `lag` or `nail` of that diameter holds along its axis in side grain, N for each mm.

    Source: NDS 2018 eq. 12.2-1 to 12.2-3 (confirmed). End grain has none (lags: three quarters).
    """
    row = rows("strength", "withdrawal")[what]
    pounds = row["factor"] * g ** row["g"] * (across / _inch()) ** row["d"]
    return float(pounds * _pound() / _inch())


@lru_cache(maxsize=256)
def lateral(across: float, root: float, main: Member, side: Member) -> float | None:
    """What one thin fastener holds across its axis, N, by the least of the six yield modes in single shear.

    `across` is the shank's diameter, `root` that between the threads (a nail's own). None where the standard's
    formula for thin fasteners ends. Source: NDS 2018 Table 12.3.1A (from memory).
    """
    steel = _bending(across)
    if steel is None or root >= rows("strength", "bearing")["thin"]["thinner_than"]:
        return None
    return min(_modes(root, steel, main, side)) / _reduction(root)


def _modes(d: float, steel: float, main: Member, side: Member) -> tuple[float, ...]:
    """The yield loads I m, I s, II, III m, III s, IV, in N."""
    fm, fs = bearing(main.g), bearing(side.g)
    lm, ls = main.depth, side.depth
    re, rt = fm / fs, lm / ls
    root = math.sqrt(re + 2 * re**2 * (1 + rt + rt**2) + rt**2 * re**3)
    k1 = (root - re * (1 + rt)) / (1 + re)
    k2 = -1 + math.sqrt(2 * (1 + re) + 2 * steel * (1 + 2 * re) * d**2 / (3 * fm * lm**2))
    k3 = -1 + math.sqrt(2 * (1 + re) / re + 2 * steel * (2 + re) * d**2 / (3 * fm * ls**2))
    return (
        d * lm * fm,
        d * ls * fs,
        k1 * d * ls * fs,
        k2 * d * lm * fm / (1 + 2 * re),
        k3 * d * ls * fm / (2 + re),
        d**2 * math.sqrt(2 * fm * steel / (3 * (1 + re))),
    )


def bearing(g: float) -> float:
    """How hard a thin fastener may press wood of that G, N/mm2. Source: NDS 2018 (from memory)."""
    row = rows("strength", "bearing")["thin"]
    return float(row["factor"] * g ** row["power"] * _pound() / _inch() ** 2)


def factor(name: str) -> float:
    """A factor on a reference strength: a load's duration (`people`, `middle`, `spread`), `wet`, `end-grain`."""
    found: float = rows("strength", "factors")[name]["factor"]
    return found


def wet_above(moisture: float) -> bool:
    """Whether wood of that moisture in use counts as wet."""
    return moisture > float(rows("strength", "factors")["wet"]["moisture"])


def depth_share(depth: float, across: float) -> float:
    """The share of the full strength that a fastener has which goes less deep than ten diameters."""
    return min(1.0, depth / (across * float(rows("strength", "factors")["full-depth"]["diameters"])))


def design_g(wood: Wood | None) -> float | None:
    """The wood's design G: assigned, else from its G at 12 %. None: not known, or sheet goods."""
    if wood is None or wood.sheet:
        return None
    if wood.g_design is not None or wood.g12 is None:
        return wood.g_design
    return wood.g12 * float(rows("strength", "design_g")["without"]["factor"])


def _bending(across: float) -> float | None:
    steps = rows("strength", "bending").values()
    return next((float(step["strength"]) for step in steps if across <= step["up_to"] + 0.0005), None)


def _reduction(root: float) -> float:
    row = rows("strength", "reduction")["thin"]
    return float(row["least"] if root <= row["up_to"] else row["slope"] * root / _inch() + row["constant"])


@cache
def _inch() -> float:
    return simple_units()["in"].factor


@cache
def _pound() -> float:
    return simple_units()["lbf"].factor
