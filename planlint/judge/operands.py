"""An expression's operands: their kinds, and whether they go together."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple, cast

from planlint.judge.expression import Node
from planlint.judge.kinds import FLAG, NUMBER, Kind, Quantity, one

Code = tuple[object, ...]
NOTHING: Code = ("constant", 0.0)
Result = tuple["Kind | None", Code]  # no kind: there was a fault in it, which has been noted


class Fault(NamedTuple):
    """What is wrong in an expression, and the character where."""

    says: str
    start: int


class Operands:
    """A walk through one expression; faults are noted and the walk goes on."""

    def __init__(self, text: str, names: Mapping[str, Kind | None]) -> None:
        self.text = text
        self.names = names
        self.faults: list[Fault] = []

    def fault(self, node: Node, says: str) -> Result:
        self.faults.append(Fault(says, node.start))
        return None, NOTHING

    def expression(self, node: Node) -> Result:
        method: Callable[[Node], Result] = getattr(self, f"on_{node.op.strip('_')}")
        return method(node)

    def parts(self, node: Node) -> list[tuple[Node, Kind | None, Code]]:
        return [(part, *self.expression(part)) for part in node.parts if isinstance(part, Node)]

    def quantities(self, node: Node) -> list[tuple[Node, Quantity, Code]] | None:
        """The parts when all are quantities; else the fault is noted."""
        parts = self.parts(node)
        for part, kind, _ in parts:
            if isinstance(kind, str):
                self.fault(part, f"this is {one(kind)}; sums need quantities")
        if any(kind is None or isinstance(kind, str) for _, kind, _ in parts):
            return None
        return cast("list[tuple[Node, Quantity, Code]]", parts)

    def fits(self, node: Node, kind: Kind, wanted: Kind) -> bool:
        """Whether a part of this kind may stand where `wanted` belongs; 0 is nothing of any quantity."""
        return kind == wanted or (is_zero(node) and not isinstance(wanted, str))

    def alike(self, node: Node, parts: list[tuple[Node, Quantity, Code]], doing: str) -> Kind | None:
        """The one kind of all parts; else the fault is noted."""
        kind = next((kind for part, kind, _ in parts if not is_zero(part)), NUMBER)
        for part, other, _ in parts:
            if not self.fits(part, other, kind):
                self.fault(part, f"{one(kind)} can't be {doing} {one(other)}")
                return None
        return kind

    def flags(self, node: Node) -> list[Code] | None:
        """The parts when all are flags; else the fault is noted."""
        parts = self.parts(node)
        for part, kind, _ in parts:
            if kind not in (FLAG, None):
                self.fault(part, f"this is {one(kind)}; yes or no belongs here")
        return [code for _, _, code in parts] if all(kind == FLAG for _, kind, _ in parts) else None


def is_zero(node: Node) -> bool:
    return node.op == "number" and amount(str(node.parts[0])) == 0


def amount(written: str) -> float:
    """`3`, `3.5`, `1/2`, `3 1/2` as a float."""
    total = 0.0
    for piece in written.split():
        above, _, below = piece.partition("/")
        total += float(above) / float(below) if below else float(above)
    return total
