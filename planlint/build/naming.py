"""What a name in `step`, `cover`, `dimensions`, … stands for: the placed parts that answer to it.

A part answers to its own name (`slat.2`), its row's (`slat`), its cut-list name, each of these `of` the
sub-assembly that holds it, and to the sub-assembly's name: that means all its parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.read.plan import Plan, Ref

Index = dict[str, list[Part]]


class Naming:
    """The names of a piece's parts, in the finished piece and on the bench of each sub-assembly."""

    __slots__ = ("_benches", "_chains", "_lost", "_subjects", "_whole", "known", "parts")

    def __init__(self, piece: Piece) -> None:
        self.parts: Sequence[Part] = piece.parts
        self.known = known_names(piece.plan)
        self._lost = piece.unplaced_names
        self._subjects = {
            word.text: str(placement.subject)
            for placement in piece.plan.placements
            for word in placement.names
        }
        self._chains = [_chain(part) for part in piece.parts]
        self._whole: Index | None = None
        self._benches: dict[str, list[Index]] = {}

    def parts_named(self, ref: Ref) -> list[Part]:
        """The parts a name means in the finished piece; none when it has no place."""
        return self.whole.get(str(ref), [])

    @property
    def whole(self) -> Index:
        """All names of the finished piece."""
        if self._whole is None:
            self._whole = {}
            for part, chain in zip(self.parts, self._chains, strict=True):
                self._add(self._whole, part, chain)
        return self._whole

    def benches(self, assembly: str | None) -> list[Index]:
        """The names on the bench of each copy of a sub-assembly; without one, those of the finished piece."""
        if assembly is None:
            return [self.whole]
        if assembly not in self._benches:
            self._benches[assembly] = self._copies_of(assembly)
        return self._benches[assembly]

    def is_known(self, ref: Ref) -> bool:
        """Whether the plan has such a name, placed or not: in its cut list or a `place` section."""
        if str(ref) in self.whole:
            return True
        if ref.number is not None and ref.name in self.whole:
            return False  # the row is placed, and has no such number
        if ref.of is not None and ref.name in self.whole and str(ref.of) in self.whole:
            return False  # both are placed, but not in each other
        return ref.name in self.known and (ref.of is None or self.is_known(ref.of))

    def why_lost(self, ref: Ref) -> str | None:
        """Why a piece that a name means has no place, though `place` has it; None when all have one."""
        meant = {str(ref), ref.name}
        holder = ref.of
        while holder is not None:
            meant |= {str(holder), holder.name}
            holder = holder.of
        for name, reason in self._lost.items():
            if meant.intersection(self._names_of(name)):
                return reason
        return None

    def all_names(self) -> Iterable[str]:
        """Every name, for offering the nearest."""
        return sorted({*self.known, *self.whole})

    def _copies_of(self, assembly: str) -> list[Index]:
        copies: dict[str, Index] = {}
        for part, chain in zip(self.parts, self._chains, strict=True):
            for i in range(1, len(chain)):
                if assembly in self._names_of(chain[i]):
                    self._add(copies.setdefault(" of ".join(chain[i:]), {}), part, chain[:i])
                    break
        return list(copies.values())

    def _add(self, index: Index, part: Part, chain: Sequence[str]) -> None:
        own = dict.fromkeys((chain[0], chain[0].partition(".")[0], part.copy_of))
        holders = [self._names_of(holder) for holder in chain[1:]]
        keys = dict.fromkeys(own)
        for names in holders:
            keys.update(dict.fromkeys(names))
            keys.update(dict.fromkeys([f"{name} of {holder}" for name in own for holder in names]))
        for key in (*keys, " of ".join(chain)):
            found = index.setdefault(key, [])
            if not found or found[-1] is not part:
                found.append(part)

    def _names_of(self, name: str) -> tuple[str, ...]:
        row = name.partition(".")[0]
        return (name, row, self._subjects.get(name, row), self._subjects.get(row, row))


@once_a_piece
def naming_of(piece: Piece) -> Naming:
    """The names of a piece whose parts are placed."""
    return Naming(piece)


def known_names(plan: Plan) -> set[str]:
    """Every name that the cut list or a `place` section gives to something."""
    found = {entry.name for entry in plan.parts}
    for placement in plan.placements:
        found.update([word.text for word in placement.names])
        found.add(placement.subject.name)
        if placement.assembly is not None:
            found.add(placement.assembly.text)
    return found


def _chain(part: Part) -> list[str]:
    """A part's own name and those of what holds it, from the inside out."""
    chain = part.name.split(" of ")
    return [*chain, part.assembly] if len(chain) == 1 and part.assembly is not None else chain
