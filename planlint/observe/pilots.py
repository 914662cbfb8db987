"""Screws and the wood they go into: whether a hole is drilled first, how large, and how near an end is."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from planlint.build.joinery.unplaced import listed
from planlint.build.piece import Piece, Stock
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.fastener_kind import Own, owns_of
from planlint.observe.fastener_tables import EDGE
from planlint.observe.fastener_unplaced import why
from planlint.observe.joins import pair_name
from planlint.read.plan import Fastening, Join
from planlint.source import Span
from planlint.trade import screws, woods
from planlint.trade.woods import Wood

PILOT = Table(
    "pilot",
    "the screws of one join line in one of the parts they go into",
    {
        "kind": Column("word", "what they are, as the plan says"),
        "gauge": Column("word", "their gauge or diameter, as it is asked for in a shop"),
        "diameter": Column("length", "their diameter"),
        "root": Column("length", "the diameter between their threads"),
        "drilled": Column("flag", "this kind wants a pilot hole: it does not drill its own"),
        "piloted": Column("flag", "the plan says that they are pre-drilled"),
        "pilot": Column("length", "the pilot hole's diameter; not known where the plan gives none"),
        "pilot_stated": Column("flag", "the plan gives the pilot hole's diameter"),
        "holds_here": Column("flag", "this is the part that must hold them, by their threads"),
        "wood": Column("word", "the wood of this part"),
        "hardwood": Column("flag", "it is a hardwood"),
        "g_design": Column("number", "its specific gravity in the design standard"),
        "g12": Column("number", "its specific gravity at 12 % moisture"),
        "end_distance": Column(
            "length",
            "from the nearest of them along the grain to an end of this part, in the best even spread; no "
            "limit where the axis runs with the grain",
        ),
        "measure": Column("word", "end: what end_distance measures; for comparing only"),
        "part": Column("word", "this part"),
        "parts": Column("words", "both parts of the join"),
        "first": Column("word", "the part the join names first"),
        "second": Column("word", "the part the join names second"),
        "pair": Column("word", "both parts"),
        "join": Column("word", "the join line they stand in; for comparing only"),
    },
    {
        "pilot": "the pilot hole's diameter in the join line",
        "unpiloted": "where the join line has no pilot hole: after the fastener's size and finish",
    },
)

TABLES = (PILOT,)

_NO_WOOD = Missing("the plan does not say the wood", "wood and its name, in the plan section")
_NO_PILOT = Missing(
    "the plan gives no size for the pilot hole", "piloted and the drill, such as piloted 1/8 in"
)

End = dict[tuple[Span, object, object], object]


class _Said(NamedTuple):
    """What the rows of one fastening have in common."""

    values: dict[str, object]
    spans: dict[str, Span]


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each part that the screws of a join go into. Reads the ends from the rows about edges."""
    ends = _ends(facts)
    owns = owns_of(piece)
    said: dict[int, _Said] = {}  # by a fastening's identity: most have many rows
    rows: list[Row] = []
    told: set[tuple[int, int, int]] = set()
    for driven in piece.driven:
        key = (id(driven.meeting), id(driven.fastening), driven.into.order)
        if key in told:
            continue
        told.add(key)
        own = owns[id(driven.fastening)]
        if own is None or not own.kind.threaded:
            continue
        if id(driven.fastening) not in said:
            said[id(driven.fastening)] = _said(own, driven.fastening)
        values, spans = said[id(driven.fastening)]
        names = _names(driven.first.name, driven.second.name)
        for passage in driven.passages:
            part = passage.part
            if part is not driven.into and (part is not driven.first or own.kind.what == "plate"):
                continue
            end = ends.get((driven.fastening.span, names["pair"], part.name), math.inf)
            here = _here(part.name, part.stock, part is driven.into, end)
            rows.append(Row({**values, **names, **here}, driven.fastening.span, spans))
    for one in piece.unplaced_fasteners:
        own = owns[id(one.fastening)]
        if own is not None and own.kind.threaded:
            rows += _unplaced(piece, one.join, one.fastening, own, Missing(*why(one.reason)))
    facts.add(PILOT, rows)


def _ends(facts: Facts) -> End:
    """The distance to an end by words, pair and part."""
    return {
        (row.span, row.values["pair"], row.values["part"]): row.values["distance"]
        for row in facts.rows.get(EDGE.name, ())
        if row.values["measure"] == "end"
    }


def _unplaced(piece: Piece, join: Join, fastening: Fastening, own: Own, nowhere: Missing) -> list[Row]:
    stocks = {one.entry.name: one.stock for one in piece.listed}
    values, spans = _said(own, fastening)
    names = _names(str(join.first), str(join.second))
    rows = []
    for ref in (join.first, join.second):
        entry = listed(piece.plan, ref)
        stock = None if entry is None else stocks.get(entry.name)
        here = _here(str(ref), stock, ref is join.second, nowhere)
        rows.append(Row({**values, **names, **here}, fastening.span, spans))
    return rows


def _said(own: Own, fastening: Fastening) -> _Said:
    pilot = fastening.piloted
    diameter = own.values["diameter"]
    values: dict[str, object] = {
        "kind": own.kind.noun,
        "gauge": own.values["gauge"],
        "diameter": diameter,
        "root": diameter if own.diameter is None else screws.root_of(own.diameter, own.kind.noun),
        "drilled": own.kind.pilot,
        "piloted": own.values["piloted"],
        "pilot": _NO_PILOT if pilot is None else pilot.value,
        "pilot_stated": pilot is not None,
        "measure": "end",
        "join": own.values["join"],
    }
    return _Said(values, {"unpiloted": _after_size(fastening)} if pilot is None else {"pilot": pilot.span})


def _names(first: str, second: str) -> dict[str, object]:
    return {"first": first, "second": second, "parts": (first, second), "pair": pair_name(first, second)}


def _here(part: str, stock: Stock | None, holds: bool, end: object) -> dict[str, object]:
    """What is so in one of the parts they go into."""
    wood = _wood_named(None if stock is None else stock.wood)
    return {**wood, "part": part, "holds_here": holds, "end_distance": end}


def _after_size(fastening: Fastening) -> Span:
    """Where a clause about the fastener may be put in."""
    words = [fastening.noun.span]
    words += [fastening.size.span] if fastening.size else []
    words += [fastening.finish.span] if fastening.finish else []
    end = max(span.end for span in words)
    return Span(end, end)


@lru_cache(maxsize=64)
def _wood_named(name: str | None) -> dict[str, object]:
    found: Wood | None = None if name is None else woods.wood(name)
    if found is None:
        missing = (
            _NO_WOOD
            if name is None
            else Missing(f"{name} is in no table of woods", "a wood that planlint knows")
        )
        return {"wood": name or missing, "hardwood": missing, "g_design": missing, "g12": missing}
    no_figure = Missing(f"no table says how dense {name} is", "a wood whose density is known")
    return {
        "wood": name,
        "hardwood": found.kind == "hardwood",
        "g_design": no_figure if found.g_design is None else found.g_design,
        "g12": no_figure if found.g12 is None else found.g12,
    }
