"""What has to be carried at once, how heavy it is, and whether it goes through the door or into the car.

A sub-assembly counts alone where all that fixes it to the rest comes apart again: screws, bolts, fittings,
what lies loose. What is left then may fall into further pieces. Fastenings, glass, cushions and hardware are
not weighed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Part, Piece, Size
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.holding import Groups
from planlint.observe.passages import OPENING, opening_rows
from planlint.read.plan import Join
from planlint.trade.boards import weight
from planlint.trade.carrying import lifters, moisture_when_carried
from planlint.trade.screws import kind
from planlint.trade.woods import with_figures, wood

CARRIED = Table(
    "carried_piece",
    "a piece that is carried at once: the whole, or a sub-assembly that comes off, or what is left then",
    {
        "name": Column("word", "what it is called"),
        "whole": Column("flag", "it is the whole piece"),
        "part": Column("word", "its first part"),
        "parts": Column("words", "its parts"),
        "weight": Column("mass", "how heavy its wood is"),
        "lifters": Column("number", "how many lift it: as the plan says, else two when it is long"),
        "each": Column("mass", "the weight for each of them"),
        "lifters_stated": Column("flag", "the plan says how many lift it"),
        "wet": Column("flag", "treated wood is weighed as it comes from the yard"),
    },
    {},
)

TABLES = (CARRIED, OPENING)

_APART = ("counted", "housed", "notched", "half-lap", "mortise-and-tenon", "loose")
_STAYS = ("nail", "pin")  # fasteners that are not taken out again


class Carried(NamedTuple):
    """Parts that are carried at once, and what they are called."""

    name: str
    parts: list[Part]
    whole: bool


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each piece that is carried; and for each opening that the plan states."""
    if not piece.parts and piece.plan.placements:
        return
    pieces = _carried(piece)
    span = piece.plan.carry.spans.get("lift", piece.plan.heading.title_span)
    rows = [_row(piece, one) for one in pieces] if piece.parts else [_listed(piece)] if piece.listed else []
    facts.add(CARRIED, [Row(values, span) for values in rows])
    opening_rows(piece, facts, [(one.name, one.whole, one.parts) for one in pieces], assemblies(piece))


# --- what is carried at once -----------------------------------------------------------------------------


def assemblies(piece: Piece) -> dict[str, list[Part]]:
    """The parts of each copy of a sub-assembly that the finished piece is put together from."""
    found: dict[str, list[Part]] = {}
    for part in piece.parts:
        if part.assembly is not None:
            found.setdefault(part.assembly.rpartition(" of ")[2], []).append(part)
    return found


def _carried(piece: Piece) -> list[Carried]:
    whole = Carried("the whole piece", list(piece.parts), True)
    held = assemblies(piece)
    if not held or not piece.meetings:
        return [whole]
    holder = {part.order: name for name, parts in held.items() for part in parts}
    stuck: set[str | None] = set()
    for one in piece.meetings:
        first, second = holder.get(one.first.order), holder.get(one.second.order)
        if first != second and not _comes_apart(one.join):
            stuck |= {first, second}
    alone = {name: parts for name, parts in held.items() if name not in stuck}
    if not alone:
        return [whole]
    off = {part.order for parts in alone.values() for part in parts}
    rest = _in_one([part for part in piece.parts if part.order not in off], piece)
    found = [Carried(name, parts, False) for name, parts in alone.items()]
    found += [
        Carried(
            parts[0].name if len(parts) == 1 else f"{parts[0].name} with what is fixed to it", parts, False
        )
        for parts in rest
    ]
    return found


def _comes_apart(join: Join) -> bool:
    """Whether a join can be undone: no glue, no nails or dowels, nothing unsaid."""
    for one in join.fastenings:
        what = kind(one.noun.text) if one.kind == "counted" else None
        if one.kind not in _APART or (what is not None and what.what in _STAYS):
            return False
    return True


