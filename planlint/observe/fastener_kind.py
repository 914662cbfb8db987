"""What a fastening's own words say, wherever it is driven: kind, size, counterbore, pilot; and its `buy` line."""

from __future__ import annotations

from typing import NamedTuple

from planlint.observe.facts import Missing
from planlint.observe.joins import join_key
from planlint.read.plan import FastenerSize, Fastening, Join, Plan, Purchase
from planlint.source import Span
from planlint.trade import screws
from planlint.trade.screws import FastenerKind

_SAME = 0.01  # mm: lengths nearer than this are one


class Own(NamedTuple):
    """What one fastening says of itself: columns every one of its rows has, and the spans for its mends."""

    kind: FastenerKind
    length: float | None
    diameter: float | None
    values: dict[str, object]
    spans: dict[str, Span]


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
    no_gauge = Missing(f"the plan gives no gauge for these {kind.noun}", "give it as #8 x 2 in")
    no_length = Missing(f"the plan gives no length for these {kind.noun}", "give it as #8 x 2 in")
    return {
        "join": join_key(join),
        "step": float(join.step),
        "kind": kind.noun,
        "what": kind.what,
        "holds": kind.holds,
        "threaded": kind.threaded,
        "pocketed": kind.pocketed,
        "sharp": kind.sharp,
        "gauge": _gauge(fastening.size) or no_gauge,
        "diameter": no_gauge if diameter is None else diameter,
        "length": no_length if length is None else length,
        "count": float(fastening.number),
        "head": no_gauge if diameter is None else diameter * kind.head,
        "counterbored": bore is not None,
        "counterbore_depth": 0.0 if bore is None else bore.depth.value,
        "counterbore_width": 0.0 if bore is None else bore.diameter.value,
        "plugged": fastening.plugged is not None,
        "piloted": pilot is not None or plan.heading.pilots_everywhere is not None,
        "glued": any(one.kind == "glue" for one in join.fastenings),
        "places_stated": fastening.spots is not None,
    }


def _gauge(size: FastenerSize | None) -> str | None:
    if size is None:
        return None
    if size.gauge is not None:
        return f"#{size.gauge}"
    if size.diameter is None:
        return None
    return (
        f"{size.diameter.value:g} mm" if size.diameter.unit == "mm" else f"{size.diameter.value / 25.4:g} in"
    )


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
    if one.gauge != other.gauge or (one.diameter is None) != (other.diameter is None):
        return False
    if one.diameter is not None and other.diameter is not None:
        if abs(one.diameter.value - other.diameter.value) > _SAME:
            return False
    if one.length is None or other.length is None:
        return one.length is other.length
    return abs(one.length.value - other.length.value) < _SAME
