"""The lengths of the shopping list beside those that are sold. Lengths mm."""

from __future__ import annotations

from planlint.build.piece import Piece
from planlint.observe.bought import Bought, bought_wood, kind_of
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.read.plan import Nominal
from planlint.trade import lengths

BOUGHT_LENGTH = Table(
    "bought_length",
    "a line of bought softwood, rod or sheet whose length can be held against what is sold",
    {
        "line": Column("word", "the line's own key, never shown"),
        "bought": Column("word", "the line, as 2x4 @ 96"),
        "stock": Column("word", "its size alone, as 2x4"),
        "kind": Column("word", "board, rod or sheet"),
        "length": Column("length", "the length"),
        "width": Column("length", "the width"),
        "sold": Column("flag", "that length is sold; of a sheet, that width and length"),
        "next_length": Column("length", "the next longer one sold"),
    },
    {"length": "the length"},
)
TABLES = (BOUGHT_LENGTH,)

_CLOSE = 2.0  # mm: 2440 mm is an 8 ft board, and 1220 x 2440 mm a 4 x 8 ft sheet
_NONE_LONGER = Missing("none longer is sold", "")


def observe(piece: Piece, facts: Facts) -> None:
    """Add a row for every line that is sold in set lengths.

    Hardwood comes in random lengths, a size of the plan's own from the owner's shed.
    """
    facts.add(BOUGHT_LENGTH, [row for one in bought_wood(piece)[0] if (row := _row(one)) is not None])


def _row(one: Bought) -> Row | None:
    length = one.purchase.length
    assert length is not None, "only wood of a known length is listed"
    metric = length.unit not in ("in", "ft")
    found = _sold(one, metric)
    if found is None:
        return None
    kind, sold, longer = found
    values: dict[str, object] = {
        "line": one.key,
        "bought": one.words,
        "stock": one.section,
        "kind": kind,
        "length": one.length,
        "width": one.width,
        "sold": sold,
        "next_length": _NONE_LONGER if longer is None else longer,
    }
    return Row(values, length.span, {"length": length.span})


def _sold(one: Bought, metric: bool) -> tuple[str, object, float | None] | None:
    """What it is, whether its length is sold, and the next longer one; None where no list is kept."""
    kind = one.purchase.kind
    if kind == "rod":
        rods = lengths.rod_lengths(metric)
        longer = min([long for long in rods if long > one.length], default=None)
        return "rod", _among(one.length, rods), longer
    if kind == "sheet":
        return "sheet", _sheet_sold(one), None
    if kind == "panel" or one.sheet_wood:
        return None
    return _board_sold(one, metric)


def _board_sold(one: Bought, metric: bool) -> tuple[str, object, float | None] | None:
    nominal = isinstance(one.purchase.stock, Nominal)
    if (
        kind_of(one.wood) == "hardwood"
        or (not nominal and not metric)
        or "/4x" in one.section.replace("5/4x", "")
    ):
        return None
    if metric and not nominal and one.length < lengths.board_lengths(True)[0]:
        return None  # an off-cut at hand
    longer = lengths.next_board_length_sold(one.length, metric)
    if one.wood is not None and kind_of(one.wood) is None:
        unknown = Missing(f"{one.wood} is in no table of woods", "a wood planlint knows")
        return "board", unknown, longer
    return "board", _board_length_sold(one, metric), longer


def _board_length_sold(one: Bought, metric: bool) -> bool:
    inches = lengths.board_lengths() if one.section in ("2x4", "2x6") else lengths.without_studs()
    return _among(one.length, inches) or (metric and _among(one.length, lengths.board_lengths(True)))


def _among(length: float, sold: tuple[float, ...]) -> bool:
    return any(abs(length - one) <= _CLOSE for one in sold)


def _sheet_sold(one: Bought) -> bool:
    sides = sorted((one.width, one.length))
    return any(
        all(abs(own - sold) <= _CLOSE for own, sold in zip(sides, sorted(size), strict=True))
        for size in lengths.sheet_sizes()
    )
