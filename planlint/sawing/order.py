"""One board in the order to cut it: from the places of its pieces to cuts from edge to edge, numbered. Lengths mm.

A board is crosscut first and ripped afterwards: a short blank is easier to guide than a long board, and a bow or a
twist comes out of it. It is ripped first where crosscuts would not set the pieces free, or would leave a blank too
short to rip safely. A sheet is cut in two stages, strips first. Within a stage the longest (the widest) comes off
first, so that a slip costs least; blanks of one stage are cut before the next stage begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.cutting import Cut, CutBoard
from planlint.observe.board_supply import name_of
from planlint.trade.sawing import shortest_to_rip

CROSSCUT, RIP = "crosscut", "rip"
_HAIR = 0.002  # mm: what a layout may be over by its tolerance


def near(x: float) -> float:
    """A length to compare by: what differs by noise alone is one. No 1/64 in lies where this rounds up or down."""
    return round(x + 0.0003, 2)


class Area(NamedTuple):
    """A rectangle of a board, from its left end and its upper edge."""

    along: float
    across: float
    length: float
    width: float


class Freed(NamedTuple):
    """A piece where it lies; `number` is that of the cut after which it is free (0: it is the whole board).

    `across`: its length lies across the board's, which only a sheet allows.
    """

    name: str
    area: Area
    number: int
    across: bool

    @property
    def length(self) -> float:
        """The piece's own length."""
        return self.area.width if self.across else self.area.length


class SawCut(NamedTuple):
    """One cut, `kerf` the wood it takes. `size`: the length or width that comes off.

    `out_of`: the cut that made the blank it is made in, 0 for the board. `piece`: the piece it sets free; "" when a
    blank comes off, for the pieces in `holds`.
    """

    number: int
    way: str
    size: float
    out_of: int
    piece: str
    holds: tuple[str, ...]
    kerf: Area
    blank: Area


class Sawn(NamedTuple):
    """A board, or a sheet, with its pieces, cuts and off-cuts."""

    board: CutBoard
    sheet: bool
    pieces: tuple[Freed, ...]
    cuts: tuple[SawCut, ...]
    offcuts: tuple[Area, ...]


class _Blank(NamedTuple):
    """What is still to be cut: pieces in an area of the board."""

    area: Area
    cuts: Sequence[Cut]
    number: int  # of the cut that made it


def sawn(board: CutBoard, kerf: float, *, sheet: bool) -> Sawn:
    """The board in the order to cut it."""
    return _Saw(board, kerf, sheet).run()


