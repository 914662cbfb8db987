"""The force that a stated load puts on each joint that hangs on its fasteners: a simple share.

A load lies as `loading.py` lays it; one person sits over each thing that holds the seat, too, and midway
between each two. From part to part it goes down by the lever rule between the two nearest things that hold
it (`frame.py`); beyond the last one, the far one is pulled up. Of a part that lies on things at places and on
others all along, these take the more the nearer to midway between those places the load lies.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.vector import EXACT
from planlint.observe.frame import Frame, Held, before_holders, frame_of, same_way
from planlint.observe.load_path import Key, key_of
from planlint.observe.loading import Case, Surface, cases, shares, surfaces
from planlint.trade.beams import Load
from planlint.trade.loads import GRAVITY, footprint, person


class Force(NamedTuple):
    """The most that a load presses on a joint, and the most that it pulls it apart, N; whose load it is."""

    down: float
    up: float
    surface: Surface
    how: str


def forces(piece: Piece, hanging: Collection[Key]) -> dict[Key, Force]:
    """For every two parts of which one holds the other: the worst that any stated load does there.

    `hanging` are the pairs of which neither lies on the other.
    """
    frame = frame_of(piece)
    found: dict[Key, Force] = {}
    for surface in surfaces(piece):
        order = _downward([board.part for board in surface.boards], frame)
        for case in _cases(surface, frame):
            for key, (down, up) in _laid(surface, case, order, frame, hanging).items():
                before = found.get(key)
                if before is None or max(down, up) > max(before.down, before.up) * (1.0 + 1e-9):
                    found[key] = Force(down, up, surface, case.how)
    return found


def _cases(surface: Surface, frame: Frame) -> Iterator[Case]:
    """The ways a load is tried; people sit over supports and between them, and all of them evenly."""
    people = surface.load.people
    if people is None:
        yield from cases(surface, frame)
        return
    start, end, half = surface.start, surface.end, footprint() / 2.0
    across = (surface.near + surface.far) / 2.0
    one = person() / GRAVITY
    yield Case("people", people, one * people, start, end, surface.near, surface.far)
    over = sorted(_over(surface, frame))
    between = [(a + b) / 2.0 for a, b in pairwise(over)]
    for at in (*over, *between) if over else (start + half, (start + end) / 2.0, end - half):
        yield Case("people", 1, one, at, at, across - half, across + half)


def _over(surface: Surface, frame: Frame) -> set[float]:
    """Where along the surface something holds its boards."""
    turn = surface.boards[0].part.along
    return {
        round(same_way(board.part.along, turn) * (held.start + held.end) / 2.0, 1)
        for board in surface.boards
        for held in frame.holders(board.part).places
    }


def _downward(parts: Iterable[Part], frame: Frame) -> list[Part]:
    """These parts and all that their load goes to, each before everything that holds it."""

    def held_by(part: Part) -> Iterator[Part]:
        if frame.stands(part):
            return iter(())
        places, along = frame.holders(part)
        return iter([held.by for held in (*along, *places)])

    return before_holders(parts, held_by)


def _laid(
    surface: Surface, case: Case, order: Sequence[Part], frame: Frame, hanging: Collection[Key]
) -> dict[Key, tuple[float, float]]:
    """What one way of loading does at every joint: the force that presses, and the force that pulls, N."""
    on: dict[int, dict[tuple[float, float], float]] = {}
    found: dict[Key, float] = {}
    for board, share in shares(surface, case):
        _put(on, board, share)
    for part in order:
        carried = on.get(part.order)
        if carried is None or frame.stands(part):
            continue
        loads = [Load(start, end, mass) for (start, end), mass in carried.items()]
        for held, one in _passed(part, loads, frame, hanging):
            _put(on, held.by, one)
            key = key_of(part, held.by)
            found[key] = found.get(key, 0.0) + one.force
    return {key: (max(0.0, mass) * GRAVITY, max(0.0, -mass) * GRAVITY) for key, mass in found.items()}


def _put(on: dict[int, dict[tuple[float, float], float]], part: Part, load: Load) -> None:
    """Lay a load on a part, with what lies at the same place already."""
    start, end, force = load
    there = on.setdefault(part.order, {})
    place = (round(start, 1), round(end, 1))
    there[place] = there.get(place, 0.0) + force


def _passed(
    part: Part, carried: Sequence[Load], frame: Frame, hanging: Collection[Key]
) -> Iterator[tuple[Held, Load]]:
    """What goes from a part to each thing that holds it, and where on that it lies."""
    places, along = frame.holders(part)
    lies_on = [held for held in places if _bears(part, held, along, frame, hanging)] if along else places
    groups = _groups(lies_on)
    middles = [(min([h.start for h in group]) + max([h.end for h in group])) / 2.0 for group in groups]
    if along and len(groups) < 2:
        groups, middles = [], []
    takes = [0.0] * len(groups)
    ways = [(held, same_way(part.along, held.by.along)) for held in along]
    breaks = sorted([*middles, *[(a + b) / 2.0 for a, b in pairwise(middles)]]) if along else middles
    for one in carried:
        for at, mass in _points(one, breaks):
            under = _under_share(at, middles) if along else 0.0
            if under > 0.0:
                for held, sign in ways:
                    yield held, _beside(held, sign, at, mass * under / len(along))
            for index, share in _lever(at, middles):
                takes[index] += mass * share * (1.0 - under)
    for group, mass in zip(groups, takes, strict=True):
        if abs(mass) > _NONE:
            for held in group:
                yield held, Load(*held.there, mass / len(group))


def _bears(part: Part, held: Held, along: Sequence[Held], frame: Frame, hanging: Collection[Key]) -> bool:
    """Whether a part lies there on something of its own: not on screws, nor on what hangs on a thing all along it."""
    if key_of(part, held.by) in hanging:
        return False
    under = {one.by.order for one in along}
    return frame.stands(held.by) or not any(one.by.order in under for one in frame.holders(held.by).places)


_NONE = 1e-9  # kg: less is rounding


def _under_share(at: float, middles: Sequence[float]) -> float:
    """The share that goes to what runs all along under a part that lies on other things too.

    None of it right over one of these, all of it midway between two.
    """
    if not middles:
        return 1.0
    for left, right in pairwise(middles):
        if left <= at <= right:
            return 2.0 * min(at - left, right - at) / (right - left)
    return 0.0


def _groups(places: Sequence[Held]) -> list[list[Held]]:
    """Places at which several things hold a part side by side, together."""
    groups: list[list[Held]] = []
    end = 0.0
    for held in places:
        if groups and held.start <= end + EXACT:
            groups[-1].append(held)
            end = max(end, held.end)
        else:
            groups.append([held])
            end = held.end
    return groups


def _points(on: Load, breaks: Sequence[float]) -> list[tuple[float, float]]:
    """A spread load as masses at points: one for each stretch in which the shares change evenly."""
    start, end, force = on
    whole = end - start
    if whole <= EXACT:
        return [(start, force)]
    cuts = [start, *[at for at in breaks if start < at < end], end]
    return [((a + b) / 2.0, force * (b - a) / whole) for a, b in pairwise(cuts)]


def _lever(at: float, middles: Sequence[float]) -> tuple[tuple[int, float], ...]:
    """The share of the two places next to a load; beyond the last, more than all, and the other less than none."""
    if len(middles) < 2:
        return ((0, 1.0),) if middles else ()
    right = bisect_left(middles, at, 1, len(middles) - 1)
    share = (at - middles[right - 1]) / (middles[right] - middles[right - 1])
    return ((right - 1, 1.0 - share), (right, share))


def _beside(held: Held, sign: float, at: float, mass: float) -> Load:
    """What a part that is held all along passes on: at the same place where both run one way, as `sign` says."""
    if sign == 0.0:
        return Load(*held.there, mass)
    here = sign * min(max(at, held.start), held.end)
    return Load(here, here, mass)
