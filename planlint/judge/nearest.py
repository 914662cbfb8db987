"""The nearest of some names to one that is not known, by the letters that must change."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(written: str, names: Iterable[str]) -> str | None:
    """The name that needs the fewest changed letters, if these are at most a third of it.

    The first of equals.
    """
    best, least = None, len(written) // 3 + 2
    for name in sorted(names):
        if abs(len(name) - len(written)) < least and (changes := _changes(written, name)) < least:
            best, least = name, changes
    return best


def _changes(first: str, second: str) -> int:
    """Letters to add, drop or change to make one the other."""
    above = list(range(len(second) + 1))
    for i, a in enumerate(first, 1):
        row = [i]
        for j, b in enumerate(second, 1):
            row.append(min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (a != b)))
        above = row
    return above[-1]


def did_you_mean(written: str, names: Iterable[str]) -> str:
    """The end of a message about an unknown name: the nearest one, or nothing."""
    near = nearest(written, names)
    return f"; did you mean `{near}`?" if near else ""
