"""What a layout comes to: wood used, wood left, off-cuts worth keeping, pieces counted. Lengths mm."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.sawing.alike import Alike
from planlint.sawing.layout import Boards
from planlint.sawing.order import near
from planlint.trade.sawing import limit


class Use(NamedTuple):
    """Areas of the boards, mm²: all of it, what becomes pieces, what is left in off-cuts worth keeping."""

    whole: float
    pieces: float
    kept: float

    @property
    def waste(self) -> float:
        """The share of the wood that becomes no piece, 0 to 1; off-cuts worth keeping are in it."""
        return 1.0 - self.pieces / self.whole if self.whole else 0.0

    @property
    def worth(self) -> float:
        """The share that is left in off-cuts worth keeping."""
        return self.kept / self.whole if self.whole else 0.0


def use(boards: Boards, told: Sequence[Alike], metric: bool) -> Use:
    """Of the boards of one size."""
    whole = boards.number * boards.length * boards.width
    pieces = sum(
        [piece.area.length * piece.area.width * one.number for one in told for piece in one.sawn.pieces]
    )
    kept = sum([length * width * number for (length, width), number in offcuts(boards, told, metric)])
    return Use(whole, pieces, kept)


def together(uses: Iterable[Use]) -> Use:
    """Boards of several sizes."""
    told = list(uses)
    return Use(sum(one.whole for one in told), sum(one.pieces for one in told), sum(one.kept for one in told))


def offcuts(boards: Boards, told: Sequence[Alike], metric: bool) -> list[tuple[tuple[float, float], int]]:
    """Off-cuts worth keeping, length and width with their number, the longest first."""
    least, across = worth_keeping(boards, metric)
    found: Counter[tuple[float, float]] = Counter()
    for one in told:
        for area in one.sawn.offcuts:
            if area.length >= least - 0.01 and area.width >= across - 0.01:
                found[near(area.length), near(area.width)] += one.number
    return sorted(found.items(), reverse=True)


def worth_keeping(boards: Boards, metric: bool) -> tuple[float, float]:
    """How long and how wide an off-cut of these boards has to be to be worth keeping."""
    least = limit("worth", metric)
    return least, least if boards.kind == "sheet" else min(limit("narrowest", metric), boards.width)


def counted(all_boards: Iterable[tuple[Boards, Sequence[Alike]]]) -> dict[str, Counter[float]]:
    """How many pieces of each entry are cut, by length (rounded to a hundredth)."""
    found: dict[str, Counter[float]] = {}
    for _, told in all_boards:
        for one in told:
            for piece in one.sawn.pieces:
                length = near(piece.length)
                found.setdefault(piece.name, Counter())[length] += one.number
    return found
