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
    # Of each that may still meet the next: its end along the axis, its bounds the other two ways, its index.
    open_now: list[tuple[float, float, float, float, float, int]] = []
    starts = [low[axis] for low, _ in bounds]
    for i in sorted(range(len(bounds)), key=starts.__getitem__):
        low, high = bounds[i]
        y0, y1, z0, z1 = low[second], high[second], low[third], high[third]
        start = starts[i] - reach
        open_now = [one for one in open_now if one[0] >= start]
        for _, v0, v1, w0, w1, j in open_now:
            if v0 - y1 <= reach and y0 - v1 <= reach and w0 - z1 <= reach and z0 - w1 <= reach:
                found.append((j, i) if j < i else (i, j))
        open_now.append((high[axis], y0, y1, z0, z1, i))
    found.sort()
    return found


def _longest(bounds: Sequence[tuple[Vec, Vec]]) -> int:
    spreads = [max([high[i] for _, high in bounds]) - min([low[i] for low, _ in bounds]) for i in (0, 1, 2)]
    return spreads.index(max(spreads))
