"""Which parts lie near each other, where they touch, and what space they both fill. Found by a sweep."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planlint.build.piece import Part
from planlint.geometry.meeting import Patch, patches, push_apart, shared
from planlint.geometry.shelves import Shelves
from planlint.geometry.solid import Solid
from planlint.geometry.sweep import near_pairs
from planlint.geometry.vector import Vec, scale, sub
from planlint.trade.caps import most

FEW = 60  # parts near one: up to here all are looked at, which is quicker than to sort them first


class Touch:
    """Two parts that touch over an area or share space; the patches look from `first` into `second`.

    `depth` is the shortest push that would part them, along `push`: how `second` would move. 0 without
    shared space.
    """

    __slots__ = ("depth", "first", "patches", "push", "second", "space")

    def __init__(
        self, first: Part, second: Part, patches: list[Patch], space: Solid | None, depth: float, push: Vec
    ) -> None:
        self.first = first
        self.second = second
        self.patches = patches
        self.space = space
        self.depth = depth
        self.push = push

    def turned(self) -> Touch:
        """The same, seen from the second part."""
        return Touch(
            self.second,
            self.first,
            [turned(p) for p in self.patches],
            self.space,
            self.depth,
            scale(self.push, -1.0),
        )


class Touching:
    """What touches what: `near` lists, by a part's order, the orders of the parts within reach of it.

    Where too many pairs are in one another, the rest is not looked at: `stopped_at` is the first left out.
    """

    __slots__ = ("_shelves", "_touches", "fit", "near", "parts", "stopped_at")

    def __init__(self, parts: Sequence[Part], fit: float, reach: float) -> None:
        """`fit` mm between two parts is still touching; `near` reaches `reach` mm far."""
        self.parts = parts
        self.fit = fit
        self.near: list[list[int]] = [[] for _ in parts]
        self._touches: dict[tuple[int, int], Touch] = {}
        self._shelves: dict[int, tuple[int, Shelves]] = {}
        self.stopped_at: Touch | None = None
        crowded = 0
        for i, j in near_pairs([(part.solid.low, part.solid.high) for part in parts], max(fit, reach)):
            self.near[i].append(j)
            self.near[j].append(i)
            touch = _touch(parts[i], parts[j], fit)
            if touch is not None:
                crowded += touch.depth > fit
                if crowded > most("overlaps"):
                    self.stopped_at = touch
                    break
                self._touches[i, j] = touch

    def all(self) -> list[Touch]:
        """Every touching pair once, the part that was placed earlier first."""
        return list(self._touches.values())

    def near_box(self, order: int, low: Vec, high: Vec) -> Iterable[int]:
        """The orders near a part that may lie in a box; of a rail with many slats, only those near it along it."""
        near = self.near[order]
        if len(near) <= FEW:
            return near
        found = self._shelves.get(order)
        if found is None:
            size = sub(self.parts[order].solid.high, self.parts[order].solid.low)
            axis = size.index(max(size))
            solids = [self.parts[other].solid for other in near]
            found = axis, Shelves([(solid.low[axis], solid.high[axis]) for solid in solids])
            self._shelves[order] = found
        axis, shelves = found
        return [near[index] for index in shelves.reaching(low[axis], high[axis])]

    def between(self, first: Part, second: Part) -> Touch | None:
        """How these two touch, seen from the first; None when they do not."""
        if first.order < second.order:
            return self._touches.get((first.order, second.order))
        found = self._touches.get((second.order, first.order))
        return None if found is None else found.turned()


def turned(patch: Patch) -> Patch:
    """The same patch, seen from the other part."""
    return Patch(scale(patch.normal, -1.0), patch.area, patch.outline[::-1], patch.gap)


def _touch(first: Part, second: Part, fit: float) -> Touch | None:
    space = shared(first.solid, second.solid)
    met = patches(first.solid, second.solid, fit)
    if space is None:
        return Touch(first, second, met, None, 0.0, (0.0, 0.0, 0.0)) if met else None
    depth, push = push_apart(first.solid, second.solid)
    return Touch(first, second, met, space, depth, push)