def _in_one(parts: list[Part], piece: Piece) -> list[list[Part]]:
    """The parts by what is still joined to each other."""
    orders = {part.order for part in parts}
    groups = Groups(
        [
            (one.first.order, one.second.order)
            for one in piece.meetings
            if one.first.order in orders and one.second.order in orders
        ]
    )
    found: dict[object, list[Part]] = {}
    for part in parts:
        found.setdefault(groups.of(part.order), []).append(part)
    return list(found.values())


# --- how heavy it is ---------------------------------------------------------------------------------------


def _row(piece: Piece, one: Carried) -> dict[str, object]:
    sizes = [
        max([part.solid.high[axis] for part in one.parts]) - min([part.solid.low[axis] for part in one.parts])
        for axis in (0, 1, 2)
    ]
    return _values(
        piece,
        one.name,
        one.whole,
        tuple([part.name for part in one.parts]),
        _weight(piece, one),
        max(sizes),
        any(part.stock.treated for part in one.parts),
    )


def _weight(piece: Piece, one: Carried) -> float | Missing:
    """The wood's weight; what two parts share counts once."""
    if piece.unplaced_names:
        name = next(iter(piece.unplaced_names))
        return Missing(f"{name} has no place", "what fixes its place in every direction")
    total = 0.0
    for part in one.parts:
        own = _weighed(part.solid.volume, part.stock.wood, part.stock.treated)
        if isinstance(own, Missing):
            return own
        total += own
    inside = {part.order for part in one.parts}
    for overlap in piece.overlaps:
        first = overlap.first
        if overlap.solid is not None and {first.order, overlap.second.order} <= inside:
            twice = _weighed(overlap.solid.volume, first.stock.wood, first.stock.treated)
            total -= twice if isinstance(twice, float) else 0.0
    return total


def _listed(piece: Piece) -> dict[str, object]:
    """The whole piece by its cut list, where nothing is placed."""
    cut = [one for one in piece.listed if not one.used_in_panel]
    sized = [(one, one.size, one.stock) for one in cut if one.size is not None and one.stock is not None]
    heavy = [
        _weighed(_wood_of(size) * one.entry.pieces, stock.wood, stock.treated) for one, size, stock in sized
    ]
    unknown: Missing | None = next((one for one in heavy if isinstance(one, Missing)), None)
    if len(sized) < len(cut):
        unknown = Missing("not every size in the cut list is known", "the sizes that are missing there")
    return _values(
        piece,
        "the whole piece",
        True,
        tuple([one.entry.name for one in piece.listed]),
        sum([one for one in heavy if isinstance(one, float)]) if unknown is None else unknown,
        max([size.length for _, size, _ in sized], default=0.0),
        any(stock.treated for _, _, stock in sized),
    )


def _wood_of(size: Size) -> float:
    if size.diameter is not None:
        return size.length * math.pi * size.diameter**2 / 4.0
    return size.length * size.width * size.thickness


def _weighed(volume: float, name: str | None, treated: bool) -> float | Missing:
    found = None if name is None else wood(name)
    heavy = None if found is None else weight(volume, found, moisture_when_carried(treated))
    if heavy is None:
        return Missing(
            f"no table gives the weight of {name or 'a wood that is not named'}", with_figures(name)
        )
    return heavy


def _values(
    piece: Piece,
    name: str,
    whole: bool,
    parts: Sequence[str],
    heavy: float | Missing,
    longest: float,
    treated: bool,
) -> dict[str, object]:
    stated = piece.plan.carry.lift_by
    number = float(stated if stated is not None else lifters(longest))
    return {
        "name": name,
        "whole": whole,
        "part": parts[0] if parts else name,
        "parts": tuple(parts),
        "weight": heavy,
        "lifters": number,
        "each": heavy if isinstance(heavy, Missing) else heavy / number,
        "lifters_stated": stated is not None,
        "wet": treated,
    }
