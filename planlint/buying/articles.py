"""What things are called at the yard and in the shop: sizes in words, lengths as the plan's units have them."""

from __future__ import annotations

from planlint.judge.finding import Value
from planlint.read.plan import (
    FastenerSize,
    Fastening,
    Measured,
    Nominal,
    Purchase,
    Quantity,
    Round,
    Stock,
    Word,
)
from planlint.sawing.layout import Boards
from planlint.show.quantities import IMPERIAL, word
from planlint.trade.screws import is_let_in_nut

_FOOT = 304.8


def article(purchase: Purchase, units: str) -> str:
    """One line of a shopping list without its count: `wood screws #10 x 4 in, stainless`."""
    if purchase.kind in ("fastener", "hardware"):
        return fastener(purchase.noun, purchase.size, purchase.finish, units)
    if purchase.kind == "glue":
        return "waterproof glue" if purchase.waterproof else "glue"
    wood = None if purchase.wood is None else purchase.wood.text
    length = purchase.length
    if purchase.kind in ("sheet", "panel"):
        size = f"{purchase.kind} {_section(purchase.stock, units, bare=True)}"
        size += "" if length is None else f" x {_length(length.value, units)}"
        return _of_wood(size, wood, purchase.treated)
    mm = None if length is None else length.value
    if isinstance(purchase.stock, Round):
        return _of_wood(rod(purchase.stock.diameter.value, mm, units), wood, purchase.treated)
    size = ("rough " if purchase.kind == "rough" else "") + _section(purchase.stock, units)
    return _of_wood(_long(size, mm, units), wood, purchase.treated)


def fastener(noun: Word, size: FastenerSize | None, finish: Word | None, units: str) -> str:
    """`wood screws #10 x 4 in, stainless`; the sizes in the units they are written in."""
    name = noun.text.replace("-", " ") if noun.text != "figure-8" else "figure-8 fasteners"
    machine = is_let_in_nut(noun.text) or noun.text.endswith(("bolt", "bolts"))
    sized = [name, *([] if size is None else [_fastener_size(size, units, machine)])]
    return " ".join(sized) + ("" if finish is None else f", {finish.text}")


def used(fastening: Fastening, units: str) -> str:
    """The same of a fastening in a step."""
    return fastener(fastening.noun, fastening.size, fastening.finish, units)


def boards(one: Boards, units: str) -> str:
    """Boards, sheets, panels or rods: `2x4, 96 in (8 ft) long, western redcedar`."""
    section, _, _ = one.words.partition(" @ ")
    if one.kind in ("sheet", "panel"):
        return _of_wood(_with_unit(one.words, units), one.wood, one.treated)
    if one.kind == "rod":
        return _of_wood(rod(one.thickness, one.length, units), one.wood, one.treated)
    return _of_wood(_long(_with_unit(section, units), one.length, units), one.wood, one.treated)


def rod(diameter: float, length: float | None, units: str) -> str:
    """`dowel rod 1 in, 36 in long`."""
    across = f"dowel rod {_length(diameter, units)}"
    return across if length is None else f"{across}, {_length(length, units)} long"


def _long(size: str, length: float | None, units: str) -> str:
    if length is None:
        return size
    feet = round(length / _FOOT)
    in_feet = f" ({feet} ft)" if units in IMPERIAL and abs(length - feet * _FOOT) < 0.01 else ""
    return f"{size}, {_length(length, units)}{in_feet} long"


def _of_wood(size: str, wood: str | None, treated: bool) -> str:
    named = size if wood is None else f"{size}, {wood.replace('-', ' ')}"
    return f"{named}, treated" if treated else named


def _section(stock: Stock | None, units: str, *, bare: bool = False) -> str:
    if isinstance(stock, Nominal):
        return stock.name
    if isinstance(stock, Measured):
        thickness = _bare(stock.thickness.value, units)
        return f"{thickness} x {(_bare if bare else _length)(stock.width.value, units)}"
    return ""


def _with_unit(words: str, units: str) -> str:
    """Measures with their unit after the last; a name such as 2x4 has none."""
    measured = " x " in words and words[-1].isdigit()
    return f"{words} {'in' if units in IMPERIAL else 'mm'}" if measured else words


def _length(length: float, units: str) -> str:
    return word(Value(length, "length"), units)


def _bare(length: float, units: str) -> str:
    return _length(length, units).rpartition(" ")[0]


def _fastener_size(size: FastenerSize, units: str, machine: bool) -> str:
    """Gauge or diameter by length; a metric machine thread has its M."""
    length = None if size.length is None else _own(size.length, units)
    if size.gauge is not None:
        across = f"#{size.gauge}"
    elif size.diameter is not None and machine and size.diameter.unit == "mm":
        across = f"M{size.diameter.value:g}"
    elif size.diameter is not None:
        across = _across(size.diameter, size.length, units)
    else:
        return length or ""
    return across if length is None else f"{across} x {length}"


def _across(diameter: Quantity, length: Quantity | None, units: str) -> str:
    """A diameter; its unit is left to the length's, where that is the same."""
    own = _own(diameter, units)
    same = length is not None and (length.unit in IMPERIAL) == (diameter.unit in IMPERIAL)
    return own.rpartition(" ")[0] if same else own


def _own(quantity: Quantity, units: str) -> str:
    """A size as it is sold: in the unit it is written in."""
    return _length(quantity.value, quantity.unit or units)
