"""From a packing to the layout a shop follows: boards, strips, and pieces with their places in mm."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import overload

from planlint.cutting.pack import Filled
from planlint.cutting.rip import NANOMETRES, Task
from planlint.cutting.sheet import Put
from planlint.cutting.stock import Cut, CutBoard, Strip


class Drawn(Sequence[CutBoard]):
    """A layout that is drawn when it is looked at: mostly only `keys` are asked for, those of its boards in order."""

    __slots__ = ("_boards", "_draw", "keys")

    def __init__(self, keys: Sequence[str], draw: Callable[[], tuple[CutBoard, ...]]) -> None:
        self.keys = keys
        self._draw = draw
        self._boards: tuple[CutBoard, ...] | None = None

    @property
    def boards(self) -> tuple[CutBoard, ...]:
        """The boards with their cuts."""
        if self._boards is None:
            self._boards = self._draw()
        return self._boards

    def __len__(self) -> int:
        return len(self.keys)

    def __iter__(self) -> Iterator[CutBoard]:
        return iter(self.boards)

    @overload
    def __getitem__(self, index: int) -> CutBoard: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[CutBoard]: ...
    def __getitem__(self, index: int | slice) -> CutBoard | Sequence[CutBoard]:
        return self.boards[index]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and self.boards == tuple(other)

    __hash__ = None  # type: ignore[assignment]


def keys_of(layout: Sequence[CutBoard]) -> Sequence[str]:
    """The keys of the boards a layout takes; it need not be drawn for that."""
    return layout.keys if isinstance(layout, Drawn) else [board.key for board in layout]


class _Keys:
    """Hands out the keys of boards and pieces of equal size, one after another."""

    def __init__(self, work: Task) -> None:
        self.boards = [iter(keys) for keys in work.board_keys]
        self.pieces = [iter(keys) for keys in work.piece_keys]


def from_lengths(work: Task, filled: Sequence[Filled], strips_on: Sequence[int | None]) -> Drawn:
    """The layout of filled lengths, `strips_on[board]` of them side by side on a board of that kind."""
    taken: list[str] = []
    for kind, keys in enumerate(work.board_keys):
        strips = sum([one.times for one in filled if one.kind == kind])
        taken += keys[: -(-strips // (strips_on[kind] or 1))]
    return Drawn(taken, lambda: from_places(work, _puts(work, filled, strips_on)))


def _puts(work: Task, filled: Sequence[Filled], strips_on: Sequence[int | None]) -> list[Put]:
    puts: list[Put] = []
    used = [0] * len(work.boards)
    across = [0] * len(work.boards)
    for one in (each for each in filled for _ in range(each.times)):
        kind = one.kind
        at = strip_width = 0
        if used[kind] % (strips_on[kind] or 1) == 0:
            across[kind] = 0
        for piece, number in enumerate(one.content):
            for _ in range(number):
                way = work.ways[piece][kind][0]
                puts.append(Put(piece, kind, used[kind] // (strips_on[kind] or 1), at, across[kind], way))
                at += way.length
                strip_width = max(strip_width, way.width)
        across[kind] += strip_width
        used[kind] += 1
    return puts


def from_places(work: Task, puts: Iterable[Put]) -> tuple[CutBoard, ...]:
    """The layout of pieces put in places; pieces in one line become one strip."""
    keys = _Keys(work)
    on: dict[tuple[int, int], list[Put]] = {}
    for put in puts:
        on.setdefault((put.kind, put.board), []).append(put)
    boards = []
    for (kind, _), there in sorted(on.items()):
        board = work.boards[kind]
        there.sort(key=lambda put: (put.across, put.along))
        strips = tuple([_strip(work, keys, line) for line in _lines(there)])
        boards.append(CutBoard(next(keys.boards[kind]), board.thickness, board.width, board.length, strips))
    return tuple(boards)


def _lines(there: Sequence[Put]) -> Iterable[list[Put]]:
    """Pieces that follow one another, a kerf apart."""
    line: list[Put] = []
    for put in there:
        if line and (put.across != line[-1].across or put.along != line[-1].along + line[-1].way.length):
            yield line
            line = []
        line.append(put)
    yield line


def _strip(work: Task, keys: _Keys, line: Sequence[Put]) -> Strip:
    kerf = work.kerf
    cuts = [
        Cut(
            next(keys.pieces[piece]),
            along / NANOMETRES,
            across / NANOMETRES,
            (length - kerf) / NANOMETRES,
            (width - kerf) / NANOMETRES,
            turned,
        )
        for piece, _, _, along, across, (length, width, _, turned) in line
    ]
    first, last = cuts[0], cuts[-1]
    width = max([cut.width for cut in cuts])
    return Strip(first.along, first.across, last.along + last.length - first.along, width, tuple(cuts))
