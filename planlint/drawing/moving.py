"""How far each part moves in the exploded view: away from what it is joined to, along the way it would come off.

Sub-assemblies move as one first, then the parts of each. From the part that is joined most, each further part moves
from those it touches that have their place already: one gap along the axis on which it meets them most, and with
them otherwise. So frames stay frames, and a part goes straight back to where it belongs.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import NamedTuple

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.drawing.clearing import cleared
from planlint.drawing.marks import middle_of
from planlint.geometry.levels import levels
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import EXACT, Vec, add, scale, sub

JOINED = 4.0  # how much more a joint counts than a mere touch
ROUNDS = 3  # what was opened may close another: so often it is looked at again
FREE = 0.02  # what a move may go into a face it slides along (cosine)


Bounds = tuple[Vec, Vec]  # low, high


class Touch(NamedTuple):
    """Two parts that meet: the axis and the way (-1, 1) in which the second comes off, how much, and where."""

    first: int
    second: int
    axis: int
    way: int
    weight: float
    middle: Vec
    joined: bool


# What touches each: the other, the axis, the way off it.
Beside = dict[Hashable, list[tuple[Hashable, int, int, Touch]]]


class Moves(NamedTuple):
    """The move of each part (mm), and the touches along which it was moved."""

    of: tuple[Vec, ...]
    along: tuple[Touch, ...]


def moves(piece: Piece, gap: float) -> Moves:
    """The moves, with `gap` mm between parts and half as much again between sub-assemblies."""
    found = touches(piece)
    holders = [_holder(part) for part in piece.parts]
    bounds = [(part.solid.low, part.solid.high) for part in piece.parts]
    whole, between = _spread(
        [(holders[one.first], holders[one.second], one) for one in found], _joint(holders, bounds), 1.5 * gap
    )
    total = [whole[holder] for holder in holders]
    used = list(between)
    members: dict[Hashable, list[int]] = {}
    for index, holder in enumerate(holders):
        members.setdefault(holder, []).append(index)
    inner: dict[Hashable, list[tuple[Hashable, Hashable, Touch]]] = {}
    for one in found:
        if holders[one.first] == holders[one.second]:
            inner.setdefault(holders[one.first], []).append((one.first, one.second, one))
    for holder, indices in members.items():
        if len(indices) > 1:
            own, along = _spread(inner.get(holder, []), {i: bounds[i] for i in indices}, gap)
            used += along
            for index in indices:
                total[index] = add(total[index], own[index])
    _keep_rows(piece.parts, total)
    return Moves(tuple(cleared(piece.parts, total, holders, gap)), tuple(used))


def _keep_rows(parts: Sequence[Part], total: list[Vec]) -> None:
    """Slats of one row may move apart along the row, but stay in line and at one height."""
    members: dict[tuple[str, str], list[int]] = {}
    for part in parts:
        row, numbered, rest = part.name.partition(".")
        if numbered:
            members.setdefault((row, rest.partition(" of ")[2]), []).append(part.order)
    for orders in members.values():
        middles = [parts[order].solid.centroid for order in orders]
        reach = [max(p[i] for p in middles) - min(p[i] for p in middles) for i in range(3)]
        along = reach.index(max(reach))
        mean = middle_of([total[order] for order in orders])
        for order in orders:
            move = list(mean)
            move[along] = total[order][along]
            total[order] = (move[0], move[1], move[2])


def _joint(holders: Sequence[Hashable], bounds: Sequence[Bounds]) -> dict[Hashable, Bounds]:
    """The bounds of each sub-assembly."""
    found: dict[Hashable, Bounds] = {}
    for holder, (low, high) in zip(holders, bounds, strict=True):
        least, most = found.get(holder, (low, high))
        found[holder] = (
            (min(least[0], low[0]), min(least[1], low[1]), min(least[2], low[2])),
            (max(most[0], high[0]), max(most[1], high[1]), max(most[2], high[2])),
        )
    return found


@once_a_piece
def touches(piece: Piece) -> list[Touch]:
    """Every two parts that meet, with the way in which they come apart; joints first count."""
    found: dict[tuple[int, int], Touch] = {}
    for meeting in piece.meetings:
        one = _touch(meeting.first, meeting.second, meeting.patches, JOINED)
        if one is not None:
            found.setdefault(_pair(one), one)
    for first, second, patches in piece.contacts:
        one = _touch(first, second, patches, 1.0)
        if one is not None and first.copy_of != second.copy_of:  # boards side by side stay so
            found.setdefault(_pair(one), one)
    return list(found.values())


def _pair(one: Touch) -> tuple[int, int]:
    return min(one.first, one.second), max(one.first, one.second)


def _holder(part: Part) -> Hashable:
    """The outermost sub-assembly that holds a part; a part of none is by itself."""
    _, inside, holder = part.name.rpartition(" of ")
    return holder if inside else part.assembly if part.assembly is not None else part.order


def _touch(first: Part, second: Part, patches: Sequence[Patch], counts: float) -> Touch | None:
    """The world axis along which the second part comes off freely, over the most area; the easiest where none is."""
    if not patches:
        return None
    best: tuple[float, int, int] | None = None
    for axis in range(3):
        for way in (1, -1):
            away = sum([max(0.0, patch.normal[axis] * way) * patch.area for patch in patches])
            into = sum([max(0.0, -patch.normal[axis] * way - FREE) * patch.area for patch in patches])
            worth = away - 4.0 * into
            if best is None or worth > best[0] + 1e-6:
                best = (worth, axis, way)
    assert best is not None
    largest = max(patches, key=lambda patch: patch.area)
    area = sum([patch.area for patch in patches])
    return Touch(
        first.order, second.order, best[1], best[2], area * counts, middle_of(largest.outline), counts > 1.0
    )


def _spread(
    touching: Iterable[tuple[Hashable, Hashable, Touch]], nodes: Mapping[Hashable, Bounds], gap: float
) -> tuple[dict[Hashable, Vec], list[Touch]]:
    """The move of each node, and the touches it was moved along; nodes that touch nothing stay."""
    beside: Beside = {node: [] for node in nodes}
    for first, second, one in touching:
        if first != second:
            beside[first].append((second, one.axis, -one.way, one))
            beside[second].append((first, one.axis, one.way, one))
    placed: dict[Hashable, Vec] = {}
    used: list[Touch] = []
    weight = {node: sum([one.weight for _, _, _, one in near]) for node, near in beside.items()}
    rank = {node: i for i, node in enumerate(beside)}
    for base in sorted(beside, key=lambda node: (-weight[node], rank[node])):
        if base in placed:
            continue
        placed[base] = (0.0, 0.0, 0.0)
        ring = [base]
        while ring:
            ahead = {node: None for one in ring for node, *_ in beside[one] if node not in placed}
            ring = sorted(ahead, key=lambda node: (-weight[node], rank[node]))
            for node in ring:
                placed[node], along = _placed(beside[node], placed, gap)
                used += along
    for _ in range(ROUNDS):
        together = _together(placed, beside, gap) + _collided(placed, nodes)
        for axis in range(3):
            _open(placed, beside, axis, [(first, second) for a, first, second in together if a == axis], gap)
    return _centred(placed), used


def _together(
    placed: Mapping[Hashable, Vec], beside: Beside, gap: float
) -> list[tuple[int, Hashable, Hashable]]:
    """What touches and is not apart yet, as two sides round a shelf: the axis, the lower and the higher of them."""
    return [
        (axis, node, other) if way < 0 else (axis, other, node)
        for node, near in beside.items()
        for other, axis, way, _ in near
        if (placed[node][axis] - placed[other][axis]) * way < 0.5 * gap
    ]


def _collided(
    placed: Mapping[Hashable, Vec], nodes: Mapping[Hashable, Bounds]
) -> list[tuple[int, Hashable, Hashable]]:
    """What would lie in each other now and did not before, with the axis on which it lay apart the most."""
    moved = {node: (add(low, placed[node]), add(high, placed[node])) for node, (low, high) in nodes.items()}
    found: list[tuple[int, Hashable, Hashable]] = []
    open_: list[Hashable] = []
    for node in sorted(moved, key=lambda one: moved[one][0]):
        low = moved[node][0]
        open_ = [one for one in open_ if moved[one][1][0] > low[0] + EXACT]
        for other in open_:
            if _apart(moved[node], moved[other])[0] >= -EXACT:
                continue
            apart, axis = _apart(nodes[node], nodes[other])
            if apart > -EXACT:
                first, second = sorted((node, other), key=lambda one: nodes[one][0][axis])
                found.append((axis, first, second))
        open_.append(node)
    return found


def _apart(one: Bounds, other: Bounds) -> tuple[float, int]:
    """How far two bounds are apart at most, and on which axis; less than 0 where they share space."""
    return max((max(one[0][i] - other[1][i], other[0][i] - one[1][i]), i) for i in range(3))


def _open(
    placed: dict[Hashable, Vec],
    beside: Beside,
    axis: int,
    together: list[tuple[Hashable, Hashable]],
    gap: float,
) -> None:
    """Move the lower and the higher of pairs apart along an axis; what is joined to them the other way follows."""
    if not together:
        return
    further: dict[Hashable, float] = levels(together)
    ring = list(further)
    while ring:
        ahead = {
            other: None
            for node in ring
            for other, a, _, _ in beside[node]
            if a != axis and other not in further
        }
        known = dict(further)
        for node in ahead:
            shares = [known[other] for other, a, _, _ in beside[node] if a != axis and other in known]
            further[node] = sum(shares) / len(shares)
        ring = list(ahead)
    for node, level in further.items():
        move = list(placed[node])
        move[axis] += level * gap
        placed[node] = (move[0], move[1], move[2])


def _placed(
    near: Sequence[tuple[Hashable, int, int, Touch]], placed: dict[Hashable, Vec], gap: float
) -> tuple[Vec, list[Touch]]:
    """One node's move from those beside it that have theirs: along the axis on which it meets them most."""
    known = [(placed[other], axis, way, one) for other, axis, way, one in near if other in placed]
    weights = [sum([one.weight for _, a, _, one in known if a == axis]) for axis in range(3)]
    best = weights.index(max(weights))
    chosen = [(move, way, one) for move, axis, way, one in known if axis == best]
    total = (0.0, 0.0, 0.0)
    for move, way, _ in chosen:
        step = [0.0, 0.0, 0.0]
        step[best] = way * gap
        total = add(total, add(move, (step[0], step[1], step[2])))
    return scale(total, 1.0 / len(chosen)), [one for _, _, one in chosen]


def _centred(placed: dict[Hashable, Vec]) -> dict[Hashable, Vec]:
    mean = middle_of(placed.values())
    return {node: sub(move, mean) for node, move in placed.items()}
