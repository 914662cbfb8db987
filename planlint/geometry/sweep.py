"""Which of many things lie near each other, by a sorted sweep, never all against all."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.geometry.vector import NOISE, Vec


def near_pairs(bounds: Sequence[tuple[Vec, Vec]], within: float) -> list[tuple[int, int]]:
    """Index pairs (i < j, sorted) of bounds (low, high) no more than `within` mm apart in x, y and z."""
    if len(bounds) < 2:
        return []
    axis = _longest(bounds)
    second, third = (axis + 1) % 3, (axis + 2) % 3
    reach = within + NOISE
    found: list[tuple[int, int]] = []
    open_now: list[int] = []
    for i in sorted(range(len(bounds)), key=lambda n: bounds[n][0][axis]):
        low, high = bounds[i]
        start = low[axis] - reach
        open_now = [j for j in open_now if bounds[j][1][axis] >= start]
        for j in open_now:
            other_low, other_high = bounds[j]
            if (
                other_low[second] - high[second] <= reach
                and low[second] - other_high[second] <= reach
                and other_low[third] - high[third] <= reach
                and low[third] - other_high[third] <= reach
            ):
                found.append((j, i) if j < i else (i, j))
        open_now.append(i)
    found.sort()
    return found


def _longest(bounds: Sequence[tuple[Vec, Vec]]) -> int:
    spreads = [max([high[i] for _, high in bounds]) - min([low[i] for low, _ in bounds]) for i in (0, 1, 2)]
    return spreads.index(max(spreads))
