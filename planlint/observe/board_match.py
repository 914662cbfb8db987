"""Which bought board could yield which entry of the cut list, and which of them compete. Lengths mm.

Softwood may be planed from thicker stock and ripped from wider; sheets and boards of sheet wood keep their
thickness; round stock comes from rods of its diameter, else it is turned from square stock.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.observe.bought import Bought, same_wood
from planlint.observe.wanted import Wanted

_HAIR = 0.001  # mm: exactly at the limit is allowed


class Lack(NamedTuple):
    """Why no bought wood yields an entry.

    `what`: "length", "width" or "thickness", of the `nearest` that was bought; else what is not bought at
    all: "wood", "treated" (only untreated), "rod", "sheet" (not in that thickness).
    """

    what: str
    nearest: Bought | None
    largest: float


class Group(NamedTuple):
    """Entries and boards that compete for one another: no board of it can serve an entry outside."""

    wants: list[Wanted]
    boards: list[Bought]


class Match:
    """Every entry against every bought board. `snug`: a size that differs by no more is the same, mm."""

    __slots__ = ("boards", "could", "lacks", "may", "snug", "wants")

    def __init__(self, wants: Sequence[Wanted], boards: Sequence[Bought], snug: float) -> None:
        self.wants, self.boards, self.snug = wants, boards, snug
        self.may: list[list[Bought]] = [self._of_its_kind(want) for want in wants]
        self.could: list[list[Bought]] = []
        self.lacks: dict[str, Lack] = {}
        for want, may in zip(wants, self.may, strict=True):
            longest = any(self._holds(board, want, want.longest) for board in may)
            # Of an entry in several lengths, a board too short for the longest may yield the others.
            self.could.append([b for b in may if longest and self._holds(b, want, want.shortest)])
            if not longest:
                self.lacks[want.name] = self._lack(want, may)

    def groups(self) -> list[Group]:
        """Connected groups, in the order of the cut list; then every board that no entry could use."""
        group_of: dict[str, Group] = {}
        found: list[Group] = []
        for want, boards in zip(self.wants, self.could, strict=True):
            if not boards:
                continue
            joined = Group([want], [])
            for old in list(found):
                if any(board in old.boards for board in boards):
                    joined.wants[:0] = old.wants
                    joined.boards.extend(old.boards)
                    found.remove(old)
            joined.boards.extend([board for board in boards if board not in joined.boards])
            group_of.update({board.key: joined for board in joined.boards})
            found.append(joined)
        unused = [board for board in self.boards if board.key not in group_of]
        return [*found, *(Group([], [board]) for board in unused)]

    def allowed(self, want: Wanted) -> set[str]:
        """Keys of the boards whose wood would do, whatever their size."""
        return {board.key for board in self.may[list(self.wants).index(want)]}

    def _of_its_kind(self, want: Wanted) -> list[Bought]:
        rods = [board for board in self.boards if self._rod_for(board, want)]
        return rods or self._meant([board for board in self.boards if self._wood_for(board, want)], want)

    def _meant(self, boards: list[Bought], want: Wanted) -> list[Bought]:
        """Of boards of its wood those of its own thickness, if one is wide enough: nobody resaws a 2x4 into
        slats while the 1x4 for them stands on the list. `ripped from` may say otherwise.
        """
        if want.entry.ripped_from is not None:
            return boards
        slack = self.snug + _HAIR
        own = [board for board in boards if abs(section_for(board, want, slack)[0] - want.thickness) <= slack]
        wide = any(section_for(board, want, slack)[1] + slack >= want.width for board in own)
        return own if wide else boards

    def _rod_for(self, board: Bought, want: Wanted) -> bool:
        return (
            board.purchase.kind == "rod"
            and want.diameter is not None
            and abs(board.thickness - want.diameter) <= self.snug + _HAIR
            and (want.entry.wood is None or same_wood(board.wood, want.wood))
            and (board.treated or not want.treated)
        )

    def _wood_for(self, board: Bought, want: Wanted) -> bool:
        if board.purchase.kind == "rod" or not same_wood(board.wood, want.wood):
            return False
        if want.treated and not board.treated:
            return False
        if board.sheet_wood:
            return want.diameter is None and abs(board.thickness - want.thickness) <= self.snug + _HAIR
        return not want.sheet_wood or board.wood is None

    def _holds(self, board: Bought, want: Wanted, length: float) -> bool:
        """Flat, on edge where it is a board, turned where it is a sheet."""
        long, wide = board.length + _HAIR, board.width + self.snug + _HAIR
        if board.purchase.kind == "sheet":
            room = board.width + _HAIR
            return (length <= long and want.width <= wide) or (want.width <= long and length <= room)
        return length <= long and self._section_holds(board, want)

    def _section_holds(self, board: Bought, want: Wanted) -> bool:
        slack = self.snug + _HAIR
        thickness, width = section_for(board, want, slack)
        thick, wide = thickness + slack, width + slack
        flat = want.thickness <= thick and want.width <= wide
        return flat or (want.width <= thick and want.thickness <= wide)

    def _lack(self, want: Wanted, may: Sequence[Bought]) -> Lack:
        if not may:
            return self._nothing(want)
        slack = self.snug + _HAIR
        thick = [board for board in may if section_for(board, want, slack)[0] + slack >= want.thickness]
        if not thick:
            nearest = max(may, key=lambda board: (board.thickness, board.width, board.length))
            return Lack("thickness", nearest, nearest.thickness)
        wide = [board for board in thick if section_for(board, want, slack)[1] + slack >= want.width]
        if not wide:
            nearest = max(thick, key=lambda board: (board.width, board.length))
            return Lack("width", nearest, nearest.width)
        nearest = max(wide, key=lambda board: board.length)
        return Lack("length", nearest, nearest.length)

    def _nothing(self, want: Wanted) -> Lack:
        if want.diameter is not None and any(board.purchase.kind == "rod" for board in self.boards):
            return Lack("rod", None, 0.0)
        of_wood = [b for b in self.boards if b.purchase.kind != "rod" and same_wood(b.wood, want.wood)]
        if want.treated and of_wood:
            return Lack("treated", of_wood[0], 0.0)
        sheets = [board for board in of_wood if board.sheet_wood]
        if sheets:
            nearest = max(sheets, key=lambda board: board.thickness)
            thinner = nearest.thickness < want.thickness
            return Lack("thickness" if thinner else "sheet", nearest, nearest.thickness)
        return Lack("wood", None, 0.0)


def section_for(board: Bought, want: Wanted, slack: float) -> tuple[float, float]:
    """The board's thickness and width for this part: as sawn, where the part is as thick, so unplaned."""
    if board.sawn is not None and abs(want.thickness - board.sawn[0]) <= slack:
        return board.sawn
    return board.thickness, board.width


def fitted(want: Wanted, boards: Sequence[Bought], snug: float) -> tuple[float, float]:
    """The entry's thickness and width as its group's boards have them: what is within `snug` is equal."""
    thickness, width = want.thickness, want.width
    for board in boards:
        if section_for(board, want, snug + _HAIR) is board.sawn:
            thickness, width = min(thickness, board.thickness), min(width, board.width)
        for side in (board.thickness, board.width):
            if 0.0 < want.thickness - side <= snug + _HAIR:
                thickness = min(thickness, side)
            if 0.0 < want.width - side <= snug + _HAIR:
                width = min(width, side)
    return thickness, width
