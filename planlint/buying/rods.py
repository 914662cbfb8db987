"""Plugs and dowels cut from rod: how much rod they take, beside what is left of the rods that parts are cut from.

Lengths mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Piece
from planlint.cutting import CutBoard
from planlint.observe.hardware import cut_from_rod
from planlint.observe.plugs import bores
from planlint.observe.used import Use
from planlint.read.plan import Purchase, Round
from planlint.sawing.layout import Boards, Layout
from planlint.trade.screws import kind, rod_for_plug

_SAME = 0.2  # mm: a rod and a dowel nearer than this are one size
_HAIR = 0.001  # mm: floats must not decide


class Cutoff(NamedTuple):
    """So many equal pieces off a rod, each `each` long with its saw cut; `word` is what they are."""

    word: str
    number: int
    each: float
    unsure: bool
    where: tuple[str, ...]


class RodWork(NamedTuple):
    """All that is cut off rods of one diameter beside parts; `rods` are the list's lines of that diameter."""

    diameter: float
    cutoffs: tuple[Cutoff, ...]
    rods: tuple[Purchase, ...]

    @property
    def length(self) -> float:
        """The rod that it takes in all."""
        return sum([one.number * one.each for one in self.cutoffs])


def rod_work(piece: Piece, uses: list[Use], kerf: float) -> list[RodWork]:
    """By diameter: plugs that are not bought as such, and dowels that are cut from rod."""
    found: dict[float, list[Cutoff]] = {}
    for one in bores(piece, uses):
        if not one.plugs:
            cut = Cutoff("plugs", one.number, rod_for_plug(one.depth), one.unsure is not None, one.parts)
            found.setdefault(round(one.diameter, 1), []).append(cut)
    rods = [one for one in piece.plan.purchases if isinstance(one.stock, Round) and one.kind == "rod"]
    sizes = [_diameter(one) for one in rods]
    for use in uses:
        diameter = _dowel_from_rod(use, sizes)
        if diameter is not None:
            where = (f"{use.join.first} to {use.join.second}",)
            length = use.fastening.size.length if use.fastening.size is not None else None
            each = (0.0 if length is None else length.value) + kerf
            cut = Cutoff("dowels", use.least, each, use.unsure is not None or length is None, where)
            found.setdefault(round(diameter, 1), []).append(cut)
    return [
        RodWork(size, tuple(cuts), tuple([one for one in rods if abs(_diameter(one) - size) < _SAME]))
        for size, cuts in found.items()
    ]


def extra_rods(work: RodWork, length: float, layout: Layout, kerf: float) -> int:
    """How many rods of that length to buy beside those that parts are cut from."""
    free = [
        _left_of(board, kerf)
        for one in layout.boards
        if one.kind == "rod" and abs(one.thickness - work.diameter) < _SAME
        for board in one.cut
    ]
    return _rods(work.cutoffs, free, length)


def round_boards(layout: Layout, purchase: Purchase) -> Boards | None:
    """The layout's line of this purchase, where parts are cut from it."""
    return next((one for one in layout.boards if one.purchase is purchase and one.cut), None)


def _rods(cutoffs: Sequence[Cutoff], free: list[float], length: float) -> int:
    """Longest pieces first, each off the first rod that still holds it."""
    left, bought = list(free), 0
    for one in sorted(cutoffs, key=lambda cut: -cut.each):
        missing = one.number
        while missing > 0:
            place = next((i for i, rest in enumerate(left) if rest + _HAIR >= one.each), None)
            if place is None:
                if one.each > length + _HAIR:
                    return bought  # no rod of this length holds one
                left.append(length)
                bought += 1
                place = len(left) - 1
            here = min(missing, int((left[place] + _HAIR) / one.each)) if one.each else missing
            left[place] -= here * one.each
            missing -= here
    return bought


def _left_of(board: CutBoard, kerf: float) -> float:
    return board.length - sum([piece.length + kerf for piece in board.pieces])


def _dowel_from_rod(use: Use, rods: list[float]) -> float | None:
    """The rod's diameter, where this is a dowel that is cut from one."""
    what, size = kind(use.fastening.noun.text), use.fastening.size
    if what is None or what.noun != "dowels" or not cut_from_rod(size, rods):
        return None
    return rods[0] if size is None or size.diameter is None else size.diameter.value


def _diameter(rod: Purchase) -> float:
    assert isinstance(rod.stock, Round), "rods are round"
    return rod.stock.diameter.value
