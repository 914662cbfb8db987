"""Packing rectangles by edge-to-edge cuts: boards with rips of several widths, and sheets.

A rule of thumb, tried in many orders: it finds layouts, it never proves that there is none. Each piece goes
into the corner of an off-cut; one cut frees a strip or a section with it, the next frees the piece, and the
two new off-cuts are used again. So every layout can be cut as it is drawn. In two stages a strip goes from edge
to edge and is only cut across after that: what is narrower than its strip is trimmed, the trimming is waste.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.cutting.bound import Room, Way, Ways

RIP, CROSSCUT, SHORTER = "rip first", "crosscut first", "keep the larger off-cut whole"
_SPLITS = (RIP, CROSSCUT, SHORTER)
STRIPS, BANDS = "strips, then across them", "bands across, then along them"
_IN_TWO = (STRIPS, BANDS)
_TRIES_A_PIECE = 3


class Put(NamedTuple):
    """Piece number `piece` on board number `board` of its kind, kerf-inclusive corner; `way` how it lies."""

    piece: int
    kind: int
    board: int
    along: int
    across: int
    way: Way


class _Offcut(NamedTuple):
    kind: int
    board: int
    along: int
    across: int
    length: int
    width: int
    cut_off: bool = False  # in two stages: a strip that has been cut off, so it is only cut across


def layouts(
    numbers: Sequence[int],
    ways: Ways,
    rooms: Sequence[Room],
    budget: int,
    *,
    plain: bool = True,
    two_stage: bool = False,
) -> Iterator[list[Put]]:
    """Layouts that hold every piece, from the plain orders first, then from shuffled ones, till `budget`
    pieces were placed. Always the same ones for the same input. Without `plain` the plain orders, of which
    it is known that none does, are counted but not tried again.
    """
    splits = _IN_TWO if two_stage else _SPLITS
    size = [
        max((way.length, way.width) for row in ways[piece] for way in row) for piece in range(len(numbers))
    ]
    pieces = [piece for piece, number in enumerate(numbers) for _ in range(number)]
    orders = [
        sorted(pieces, key=lambda piece: (-size[piece][1], -size[piece][0])),
        sorted(pieces, key=lambda piece: (-size[piece][0], -size[piece][1])),
        sorted(pieces, key=lambda piece: -size[piece][0] * size[piece][1]),
    ]
    kinds = (list(range(len(rooms))), list(range(len(rooms)))[::-1])
    opening = kinds if len(rooms) > 1 else kinds[:1]
    chance = _Chance()
    least = (
        min([way.length for row in ways for there in row for way in there], default=0),
        min([way.width for row in ways for there in row for way in there], default=0),
    )
    spent = 0
    if not plain:
        spent = len(orders) * len(splits) * len(opening) * len(pieces) * _TRIES_A_PIECE
        orders = [_shuffled(order, chance) for order in orders]
    while spent <= budget:
        for order in orders:
            for split in splits:
                for boards in opening:
                    spent += len(order) * _TRIES_A_PIECE
                    found = _pack(order, ways, rooms, boards, split, least)
                    if found is not None:
                        yield found
        orders = [_shuffled(order, chance) for order in orders]


def _pack(
    order: Sequence[int],
    ways: Ways,
    rooms: Sequence[Room],
    opening: Sequence[int],
    split: str,
    least: tuple[int, int],
) -> list[Put] | None:
    """One layout; None when a piece finds no place. Off-cuts under `least`, which hold nothing, are let go."""
    offcuts: list[_Offcut] = []
    opened = [0] * len(rooms)
    puts: list[Put] = []
    for piece in order:
        best = _best(ways[piece], offcuts)
        if best is not None:
            offcuts.remove(best[0])  # no two are equal: each has its own corner
        else:
            whole = _open(ways[piece], rooms, opened, opening)
            best = None if whole is None else _best(ways[piece], [whole])
        if best is None:
            return None
        offcut, way = best
        puts.append(Put(piece, offcut.kind, offcut.board, offcut.along, offcut.across, way))
        for rest in _split(offcut, way, split):
            if rest.length >= least[0] and rest.width >= least[1]:
                offcuts.append(rest)
    return puts


def _best(ways: Sequence[Sequence[Way]], offcuts: Sequence[_Offcut]) -> tuple[_Offcut, Way] | None:
    """The off-cut and way that waste least across, then along."""
    best: tuple[int, int] | None = None
    chosen: tuple[_Offcut, Way] | None = None
    for offcut in offcuts:
        for way in ways[offcut.kind]:
            across, along = offcut.width - way.width, offcut.length - way.length
            if across >= 0 and along >= 0 and (best is None or (across, along) < best):
                best, chosen = (across, along), (offcut, way)
    return chosen


def _open(
    ways: Sequence[Sequence[Way]], rooms: Sequence[Room], opened: list[int], opening: Sequence[int]
) -> _Offcut | None:
    for kind in opening:
        if ways[kind] and opened[kind] < rooms[kind].number:
            opened[kind] += 1
            return _Offcut(kind, opened[kind] - 1, 0, 0, rooms[kind].length, rooms[kind].width)
    return None


def _split(offcut: _Offcut, way: Way, split: str) -> Iterator[_Offcut]:
    over_length, over_width = offcut.length - way.length, offcut.width - way.width
    if split in _IN_TWO:
        yield from _split_in_two(offcut, way, split)
        return
    if split == SHORTER:
        split = RIP if over_length * way.width < way.length * over_width else CROSSCUT
    beside_length, behind_width = (offcut.length, way.width) if split == RIP else (way.length, offcut.width)
    if over_width > 0:
        yield offcut._replace(across=offcut.across + way.width, width=over_width, length=beside_length)
    if over_length > 0:
        yield offcut._replace(along=offcut.along + way.length, length=over_length, width=behind_width)


def _split_in_two(offcut: _Offcut, way: Way, split: str) -> Iterator[_Offcut]:
    """What is left of the board once a strip is cut off, and what is left of the strip."""
    along, across = offcut.along + way.length, offcut.across + way.width
    over_length, over_width = offcut.length - way.length, offcut.width - way.width
    strip = offcut
    if not offcut.cut_off:
        if split == STRIPS:
            strip = offcut._replace(width=way.width, cut_off=True)
            yield offcut._replace(across=across, width=over_width)
        else:
            strip = offcut._replace(length=way.length, cut_off=True)
            yield offcut._replace(along=along, length=over_length)
    if split == STRIPS:
        yield strip._replace(along=along, length=over_length)
    else:
        yield strip._replace(across=across, width=over_width)


class _Chance:
    """A small generator of our own: the same numbers on every machine (Park and Miller 1988, from memory)."""

    def __init__(self) -> None:
        self.state = 20_011

    def below(self, most: int) -> int:
        self.state = self.state * 48_271 % 2_147_483_647
        return self.state % most


def _shuffled(order: Sequence[int], chance: _Chance) -> list[int]:
    """The order with a few pieces moved forward."""
    moved = list(order)
    for _ in range(1 + len(moved) // 6):
        moved.insert(chance.below(len(moved)), moved.pop(chance.below(len(moved))))
    return moved
