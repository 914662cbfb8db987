"""What stands in the plan's words, found by the words that a finding flags."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from typing import Generic, TypeVar

from planlint.source import Span

T = TypeVar("T")


class Held(Generic[T]):
    """Things by the words that make them. Words that make things do not lie in each other: clauses, or entries."""

    def __init__(self, things: Iterable[tuple[Span, T]]) -> None:
        self._by_words: dict[Span, list[T]] = {}
        for words, thing in things:
            self._by_words.setdefault(words, []).append(thing)
        self._words = sorted(self._by_words, key=lambda words: (words.start, words.end))
        self._starts = [words.start for words in self._words]

    def at(self, span: Span) -> list[T]:
        """The things whose words hold these, in the order they came in."""
        last = bisect_right(self._starts, span.start) - 1
        if last < 0 or not holds(self._words[last], span):
            return []
        return self._by_words[self._words[last]]


def holds(outer: Span, inner: Span) -> bool:
    """Whether all of some words lies in others."""
    return outer.start <= inner.start and inner.end <= outer.end
