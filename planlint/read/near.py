"""The nearest of some known words to a misspelt one."""

from __future__ import annotations

from collections.abc import Iterable


def distance(one: str, other: str) -> int:
    """How many letters must be put in, left out, changed or swapped to turn one word into the other."""
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, wanted in enumerate(other, 1):
            least = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == wanted:
                least = min(least, before[j - 2] + 1)
            row.append(least)
        before, last = last, row
    return last[-1]


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is nearest, if no more than a third of its letters differ; the first of equals."""
    best, least = None, max(1, len(word) // 3) + 1
    for other in known:
        if abs(len(other) - len(word)) < least:
            found = distance(word, other)
            if found < least:
                best, least = other, found
    return best
