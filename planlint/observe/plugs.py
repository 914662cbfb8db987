"""Plugged counterbores beside the plugs and rods that are bought for them."""

from __future__ import annotations

from typing import NamedTuple

from planlint.build.piece import Piece
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key
from planlint.observe.used import Use, uses
from planlint.read.plan import Plan, Purchase, Round
from planlint.source import Span
from planlint.trade.screws import kind, rod_for_plug

PLUGS = Table(
    "plugged",
    "all plugged counterbores of one diameter, beside the plugs and rods bought",
    {
        "diameter": Column("length", "the diameter of the counterbores"),
        "depth": Column("length", "how deep the deepest of them is"),
        "plugs": Column("number", "how many there are, every copy counted"),
        "at_least": Column("number", "how many there surely are"),
        "plugs_bought": Column("number", "plugs of this diameter that are bought ready-made"),
        "rods": Column("number", "how many rods of this diameter are bought"),
        "rod_length": Column(
            "length", "the length of one of them; not known where they differ or none is bought"
        ),
        "rod_bought": Column("length", "their lengths together"),
        "rod_taken": Column(
            "length", "what the cut list's round parts of this diameter take of them, saw cuts left out"
        ),
        "rod_needed": Column(
            "length",
            "rod that the plugs take at least: each its depth, some to trim, and a saw cut",
        ),
        "listed": Column("flag", "plugs or rod of this diameter are bought"),
        "other_diameter": Column("length", "the diameter that is bought instead; not known where none is"),
        "parts": Column("words", "the names that are plugged"),
        "join": Column("words", "the join lines with these counterbores; for comparing only"),
    },
    {
        "counterbore": "the diameter of the first such counterbore",
        "bought": "the count of the one rod or line of plugs",
    },
)

TABLES = (PLUGS,)

_SAME = 0.2  # mm: a plug and a hole nearer than this are one size
_NO_LENGTH = Missing("no rods of one length are bought", "")
_NO_OTHER = Missing("no plugs or rods of another diameter are bought", "")


class Bores(NamedTuple):
    """The plugged counterbores of one diameter, and what is bought that could fill them."""

    diameter: float
    depth: float
    number: int
    unsure: Missing | None
    needed: float
    plugs: list[Purchase]
    rods: list[Purchase]
    others: list[float]
    parts: tuple[str, ...]
    joins: tuple[str, ...]
    span: Span


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each diameter of which plugs or rods are bought, or others instead."""
    rows = [_row(one, piece.plan) for one in bores(piece, uses(piece)) if one.plugs or one.rods or one.others]
    facts.add(PLUGS, rows)


def bores(piece: Piece, used: list[Use]) -> list[Bores]:
    """The plugged counterbores by diameter."""
    by_size: dict[float, list[Use]] = {}
    for use in used:
        bore = use.fastening.counterbore
        if bore is not None and use.fastening.plugged is not None and use.least:
            by_size.setdefault(round(bore.diameter.value, 1), []).append(use)
    spoken_for = [*_round_parts(piece), *_dowels(used)]
    return [_bores(diameter, some, piece.plan, spoken_for) for diameter, some in by_size.items()]


def _bores(diameter: float, some: list[Use], plan: Plan, spoken_for: list[float]) -> Bores:
    filling = [(one, _diameter(one)) for one in plan.purchases if one.kind == "rod" or _is_plug(one)]
    alike = [one for one, size in filling if size is None or abs(size - diameter) < _SAME]
    depths = [use.fastening.counterbore.depth.value for use in some if use.fastening.counterbore is not None]
    return Bores(
        diameter=some[0].fastening.counterbore.diameter.value if some[0].fastening.counterbore else diameter,
        depth=max(depths),
        number=sum([use.least for use in some]),
        unsure=next((use.unsure for use in some if use.unsure is not None), None),
        needed=sum([use.least * rod_for_plug(depth) for use, depth in zip(some, depths, strict=True)]),
        plugs=[one for one in alike if one.kind != "rod"],
        rods=[one for one in alike if one.kind == "rod"],
        others=[
            size
            for _, size in filling
            if size is not None and all(abs(size - other) >= _SAME for other in (diameter, *spoken_for))
        ],
        parts=tuple(dict.fromkeys([str(use.join.first) for use in some])),
        joins=tuple(dict.fromkeys([join_key(use.join) for use in some])),
        span=some[0].fastening.plugged or some[0].fastening.span,
    )


def _row(one: Bores, plan: Plan) -> Row:
    bought = [*one.plugs, *one.rods]
    ready = float(sum([line.number for line in one.plugs]))
    lengths = [line.length.value for line in one.rods if line.length is not None for _ in range(line.number)]
    values: dict[str, object] = {
        "diameter": one.diameter,
        "depth": one.depth,
        "plugs": one.unsure or float(one.number),
        "at_least": float(one.number),
        "plugs_bought": ready,
        "rods": float(len(lengths)),
        "rod_length": lengths[0] if len(set(lengths)) == 1 else _NO_LENGTH,
        "rod_bought": sum(lengths),
        "rod_taken": _cut_for_parts(plan, one.diameter),
        "rod_needed": one.needed,
        "listed": bool(bought),
        "other_diameter": one.others[0] if one.others else _NO_OTHER,
        "parts": one.parts,
        "join": one.joins,
    }
    spans = {"bought": bought[0].number_span} if len(bought) == 1 else {}
    return Row(values, bought[0].span if bought else one.span, spans)


def _cut_for_parts(plan: Plan, diameter: float) -> float:
    """The rod that the cut list's round parts of this diameter take; saw cuts are left out."""
    return sum(
        [
            entry.pieces * entry.length.value
            for entry in plan.parts
            if isinstance(entry.stock, Round)
            and entry.length is not None
            and abs(entry.stock.diameter.value - diameter) < _SAME
        ]
    )


def _round_parts(piece: Piece) -> list[float]:
    return [entry.stock.diameter.value for entry in piece.plan.parts if isinstance(entry.stock, Round)]


def _dowels(used: list[Use]) -> list[float]:
    """Diameters of dowels that may be cut from a rod."""
    found = []
    for use in used:
        what, size = kind(use.fastening.noun.text), use.fastening.size
        if what is not None and what.what == "pin" and size is not None and size.diameter is not None:
            found.append(size.diameter.value)
    return found


def _is_plug(purchase: Purchase) -> bool:
    return purchase.kind == "hardware" and purchase.noun.text.removesuffix("s").endswith("plug")


def _diameter(purchase: Purchase) -> float | None:
    if isinstance(purchase.stock, Round):
        return purchase.stock.diameter.value
    size = purchase.size
    across = None if size is None else size.diameter or size.length
    return None if across is None else across.value
