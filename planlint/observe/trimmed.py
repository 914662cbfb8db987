"""Panels that the plan trims to a size, beside what their boards make when they are glued edge to edge."""

from __future__ import annotations

from planlint.build.piece import Listed, Piece
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.read.plan import CutEntry, PanelOf

TRIMMED = Table(
    "trimmed_panel",
    "an entry of the cut list glued up of boards and trimmed to a stated size",
    {
        "part": Column("word", "the cut-list entry of the panel"),
        "board": Column("word", "the cut-list entry of its boards"),
        "boards": Column("number", "how many of them it is glued up of"),
        "board_width": Column("length", "how wide one of them is"),
        "board_length": Column("length", "how long one of them is"),
        "across": Column("length", "how far the panel goes across its boards"),
        "along": Column("length", "how far it goes along them"),
        "made": Column("length", "how wide all its boards are together"),
    },
)

TABLES = (TRIMMED,)


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each panel with a stated size, made of boards that the cut list has."""
    entries: dict[str, Listed] = {}
    for listed in piece.listed:
        entries.setdefault(listed.entry.name, listed)
    for listed in piece.listed:
        stock = listed.entry.stock
        if isinstance(stock, PanelOf):
            board = entries.get(stock.board.name)
            if board is not None and board.stock is not None and not isinstance(board.entry.stock, PanelOf):
                facts.add(TRIMMED, _rows(listed.entry, stock, board.entry, board.stock.width))


def _rows(panel: CutEntry, stock: PanelOf, board: CutEntry, width: float) -> list[Row]:
    if stock.width is None or stock.length is None:
        return []
    across, along = stock.width.value, stock.length.value
    if panel.grain_across:  # the boards run along the lesser measure that is written first
        across, along = along, across
    values: dict[str, object] = {
        "part": panel.name,
        "board": board.name,
        "boards": float(stock.boards),
        "board_width": width,
        "board_length": _length(board),
        "across": across,
        "along": along,
        "made": width * stock.boards,
    }
    return [Row(values, stock.span)]


def _length(board: CutEntry) -> float | Missing:
    """Tip to tip, where the cut list says it so; a board that is only glued into a panel has no place."""
    if board.length is not None and board.length_measure == "over all":
        return board.length.value
    return Missing(f"the length of {board.name} is not known", "its length over all, tip to tip")
