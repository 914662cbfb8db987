"""A grid laid over a view: which solids may lie at a place, the nearest first."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.geometry.shadow import Line3, Shadow
from planlint.geometry.vector import EXACT

MOST = 48  # cells each way

Box = tuple[float, float, float, float]  # low u, low v, high u, high v


class Grid:
    """The solids of a view. They are added from the nearest to the furthest and found again in that order."""

    def __init__(self, shadows: Sequence[Shadow]) -> None:
        self._low_u = min([shadow.low_u for shadow in shadows], default=0.0) - EXACT
        self._low_v = min([shadow.low_v for shadow in shadows], default=0.0) - EXACT
        wide = max([shadow.high_u for shadow in shadows], default=0.0) + EXACT - self._low_u
        high = max([shadow.high_v for shadow in shadows], default=0.0) + EXACT - self._low_v
        count = min(4.0 * len(shadows) + 1.0, float(MOST * MOST))
        side = max(math.sqrt(wide * high / count), wide / (4 * MOST), high / (4 * MOST))
        self._across = max(1, math.ceil(wide / side))
        self._step = side
        self._cells: list[list[int]] = [[] for _ in range(self._across * max(1, math.ceil(high / side)))]
        self._down = len(self._cells) // self._across
        self.shadows: list[Shadow] = []

    def added(self, shadow: Shadow) -> bool:
        """Add a solid, unless a single one of those before it hides it all: then it is left out."""
        middle_u, middle_v = (shadow.low_u + shadow.high_u) / 2.0, (shadow.low_v + shadow.high_v) / 2.0
        for rank in self._cells[self._row(middle_v) * self._across + self._column(middle_u)]:
            if self.shadows[rank].hides_all(shadow):
                return False
        self.add(shadow)
        return True

    def add(self, shadow: Shadow) -> None:
        """Add a solid, hidden or not."""
        for index in self._cells_under(shadow):
            self._cells[index].append(len(self.shadows))
        self.shadows.append(shadow)

    def at_box(self, box: Box) -> list[Shadow]:
        """The solids whose bounds meet a box."""
        low_u, low_v, high_u, high_v = box
        columns = range(self._column(low_u), self._column(high_u) + 1)
        rows = range(self._row(low_v), self._row(high_v) + 1)
        return self._found([row * self._across + column for row in rows for column in columns], box)

    def along(self, line: Line3, margin: float) -> list[Shadow]:
        """The solids whose bounds meet those of a line, looked up only where the line runs."""
        u, v, _, du, dv, _ = line
        box = (
            min(u, u + du) - margin,
            min(v, v + dv) - margin,
            max(u, u + du) + margin,
            max(v, v + dv) + margin,
        )
        first, last = self._column(box[0]), self._column(box[2])
        if abs(du) < 2.0 * margin or first == last or self._row(box[1]) == self._row(box[3]):
            return self.at_box(box)
        indices: list[int] = []
        slope = dv / du
        for column in range(first, last + 1):
            left = max(box[0], self._low_u + column * self._step - margin)
            right = min(box[2], self._low_u + (column + 1) * self._step + margin)
            ends = (v + (left - u) * slope, v + (right - u) * slope)
            rows = range(self._row(min(ends) - margin), self._row(max(ends) + margin) + 1)
            indices += [row * self._across + column for row in rows]
        return self._found(indices, box)

    def _found(self, indices: Sequence[int], box: Box) -> list[Shadow]:
        low_u, low_v, high_u, high_v = box
        ranks = sorted(set().union(*[self._cells[index] for index in indices]))
        return [
            one
            for one in [self.shadows[rank] for rank in ranks]
            if one.low_u <= high_u and one.high_u >= low_u and one.low_v <= high_v and one.high_v >= low_v
        ]

    def _cells_under(self, shadow: Shadow) -> list[int]:
        """The cells that the outline meets, a little more at its corners."""
        columns = range(self._column(shadow.low_u - EXACT), self._column(shadow.high_u + EXACT) + 1)
        rows = range(self._row(shadow.low_v - EXACT), self._row(shadow.high_v + EXACT) + 1)
        if len(columns) == 1 or len(rows) == 1:
            return [row * self._across + column for row in rows for column in columns]
        half = self._step / 2.0
        reach = [(a, b, c + (abs(a) + abs(b)) * half + EXACT) for a, b, c in shadow.walls if a and b]
        found: list[int] = []
        for row in rows:
            v = self._low_v + row * self._step + half
            for column in columns:
                u = self._low_u + column * self._step + half
                if all(a * u + b * v <= c for a, b, c in reach):
                    found.append(row * self._across + column)
        return found

    def _column(self, u: float) -> int:
        return min(max(int((u - self._low_u) / self._step), 0), self._across - 1)

    def _row(self, v: float) -> int:
        return min(max(int((v - self._low_v) / self._step), 0), self._down - 1)
