"""What a `place` section places, by name: entries become items, their pieces copies.

A scope is the finished piece, or the bench of one sub-assembly. `as ONE, TWO` names the mirror images in a
fixed order: as written, mirrored in the first direction, in the second, in both. Pieces of a row are numbered
`NAME.1` from the start of the row; so are pieces that have no names of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from planlint.build.like import Clauses
from planlint.build.piece import Listed
from planlint.build.sides import AXIS_OF_DIRECTION, OF_SIDE
from planlint.geometry.body import Axes
from planlint.read.plan import At, Between, EndCut, Expression, MiddleAt, Placement, Ref, Row, Tapered, Turned
from planlint.trade.caps import most

if TYPE_CHECKING:
    from planlint.build.body import Body
    from planlint.build.orient import Pose


class Copy:
    """One piece (or one copy of a sub-assembly): number `step` of its row, mirrored in these axes."""

    __slots__ = ("item", "mirrors", "name", "names", "step")

    def __init__(self, item: Item, step: int, mirrors: tuple[int, ...]) -> None:
        self.item = item
        self.step = step
        self.mirrors = mirrors
        self.name = ""
        self.names: list[str] = []  # all it answers to, `name` first

    def call(self, name: str) -> None:
        """Give it one more name; the first is its own."""
        if not self.names:
            self.name = name
        if name not in self.names:
            self.names.append(name)


class Failure(NamedTuple):
    """Why something has no place. `parts` collects the names of all that depend on the first mistake."""

    reason: str
    parts: list[str]


class Pick(NamedTuple):
    """A thing a name stands for: a part or a sub-assembly (`body` None), or a part inside a sub-assembly."""

    copy: Copy
    body: Body | None


class Item:
    """One entry of `place` while it is worked out. Axes are 0 left-right, 1 front-back, 2 up."""

    __slots__ = (
        "ats", "between", "bodies", "clauses", "copies", "cuts", "failed", "high", "index", "label", "listed",
        "low", "mirror_at", "mirrors", "pitch", "placement", "pose", "row", "row_axis", "scope",
        "spare_names", "spot", "tapers", "turned", "whole",
    )  # fmt: skip

    def __init__(
        self, scope: Scope, index: int, placement: Placement, said: Clauses, listed: Listed | None
    ) -> None:
        self.scope = scope
        self.index = index
        self.placement = placement
        self.clauses = said.clauses
        self.listed = listed  # None: a sub-assembly
        self.ats: dict[int, list[At | MiddleAt]] = {}
        self.between: Between | None = None
        self.row: Row | None = None
        self.row_axis = -1
        self.turned: list[Turned] = []
        self.cuts: list[EndCut] = []
        self.tapers: list[Tapered] = []
        self._sort_clauses()
        self.mirrors: dict[int, Expression | None] = {}
        for mirror in said.mirrors:
            self.mirrors.setdefault(AXIS_OF_DIRECTION[mirror.direction], mirror.about)
        self.mirror_at: dict[int, float] = {}
        self.pose: Pose | None = None  # a part's axes, known before its place
        self.spare_names: list[str] = []  # `as` names for which there is no piece
        self.bodies: list[Body] = []  # about the item's own origin: one, or those of a sub-assembly
        self.low = self.high = (0.0, 0.0, 0.0)  # their bounds
        self.spot: list[float] = [0.0, 0.0, 0.0]  # where the origin of the first piece goes
        self.pitch = 0.0
        self.whole = False  # placed in one go, not direction by direction
        self.failed: Failure | None = None  # why it has no place
        self.label = str(placement.names[0].text if placement.names else placement.subject)
        self.copies = self._copies()

    def _sort_clauses(self) -> None:
        for clause in self.clauses:
            if isinstance(clause, At):
                self.ats.setdefault(OF_SIDE[clause.side][0], []).append(clause)
            elif isinstance(clause, MiddleAt):
                self.ats.setdefault(AXIS_OF_DIRECTION[clause.direction], []).append(clause)
            elif isinstance(clause, Between):
                self.between = clause
            elif isinstance(clause, Row):
                self.row, self.row_axis = clause, AXIS_OF_DIRECTION[clause.direction]
            elif isinstance(clause, Turned):
                self.turned.append(clause)
            elif isinstance(clause, EndCut):
                self.cuts.append(clause)
            elif isinstance(clause, Tapered):
                self.tapers.append(clause)

    def _copies(self) -> list[Copy]:
        images: list[tuple[int, ...]] = [()]
        for axis in self.mirrors:
            images += [(*image, axis) for image in images]
        return [Copy(self, step, image) for image in images for step in range(self.in_row())]

    def in_row(self) -> int:
        """How many pieces of a row are made: as many as it says, within reason."""
        if self.row is None:
            return 1
        listed = self.listed.entry.pieces if self.listed else 0
        return min(max(1, self.row.number), max(most("row"), 2 * listed), most("longest row"))

    def is_cut_short(self) -> bool:
        """Whether the row says more pieces than are made."""
        return self.row is not None and self.row.number > self.in_row()


class Scope:
    """All items of the finished piece (`name` None) or of a bench; `frame`: how it stands in the end."""

    __slots__ = ("_inner", "_picks", "centres", "failed", "frame", "items", "lost", "name", "names")

    def __init__(self, name: str | None, frame: Axes | None, centres: dict[str, Expression]) -> None:
        self.name = name
        self.frame = frame
        self.centres = centres  # the plan's own; a bench has none
        self.items: list[Item] = []
        self.names: dict[str, list[Copy]] = {}
        self.failed: dict[int, Failure] = {}  # what could not be worked out, by node (see `Values`)
        self.lost: dict[str, Failure] = {}  # names inside sub-assemblies that have no place on their bench
        self._picks: dict[str, list[Pick]] = {}
        self._inner: dict[str, list[Pick]] | None = None

    def find(self, ref: Ref) -> list[Pick]:
        """What a name stands for: pieces of this scope, else parts of its sub-assemblies; none if unknown."""
        name = str(ref)
        found = self._picks.get(name)
        if found is None:
            copies = self.names.get(name)
            if copies is None:
                return self._inside().get(name, [])
            found = self._picks[name] = [Pick(copy, None) for copy in copies]
        return found

    def has(self, name: str) -> bool:
        """Whether `find` answers to a name."""
        return name in self.names or name in self._inside()

    def known(self) -> Iterable[str]:
        """Every name that `find` answers to."""
        return [*self.names, *self._inside(), *self.lost]

    def _inside(self) -> dict[str, list[Pick]]:
        """The names of what is in the sub-assemblies, once all of them are built."""
        if self._inner is not None:
            return self._inner
        found: dict[str, list[Pick]] = {}
        self._inner = found
        for item in self.items:
            if item.listed is None:
                for copy in item.copies:
                    for body in item.bodies:
                        pick = Pick(copy, body)
                        for name in inner_names(body, copy.names):
                            found.setdefault(name, []).append(pick)
        return found

    def name_copies(self) -> None:
        """Give every copy its names. Names beyond the pieces there are go to `Item.spare_names`."""
        counts: dict[str, int] = {}
        for item in self.items:
            counts[str(item.placement.subject)] = counts.get(str(item.placement.subject), 0) + len(
                item.copies
            )
        next_number: dict[str, int] = {}
        self._picks.clear()
        for item in self.items:
            _name(item, counts, next_number)
            for copy in item.copies:
                for name in copy.names:
                    self.names.setdefault(name, []).append(copy)


def inner_names(body: Body, copy_names: Sequence[str]) -> list[str]:
    """What a part of a sub-assembly is called outside: its full name first."""
    own = body.levels[-1].names
    plain = [name for name in own if " of " not in name]
    held = [f"{name} of {holder}" for name in plain for holder in copy_names]
    return list(dict.fromkeys([f"{own[0]} of {copy_names[0]}", *held, *own]))


def _name(item: Item, counts: dict[str, int], next_number: dict[str, int]) -> None:
    subject = str(item.placement.subject)
    names = [word.text for word in item.placement.names]
    rows = item.in_row()
    images = len(item.copies) // rows
    if names and len(names) in (images, 1) and len(names) != len(item.copies):
        each = rows if len(names) == images else len(item.copies)
        for i, copy in enumerate(item.copies):
            copy.call(f"{names[i // each]}.{i % each + 1}")
            copy.call(names[i // each])
    else:
        for copy, name in zip(item.copies, names, strict=False):
            copy.call(name)
        item.spare_names = names[len(item.copies) :]
        _number(item, subject, counts[subject], next_number)
    for copy in item.copies:
        copy.call(subject)


def _number(item: Item, subject: str, count: int, next_number: dict[str, int]) -> None:
    """Numbers for the pieces that have no name of their own yet."""
    if count == 1 and item.row is None:
        item.copies[0].call(subject)
        return
    for copy in item.copies:
        if not copy.names:
            number = next_number.get(subject, 1)
            next_number[subject] = number + 1
            copy.call(f"{subject}.{number}")
