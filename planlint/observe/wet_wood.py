"""Construction lumber brought indoors: how much a width that is glued up or held fast shrinks. Lengths mm."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Listed, Part, Piece, Stock
from planlint.geometry.vector import Vec, dot
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.wood import wood_of
from planlint.read.plan import PanelOf
from planlint.trade import lumber, movement, woods

DRYING_WIDTH = Table(
    "drying_width",
    "a width of construction lumber, across the grain, that is glued up or held fast",
    {
        "part": Column("word", "the cut-list entry; of several glued together, the first"),
        "parts": Column("words", "the cut-list entries"),
        "outdoors": Column("flag", "the piece stands outdoors"),
        "glued": Column("flag", "glued up of several boards; else one board, held by its fastenings"),
        "wood": Column("word", "the wood"),
        "width": Column("length", "the glued width, or the distance between the outermost fastenings"),
        "from_moisture": Column("moisture", "the moisture it is taken to come with"),
        "to_moisture": Column("moisture", "the moisture it dries to indoors"),
        "shrinkage": Column("length", "how much narrower the width becomes"),
    },
)
TABLES = (DRYING_WIDTH,)

# Nouns whose fastenings let the wood move.
_LETS_MOVE = ("figure-8", "buttons", "z-clips")
_SAME = 0.99  # cos of 8 deg: grain that runs the same way


def observe(piece: Piece, facts: Facts) -> None:
    """Add a row for each glued or fixed width of construction lumber; none outdoors."""
    if outdoors(piece.plan) is True:
        return
    lumber_names = {listed.entry.name for listed in piece.listed if _construction(listed)}
    if not lumber_names:
        return
    rows = [_panel_row(piece, listed) for listed in piece.listed if _panel_board(listed) in lumber_names]
    parts = [part for part in piece.parts if part.copy_of in lumber_names]
    glued, alone = _glued_up(piece, parts)
    rows += [_row(piece, own[0], _entries(own), _extent(own), glued=True) for own in glued]
    rows += [
        _row(piece, part, (part.copy_of,), width, glued=False)
        for part in alone
        if (width := _held_width(piece, part)) > 0.0
    ]
    facts.add(DRYING_WIDTH, rows)


def _construction(listed: Listed) -> bool:
    """Softwood sold by a name of 2 in or thicker."""
    stock = listed.stock
    if stock is None or stock.nominal is None:
        return False
    named = lumber.nominal(stock.nominal)
    known = woods.wood(stock.wood) if stock.wood else None
    soft = known is None or known.kind == "softwood"
    return named is not None and soft and "/" not in stock.nominal and named.thickness > 2 * 25.4 - 0.01


def _panel_board(listed: Listed) -> str:
    stock = listed.entry.stock
    return stock.board.name if isinstance(stock, PanelOf) else ""


def _panel_row(piece: Piece, listed: Listed) -> Row:
    stock = listed.stock
    width = (
        Missing("the panel's width is not known", "the width of its boards") if stock is None else stock.width
    )
    return _made(piece, listed.entry.name, (listed.entry.name,), stock, width, True, listed.entry.span)


def _row(piece: Piece, part: Part, entries: tuple[str, ...], width: float, *, glued: bool) -> Row:
    return _made(piece, part.copy_of, entries, part.stock, width, glued, part.entry.span)


def _made(
    piece: Piece,
    part: str,
    entries: tuple[str, ...],
    stock: Stock | None,
    width: float | Missing,
    glued: bool,
    span: object,
) -> Row:
    wet, dry = movement.as_bought("construction-lumber"), movement.as_bought("indoor-mean")
    values: dict[str, object] = {
        "part": part,
        "parts": entries,
        "outdoors": outdoors(piece.plan),
        "glued": glued,
        "wood": stock.wood if stock and stock.wood else Missing("the plan names no wood", "the wood"),
        "width": width,
        "from_moisture": wet,
        "to_moisture": dry,
        "shrinkage": _shrinkage(stock, width, wet, dry),
    }
    return Row(values, span)  # type: ignore[arg-type]


def _shrinkage(stock: Stock | None, width: float | Missing, wet: float, dry: float) -> float | Missing:
    if isinstance(width, Missing):
        return width
    if stock is None or stock.wood is None:
        return Missing("the plan does not say what wood it is", "the wood, such as wood douglas-fir")
    known = woods.wood(stock.wood)
    if known is None or known.c_tangential is None:
        return Missing(f"no table says how much {stock.wood} shrinks", "a wood planlint knows")
    return movement.by_coefficient(width, known.c_tangential, dry, wet)


def _glued_up(piece: Piece, parts: Sequence[Part]) -> tuple[list[list[Part]], list[Part]]:
    """Boards glued edge to edge, as one list each; and those that stand alone."""
    wood = wood_of(piece)
    of_order = {part.order: part for part in parts}
    lists = {part.order: [part] for part in parts}
    for first, second in wood.glued:
        if first not in of_order or second not in of_order or lists[first] is lists[second]:
            continue
        if abs(dot(of_order[first].grain, of_order[second].grain)) > _SAME:
            lists[first].extend(lists[second])
            for part in lists[second]:
                lists[part.order] = lists[first]
    unique = {id(own): own for own in lists.values()}.values()
    glued = [own for own in unique if len(own) > 1]
    return glued, [own[0] for own in unique if len(own) == 1]


def _entries(parts: Sequence[Part]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part.copy_of for part in parts))


def _extent(parts: Sequence[Part]) -> float:
    """How wide the boards are together, across the first one's wide face."""
    across = _across(parts[0])
    reaches = [dot(corner, across) for part in parts for corner in part.solid.vertices]
    return max(reaches) - min(reaches)


def _across(part: Part) -> Vec:
    return part.along if part.entry.grain_across else part.across


def _held_width(piece: Piece, part: Part) -> float:
    """The distance across the grain between the outermost rigid fastenings of one board."""
    across = _across(part)
    reaches = [
        dot(one.spot, across)
        for one in piece.driven
        if part in (one.first, one.second)
        and one.fastening.noun.text not in _LETS_MOVE
        and not one.fastening.slotted
    ]
    return max(reaches) - min(reaches) if reaches else 0.0
