"""Sums over what is bought: board feet, weight to load, price; and the area of the piece."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.build.piece import Piece
from planlint.buying.articles import boards as named
from planlint.buying.measures import shown
from planlint.buying.shopping import Group, Measure, Total, exactly
from planlint.buying.surfaces import all_faces, exposed
from planlint.observe.bought import kind_of
from planlint.read.plan import Nominal
from planlint.sawing.layout import Boards, Layout
from planlint.show.quantities import decimal, listed, numbered
from planlint.trade.boards import weight
from planlint.trade.buying import board_measure, caution, moisture_when_bought, nominal_of, one_lifts
from planlint.trade.lumber import nominal
from planlint.trade.woods import with_figures, wood

_MEASURED = ("board", "rough")  # sheets go by the sheet, rods and panels by the piece


def board_feet(layout: Layout) -> Total | None:
    """Board feet of the boards, by nominal size; None where no board is bought."""
    bought = [one for one in layout.boards if one.number and one.kind in _MEASURED]
    if not bought:
        return None
    total = sum([one.number * _board_feet(one) for one in bought])
    notes = ["by nominal sizes, as it is sold; sheets and rods left out"]
    return Total("board feet", "Board measure", Measure("board feet", total, total), tuple(notes))


def timber(layout: Layout) -> Total | None:
    """The volume of the boards as they measure, which metric yards go by."""
    bought = [one for one in layout.boards if one.number and one.kind in _MEASURED]
    if not bought:
        return None
    volume = sum([one.number * _volume(one) for one in bought])
    return Total("timber", "Timber", Measure("timber", volume, volume), ("boards as they measure",))


def load_weight(layout: Layout, units: str) -> Total:
    """What the wood weighs as it comes from the yard; hardware, glue and finish come on top."""
    bought = [one for one in layout.boards if one.number]
    each = [(one, _weight(one)) for one in bought]
    unknown = [one for one, heavy in each if heavy is None]
    known = [(one, heavy) for one, heavy in each if heavy is not None]
    if not known:
        why = "no wood is on the list" if not bought else _no_weight(unknown)
        return Total("weight", "To load", None, (why,))
    total = sum([one.number * heavy for one, heavy in known])
    notes = [_moistures([one for one, _ in known]), *([_no_weight(unknown)] if unknown else [])]
    for one, heavy in known:
        if heavy > one_lifts():
            heavy_words = shown(exactly(heavy, "mass"), units)
            notes.append(caution("heavy-board").format(what=named(one, units), weight=heavy_words))
    if total > one_lifts():
        notes.append(caution("load").format())
    return Total("weight", "To load", Measure("mass", total, total, bool(unknown)), tuple(notes))


def finished_area(piece: Piece) -> Total:
    """The surface of the finished piece that air reaches."""
    if piece.parts and not piece.unplaced_names and not piece.cut_short:
        area = exposed(piece)
        told = "faces that show, with ends, undersides and insides; where parts lie on each other is left out"
        return Total("area", "Area to finish", Measure("area", area, area), (told,))
    why = "the plan does not place its parts"
    if piece.parts:
        lost = list(piece.unplaced_names)
        why = (
            f"{listed(lost, 3)} {'has' if len(lost) == 1 else 'have'} no place" if lost else "too many parts"
        )
    most = all_faces(piece)
    notes = [f"not known: {why}"]
    if most:
        area_words = shown(exactly(most, "area"), piece.plan.heading.units)
        notes.append(f"no more than {area_words}: every face of every part in the cut list")
    return Total("area", "Area to finish", None, tuple(notes))


def price(groups: Sequence[Group]) -> Total | None:
    """The prices that the plan gives, together; None where it gives none."""
    lines = [line for group in groups for line in group.lines if line.buy]
    costs = [line.cost for line in lines if line.cost is not None]
    if not costs:
        return None
    open_lines = len(lines) - len(costs)
    note = "at the prices the plan gives, in its currency"
    if open_lines:
        note += f"; {numbered(open_lines, 'line')} without a price"
    total = sum(costs)
    return Total("price", "Price", Measure("number", total, total, bool(open_lines)), (note,))


def _board_feet(one: Boards) -> float:
    """Of one board. A dressed size that is sold by a nominal one counts as that; rough wood as it is sawn."""
    stock = None if one.purchase is None else one.purchase.stock
    name = stock.name if isinstance(stock, Nominal) else one.words.partition(" @ ")[0].removeprefix("rough ")
    said = nominal(name)
    if said is not None:
        thickness, width = said.thickness, said.width
    elif one.rough is not None:
        thickness, width = one.rough
    else:
        thickness, width = nominal_of(one.thickness, one.width, kind_of(one.wood) == "hardwood")
    return board_measure(thickness, width, one.length)


def _volume(one: Boards) -> float:
    """Of one of them, mm³, as it is loaded."""
    if one.kind == "rod":
        return math.pi / 4 * one.thickness**2 * one.length
    thickness, width = one.rough or (one.thickness, one.width)
    return thickness * width * one.length


def _weight(one: Boards) -> float | None:
    known = None if one.wood is None else wood(one.wood)
    if known is None:
        return None
    return weight(_volume(one), known, moisture_when_bought(known.kind, one.treated))


def _moistures(bought: Sequence[Boards]) -> str:
    """`the wood alone, at 15 % moisture`."""
    found = sorted({moisture_when_bought(kind_of(one.wood) or "", one.treated) for one in bought})
    percents = listed([decimal(one, 1) for one in found])
    return f"the wood alone, at {percents} % moisture; hardware, glue and finish come on top"


def _no_weight(unknown: Sequence[Boards]) -> str:
    woods = list(dict.fromkeys([one.wood for one in unknown]))
    names = [name or "a wood that is not named" for name in woods]
    return f"no table gives the weight of {listed(names)}; it can be worked out for {with_figures(woods[0])}"
