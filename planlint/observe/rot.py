"""How the wood of each part stands rain and soil."""

from __future__ import annotations

from planlint.build.piece import Listed, Piece
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.source import Span
from planlint.trade import woods

WEATHERED_WOOD = Table(
    "weathered_wood",
    "a cut-list entry with its wood, for what weather does to it",
    {
        "part": Column("word", "the cut-list entry"),
        "wood": Column("word", "its wood, as the plan names it"),
        "outdoors": Column("flag", "the piece stands outdoors"),
        "treated": Column("flag", "the wood is said to be treated"),
        "sheet": Column("flag", "it is a sheet, such as plywood"),
        "decay": Column("word", "the wood's resistance to decay; for a sheet, none"),
        "exterior": Column("flag", "a sheet made for outdoors"),
        "sure": Column("flag", "the name stands for one wood only"),
        "taken_for": Column("word", "the wood that the name is taken for"),
    },
)
TABLES = (WEATHERED_WOOD,)


def observe(piece: Piece, facts: Facts) -> None:
    """Add a row for each entry; a panel's wood is that of its boards, which have their own."""
    where = outdoors(piece.plan)
    rows = []
    for listed in piece.listed:
        if listed.stock is not None and not listed.stock.panel:
            rows.append(_row(piece, listed, where))
    facts.add(WEATHERED_WOOD, rows)


def _row(piece: Piece, listed: Listed, where: bool | Missing) -> Row:
    stock = listed.stock
    assert stock is not None, "only entries with a stock are asked"
    known = woods.wood(stock.wood) if stock.wood else None
    unknown = Missing("the plan does not say what wood it is", "the wood, such as wood western-redcedar")
    if stock.wood is not None:
        unknown = Missing(f"{stock.wood} is in no table of woods", "a wood planlint knows")
    values: dict[str, object] = {
        "part": listed.entry.name,
        "wood": stock.wood or unknown,
        "outdoors": where,
        "treated": stock.treated,
        "sheet": stock.sheet,
        "decay": "none" if stock.sheet else unknown,
        "exterior": unknown if known is None else known.exterior is True,
        "sure": unknown if known is None else known.sure,
        "taken_for": unknown if known is None else known.name,
    }
    if known is not None and known.decay is not None:
        values["decay"] = known.decay
    return Row(values, _span(piece, listed))


def _span(piece: Piece, listed: Listed) -> Span:
    """Where the wood is named: in the entry, else for the whole plan."""
    if listed.entry.wood is not None:
        return listed.entry.wood.span
    named = piece.plan.heading.wood
    return listed.entry.span if named is None else named.span
