"""Fasteners whose parts have no place: what a cut list and the join line alone let us know.

With `through` the embedment is known; how deep the receiving part is can only be bounded from below, by its
smallest size, so that only what is short in any arrangement is told.
"""

from __future__ import annotations

import math

from planlint.build.piece import Piece, Stock, UnplacedFastener
from planlint.observe.facts import Missing, Row
from planlint.observe.fastener_kind import Own, own_of
from planlint.observe.joins import pair_name
from planlint.observe.picture import ScrewPicture
from planlint.read.plan import CutEntry
from planlint.trade.joinery import plate, pocket

_FAR = 4.0  # in a drawing, a part of unknown depth goes on for so many fasteners' lengths


def why(reason: str) -> tuple[str, str]:
    """Why nothing is known of the way of a fastener, and what to add, in plain words."""
    if reason == "not placed":
        return "nothing is placed", "a place section: where each part goes"
    return reason, "the place of that part"


def rows(piece: Piece, no_load: Missing) -> list[Row]:
    """A row for each fastening that cannot be drawn."""
    stocks = {listed.entry.name: listed.stock for listed in piece.listed}
    found: list[Row] = []
    for one in piece.unplaced_fasteners:
        own = own_of(one.join, one.fastening, piece.plan)
        if own is not None:
            first, second = _stock(stocks, one.first), _stock(stocks, one.second)
            held = _held(one, own, first)
            values = _values(one, own, held, second)
            values["load"] = values["carries_load"] = _place(one) if piece.plan.loads else no_load
            found.append(Row(values, one.fastening.span, own.spans, _picture(one, own, held)))
    return found


def _values(one: UnplacedFastener, own: Own, held: float | None, second: Stock | None) -> dict[str, object]:
    first_name, second_name = str(one.join.first), str(one.join.second)
    nowhere = _place(one)
    no_length = own.values["length"]
    no_held = (
        no_length
        if own.length is None
        else Missing(
            f"the plan does not say how much of {first_name} the {own.kind.noun} pass",
            "how much they pass, after the word through; or a place section",
        )
    )
    values: dict[str, object] = {
        **own.values,
        "first": first_name,
        "second": second_name,
        "into": second_name,
        "outer": first_name,
        "part": second_name,
        "parts": (first_name, second_name),
        "pair": pair_name(first_name, second_name),
        "placed": False,
        **dict.fromkeys(
            ("wood_ahead", "cover", "cover_part", "cover_side", "cover_seen", "grain_angle"), nowhere
        ),
    }
    bore = own.values["counterbore_depth"]
    assert isinstance(bore, float)
    values["through"] = values["held"] = values["under_head"] = values["embedment"] = no_held
    if held is not None:
        values["held"] = values["under_head"] = held
        values["through"] = held + bore
        values["embedment"] = own.values["length"] if own.length is None else own.length - held
    values.update(_receiver(second, nowhere, own.kind.pocketed))
    return values


def _receiver(stock: Stock | None, nowhere: Missing, pocketed: bool) -> dict[str, object]:
    """The least the receiving part can be."""
    if stock is None:
        names = (
            "receiving_depth",
            "receiver_thickness",
            "side_room",
            "slope",
            "sheet_edge",
            "stock_thickness",
        )
        return dict.fromkeys(names, nowhere)
    return {
        "receiving_depth": stock.thickness,
        "receiver_thickness": stock.thickness,
        "side_room": math.inf,
        "slope": math.degrees(math.asin(pocket().sin)) if pocketed else 0.0,
        "sheet_edge": nowhere if stock.sheet else False,
        "stock_thickness": stock.thickness,
    }


def _held(one: UnplacedFastener, own: Own, first: Stock | None) -> float | None:
    """What lies between the head and the joint: of a pocket, by the thickness; else as stated."""
    if own.kind.pocketed:
        return None if first is None else first.thickness * pocket().seat
    fitting = plate(own.kind.noun)
    if fitting is not None:
        return fitting.thickness
    through, bore = one.fastening.through, one.fastening.counterbore
    if through is None:
        return None
    return through.value - (0.0 if bore is None else bore.depth.value)


def _stock(stocks: dict[str, Stock | None], entry: CutEntry | None) -> Stock | None:
    return None if entry is None else stocks.get(entry.name)


def _place(one: UnplacedFastener) -> Missing:
    return Missing(*why(one.reason))


def _picture(one: UnplacedFastener, own: Own, held: float | None) -> ScrewPicture | None:
    if held is None or own.length is None or own.kind.pocketed:
        return None
    bore = one.fastening.counterbore
    seat = 0.0 if bore is None else bore.depth.value
    through = held + seat
    end = through + _FAR * own.length
    ways = ((str(one.join.first), 0.0, through), (str(one.join.second), through, end))
    return ScrewPicture(seat, own.length, ways, 1)
