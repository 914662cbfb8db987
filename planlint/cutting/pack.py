"""Packing pieces into lengths: first-fit, and an exhaustive search for when that does not settle it.

Every size is a kerf-inclusive whole number: a bin of length L holds pieces of lengths l when their sum is at
most L. Pieces come by kind, longest first; bins come by kind too. The search fills one bin at a time, always
around the longest piece left, and only in ways that no swap with what is left outside would better.

Source: bin completion, A. S. Fukunaga and R. E. Korf, J. Artif. Intell. Res. 28 (2007); dominance,
S. Martello and P. Toth, 'Knapsack Problems' (1990), chapter 8. From memory, not looked up.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.cutting.bound import weights

_KEPT = 8  # weights looked at in each node of the search; the tightest at its root


_Filling = tuple[int, int, tuple[int, ...]]  # waste, kind of bin, pieces of each kind


class Lengths(NamedTuple):
    """Kinds of pieces (`sizes` falling, `numbers`) and of bins (`caps`, `bins` of each).

    `allowed[piece][bin]`: whether that piece may lie there, its length aside.
    """

    sizes: tuple[int, ...]
    numbers: tuple[int, ...]
    caps: tuple[int, ...]
    bins: tuple[int, ...]
    allowed: tuple[tuple[bool, ...], ...]

    def holds(self, piece: int, kind: int) -> bool:
        """Whether a bin of this kind can hold this piece."""
        return self.allowed[piece][kind] and self.sizes[piece] <= self.caps[kind]


class Filled(NamedTuple):
    """`times` bins of one kind, each with `content[piece]` pieces of each kind."""

    kind: int
    content: tuple[int, ...]
    times: int


def first_fit(task: Lengths, order: Sequence[int]) -> list[Filled] | None:
    """Open the first bin in `order` that holds the longest piece, fill it longest first; None: no room."""
    left, free, filled = list(task.numbers), list(task.bins), []
    piece = 0
    while piece < len(left):
        if not left[piece]:
            piece += 1
            continue
        kind = next((bin for bin in order if free[bin] and task.holds(piece, bin)), None)
        if kind is None:
            return None
        content = _greedy(task, left, kind)
        times = min([free[kind], *(have // used for have, used in zip(left, content, strict=True) if used)])
        left = [have - used * times for have, used in zip(left, content, strict=True)]
        free[kind] -= times
        filled.append(Filled(kind, tuple(content), times))
    return filled


def _greedy(task: Lengths, left: Sequence[int], kind: int) -> list[int]:
    room, content = task.caps[kind], []
    for piece, have in enumerate(left):
        put = min(have, room // task.sizes[piece]) if task.allowed[piece][kind] else 0
        content.append(put)
        room -= put * task.sizes[piece]
    return content


class Search:
    """One exhaustive search: `run` says whether all pieces fit the bins; None when the `budget` ran out.

    `budget` counts ways of filling a bin, not seconds, so that a result never depends on the machine.
    """

    def __init__(self, task: Lengths, budget: int) -> None:
        self.task = task
        self.budget = budget
        self.filled: list[Filled] = []
        self.hopeless: set[tuple[tuple[int, ...], tuple[int, ...]]] = set()
        self.spans = [{kind for kind, may in enumerate(row) if may} for row in task.allowed]
        self.scales = self._tightest()

    def run(self) -> list[Filled] | None:
        """The bins filled, or None: none exists if `budget` is still above 0, else not known."""
        if sum(self.task.bins) > 400:  # deeper than a search could go
            self.budget = 0
            return None
        return list(self.filled) if self._fill(self.task.numbers, self.task.bins) else None

    def _tightest(self) -> list[tuple[list[int], list[int]]]:
        task = self.task
        kept = []
        for weigh in weights(task.sizes, max(task.caps)):
            light, heavy = [weigh(size) for size in task.sizes], [weigh(cap) for cap in task.caps]
            room = _total(task.bins, heavy)
            kept.append(((room - _total(task.numbers, light)) / (room or 1), light, heavy))
        kept.sort(key=lambda scale: scale[0])
        return [(light, heavy) for _, light, heavy in kept[:_KEPT]]

    def _fill(self, left: tuple[int, ...], free: tuple[int, ...]) -> bool:
        first = next((piece for piece, have in enumerate(left) if have), None)
        if first is None:
            return True
        if (left, free) in self.hopeless:
            return False
        if all(_total(left, light) <= _total(free, heavy) for light, heavy in self.scales):
            for _, kind, content in self._fillings(first, left, free):
                rest = tuple(have - used for have, used in zip(left, content, strict=True))
                fewer = (*free[:kind], free[kind] - 1, *free[kind + 1 :])
                self.filled.append(Filled(kind, content, 1))
                if self._fill(rest, fewer):
                    return True
                self.filled.pop()
                if self.budget <= 0:
                    return False
        self.hopeless.add((left, free))
        return False

    def _fillings(self, first: int, left: tuple[int, ...], free: tuple[int, ...]) -> list[_Filling]:
        """Ways to fill one bin around the piece `first`, least waste first."""
        task = self.task
        slack = _total(free, task.caps) - _total(left, task.sizes)
        ways: list[_Filling] = []
        for kind, have in enumerate(free):
            if have and task.holds(first, kind):
                filling = _Fill(self, first, kind, left)
                filling.complete(first, task.caps[kind] - task.sizes[first], slack)
                ways += filling.found
        ways.sort()
        return ways


class _Fill:
    """Every filling of one bin around one piece that no swap with the pieces outside would better."""

    def __init__(self, search: Search, first: int, kind: int, left: tuple[int, ...]) -> None:
        task = search.task
        self.search, self.first, self.kind, self.left = search, first, kind, left
        self.sizes = task.sizes
        self.may = [row[kind] and have > 0 for row, have in zip(task.allowed, left, strict=True)]
        self.after = [0] * (len(left) + 1)  # what all pieces from here on would add
        for piece in range(len(left) - 1, -1, -1):
            self.after[piece] = self.after[piece + 1] + (
                left[piece] * self.sizes[piece] if self.may[piece] else 0
            )
        self.content = [0] * len(left)
        self.content[first] = 1
        self.after[first] -= self.sizes[first]
        self.found: list[_Filling] = []

    def complete(self, piece: int, room: int, waste: int) -> None:
        """Fill `room` with this piece and shorter ones; to leave more than `waste` would be of no use."""
        sizes, content = self.sizes, self.content
        while piece < len(content) and not (self.may[piece] and sizes[piece] <= room):
            piece += 1
        if self.search.budget <= 0 or room - self.after[piece] > waste:
            return
        if piece == len(content):
            self.search.budget -= 1
            if not self._bettered(room):
                self.found.append((room, self.kind, tuple(content)))
            return
        already, size = content[piece], sizes[piece]
        most = min(self.left[piece] - already, room // size)
        for more in range(most, -1, -1):
            content[piece] = already + more
            outside = self.left[piece] > content[piece]
            self.complete(piece + 1, room - more * size, min(waste, size - 1) if outside else waste)
        content[piece] = already

    def _bettered(self, room: int) -> bool:
        """Whether a piece outside fits in for a shorter one that could go wherever it goes."""
        sizes, content, spans = self.sizes, self.content, self.search.spans
        for inside in range(self.first + 1, len(content)):
            if content[inside]:
                reach = sizes[inside] + room
                for outside in range(inside - 1, self.first - 1, -1):
                    if sizes[outside] > reach:
                        break
                    if (
                        self.may[outside]
                        and self.left[outside] > content[outside]
                        and sizes[outside] > sizes[inside]
                        and spans[outside] <= spans[inside]
                    ):
                        return True
        return False


def _total(numbers: Sequence[int], each: Sequence[int]) -> int:
    return sum(number * weight for number, weight in zip(numbers, each, strict=True))
