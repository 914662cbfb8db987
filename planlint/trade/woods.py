"""Woods and sheet goods by the names that plans give them."""

from functools import cache
from typing import Any, NamedTuple

from planlint.trade.lumber import widest_board
from planlint.trade.movement import coefficient
from planlint.trade.tables import Rows, rows

_WATER = 1e-6  # kg in a cubic millimetre


class Wood(NamedTuple):
    """One wood or sheet good. A figure that no table gives is None: what needs it is not checked.

    G is ovendry weight over volume (`g12`: at 12 % moisture, `g_design`: the design standard's; never mixed).
    Strengths in N/mm2, shrinkage in percent green to ovendry, coefficients for each percent of moisture.
    """

    name: str
    kind: str  # "softwood", "hardwood" or "sheet"
    taken_from: str | None  # the name the plan used, where it is another name for this wood
    sure: bool  # False: the name that was used stands for several woods in the trade
    g12: float | None
    g_design: float | None
    mor: float | None
    moe: float | None
    shrink_radial: float | None
    shrink_tangential: float | None
    c_radial: float | None
    c_tangential: float | None
    decay: str | None  # "very resistant", "resistant", "moderately resistant", "slightly or nonresistant"
    tannin: bool  # stains where it touches iron
    exterior: bool | None  # sheets only: made for outdoors
    widest: float | None  # how wide single boards are sold, mm
    note: str | None

    @property
    def sheet(self) -> bool:
        """Sheet goods do not move as boards do, and have edges but no end grain."""
        return self.kind == "sheet"


@cache
def wood(name: str) -> Wood | None:
    """The wood of this name, also by an alias; a name ending in `-plywood` is a sheet. None: unknown wood."""
    alias = rows("woods", "aliases").get(name)
    if alias is not None:
        found = _by_own_name(alias["wood"])
        return None if found is None else found._replace(taken_from=name, sure=alias["sure"])
    return _by_own_name(name)


def names() -> tuple[str, ...]:
    """All names a plan may use, aliases too."""
    return tuple(
        name for group in ("woods", "woods_remembered", "sheets", "aliases") for name in rows("woods", group)
    )


def nearest(name: str, most: int = 3) -> tuple[str, ...]:
    """The known names nearest to a misspelt one, best first."""
    from difflib import get_close_matches

    return tuple(get_close_matches(name, names(), most))


def with_figures(name: str | None) -> str:
    """What to write where no table gives a wood's figures: the nearest wood that has them, if one is known."""
    near = None if name is None else rows("woods", "nearest").get(name)
    return "a wood with known figures" + ("" if near is None else f"; {near['wood']} comes nearest")


def density(g12: float, moisture: float) -> float:
    """Weight in kg per cubic mm at a moisture in percent: G (1 + M/100) x water (Wood Handbook ch. 4)."""
    return g12 * (1 + moisture / 100) * _WATER


def _by_own_name(name: str) -> Wood | None:
    for group in ("woods", "woods_remembered"):
        row = rows("woods", group).get(name)
        if row is not None:
            return _board(name, row)
    sheets = rows("woods", "sheets")
    row = sheets.get(name) or _some_plywood(name, sheets)
    return None if row is None else _sheet(name, row)


def _some_plywood(name: str, sheets: Rows) -> dict[str, Any] | None:
    if not name.endswith("-plywood"):
        return None
    outdoors = name.startswith(("exterior-", "marine-"))
    return sheets["exterior-plywood" if outdoors else "plywood"]


def _board(name: str, row: dict[str, Any]) -> Wood:
    radial, tangential = row.get("shrink_radial"), row.get("shrink_tangential")
    saturation = row.get("fibre_saturation")
    return Wood(
        name=name,
        kind=row["kind"],
        taken_from=None,
        sure=True,
        g12=row.get("g12"),
        g_design=row.get("g_design"),
        mor=row.get("mor"),
        moe=row.get("moe"),
        shrink_radial=radial,
        shrink_tangential=tangential,
        c_radial=row.get("c_radial") or _worked_out(radial, saturation),
        c_tangential=row.get("c_tangential") or _worked_out(tangential, saturation),
        decay=row.get("decay"),
        tannin=row.get("tannin", False),
        exterior=None,
        widest=widest_board(row["kind"]),
        note=row.get("note"),
    )


def _sheet(name: str, row: dict[str, Any]) -> Wood:
    return Wood(
        name=name,
        kind="sheet",
        taken_from=None,
        sure=True,
        g12=row.get("g12"),
        g_design=None,
        mor=None,
        moe=row.get("moe"),
        shrink_radial=0.0,
        shrink_tangential=0.0,
        c_radial=0.0,
        c_tangential=0.0,
        decay=None,
        tannin=False,
        exterior=row["exterior"],
        widest=None,
        note=row.get("note"),
    )


def _worked_out(shrinkage: float | None, saturation: float | None) -> float | None:
    return None if shrinkage is None else coefficient(shrinkage, saturation)
