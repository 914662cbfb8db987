"""Which joints a stated load passes through by their fasteners alone: a simple way down to the floor.

The model: a part that lies on others over its middle gives them its load by bearing. Any other gives it to
the parts it is joined to that are fewer joints away from the floor; a housing, a tenon, a notch or a lap
bears too, and what is left hangs on its fasteners. It hangs on what lies on it only where nothing else holds
it. How much each takes is not asked here.
"""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.joinery.joints import CUTTING
from planlint.build.naming import naming_of
from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.meeting import Patch
from planlint.geometry.vector import EXACT
from planlint.observe.ground import grounded

_LEVEL = 0.7  # cos of 45 deg: an area that looks more than this up carries what lies on it

Key = tuple[int, int]


class _Frame:
    """What carries what: by a part's order, the parts it lies on with the areas, those it is joined to, and
    how many joints it is from the floor; `bears`: the pairs with a joint that carries by its shape.
    """

    __slots__ = ("bears", "joined", "lies_on", "steps")

    def __init__(
        self,
        lies_on: dict[int, list[tuple[Part, Patch]]],
        joined: dict[int, list[Part]],
        steps: dict[int, int],
        bears: set[Key],
    ) -> None:
        self.lies_on = lies_on
        self.joined = joined
        self.steps = steps
        self.bears = bears


@once_a_piece
def loaded_pairs(piece: Piece) -> dict[Key, str]:
    """The pairs (orders, lesser first) whose fasteners carry a load, with the name of the load."""
    found: dict[Key, str] = {}
    if not piece.plan.loads:
        return found
    frame = _frame(piece)
    naming = naming_of(piece)
    covers = {row.cover.name.text: row.slats for row in piece.covers}
    for load in piece.plan.loads:
        on = covers.get(str(load.on)) or naming.parts_named(load.on)
        _down(on, str(load.on), frame, found)
    return found


def key_of(first: Part, second: Part) -> Key:
    """The pair's key: both orders, the lesser first."""
    a, b = first.order, second.order
    return (a, b) if a < b else (b, a)


def _frame(piece: Piece) -> _Frame:
    lies_on: dict[int, list[tuple[Part, Patch]]] = {part.order: [] for part in piece.parts}
    joined: dict[int, list[Part]] = {part.order: [] for part in piece.parts}
    bears: set[Key] = set()
    for first, second, patches in piece.contacts:
        for patch in patches:
            if patch.normal[2] < -_LEVEL:
                lies_on[first.order].append((second, patch))
            elif patch.normal[2] > _LEVEL:
                lies_on[second.order].append((first, patch))
    for meeting in piece.meetings:
        joined[meeting.first.order].append(meeting.second)
        joined[meeting.second.order].append(meeting.first)
        if not CUTTING.isdisjoint([one.kind for one in meeting.join.fastenings]):
            bears.add(key_of(meeting.first, meeting.second))
    return _Frame(lies_on, joined, _steps(piece, lies_on, joined), bears)


def _steps(
    piece: Piece,
    lies_on: dict[int, list[tuple[Part, Patch]]],
    joined: dict[int, list[Part]],
) -> dict[int, int]:
    """How many joints each part is from one that floor or wall holds; unconnected parts are left out."""
    lying = {order for order, supports in lies_on.items() if supports}
    steps = dict.fromkeys(sorted(grounded(piece, lying)), 0)
    carries: dict[int, list[int]] = {part.order: [] for part in piece.parts}
    for upper, supports in lies_on.items():
        for lower, _ in supports:
            carries[lower.order].append(upper)
    under = {order: {lower.order for lower, _ in supports} for order, supports in lies_on.items()}
    holds = {
        order: [*carries[order], *[other.order for other in others if other.order not in under[order]]]
        for order, others in joined.items()
    }
    _spread(steps, list(steps), holds)
    hanging = {order: [part.order for part in others] for order, others in joined.items()}
    _spread(steps, list(steps), hanging)  # what nothing holds from below or beside hangs on what lies on it
    return steps


def _spread(steps: dict[int, int], now: list[int], holds: dict[int, list[int]]) -> None:
    """Count on from the parts in `now` to those that they hold."""
    while now:
        later: list[int] = []
        for order in now:
            for other in holds[order]:
                if other not in steps:
                    steps[other] = steps[order] + 1
                    later.append(other)
        now = later


def _lies_on(upper: int, lower: Part, lies_on: dict[int, list[tuple[Part, Patch]]]) -> bool:
    return any(support is lower for support, _ in lies_on[upper])


def _down(parts: Iterable[Part], load: str, frame: _Frame, found: dict[Key, str]) -> None:
    """Follow a load from the parts it is put on down to the floor."""
    waiting = list(parts)
    done = {part.order for part in waiting}
    while waiting:
        part = waiting.pop()
        if frame.steps.get(part.order) == 0:
            continue
        for below in _below(part, load, frame, found):
            if below.order not in done:
                done.add(below.order)
                waiting.append(below)


def _below(part: Part, load: str, frame: _Frame, found: dict[Key, str]) -> list[Part]:
    """The parts that take this one's load; joints that it hangs on are noted."""
    supports = frame.lies_on[part.order]
    below = [support for support, _ in supports]
    own = frame.steps.get(part.order, 0)
    if _over_its_middle(part, [patch for _, patch in supports]):
        return _let_into(part, own, frame) or below
    nearer = [
        other
        for other in frame.joined[part.order]
        if other not in below and frame.steps.get(other.order, own) < own
    ]
    beside = [other for other in nearer if not _lies_on(other.order, part, frame.lies_on)]
    for other in beside or ([] if below else nearer):
        if other in below:
            continue
        below.append(other)
        key = key_of(part, other)
        if key not in frame.bears:
            found.setdefault(key, load)
    return below


def _let_into(part: Part, own: int, frame: _Frame) -> list[Part]:
    """The parts on the floor that this one is cut into: they carry it, whatever else is fixed under it."""
    return [
        other
        for other in frame.joined[part.order]
        if frame.steps.get(other.order, own) == 0 < own and key_of(part, other) in frame.bears
    ]


def _over_its_middle(part: Part, patches: list[Patch]) -> bool:
    """Whether the box round the areas it lies on, seen from above, holds the middle of the part."""
    if not patches:
        return False
    x, y, _ = part.solid.centroid
    corners = [corner for patch in patches for corner in patch.outline]
    return (
        min([c[0] for c in corners]) - EXACT <= x <= max([c[0] for c in corners]) + EXACT
        and min([c[1] for c in corners]) - EXACT <= y <= max([c[1] for c in corners]) + EXACT
    )
