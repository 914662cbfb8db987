"""The wood that the shopping list brings home, with what is left of it once it is planed. Lengths mm."""

from __future__ import annotations

import math

from planlint.build.once import once_a_piece
from planlint.build.piece import Piece
from planlint.build.stock import nominal_section
from planlint.read.plan import Measured, Nominal, Plan, Purchase, Quantity, Round, Word
from planlint.trade import lumber, woods
from planlint.units import simple_units

WOODEN = ("board", "rough", "sheet", "panel", "rod")
_PARTS = 64  # an inch is written in these at the finest


class Bought:
    """One line of wood. `section` and `words` name it as the plan does: "2x4", "2x4 @ 96".

    `wood` is as named, else the plan's; None where nobody says. `sawn` is the thickness and width before
    planing, where the plan gives them and the wood may be used unplaned.
    """

    __slots__ = (
        "key",
        "length",
        "purchase",
        "sawn",
        "section",
        "sheet_wood",
        "thickness",
        "treated",
        "width",
        "wood",
        "words",
    )

    def __init__(
        self,
        key: str,
        purchase: Purchase,
        section: str,
        words: str,
        thickness: float,
        width: float,
        length: float,
        wood: str | None,
        treated: bool,
        sheet_wood: bool,
        sawn: tuple[float, float] | None,
    ) -> None:
        self.key = key
        self.purchase = purchase
        self.section = section
        self.words = words
        self.thickness = thickness
        self.width = width
        self.length = length
        self.wood = wood
        self.treated = treated
        self.sheet_wood = sheet_wood
        self.sawn = sawn


@once_a_piece
def bought_wood(piece: Piece) -> tuple[list[Bought], list[Purchase]]:
    """The wood that is bought, and the lines of wood whose size nobody knows."""
    found, unknown = [], []
    for number, purchase in enumerate(piece.plan.purchases):
        if purchase.kind in WOODEN:
            one = _bought(str(number), purchase, piece.plan)
            if one is None:
                unknown.append(purchase)
            else:
                found.append(one)
    return found, unknown


def kind_of(wood: str | None) -> str | None:
    """`softwood`, `hardwood` or `sheet`; None for no wood or one that is in no table."""
    known = None if wood is None else woods.wood(wood)
    return None if known is None else known.kind


def same_wood(one: str | None, other: str | None) -> bool:
    """Whether a part of one may be cut from a board of the other.

    No wood named: any. A name that stands for several woods in the trade (`cedar`, `plywood`) goes with each
    of them.
    """
    if one is None or other is None or one == other:
        return True
    first, second = woods.wood(one), woods.wood(other)
    if first is None or second is None:
        return False
    return first.name == second.name or _stands_for(one, other) or _stands_for(other, one)


def _stands_for(general: str, name: str) -> bool:
    known = woods.wood(general)
    assert known is not None, "only known woods are compared"
    return name.endswith(f"-{general}") and (not known.sure or known.sheet)


def _bought(key: str, purchase: Purchase, plan: Plan) -> Bought | None:
    named = purchase.wood or (None if purchase.kind == "sheet" else plan.heading.wood)
    wood = named.text if named else None
    section = _section(purchase, plan, wood)
    if section is None or purchase.length is None:
        return None
    thickness, width, sawn = section
    named_size = _section_words(purchase, plan.heading.units)
    joint = " x " if purchase.kind in ("sheet", "panel") else " @ "
    return Bought(
        key=key,
        purchase=purchase,
        section=named_size,
        words=named_size + joint + written(purchase.length, plan.heading.units),
        thickness=thickness,
        width=width,
        length=purchase.length.value,
        wood=wood,
        treated=_treated(purchase.treated, named, plan),
        sheet_wood=purchase.kind == "sheet" or kind_of(wood) == "sheet",
        sawn=sawn,
    )


def _treated(said: bool, wood: Word | None, plan: Plan) -> bool:
    return said or (plan.heading.treated and wood is plan.heading.wood)


def _section(
    purchase: Purchase, plan: Plan, wood: str | None
) -> tuple[float, float, tuple[float, float] | None] | None:
    """Thickness and width as they come to the saw, and as sawn."""
    stock = purchase.stock
    if isinstance(stock, Round):
        return stock.diameter.value, stock.diameter.value, None
    hardwood = kind_of(wood) == "hardwood"
    rough = purchase.kind == "rough"
    if isinstance(stock, Nominal):
        found = _nominal(stock.name, plan.heading.units, wood, hardwood, rough)
        if found is not None:
            return min(found), max(found), None
        sides = nominal_section(stock.name, plan.heading.units, kind_of(wood))
    elif isinstance(stock, Measured):
        sides = (stock.thickness.value, stock.width.value)
        if purchase.kind != "sheet":
            sides = (min(sides), max(sides))
    else:
        return None
    if sides is None or not rough:
        return None if sides is None else (*sides, None)
    left = lumber.planed(sides[0], hardwood)
    if hardwood:
        return left, sides[1], None
    return left, sides[1] - (sides[0] - left), sides


def _nominal(
    name: str, units: str, wood: str | None, hardwood: bool, rough: bool
) -> tuple[float, float] | None:
    """The section of a size that a lumber table has; a rough one once it is planed."""
    if nominal_section(name, units, kind_of(wood)) is None:
        return None
    if not rough:
        return lumber.dressed(name, hardwood)
    sawn = lumber.rough(name, hardwood)
    if sawn is None:
        return None
    left = lumber.planed(sawn.thickness, hardwood or lumber.dressed(name) is None)
    return left, sawn.width if hardwood else sawn.width - (sawn.thickness - left)


def _section_words(purchase: Purchase, units: str) -> str:
    stock = purchase.stock
    if isinstance(stock, Nominal):
        size = stock.name
    elif isinstance(stock, Measured):
        size = f"{written(stock.thickness, units)} x {written(stock.width, units)}"
    else:
        assert isinstance(stock, Round), "wood is bought by a size"
        size = written(stock.diameter, "")
    kind = {"rod": "dowel-rod"}.get(purchase.kind, purchase.kind)
    return size if kind == "board" else f"{kind} {size}"


def written(quantity: Quantity, units: str) -> str:
    """A length as the plan writes it, `3 1/2` or `8 ft`; the plan's own unit is left out."""
    value = quantity.value / simple_units()[quantity.unit].factor
    own = "" if quantity.unit == units else f" {quantity.unit}"
    if quantity.unit not in ("in", "ft"):
        return f"{value:.4g}{own}"
    whole, rest = divmod(round(value * _PARTS), _PARTS)
    shared = math.gcd(rest, _PARTS)
    words = [str(whole)] if whole or not rest else []
    if rest:
        words.append(f"{rest // shared}/{_PARTS // shared}")
    return " ".join(words) + own
