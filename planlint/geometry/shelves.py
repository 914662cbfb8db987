"""Which of many spans on a line reach into an interval, without looking at all of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain

from planlint.geometry.vector import EXACT


class Shelves:
    """Spans (from, to) laid into equal shelves along their line; a long one lies in several.

    A shelf is as long as a span is on the average, so that all together there are about as many entries as spans.
    """

    __slots__ = ("_low", "_shelves", "_step")

    def __init__(self, spans: Sequence[tuple[float, float]]) -> None:
        self._low = min([low for low, _ in spans])
        whole = max([high for _, high in spans]) - self._low
        mean = sum([high - low for low, high in spans]) / len(spans)
        self._step = max(whole / len(spans), mean, EXACT)
        self._shelves: list[list[int]] = [[] for _ in range(int(whole / self._step) + 1)]
        for index, (low, high) in enumerate(spans):
            for shelf in self._shelves[self._at(low) : self._at(high) + 1]:
                shelf.append(index)

    def reaching(self, low: float, high: float) -> Iterable[int]:
        """The indices of all spans that reach into the interval, each once, and of some near it."""
        first, last = max(self._at(low), 0), self._at(high)
        if first >= last:
            return self._shelves[first] if first == last < len(self._shelves) else ()
        return dict.fromkeys(chain.from_iterable(self._shelves[first : last + 1]))

    def _at(self, place: float) -> int:
        return int((place - self._low) // self._step)
