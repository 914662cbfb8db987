"""The finished piece and its benches: each scope's entries as items, solved, handed on as bodies."""

from __future__ import annotations

from collections.abc import Mapping

from planlint.build.body import Body
from planlint.build.faces import placed_body
from planlint.build.fits import FixedTwice
from planlint.build.like import follow_likes
from planlint.build.piece import CutShort, Listed
from planlint.build.prepare import Bench, level_of, prepare_assembly, prepare_part
from planlint.build.scope import Failure, Item, Scope
from planlint.build.solve import Solver
from planlint.build.sunk import sinks_of
from planlint.build.troubles import Troubles
from planlint.geometry.body import Axes
from planlint.read.plan import Placement, Plan, Row, Word
from planlint.source import Span
from planlint.trade.caps import most


class Shop:
    """Builds the scopes of one plan. A bench is built once for each way it stands in the finished piece."""

    def __init__(self, plan: Plan, listed: Mapping[str, Listed], troubles: Troubles) -> None:
        self.plan = plan
        self.listed = listed
        self.troubles = troubles
        self.fits: list[FixedTwice] = []
        self.cut_short: list[CutShort] = []
        self.placed: dict[str, int] = {}  # cut-list name -> pieces placed
        self._by_scope: dict[str | None, list[Placement]] = {}
        for placement in plan.placements:
            name = placement.assembly.text if placement.assembly else None
            self._by_scope.setdefault(name, []).append(placement)
        self._subjects = {str(placement.subject) for placement in plan.placements}
        self._benches: dict[tuple[str, Axes | None], Bench] = {}
        self._building: list[str] = []

    def finished(self) -> tuple[Scope, list[Body]]:
        """The finished piece."""
        self._count(None, 1, ())
        return self._build(None, None)

    def unused_benches(self) -> list[str]:
        """Sub-assemblies that nothing places; they are built all the same, for their mistakes."""
        used = {name for name, _ in self._benches}
        unused = [name for name in self._by_scope if name is not None and name not in used]
        for name in unused:
            self._bench(name, None)
        return unused

    def names_on(self, bench: str) -> list[str]:
        """The names that `place in BENCH` gives."""
        found: dict[str, None] = {}
        for placement in self._by_scope.get(bench, ()):
            found.update(dict.fromkeys([str(placement.subject), *[word.text for word in placement.names]]))
        return list(found)

    def _bench(self, name: str, frame: Axes | None) -> Bench:
        key = (name, frame)
        if key not in self._benches:
            if name in self._building:
                self._tell_ring(name)
                return Bench([], {})
            if len(self._building) >= most("benches"):
                self._cut_short("benches", name, most("benches"), self._by_scope[name][0].span)
                return Bench([], {})
            self._building.append(name)
            scope, bodies = self._build(name, frame)
            self._building.pop()
            self._benches[key] = Bench(bodies, lost_names(scope))
        return self._benches[key]

    def _build(self, name: str | None, frame: Axes | None) -> tuple[Scope, list[Body]]:
        scope = Scope(name, frame, self.plan.heading.centres if name is None else {})
        placements = self._by_scope.get(name, [])
        by_name: dict[str, Placement] = {}
        for placement in placements:
            for word in (*[w.text for w in placement.names], str(placement.subject)):
                by_name.setdefault(word, placement)
        for placement in placements:
            self._tell_mirrors(placement)
        for said, placement in zip(follow_likes(placements, by_name, self.troubles), placements, strict=True):
            listed = self.listed.get(str(placement.subject))
            scope.items.append(Item(scope, len(scope.items), placement, said, listed))
            row = scope.items[-1].row
            if row is not None and scope.items[-1].is_cut_short():
                self._cut_short("row", str(placement.subject), scope.items[-1].in_row(), row.number_span)
        scope.name_copies()
        self._tell_twice(scope)
        for item in scope.items:
            self._prepare(item)
        solver = Solver(scope, self.troubles, sinks_of(self.plan.steps, name))
        solver.run()
        self.fits += solver.fits
        return scope, self._bodies(scope)

    def _cut_short(self, what: str, name: str, made: int, span: Span) -> None:
        """Once a line, however often its bench is built."""
        found = CutShort(what, name, made, span)
        if found not in self.cut_short:
            self.cut_short.append(found)

    def _prepare(self, item: Item) -> None:
        if item.listed is not None:
            prepare_part(item, self.troubles)
        elif str(item.placement.subject) in self._by_scope:
            prepare_assembly(item, self._bench, self.troubles)
        else:
            subject = item.placement.subject
            known = [*self.listed, *[name for name in self._by_scope if name]]
            self.troubles.unknown(str(subject), "part", subject.span, known)
            item.failed = Failure(f"the cut list has no {subject}", [])
        self._tell_spare(item)

    def _bodies(self, scope: Scope) -> list[Body]:
        found: list[Body] = []
        for item in scope.items:
            if item.failed is not None:
                continue
            for copy in item.copies:
                holder = None if item.listed is not None else copy.name
                for body in item.bodies:
                    found.append(level_of(placed_body(copy, body), scope.name, copy.names, holder))
        return found

    def _count(self, scope: str | None, times: int, inside: tuple[str, ...]) -> None:
        """How many pieces of each cut-list entry are placed: a sub-assembly's once for each copy of it."""
        for placement in self._by_scope.get(scope, ()):
            subject = str(placement.subject)
            number = times * pieces_of(placement)
            if subject in self.listed:
                self.placed[subject] = self.placed.get(subject, 0) + number
            elif subject in self._by_scope and subject not in inside and len(inside) < most("benches"):
                self._count(subject, number, (*inside, subject))

    def _tell_mirrors(self, placement: Placement) -> None:
        """Mirrored twice in one direction: the first stands, the second is asked about."""
        first: dict[str, object] = {}
        for mirror in placement.mirrors:
            if first.setdefault(mirror.direction, mirror) is not mirror:
                what = f"which of two mirrors {mirror.direction} is meant"
                self.troubles.missing(str(placement.subject), what, mirror.span, [])

    def _tell_spare(self, item: Item) -> None:
        """`as ONE, TWO` without a mirror: nothing says where TWO is."""
        names = {word.text: word.span for word in item.placement.names}
        for name in item.spare_names:
            proposals = ["mirrored left-right about …", "mirrored front-back about …"]
            values = self.troubles.missing(name, "its place", names[name], proposals)
            values["parts"] = parts = [name]
            item.scope.lost[name] = Failure("nothing fixes its place", parts)

    def _tell_twice(self, scope: Scope) -> None:
        """One name for two things in this scope."""
        owners: dict[str, Span] = {}
        subjects = {str(item.placement.subject): item for item in scope.items}
        for item in scope.items:
            own = str(item.placement.subject)
            for word in item.placement.names:
                other = self._other_thing(word.text, subjects) if word.text != own else None
                first = owners.setdefault(word.text, word.span)
                if first is not word.span or other is not None:
                    self._twice(word, other if first is word.span else first, (word.text,))

    def _other_thing(self, name: str, subjects: Mapping[str, Item]) -> Span | None:
        """What else has a piece's name: an entry or a sub-assembly of its scope, or one that is placed nowhere."""
        if name in subjects:
            return subjects[name].placement.subject.span
        if name in self._subjects:
            return None  # on another bench, where it is told apart
        if name in self.listed:
            return self.listed[name].entry.name_span
        bench = self._by_scope.get(name)
        return bench[0].assembly.span if bench and bench[0].assembly else None

    def tell_benches(self) -> None:
        """A sub-assembly that is called as a part of the cut list: nobody can place the one or the other."""
        for placements in self._by_scope.values():
            bench = placements[0].assembly
            if bench is not None and bench.text in self.listed:
                parts = (bench.text, *self.names_on(bench.text))
                self._twice(bench, self.listed[bench.text].entry.name_span, parts)

    def _twice(self, word: Word, first: Span | None, parts: tuple[str, ...]) -> None:
        values: dict[str, object] = {"name": word.text, "parts": parts, "line": False, "first": first}
        self.troubles.add("name-twice", word.span, values, word.span)

    def _tell_ring(self, name: str) -> None:
        ring = [*self._building[self._building.index(name) :], name]
        span = self._by_scope[name][0].subject.span
        values: dict[str, object] = {"ring": " -> ".join(ring), "parts": ring[:-1]}
        self.troubles.add("position-circular", span, values, frozenset(ring))


def pieces_of(placement: Placement) -> int:
    """How many pieces an entry places: its row, times its mirror images; as many as it names at least."""
    rows = [clause.number for clause in placement.clauses if isinstance(clause, Row)]
    images: int = 2 ** len({mirror.direction for mirror in placement.mirrors})
    return max((rows[0] if rows else 1) * images, len(placement.names))


def lost_names(scope: Scope) -> dict[str, Failure]:
    """The names of a scope that have no place: each piece's own, and those of which every piece is lost."""
    found = {name: failure for name, failure in scope.lost.items() if not scope.has(name)}
    if all(item.failed is None for item in scope.items):
        return found
    for item in scope.items:
        if item.failed is not None:
            for copy in item.copies:
                found[copy.name] = item.failed
    for name, copies in scope.names.items():
        if name not in found and all(copy.item.failed is not None for copy in copies):
            failure = copies[0].item.failed
            if failure is not None:
                found[name] = failure
    return found
