"""The cut list as pieces to be sawn: sizes over all, of what wood, how many. Lengths mm."""

from __future__ import annotations

import math
from collections import Counter
from typing import NamedTuple

from planlint.build.piece import Listed, Part, Piece
from planlint.observe.facts import Missing
from planlint.read.plan import CutEntry, PanelOf

_HAIR = 0.01  # mm: lengths that differ by less are one


class Length(NamedTuple):
    """`number` pieces of one length, tip to tip; `nests`: how far slanted ends may reach into a neighbour."""

    length: float
    number: int
    nests: float


class Wanted(NamedTuple):
    """One entry that is cut from bought wood.

    `unknown` says why its lengths are not known: `lengths` is empty then. `width` and `length` are as the
    grain runs.
    """

    name: str
    entry: CutEntry
    thickness: float
    width: float
    lengths: tuple[Length, ...]
    unknown: Missing | None
    wood: str | None
    treated: bool
    diameter: float | None
    sheet_wood: bool

    @property
    def longest(self) -> float:
        """Its longest piece; 0 where no length is known."""
        return max([one.length for one in self.lengths], default=0.0)

    @property
    def shortest(self) -> float:
        """Its shortest piece; 0 where no length is known."""
        return min([one.length for one in self.lengths], default=0.0)


def wanted(piece: Piece) -> tuple[list[Wanted], list[CutEntry]]:
    """What the cut list wants cut, and the entries of which no size is known.

    A panel is glued up of boards that have their own entry. Of two entries of one name, which the plan cannot
    mean, the first is taken.
    """
    placed: dict[str, list[Part]] = {}
    for part in piece.parts:
        placed.setdefault(part.copy_of, []).append(part)
    panels = boards_for_panels(piece)
    found: list[Wanted] = []
    unknown: list[CutEntry] = []
    for listed in piece.listed:
        if isinstance(listed.entry.stock, PanelOf) or any(one.name == listed.entry.name for one in found):
            continue
        if listed.stock is None:
            unknown.append(listed.entry)
        else:
            number = max(listed.entry.pieces, panels.get(listed.entry.name, 0))
            found.append(_wanted(listed, number, placed.get(listed.entry.name, [])))
    return found, unknown


def boards_for_panels(piece: Piece) -> dict[str, int]:
    """How many of each entry of the cut list its glued-up panels take."""
    boards: dict[str, int] = {}
    for listed in piece.listed:
        stock = listed.entry.stock
        if isinstance(stock, PanelOf):
            name = stock.board.name
            boards[name] = boards.get(name, 0) + stock.boards * listed.entry.pieces
    return boards


def _wanted(listed: Listed, number: int, placed: list[Part]) -> Wanted:
    entry, stock = listed.entry, listed.stock
    assert stock is not None, "only entries of a known size are wanted"
    lengths = _lengths(listed, number, placed)
    width = stock.width
    if entry.grain_across and not stock.sheet and len(lengths) == 1:
        width, lengths = lengths[0].length, (Length(width, number, 0.0),)
    unknown = None
    if not lengths:
        unknown = Missing(f"the length of {entry.name} is not known", _add(entry))
    return Wanted(
        entry.name,
        entry,
        stock.thickness,
        width,
        lengths,
        unknown,
        stock.wood,
        stock.treated,
        stock.diameter,
        stock.sheet,
    )


def _add(entry: CutEntry) -> str:
    if entry.fit:
        return f"its length, or a place for every {entry.name}: between … and …"
    return "its length over all, tip to tip; or a place for it, with its ends cut"


def _lengths(listed: Listed, number: int, placed: list[Part]) -> tuple[Length, ...]:
    """Stated over all: so many of one length. Else as built, if all are."""
    entry = listed.entry
    if entry.length is not None and entry.length_measure == "over all":
        return (Length(entry.length.value, number, _nests(listed, placed)),)
    if len(placed) < number:
        return ()
    built = Counter(round(part.size.length / _HAIR) for part in placed)
    nests = _nests(listed, placed)
    return tuple(Length(steps * _HAIR, count, nests) for steps, count in sorted(built.items()))


def _nests(listed: Listed, placed: list[Part]) -> float:
    """What slanted ends leave of the box round a piece, as a length: no layout can share more than that."""
    mitred = listed.entry.mitred
    reach = 0.0
    if mitred is not None and listed.stock is not None:
        angles = [abs(angle.value) for angle in mitred.angles] * (2 if len(mitred.angles) == 1 else 1)
        reach = listed.stock.width * sum(math.tan(math.radians(min(angle, 85.0))) for angle in angles) / 2
    for part in placed:
        if part.solid is not part.box:
            area = part.size.width * part.size.thickness
            reach = max(reach, part.size.length - part.solid.volume / area)
    longest = max([part.size.length for part in placed], default=reach)
    return min(reach, 0.9 * longest) if placed else reach
