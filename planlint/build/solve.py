"""Where everything in one scope goes: each direction of each entry once, after what it is measured from."""

from __future__ import annotations

from planlint.build import faces
from planlint.build.between import settle_between
from planlint.build.edges import kind_of, reference
from planlint.build.expressions import MIRROR, NODES, WHOLE, Values
from planlint.build.fits import FixedTwice
from planlint.build.order import in_order
from planlint.build.proposals import mirror_proposals, position_proposals
from planlint.build.rows import row_block, settle_row
from planlint.build.scope import Failure, Item, Scope
from planlint.build.sides import DIRECTIONS, OF_SIDE
from planlint.build.slopes import settle_aslant
from planlint.build.sunk import Sinks
from planlint.build.troubles import Troubles
from planlint.geometry.vector import world_axis
from planlint.read.plan import At, Expression, Floor, MiddleAt, Placement
from planlint.source import Span


class Solver:
    """Places the items of a scope. What it can't place has a reason in `Scope.failed` and `Item.failed`."""

    __slots__ = ("fits", "scope", "sinks", "troubles", "values")

    def __init__(self, scope: Scope, troubles: Troubles, sinks: Sinks) -> None:
        self.scope = scope
        self.troubles = troubles
        self.sinks = sinks
        self.values = Values(scope, troubles)
        self.fits: list[FixedTwice] = []

    def run(self) -> None:
        """Place every item."""
        needs: dict[int, list[int]] = {}
        for item in self.scope.items:
            item.whole = self._is_whole(item)
        for item in self.scope.items:
            self._collect(item, needs)
        order, rings = in_order(needs)
        for ring in rings:
            self._tell_ring(ring)
        for node in order:
            item = self.scope.items[node // NODES]
            if node in self.scope.failed:
                self._fail(item, node, self.scope.failed[node])
                continue
            failure = self._settle(item, node % NODES)
            if failure is not None:
                self._fail(item, node, failure)

    # --- what depends on what ---------------------------------------------------------------------

    def _is_whole(self, item: Item) -> bool:
        """Whether the ends are cut to slopes, so that no direction can be settled alone."""
        if item.between is None or item.pose is None:
            return False
        along = world_axis(item.pose.axes[0])
        if along is None:
            return True
        ends = (item.between.first, item.between.second)
        floors = any(isinstance(end, Floor) for end in ends) and along != 2
        return floors or not all(faces.is_flat(end, along, self.values) for end in ends)

    def _collect(self, item: Item, needs: dict[int, list[int]]) -> None:
        base = item.index * NODES
        for axis, about in item.mirrors.items():
            centre = about or self.scope.centres.get(DIRECTIONS[axis])
            needs[base + MIRROR + axis] = self.values.needs(centre, axis) if centre else []
        by_axis = [self._axis_needs(item, axis) for axis in (0, 1, 2)]
        if item.whole:
            needs[base + WHOLE] = [*by_axis[0], *by_axis[1], *by_axis[2]]
            return
        for axis in (0, 1, 2):
            needs[base + axis] = by_axis[axis]

    def _axis_needs(self, item: Item, axis: int) -> list[int]:
        found: list[int] = []
        for at in item.ats.get(axis, ()):
            found += self.values.needs(at.where, axis)
        if item.row is not None and item.row_axis == axis:
            for end in (item.row.first, item.row.last):
                if isinstance(end, Expression):
                    found += self.values.needs(end, axis)
                elif end is not None:
                    found += faces.needs(end, (axis,), self.values)
        if item.between is not None and (item.whole or axis == between_axis(item)):
            for face in (item.between.first, item.between.second):
                found += faces.needs(face, (axis,), self.values)
        return found

    def _tell_ring(self, ring: list[int]) -> None:
        items = [self.scope.items[node // NODES] for node in ring]
        labels = [item.label for i, item in enumerate(items) if i == 0 or item is not items[i - 1]]
        if len(labels) > 1 and labels[0] == labels[-1]:
            labels.pop()
        text = " -> ".join([*labels, labels[0]])
        parts: list[str] = []
        values: dict[str, object] = {"ring": text, "parts": parts}
        first = min(items, key=lambda item: item.index)
        self.troubles.add("position-circular", _span(first), values, frozenset(labels))
        for node in ring:
            self.scope.failed.setdefault(node, Failure(f"its position depends on itself: {text}", parts))

    # --- placing ----------------------------------------------------------------------------------

    def _fail(self, item: Item, node: int, failure: Failure) -> None:
        self.scope.failed[node] = failure
        if item.failed is None:
            item.failed = failure
        for copy in item.copies:
            if copy.name not in failure.parts:
                failure.parts.append(copy.name)

    def _settle(self, item: Item, part: int) -> Failure | None:
        if not item.bodies:
            return item.failed or Failure("it has no size", [])
        if part == WHOLE:
            return settle_aslant(item, self)
        if part >= MIRROR:
            return self._settle_mirror(item, part - MIRROR)
        return self._settle_axis(item, part)

    def _settle_mirror(self, item: Item, axis: int) -> Failure | None:
        centre = item.mirrors.get(axis) or self.scope.centres.get(DIRECTIONS[axis])
        if centre is None:
            what = f"what it is mirrored {DIRECTIONS[axis]} about"
            return self.missing(item, what, mirror_proposals(axis, self.scope.name is None))
        value = self.values.of(centre, axis)
        if isinstance(value, Failure):
            return value
        item.mirror_at[axis] = value
        return None

    def _settle_axis(self, item: Item, axis: int) -> Failure | None:
        ats = item.ats.get(axis, [])
        if item.between is not None and axis == between_axis(item):
            return settle_between(item, axis, self)
        if item.row is not None and item.row_axis == axis:
            failure = settle_row(item, self)
            if failure is not None:
                return failure
            if item.row.how != "gap":
                return self.check(item, axis, ats, item.row.span, "low")
        if not ats:
            return self.missing(item, DIRECTIONS[axis], position_proposals(item, axis, self.values))
        failure = self.put(item, axis, ats[0])
        return failure or self.check(item, axis, ats[1:], ats[0].span, kind_of(ats[0]))

    def put(self, item: Item, axis: int, at: At | MiddleAt) -> Failure | None:
        """Place an item on an axis by one clause."""
        spot = self.wanted(item, axis, at)
        if isinstance(spot, Failure):
            return spot
        item.spot[axis] = spot
        return None

    def wanted(self, item: Item, axis: int, at: At | MiddleAt) -> float | Failure:
        """Where a clause puts the item's origin on an axis."""
        where = self.values.of(at.where, axis)
        if isinstance(where, Failure):
            return where
        own = reference(item, axis, at, self)
        return own if isinstance(own, Failure) else where - own

    def check(
        self, item: Item, axis: int, ats: list[At | MiddleAt], first_span: Span, first: str
    ) -> Failure | None:
        """Further clauses on a direction that is settled: the part should have just the size they leave."""
        low, high = row_block(item, axis)
        size = high - low
        for at in ats:
            spot = self.wanted(item, axis, at)
            if isinstance(spot, Failure):
                return spot
            opening = size + _widening(first, kind_of(at)) * (spot - item.spot[axis])
            names = _neighbours(self.values, item, axis, at)
            self.fits.append(FixedTwice(item, axis, size, opening, 0.0, first_span, at.span, names))
        return None

    def missing(self, item: Item, what: str, proposals: list[str]) -> Failure:
        """Nothing fixes a direction: one trouble, and the reason for all that is measured from the part."""
        values = self.troubles.missing(item.label, what, _span(item), proposals)
        parts: list[str] = []
        values["parts"] = parts
        return Failure(
            f"nothing fixes {what}" if what not in DIRECTIONS else f"nothing fixes its place {what}", parts
        )


def between_axis(item: Item) -> int | None:
    """The axis on which `between` places an item that isn't cut to slopes; None without one."""
    if item.between is None:
        return None
    if item.pose is not None:
        return world_axis(item.pose.axes[0])
    for face in (item.between.first, item.between.second):
        side = getattr(face, "side", None)
        if side is not None:
            return OF_SIDE[side][0]
    return 0


def _widening(first: str, second: str) -> float:
    """How the space between two positions grows when the second moves up its axis."""
    if first == second:
        return 1.0
    if first == "middle" or second == "middle":
        return 2.0 if second == "high" or first == "low" else -2.0
    return 1.0 if second == "high" else -1.0


def _neighbours(values: Values, item: Item, axis: int, second: At | MiddleAt) -> tuple[str, ...]:
    expressions: list[Expression] = [at.where for at in item.ats.get(axis, [])[:1]]
    expressions.append(second.where)
    return tuple(dict.fromkeys([name for e in expressions for name in values.neighbours(e)]))


def _span(item: Item) -> Span:
    placement: Placement = item.placement
    return placement.subject.span
