"""What finish each fastening has, and what wood it sits in: what rusts or stains outdoors."""

from __future__ import annotations

from planlint.build.joinery.unplaced import listed
from planlint.build.piece import Piece, Stock
from planlint.observe.buying import could_be, finishes_bought, hardware_of
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key, pair_name
from planlint.read.plan import FastenerSize, Fastening, Join, Plan, Word
from planlint.source import Span
from planlint.trade import finishes, woods
from planlint.trade.screws import FastenerKind, kind

METAL = Table(
    "metal",
    "a metal fastening of one join and one class of wood that it sits in",
    {
        "kind": Column("word", "what it is, as the plan says"),
        "finish": Column(
            "word",
            "its finish, in the join line or else on the shopping list; unsaid where neither names one",
        ),
        "said": Column("flag", "the plan names a finish"),
        "wood": Column("word", "the wood it sits in"),
        "wood_class": Column(
            "word",
            "that wood's class: treated, tannin (cedar, redwood, oak, chestnut) or other",
        ),
        "mistake": Column("word", "finish and class of wood together; of an unsaid finish only `unsaid`"),
        "setting": Column("word", "indoors or outdoors"),
        "first": Column("word", "the part the join names first"),
        "second": Column("word", "the part the join names second"),
        "parts": Column("words", "both parts"),
        "pair": Column("word", "both parts"),
        "join": Column("word", "the join line it stands in; for comparing only"),
    },
    {
        "finish": "the finish in the join line",
        "bought_finish": "the finish in the one `buy` line of this kind and size",
        "no_finish": "where the join line has no finish: after the size",
        "bought_no_finish": "where that `buy` line has none",
    },
)

TABLES = (METAL,)

_UNSAID = "unsaid"
_TWO_BOXES = Missing(
    "the shopping list has these in two finishes, and the join line does not say which",
    "the finish in the join line, such as stainless",
)


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each metal fastening and each class of wood its parts are of."""
    plan = piece.plan
    where = outdoors(plan)
    setting: object = where if isinstance(where, Missing) else "outdoors" if where else "indoors"
    met: dict[int, dict[tuple[str, str], tuple[Stock, Stock]]] = {}
    for meeting in piece.meetings:
        names = meeting.first.name, meeting.second.name
        met.setdefault(id(meeting.join), {})[names] = (meeting.first.stock, meeting.second.stock)
    stocks = {one.entry.name: one.stock for one in piece.listed}
    rows: list[Row] = []
    for step in plan.steps:
        for join in step.joins:
            for fastening in join.fastenings:
                if _is_metal(fastening):
                    pairs = met.get(id(join)) or _unplaced(plan, join, stocks)
                    rows += _rows(join, fastening, plan, pairs, setting)
    facts.add(METAL, rows)


def _is_metal(fastening: Fastening) -> bool:
    """Wooden pins and what nobody knows are not; an unknown fitting is, if its finish is named."""
    if fastening.kind != "counted":
        return False
    found: FastenerKind | None = kind(fastening.noun.text)
    return fastening.finish is not None if found is None else found.what != "pin"


def _unplaced(
    plan: Plan, join: Join, stocks: dict[str, Stock | None]
) -> dict[tuple[str, str], tuple[Stock | None, ...]]:
    entries = [listed(plan, ref) for ref in (join.first, join.second)]
    both = tuple([None if entry is None else stocks.get(entry.name) for entry in entries])
    return {(str(join.first), str(join.second)): both}


def _rows(
    join: Join,
    fastening: Fastening,
    plan: Plan,
    pairs: dict[tuple[str, str], tuple[Stock, Stock]] | dict[tuple[str, str], tuple[Stock | None, ...]],
    setting: object,
) -> list[Row]:
    finish = _finish(fastening, plan)
    spans, line = _spans(fastening, plan), join_key(join)
    rows = []
    woods_of: dict[
        tuple[int, ...], dict[str | Missing, str | Missing]
    ] = {}  # most pairs are of the same stock
    for (first, second), stocks in pairs.items():
        key = tuple(map(id, stocks))
        if key not in woods_of:
            woods_of[key] = {_class(stock): _wood(stock) for stock in stocks}
        classes = woods_of[key]
        for wood_class, wood in classes.items():
            said = finish != _UNSAID
            values: dict[str, object] = {
                "kind": fastening.noun.text,
                "finish": finish,
                "said": said,
                "wood": wood,
                "wood_class": wood_class,
                "mistake": f"{finish} {wood_class}" if said else _UNSAID,
                "setting": setting,
                "first": first,
                "second": second,
                "parts": (first, second),
                "pair": pair_name(first, second),
                "join": line,
            }
            rows.append(Row(values, fastening.span, spans))
    return rows


def _finish(fastening: Fastening, plan: Plan) -> str | Missing:
    if fastening.finish is not None:
        return fastening.finish.text
    bought = {_UNSAID if one is None else one.text for one in finishes_bought(fastening, plan)}
    if len(bought) > 1:
        return _TWO_BOXES
    return bought.pop() if bought else _UNSAID


def _spans(fastening: Fastening, plan: Plan) -> dict[str, Span]:
    spans: dict[str, Span] = {}
    spans.update(_finish_span("", fastening.finish, fastening.noun, fastening.size))
    lines = [one for one in hardware_of(plan) if could_be(fastening, one)]
    if len(lines) == 1:
        spans.update(_finish_span("bought_", lines[0].finish, lines[0].noun, lines[0].size))
    return spans


def _finish_span(where: str, finish: Word | None, noun: Word, size: FastenerSize | None) -> dict[str, Span]:
    """The finish, or where it could be put in: after the name and the size, whichever comes last."""
    if finish is not None:
        return {where + "finish": finish.span}
    end = max(noun.span.end, 0 if size is None else size.span.end)
    return {where + "no_finish": Span(end, end)}


def _class(stock: Stock | None) -> str | Missing:
    if stock is not None and stock.treated:
        return finishes.wood_class(None, True)
    if stock is None or stock.wood is None:
        return Missing("the plan does not say the wood", "wood and its name, in the plan section")
    found = woods.wood(stock.wood)
    if found is None:
        return Missing(f"{stock.wood} is in no table of woods", "a wood that planlint knows")
    return finishes.wood_class(found, False)


def _wood(stock: Stock | None) -> str | Missing:
    if stock is None or stock.wood is None:
        return Missing("the plan does not say the wood", "wood and its name, in the plan section")
    return f"treated {stock.wood}" if stock.treated else stock.wood
