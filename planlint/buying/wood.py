"""Boards, sheets, panels and the rods that parts are cut from: what the cutting layout takes."""

from __future__ import annotations

from planlint.buying.articles import article, boards
from planlint.buying.own import OwnList
from planlint.buying.plugs import Rods
from planlint.buying.shopping import Group, Line, NotKnown, Own, differs, exactly
from planlint.judge.finding import Value
from planlint.observe.bought import WOODEN, kind_of
from planlint.read.plan import Measured, Plan, Purchase
from planlint.sawing.layout import Boards, Layout
from planlint.show.quantities import IMPERIAL, listed, word
from planlint.trade.buying import planing, sold_as

_NAMES = 4  # parts that are named of those cut from a board


def wood(layout: Layout, plan: Plan, own: OwnList, rods: Rods) -> tuple[Group, list[NotKnown]]:
    """The group, in the order of the plan's list, and what could not be laid out.

    `rods` tells which lines of the list stand elsewhere, and of which plugs and dowels take some too.
    """
    found = {id(one.purchase): one for one in layout.boards if one.purchase is not None}
    lines = [
        _line(found[id(one)], plan, own, rods) if id(one) in found else _unread(one, plan, own)
        for one in plan.purchases
        if one.kind in WOODEN and id(one) not in rods.kept
    ]
    lines += [_line(one, plan, own, rods) for one in layout.boards if one.purchase is None]
    notes = [*_fewest(layout), *_rough_note(layout, plan.heading.units)]
    missing = [NotKnown(f"what {name} is cut from: {why}", "") for name, why in layout.unheld]
    return Group("wood", "Boards and sheets", tuple(lines), tuple(notes)), missing


def as_bought(layout: Layout, plan: Plan) -> Layout:
    """The layout with as many boards as the list buys: where nobody can tell, as many as the plan's own says."""
    return layout._replace(
        boards=tuple([one._replace(number=_number_bought(one, plan)) for one in layout.boards])
    )


def _number_bought(one: Boards, plan: Plan) -> int:
    open_ended = not one.number and (one.why or _nobody_knows(one.kind, plan))
    return max(one.number, one.own) if one.uncounted or open_ended else one.number


def _line(one: Boards, plan: Plan, own: OwnList, rods: Rods) -> Line:
    units = plan.heading.units
    as_written = own.of(one.purchase)
    more, also = rods.added.get(id(one.purchase), (0, ""))
    number = one.number + more
    if one.uncounted:
        return _at_least(one, number, as_written, units)
    open_why = one.why if not one.cut else ""
    if not number and not open_why:
        open_why = _nobody_knows(one.kind, plan)
    if open_why:
        return _open(boards(one, units), one.purchase, as_written, open_why)
    return Line(
        what=boards(one, units),
        needed=exactly(number),
        buy=number,
        spare=0,
        own=as_written,
        difference=differs(number, as_written),
        why=_why(one),
        price=None if one.purchase is None else one.purchase.price,
        notes=(*_notes(one, units), *([also] if also else [])),
    )


def _at_least(one: Boards, number: int, as_written: Own | None, units: str) -> Line:
    """A line that pieces of unknown length take more of: never fewer than the plan's list has."""
    own = 0 if as_written is None else as_written.number
    buy = max(number, own)
    return Line(
        what=boards(one, units),
        needed=exactly(number)._replace(at_least=True),
        buy=buy,
        spare=None,
        own=as_written,
        difference=differs(buy, as_written) if number > own else "not checked",
        why=one.why,
        price=None if one.purchase is None else one.purchase.price,
        notes=(),
    )


def _unread(purchase: Purchase, plan: Plan, own: OwnList) -> Line:
    """A line of wood that no layout knows: of a size in no table, or a rod that nothing is cut from."""
    what, as_written = article(purchase, plan.heading.units), own.of(purchase)
    why = _nobody_knows(purchase.kind, plan) or ("" if purchase.kind == "rod" else "its size is not known")
    if why:
        return _open(what, purchase, as_written, why)
    why = "no part, plug or dowel is cut from it"
    return Line(what, exactly(0), 0, 0, as_written, differs(0, as_written), why, purchase.price, ())


def _nobody_knows(kind: str, plan: Plan) -> str:
    """Why nobody can tell that nothing is cut from this wood; empty where it is certain."""
    if not plan.parts:
        return "the plan has no cut list that can be read"
    return (
        "the plan has no steps that can be read, and rods are for plugs and dowels too"
        if kind == "rod" and not plan.steps
        else ""
    )


def _open(what: str, purchase: Purchase | None, as_written: Own | None, why: str) -> Line:
    """A line that cannot be checked: as many as the plan's list says."""
    number = None if purchase is None else purchase.number
    price = None if purchase is None else purchase.price
    return Line(what, None, number, None, as_written, "not checked", why, price, ())


def _why(one: Boards) -> str:
    names = list(dict.fromkeys([cut.key.partition("#")[0] for board in one.cut for cut in board.pieces]))
    return f"for {listed(names, _NAMES)}" if names else "no part is cut from it"


def _notes(one: Boards, units: str) -> list[str]:
    notes = []
    if one.rough is not None:
        sawn, planed = _section(*one.rough, units), _section(one.thickness, one.width, units)
        notes.append(f"{sawn} as sawn, {planed} once planed")
    sold = _sold_as(one, units)
    if sold:
        notes.append(sold)
    if not one.proved and one.least is not None and 1 < one.least < one.number:
        notes.append(f"fewer than {one.least} never do")
    if one.why:
        notes.append(one.why)
    return notes


def _sold_as(one: Boards, units: str) -> str:
    """What a measured board is asked for by at a yard that sells by inches; empty where nobody sells it so."""
    stock = None if one.purchase is None else one.purchase.stock
    if units not in IMPERIAL or one.kind != "board" or not isinstance(stock, Measured):
        return ""
    hardwood = kind_of(one.wood) == "hardwood"
    name = sold_as(one.thickness, one.width, hardwood)
    if name is None:
        return ""
    return f"in the rough {name}, by its planed thickness" if hardwood else f"sold as {name}"


def _section(thickness: float, width: float, units: str) -> str:
    across = word(Value(thickness, "length"), units).rpartition(" ")[0]
    return f"{across} x {word(Value(width, 'length'), units)}"


def _fewest(layout: Layout) -> list[str]:
    bought = [one for one in layout.boards if one.cut]
    if not bought:
        return []
    unproved = list(dict.fromkeys([one.words.partition(" @ ")[0] for one in bought if not one.proved]))
    proved = "No way of cutting takes fewer."
    if unproved:
        proved = f"Not proved to be the fewest: {listed(unproved, _NAMES)}."
    return [f"{proved} None is spare: one more of a size pays for a knot or a wrong cut."]


def _rough_note(layout: Layout, units: str) -> list[str]:
    if not any(
        one.rough is not None and one.number and kind_of(one.wood) != "hardwood" for one in layout.boards
    ):
        return []
    taken, confidence = planing()
    off = word(Value(taken, "length"), units)
    return [f"Rough boards are named before planing, which takes about {off} off softwood ({confidence})."]
