"""Calls of functions in an expression: whether there is such a one, and the kinds it takes and gives."""

from __future__ import annotations

from planlint.judge.expression import Node
from planlint.judge.functions import BUILT_IN, FUNCTIONS
from planlint.judge.kinds import ANGLE, FLAG, NUMBER, OF_COLUMN, WORDS, Quantity, one
from planlint.judge.nearest import did_you_mean
from planlint.judge.operands import NOTHING, Code, Operands, Result


class Calls(Operands):
    """The walk through an expression where it meets a call."""

    def on_call(self, node: Node) -> Result:
        name = str(node.parts[0])
        if name == "known":
            return self._known(node)
        if name in FUNCTIONS:
            return self._trade(node, name)
        if name not in BUILT_IN:
            meant = did_you_mean(name, [*BUILT_IN, *FUNCTIONS, "known"])
            return self.fault(node, f"there is no function `{name}`{meant}")
        if name == "count":
            return self._count(node)
        parts = self.quantities(node)
        if parts is None:
            return None, NOTHING
        return self._sums(node, name, parts)

    def _known(self, node: Node) -> Result:
        parts = self.parts(node)
        if len(parts) != 1:
            return self.fault(node, "`known` takes one value")
        return (FLAG, ("known", parts[0][2])) if parts[0][1] is not None else (None, NOTHING)

    def _count(self, node: Node) -> Result:
        parts = self.parts(node)
        if len(parts) != 1 or parts[0][1] != WORDS:
            return self.fault(node, "`count` takes one column of words")
        return NUMBER, ("call", "count", parts[0][2])

    def _trade(self, node: Node, name: str) -> Result:
        takes, gives, _ = FUNCTIONS[name]
        parts = self.parts(node)
        if len(parts) != len(takes):
            return self.fault(node, f"`{name}` takes {len(takes)} values: {', '.join(takes)}")
        for (part, kind, _), wanted in zip(parts, takes, strict=True):
            if kind is not None and not self.fits(part, kind, OF_COLUMN[wanted]):
                self.fault(part, f"this is {one(kind)}; `{name}` takes {one(OF_COLUMN[wanted])} here")
        return OF_COLUMN[gives], ("trade", name, *(code for _, _, code in parts))

    def _sums(self, node: Node, name: str, parts: list[tuple[Node, Quantity, Code]]) -> Result:
        codes = tuple(code for _, _, code in parts)
        if name in ("min", "max"):
            if len(parts) < 2:
                return self.fault(node, f"`{name}` takes two values or more")
            return self.alike(node, parts, "compared with"), ("call", name, *codes)
        if name in ("round", "floor", "ceil"):
            return self._steps(node, name, parts)
        if len(parts) != 1:
            return self.fault(node, f"`{name}` takes one value")
        return self._one(node, name, parts[0])

    def _steps(self, node: Node, name: str, parts: list[tuple[Node, Quantity, Code]]) -> Result:
        codes = [code for _, _, code in parts]
        if len(parts) == 1 and parts[0][1] == NUMBER:
            return NUMBER, ("call", name, codes[0], ("constant", 1.0))
        if len(parts) != 2:
            return self.fault(node, f"`{name}` takes a number, or a value and the step to round to")
        return self.alike(node, parts, "rounded to"), ("call", name, *codes)

    def _one(self, node: Node, name: str, part: tuple[Node, Quantity, Code]) -> Result:
        argument, kind, code = part
        if name == "abs":
            return kind, ("call", name, code)
        if name == "sqrt":
            if any(exponent % 2 for exponent in kind):
                return self.fault(argument, f"{one(kind)} has no square root")
            return tuple(exponent // 2 for exponent in kind), ("call", name, code)
        wanted, gives = (NUMBER, ANGLE) if name[0] == "a" else (ANGLE, NUMBER)
        if not self.fits(argument, kind, wanted):
            return self.fault(argument, f"this is {one(kind)}; `{name}` takes {one(wanted)}")
        return gives, ("call", name, code)
