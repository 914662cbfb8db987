"""The exploded view's last look: no part may have moved into another.

Parts that did are moved further apart on the axis on which they lay apart. Where that does not end, all parts move
straight away from the middle of the piece: what is convex and apart never meets that way.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from planlint.build.piece import Part
from planlint.geometry.levels import levels
from planlint.geometry.meeting import shared
from planlint.geometry.solid import moved
from planlint.geometry.vector import EXACT, WORLD, Vec, add, scale, sub

ROUNDS = 5
AWAY = 0.9  # of its distance from the middle: what each part moves where nothing else helps


def cleared(
    parts: Sequence[Part], moves: Sequence[Vec], holders: Sequence[Hashable], gap: float
) -> list[Vec]:
    """The moves, mended; `holders`: the sub-assembly of each part, which moves as one out of the way of others."""
    own = list(moves)
    for _ in range(ROUNDS):
        pairs = collided(parts, own)
        if not pairs:
            return own
        for axis in range(3):
            on_axis = [(first, second) for a, first, second in pairs if a == axis]
            apart = levels([(holders[a], holders[b]) for a, b in on_axis if holders[a] != holders[b]])
            inside = levels([pair for pair in on_axis if holders[pair[0]] == holders[pair[1]]])
            for index, holder in enumerate(holders):
                step = gap * (apart.get(holder, 0.0) + inside.get(index, 0.0))
                own[index] = add(own[index], scale(WORLD[axis], step))
    return own if not collided(parts, own) else _away(parts)


def collided(parts: Sequence[Part], moves: Sequence[Vec]) -> list[tuple[int, int, int]]:
    """Pairs of parts that lie in each other now and did not before: the axis, the lower and the higher of them."""
    bounds = [(add(p.solid.low, move), add(p.solid.high, move)) for p, move in zip(parts, moves, strict=True)]
    found: list[tuple[int, int, int]] = []
    ahead: list[int] = []
    for index in sorted(range(len(parts)), key=lambda one: bounds[one][0]):
        low, high = bounds[index]
        ahead = [one for one in ahead if bounds[one][1][0] > low[0] + EXACT]
        for other in ahead:
            least, most = bounds[other]
            if least[1] >= high[1] - EXACT or most[1] <= low[1] + EXACT:
                continue
            if least[2] >= high[2] - EXACT or most[2] <= low[2] + EXACT:
                continue
            if moves[index] != moves[other] and _in_each_other(parts, moves, index, other):
                found.append(_ordered(parts, index, other))
        ahead.append(index)
    return found


def _in_each_other(parts: Sequence[Part], moves: Sequence[Vec], one: int, other: int) -> bool:
    first, second = parts[one].solid, parts[other].solid
    if shared(moved(first, moves[one], WORLD), moved(second, moves[other], WORLD)) is None:
        return False
    return shared(first, second) is None


def _ordered(parts: Sequence[Part], one: int, other: int) -> tuple[int, int, int]:
    """The axis on which the two lay apart the most, else on which their middles did."""
    first, second = parts[one].solid, parts[other].solid
    apart = [max(first.low[i] - second.high[i], second.low[i] - first.high[i]) for i in range(3)]
    between = sub(second.centroid, first.centroid)
    worth = apart if max(apart) > -EXACT else [abs(x) for x in between]
    axis = worth.index(max(worth))
    return (axis, one, other) if between[axis] >= 0.0 else (axis, other, one)


def _away(parts: Sequence[Part]) -> list[Vec]:
    middles = [part.solid.centroid for part in parts]
    count = 1.0 / len(parts)
    middle = (
        sum(p[0] for p in middles) * count,
        sum(p[1] for p in middles) * count,
        sum(p[2] for p in middles) * count,
    )
    return [scale(sub(one, middle), AWAY) for one in middles]
