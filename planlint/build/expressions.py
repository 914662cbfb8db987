"""What an expression is worth once the parts it names have their place."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.scope import Failure, Pick, Scope
from planlint.build.sides import AXIS_OF_DIRECTION, DIRECTIONS, OF_SIDE
from planlint.build.troubles import Troubles
from planlint.read.plan import Expression, Floor, MiddleOf, Quantity, Ref, SideOf

ALIKE = 0.01  # mm: several pieces are at one place within this

MIRROR = 3  # node numbers of an item: 0-2 its place on an axis, 3-5 its mirrors, 6 all three axes at once
WHOLE = 6
NODES = 8


class Values:
    """Reads sides, middles and expressions in one scope. What can't be had is a `Failure`, told once."""

    __slots__ = ("scope", "troubles")

    def __init__(self, scope: Scope, troubles: Troubles) -> None:
        self.scope = scope
        self.troubles = troubles

    # --- what must be known first -----------------------------------------------------------------

    def needs(self, expression: Expression, axis: int) -> list[int]:
        """The nodes an expression depends on."""
        found: list[int] = []
        for term in expression.terms:
            if isinstance(term.of, (SideOf, MiddleOf)):
                for pick in self.scope.find(term.of.ref):
                    found.extend(self.nodes(pick, axis))
        return found

    def nodes(self, pick: Pick, axis: int) -> list[int]:
        """The nodes that give a piece its place on an axis."""
        item = pick.copy.item
        own = item.index * NODES + (WHOLE if item.whole else axis)
        return [own, item.index * NODES + MIRROR + axis] if axis in pick.copy.mirrors else [own]

    # --- values -----------------------------------------------------------------------------------

    def of(self, expression: Expression, axis: int) -> float | Failure:
        """The value in mm on an axis."""
        total = 0.0
        for sign, what in expression.terms:
            if isinstance(what, Quantity):
                total += sign * what.value
            elif not isinstance(what, Floor):
                value = self._place(what, axis)
                if isinstance(value, Failure):
                    return value
                total += sign * value
        return total

    def bounds(self, pick: Pick, axis: int) -> tuple[float, float] | Failure:
        """Where a piece begins and ends on an axis: its outermost points."""
        for node in self.nodes(pick, axis):
            failure = self.scope.failed.get(node)
            if failure is not None:
                return Failure(f"it is measured from {pick.copy.name}, which has no place", failure.parts)
        return placed_bounds(pick, axis)

    def agreed(self, ref: Ref, axis: int) -> tuple[float, float] | Failure:
        """The bounds of what a name stands for; several pieces must agree."""
        picks = self.picks(ref)
        if isinstance(picks, Failure):
            return picks
        found = self.bounds(picks[0], axis)
        for pick in picks[1:]:
            other = self.bounds(pick, axis)
            if isinstance(found, Failure) or isinstance(other, Failure):
                return found if isinstance(found, Failure) else other
            if abs(found[0] - other[0]) > ALIKE or abs(found[1] - other[1]) > ALIKE:
                return self.several(ref, picks)
        return found

    def picks(self, ref: Ref) -> list[Pick] | Failure:
        """What a name stands for, at least one thing."""
        picks = self.scope.find(ref)
        if picks:
            return picks
        lost = self.scope.lost.get(str(ref))
        if lost is not None:
            return Failure(f"it is measured from {ref}, which has no place", lost.parts)
        self.troubles.unknown(str(ref), "part", ref.span, self.scope.known())
        return Failure(f"it is measured from {ref}, and no such part is placed", [])

    def several(self, ref: Ref, picks: Sequence[Pick]) -> Failure:
        """A name whose pieces stand in different places, where one place is asked for."""
        one = picks[0]
        name = one.copy.name if one.body is None else f"{one.body.name} of {one.copy.name}"
        self.troubles.unknown(str(ref), "single piece", ref.span, [], name)
        return Failure(f"it is measured from {ref}, which is {len(picks)} pieces in different places", [])

    def _place(self, what: SideOf | MiddleOf, axis: int) -> float | Failure:
        own = OF_SIDE[what.side][0] if isinstance(what, SideOf) else AXIS_OF_DIRECTION[what.direction]
        if own != axis:
            return self.wrong_axis(what, axis, own)
        return self.one_value(what, axis)

    def one_value(self, what: SideOf | MiddleOf, axis: int) -> float | Failure:
        """The pieces must agree on just what is asked for: four legs have one top, wherever they stand."""
        picks = self.picks(what.ref)
        if isinstance(picks, Failure):
            return picks
        first: float | None = None
        for pick in picks:
            bounds = self.bounds(pick, axis)
            if isinstance(bounds, Failure):
                return bounds
            value = _pick_value(what, bounds)
            if first is None:
                first = value
            elif abs(value - first) > ALIKE:
                return self.several(what.ref, picks)
        assert first is not None
        return first

    def wrong_axis(self, what: SideOf | MiddleOf, axis: int, own: int) -> Failure:
        """`front of rail` where a height belongs."""
        side = what.side if isinstance(what, SideOf) else f"middle {what.direction}"
        values: dict[str, object] = {
            "written": f"{side} of {what.ref}",
            "found": f"a place {DIRECTIONS[own]}",
            "expected": f"a place {DIRECTIONS[axis]}",
        }
        self.troubles.add("wrong-kind-of-unit", what.span, values)
        return Failure(f"{side} of {what.ref} is no place {DIRECTIONS[axis]}", [])

    def neighbours(self, expression: Expression) -> tuple[str, ...]:
        """The names an expression measures from."""
        return tuple([str(t.of.ref) for t in expression.terms if isinstance(t.of, (SideOf, MiddleOf))])


def _pick_value(what: SideOf | MiddleOf, bounds: tuple[float, float]) -> float:
    if isinstance(what, MiddleOf):
        return (bounds[0] + bounds[1]) / 2.0
    return bounds[0] if OF_SIDE[what.side][1] < 0 else bounds[1]


def placed_bounds(pick: Pick, axis: int) -> tuple[float, float]:
    """Where a placed piece begins and ends on an axis."""
    copy, body = pick
    item = copy.item
    low, high = (item.low, item.high) if body is None else (body.low, body.high)
    way = item.spot[axis] + (copy.step * item.pitch if axis == item.row_axis else 0.0)
    if axis in copy.mirrors:
        twice = 2.0 * item.mirror_at[axis]
        return twice - way - high[axis], twice - way - low[axis]
    return low[axis] + way, high[axis] + way
