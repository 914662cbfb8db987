"""Sizes as a cut list writes them: measures that are lumber names, and solid parts wider than any board."""

from __future__ import annotations

from planlint.build.piece import Listed, Piece
from planlint.observe.bought import Bought, bought_wood, kind_of, same_wood
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.read.plan import Measured, Nominal, PanelOf
from planlint.trade import lumber

NAMED_SIZE = Table(
    "named_size",
    "a cut-list entry whose measures, thickness x width, are the name of a lumber size",
    {
        "part": Column("word", "the cut-list entry"),
        "parts": Column("words", "the entry and its placed pieces"),
        "nominal": Column("word", "the lumber size with that name, as 2x4"),
        "thickness": Column("length", "the thickness as written"),
        "width": Column("length", "the width as written"),
        "real_thickness": Column("length", "how thick that lumber is, dressed"),
        "real_width": Column("length", "how wide it is, dressed"),
        "listed": Column("flag", "the plan has a shopping list of wood"),
        "dressed_bought": Column("flag", "the list has just that lumber, dressed"),
        "larger_bought": Column(
            "flag", "the list or the entry names wood from which the measures could be cut"
        ),
    },
    {"size": "the measures"},
)
WIDE_PART = Table(
    "wide_part",
    "a solid part, not glued up, that is wider than the narrowest limit for single boards",
    {
        "part": Column("word", "the cut-list entry"),
        "wood": Column("word", "its wood"),
        "width": Column("length", "its width across the grain"),
        "widest": Column("length", "how wide single boards of that wood are sold"),
        "panel_bought": Column("flag", "a glued-up panel of that width is bought"),
        "board_width": Column("length", "the widest single board of that wood on the shopping list"),
    },
)  # fmt: skip
TABLES = (NAMED_SIZE, WIDE_PART)


def observe(piece: Piece, facts: Facts) -> None:
    """Add the rows of both tables."""
    bought, _ = bought_wood(piece)
    for listed in piece.listed:
        stock = listed.entry.stock
        if isinstance(stock, Measured):
            name = lumber.nominal_like(stock.thickness.value, stock.width.value)
            if name is not None:
                facts.add(NAMED_SIZE, [_named(piece, listed, stock, name, bought)])
        if not isinstance(stock, (Nominal, PanelOf)) and _may_be_wide(listed):
            facts.add(WIDE_PART, [_wide(listed, bought)])


def _named(piece: Piece, listed: Listed, stock: Measured, name: str, bought: list[Bought]) -> Row:
    real = lumber.dressed(name)
    assert real is not None, "names come from the table"
    wood = listed.stock.wood if listed.stock else None
    own = [board for board in bought if same_wood(board.wood, wood)]
    entry = listed.entry
    pieces = [part.name for part in piece.parts if part.copy_of == entry.name]
    values: dict[str, object] = {
        "part": entry.name,
        "parts": tuple(dict.fromkeys([entry.name, *pieces])),
        "nominal": name,
        "thickness": stock.thickness.value,
        "width": stock.width.value,
        "real_thickness": real.thickness,
        "real_width": real.width,
        "listed": bool(bought),
        "dressed_bought": any(_is_dressed(board, name) for board in own),
        "larger_bought": entry.ripped_from is not None or any(_holds(board, stock) for board in own),
    }
    return Row(values, entry.span, {"size": stock.span})


def _is_dressed(board: Bought, name: str) -> bool:
    stock = board.purchase.stock
    return board.purchase.kind == "board" and isinstance(stock, Nominal) and stock.name == name


def _holds(board: Bought, stock: Measured) -> bool:
    sides = sorted((stock.thickness.value, stock.width.value))
    return sides[0] <= board.thickness + 0.01 and sides[1] <= board.width + 0.01


def _across(listed: Listed) -> float:
    if listed.size is None:
        return listed.stock.width if listed.stock else 0.0
    return listed.size.length if listed.entry.grain_across else listed.size.width


def _may_be_wide(listed: Listed) -> bool:
    narrowest = min(lumber.widest_board(kind) or 0.0 for kind in ("softwood", "hardwood"))
    stock = listed.stock
    return stock is not None and not stock.sheet and _across(listed) > narrowest + 0.01


def _wide(listed: Listed, bought: list[Bought]) -> Row:
    stock = listed.stock
    assert stock is not None, "only parts with a size are wide"
    own = [board for board in bought if same_wood(board.wood, stock.wood)]
    widest = lumber.widest_board(kind_of(stock.wood) or "")
    across = _across(listed)
    boards = [b.width for b in own if b.purchase.kind in ("board", "rough") and b.width <= (widest or 0.0)]
    values: dict[str, object] = {
        "part": listed.entry.name,
        "wood": stock.wood or Missing("the plan names no wood", "its wood, such as pine"),
        "width": across,
        "widest": _unknown_wood(stock.wood) if widest is None else widest,
        "panel_bought": any(b.purchase.kind in ("panel", "sheet") and b.width >= across - 0.01 for b in own),
        "board_width": max(boards, default=Missing("no board of that wood is bought", "")),
    }
    return Row(values, listed.entry.span)


def _unknown_wood(wood: str | None) -> Missing:
    if wood is None:
        return Missing("the plan names no wood", "the wood, such as pine, or plywood for a sheet")
    return Missing(f"{wood} is in no table of woods", "a wood planlint knows, or plywood for a sheet")
