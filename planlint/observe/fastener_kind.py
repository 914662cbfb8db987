"""What a fastening's own words say, wherever it is driven: kind, size, counterbore; and its `buy` line."""

from __future__ import annotations

from math import gcd

from planlint.build.once import once_a_piece
from planlint.build.piece import Piece
from planlint.observe.facts import Missing
from planlint.observe.joins import join_key
from planlint.read.plan import FastenerSize, Fastening, Join, Plan, Purchase, Quantity
from planlint.source import Span
from planlint.trade import screws
from planlint.trade.screws import FastenerKind

_SAME = 0.01  # mm: lengths nearer than this are one


class Own:
    """What one fastening says of itself: columns every one of its rows has, and the spans for its mends."""

    __slots__ = ("diameter", "kind", "length", "spans", "values")

    def __init__(
        self,
        kind: FastenerKind,
        length: float | None,
        diameter: float | None,
        values: dict[str, object],
        spans: dict[str, Span],
    ) -> None:
        self.kind = kind
        self.length = length
        self.diameter = diameter
        self.values = values
        self.spans = spans


@once_a_piece
def owns_of(piece: Piece) -> dict[int, Own | None]:
    """The own words of all counted fastenings, placed or not, by their identity."""
    placed = [(one.join, one.fastening) for one in piece.driven]
    others = [(one.join, one.fastening) for one in piece.unplaced_fasteners]
    joins = {id(fastening): (join, fastening) for join, fastening in (*placed, *others)}
    return {key: own_of(join, fastening, piece.plan) for key, (join, fastening) in joins.items()}


def own_of(join: Join, fastening: Fastening, plan: Plan) -> Own | None:
    """A counted fastening's own words; None for a noun that no table has."""
    kind = screws.kind(fastening.noun.text)
    if kind is None:
        return None
    length = length_of(fastening, kind)
    diameter = diameter_of(fastening, kind, length)
    return Own(
        kind,
        length,
        diameter,
        _values(join, fastening, kind, length, diameter, plan),
        _spans(fastening, plan),
    )


def length_of(fastening: Fastening, kind: FastenerKind) -> float | None:
    """The fastener's length, mm; a fitting's bare length is its own, not its screw's."""
    size = fastening.size
    if size is None or size.length is None:
        return None
    bare = size.gauge is None and size.diameter is None
    return None if bare and kind.what == "plate" else size.length.value


def diameter_of(fastening: Fastening, kind: FastenerKind, length: float | None) -> float | None:
    """By gauge, as named, or as nails of that length have it; None where nothing tells."""
    size = fastening.size
    if size is not None and size.gauge is not None:
        return screws.diameter(size.gauge)
    if size is not None and size.diameter is not None:
        return size.diameter.value
    if kind.noun == "brads":
        return screws.brad_diameter()
    return screws.nail_diameter(length) if kind.what == "nail" and length is not None else None


def _values(
    join: Join,
    fastening: Fastening,
    kind: FastenerKind,
    length: float | None,
    diameter: float | None,
    plan: Plan,
) -> dict[str, object]:
    bore, pilot = fastening.counterbore, fastening.piloted
    no_gauge = Missing(
        f"the plan gives no gauge for these {kind.noun}", "it, between the kind and the length"
    )
    of = f"the screws of these {kind.noun}" if kind.what == "plate" else f"these {kind.noun}"
    no_length = Missing(f"the plan gives no length for {of}", "it, after the gauge or diameter")
    return {
        "join": join_key(join),
        "step": float(join.step),
        "kind": kind.noun,
        "what": kind.what,
        "holds": kind.holds,
        "threaded": kind.threaded,
        "pocketed": kind.pocketed,
        "sharp": kind.sharp,
        "gauge": gauge_word(fastening.size) or no_gauge,
        "diameter": no_gauge if diameter is None else diameter,
        "length": no_length if length is None else length,
        "count": float(fastening.number),
        "head": no_gauge if diameter is None else diameter * kind.head,
        "counterbored": bore is not None,
        "counterbore_depth": 0.0 if bore is None else bore.depth.value,
        "counterbore_width": 0.0 if bore is None else bore.diameter.value,
        "plugged": fastening.plugged is not None,
        "nut_let_in": kind.what == "bolt"
        and any(screws.is_let_in_nut(one.noun.text) for one in plan.purchases),
        "piloted": pilot is not None or plan.heading.pilots_everywhere is not None,
        "glued": any(one.kind == "glue" for one in join.fastenings),
        "places_stated": fastening.spots is not None,
    }


def gauge_word(size: FastenerSize | None) -> str | None:
    """`#8`, `5 mm`, `1/4 in`: what a size is asked for by in a shop; None where only a length is given."""
    if size is None:
        return None
    if size.gauge is not None:
        return f"#{size.gauge}"
    if size.diameter is None:
        return None
    across = size.diameter.value
    return _in_64ths(across) if screws.in_inches(across) else f"{across:g} mm"


def _in_64ths(across: float) -> str:
    """A diameter as a shop asks for it: `3/8 in`."""
    count = round(across / 25.4 * 64)
    shared = gcd(count, 64)
    return f"{count // shared}/{64 // shared} in" if shared < 64 else f"{count // 64} in"


def _spans(fastening: Fastening, plan: Plan) -> dict[str, Span]:
    spans: dict[str, Span] = {}
    size, bore = fastening.size, fastening.counterbore
    if size is not None and size.length is not None:
        spans["length"] = size.length.span
        bought = _bought(fastening, plan)
        if bought is not None and bought.size is not None and bought.size.length is not None:
            spans["bought_length"] = bought.size.length.span
    if bore is not None:
        spans["counterbore_depth"] = bore.depth.span
        spans["counterbore_width"] = bore.diameter.span
    return spans


def _bought(fastening: Fastening, plan: Plan) -> Purchase | None:
    """The one line of the shopping list with this kind, size and finish; None where it is none or several."""
    alike = [
        one
        for one in plan.purchases
        if one.kind == "fastener"
        and one.noun.text == fastening.noun.text
        and one.size is not None
        and fastening.size is not None
        and same_size(one.size, fastening.size)
    ]
    if len(alike) > 1 and fastening.finish is not None:
        alike = [one for one in alike if one.finish is not None and one.finish.text == fastening.finish.text]
    return alike[0] if len(alike) == 1 else None


def same_size(one: FastenerSize, other: FastenerSize) -> bool:
    """Whether two sizes are one: gauge or diameter, and length."""
    return (
        one.gauge == other.gauge and _alike(one.diameter, other.diameter) and _alike(one.length, other.length)
    )


def _alike(one: Quantity | None, other: Quantity | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one.value - other.value) < _SAME