class _Saw:
    def __init__(self, board: CutBoard, kerf: float, sheet: bool) -> None:
        self.board, self.kerf, self.sheet = board, kerf, sheet
        self.pieces: list[Freed] = []
        self.made: list[SawCut] = []
        self.offcuts: list[Area] = []

    def run(self) -> Sawn:
        whole = Area(0.0, 0.0, self.board.length, self.board.width)
        stage = [_Blank(whole, self.board.pieces, 0)]
        while stage:
            stage = [blank for one in stage for blank in self._cut(one)]
            # Alike blanks one after another: the fence is set once.
            stage.sort(key=lambda blank: (-near(blank.area.length), -near(blank.area.width), blank.number))
        return Sawn(self.board, self.sheet, tuple(self.pieces), tuple(self.made), tuple(self.offcuts))

    def _cut(self, blank: _Blank) -> list[_Blank]:
        """Cut this blank once through its length or its width; what is not a piece by then is left for later."""
        area, cuts = blank.area, blank.cuts
        if len(cuts) == 1 and _fills(area, cuts[0]):
            self._free(cuts[0], area, blank.number)
            return []
        way, groups = self._way(blank)
        groups = sorted(groups, key=lambda group: (-near(_size(group, way)), group[0].key))
        left, rest, number = [], area, blank.number
        for group in groups:
            size = _size(group, way)
            off, line, rest = self._part(rest, size, way)
            moved = _moved(group, off, way)
            if line is not None:
                number = self._note(way, size, blank.number, moved, line, off)
            inner = _Blank(off, moved, number)
            if len(moved) == 1 and _fills(off, moved[0]):
                self._free(moved[0], off, number)
            else:
                left.append(inner)
        if min(rest.length, rest.width) > _HAIR:
            self.offcuts.append(rest)
        return left

    def _free(self, cut: Cut, area: Area, number: int) -> None:
        self.pieces.append(Freed(name_of(cut.key), area, number, self.sheet and cut.turned))

    def _note(self, way: str, size: float, out_of: int, group: Sequence[Cut], line: Area, off: Area) -> int:
        number = len(self.made) + 1
        free = len(group) == 1 and _fills(off, group[0])
        names = tuple([name_of(cut.key) for cut in group])
        piece = names[0] if free else ""
        self.made.append(SawCut(number, way, size, out_of, piece, () if free else names, line, off))
        return number

    def _part(self, area: Area, size: float, way: str) -> tuple[Area, Area | None, Area]:
        """What comes off, the kerf (None: nothing is left to cut off it), what is left."""
        whole = area.length if way == CROSSCUT else area.width
        kerf = max(0.0, min(self.kerf, whole - size))
        left = max(0.0, whole - size - kerf)
        if whole - size <= _HAIR:
            kerf, size, left = 0.0, whole, 0.0
        if way == CROSSCUT:
            off = area._replace(length=size)
            line = Area(area.along + size, area.across, kerf, area.width)
            rest = area._replace(along=area.along + size + kerf, length=left)
        else:
            off = area._replace(width=size)
            line = Area(area.along, area.across + size, area.length, kerf)
            rest = area._replace(across=area.across + size + kerf, width=left)
        return off, line if whole - size > _HAIR else None, rest

    def _way(self, blank: _Blank) -> tuple[str, list[list[Cut]]]:
        area, cuts = blank.area, blank.cuts
        if len(cuts) == 1:
            too_long = area.length - cuts[0].length > _HAIR
            strip = self.sheet and self._risky(cuts, area)
            return (CROSSCUT if too_long and not strip else RIP), [list(cuts)]
        crosscuts, rips = _apart(cuts, CROSSCUT, self.kerf), _apart(cuts, RIP, self.kerf)
        assert len(crosscuts) + len(rips) > 2, "every layout comes apart by cuts from edge to edge"
        if self.sheet:
            whole = len(rips) == 1 and _size(cuts, RIP) >= area.width - _HAIR
            strips_first = len(crosscuts) < 2 or (not whole and self._in_two(rips, CROSSCUT))
            return (RIP, rips) if strips_first else (CROSSCUT, crosscuts)
        short = [group for group in crosscuts if self._risky(group, area)]
        if len(rips) < 2:
            return self._one_strip(area, crosscuts, short)
        simpler = self._in_two(rips, CROSSCUT) and not self._in_two(crosscuts, RIP)
        if len(crosscuts) > 1 and not short and not simpler:
            return CROSSCUT, crosscuts
        taken = _size(cuts, CROSSCUT)
        if shortest_to_rip() <= taken < area.length - shortest_to_rip():
            return CROSSCUT, [list(cuts)]  # what is not needed stays whole
        return RIP, rips

    def _risky(self, group: Sequence[Cut], area: Area) -> bool:
        """Whether this blank would have to be ripped, and is too short for that."""
        ripped = len(group) > 1 or group[0].width < area.width - _HAIR
        return ripped and _size(group, CROSSCUT) < shortest_to_rip()

    def _one_strip(
        self, area: Area, groups: list[list[Cut]], short: list[list[Cut]]
    ) -> tuple[str, list[list[Cut]]]:
        """Pieces one after another: short ones of one width are ripped while they are one long blank."""
        rest = [group for group in groups if group not in short]
        widths = {near(group[0].width) for group in short if len(group) == 1}
        for width in sorted(widths, reverse=True):
            alike = [group for group in short if len(group) == 1 and near(group[0].width) == width]
            rest.append(self._joined(alike))
        rest += [group for group in short if len(group) > 1]
        if len(rest) == 1 and _size(rest[0], CROSSCUT) >= area.length - _HAIR:
            return RIP, rest
        return CROSSCUT, rest

    def _joined(self, groups: Sequence[Sequence[Cut]]) -> list[Cut]:
        """The pieces of these groups, one a group, laid end to end."""
        at, joined = 0.0, []
        for (cut,) in groups:
            joined.append(cut._replace(along=at))
            at += cut.length + self.kerf
        return joined

    def _in_two(self, groups: Sequence[Sequence[Cut]], way: str) -> bool:
        """Whether one more stage sets every piece of these groups free."""
        return all(len(_apart(group, way, self.kerf)) == len(group) for group in groups)


def _fills(area: Area, cut: Cut) -> bool:
    return area.length - cut.length <= _HAIR and area.width - cut.width <= _HAIR


def _span(cut: Cut, way: str) -> tuple[float, float]:
    if way == CROSSCUT:
        return cut.along, cut.along + cut.length
    return cut.across, cut.across + cut.width


def _apart(cuts: Sequence[Cut], way: str, kerf: float) -> list[list[Cut]]:
    """The groups that cuts of this way part."""
    ordered = sorted(cuts, key=lambda cut: _span(cut, way))
    groups: list[list[Cut]] = []
    reached = 0.0
    for cut in ordered:
        begin, end = _span(cut, way)
        if groups and begin < reached + kerf - _HAIR:
            groups[-1].append(cut)
        else:
            groups.append([cut])
        reached = max(reached, end)
    return groups


def _size(group: Sequence[Cut], way: str) -> float:
    """How long, or wide, a blank these need."""
    spans = [_span(cut, way) for cut in group]
    return max(end for _, end in spans) - min(begin for begin, _ in spans)


def _moved(group: Sequence[Cut], area: Area, way: str) -> list[Cut]:
    """The group with its blank where it comes off; the other way it begins where its blank begins."""
    along = area.along - min(cut.along for cut in group)
    across = area.across - min(cut.across for cut in group)
    return [cut._replace(along=cut.along + along, across=cut.across + across) for cut in group]
