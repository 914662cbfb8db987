"""Checking an expression's kinds: a tree of `Node` in, its kind and a plain tuple of operations out.

The tuples hold only strings, floats and tuples, so that they can be cached; `closures.py` makes them run:

    ("constant", v)  ("column", name)  ("limit", name)  ("known", x)
    ("call", name, x, …)  ("trade", name, x, …)
    ("negative", x)  ("add" "subtract" "multiply" "divide", x, y)  ("power", x, n)
    ("<" "<=" ">" ">=", x, y)  ("equal" "unequal", x, y)  ("near" "not near", x, y)
    ("and" "or", x, y)  ("not", x)  ("if", condition, x, y)
    ("in", x, (y, …))  ("near in", x, (y, …))  ("holds", words, x)
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple, cast

from planlint.judge.expression import Node, Unread, parse
from planlint.judge.functions import BUILT_IN, FUNCTIONS
from planlint.judge.kinds import (
    ANGLE,
    FLAG,
    NUMBER,
    OF_COLUMN,
    WORD,
    WORDS,
    Kind,
    Quantity,
    named,
    one,
    times,
)
from planlint.judge.kinds import quantity as kind_of
from planlint.judge.nearest import did_you_mean
from planlint.units import simple_units, unit

Code = tuple[object, ...]


class Fault(NamedTuple):
    """What is wrong in an expression, and the character where."""

    says: str
    start: int


class Checked(NamedTuple):
    """A sound expression: its kind and its operations. No kind.

    It uses a name whose own fault is noted elsewhere.
    """

    kind: Kind | None
    code: Code


def check(text: str, names: Mapping[str, Kind | None], wanted: Kind | None = None) -> Checked | list[Fault]:
    """Check an expression against the names it may use; `wanted` is the kind it must have.

    Names with a dot are shared limits, the others columns or `let`s.
    """
    tree = parse(text)
    if isinstance(tree, Unread):
        return [Fault(tree.says, tree.start)]
    checker = _Checker(text, names)
    kind, code = checker.expression(tree)
    if kind is not None and wanted is not None and not checker.fits(tree, kind, wanted):
        checker.fault(tree, f"this is {one(kind)}; {one(wanted)} belongs here")
    return checker.faults or Checked(kind, code)


_NOTHING: Code = ("constant", 0.0)
_Result = tuple["Kind | None", Code]  # no kind: there was a fault in it, which has been noted


class _Checker:
    def __init__(self, text: str, names: Mapping[str, Kind | None]) -> None:
        self.text = text
        self.names = names
        self.faults: list[Fault] = []

    def fault(self, node: Node, says: str) -> _Result:
        self.faults.append(Fault(says, node.start))
        return None, _NOTHING

    def expression(self, node: Node) -> _Result:
        method: Callable[[Node], _Result] = getattr(self, f"on_{node.op.strip('_')}")
        return method(node)

    def parts(self, node: Node) -> list[tuple[Node, Kind | None, Code]]:
        return [(part, *self.expression(part)) for part in node.parts if isinstance(part, Node)]

    # --- what stands for itself -------------------------------------------------------------

    def on_number(self, node: Node) -> _Result:
        return NUMBER, ("constant", _amount(str(node.parts[0])))

    def on_quantity(self, node: Node) -> _Result:
        written = str(node.parts[0])
        start = _unit_start(written)
        amount, name = written[:start].strip(), written[start:]
        found = unit(name)
        if found is None:
            return self.fault(node, self._unknown_unit(amount, name))
        return kind_of(found.dimension), ("constant", _amount(amount) * found.factor)

    def _unknown_unit(self, digits: str, name: str) -> str:
        if name in self.names:
            return f"write {digits} * {name}"
        return f"there is no unit `{name}`; the units are {', '.join(simple_units())}"

    def on_word(self, node: Node) -> _Result:
        return WORD, ("constant", str(node.parts[0])[1:-1])

    def on_true(self, node: Node) -> _Result:
        return FLAG, ("constant", True)

    def on_false(self, node: Node) -> _Result:
        return FLAG, ("constant", False)

    def on_name(self, node: Node) -> _Result:
        name = str(node.parts[0])
        if name not in self.names:
            return self.fault(node, f"there is no `{name}` here{did_you_mean(name, self.names)}")
        return self.names[name], ("limit" if "." in name else "column", name)

    # --- sums -------------------------------------------------------------------------------

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
        """Whether a part of this kind may stand where `wanted` belongs.

        0 stands for nothing of any quantity.
        """
        return kind == wanted or (_is_zero(node) and not isinstance(wanted, str))

    def alike(self, node: Node, parts: list[tuple[Node, Quantity, Code]], doing: str) -> Kind | None:
        """The one kind of all parts; else the fault is noted."""
        kind = next((kind for part, kind, _ in parts if not _is_zero(part)), NUMBER)
        for part, other, _ in parts:
            if not self.fits(part, other, kind):
                self.fault(part, f"{one(kind)} can't be {doing} {one(other)}")
                return None
        return kind

    def _sum(self, node: Node) -> _Result:
        parts = self.quantities(node)
        if parts is None:
            return None, _NOTHING
        kind = self.alike(node, parts, "added to" if node.op == "add" else "taken from")
        return kind, (node.op, parts[0][2], parts[1][2])

    on_add = on_subtract = _sum

    def _product(self, node: Node) -> _Result:
        parts = self.quantities(node)
        if parts is None:
            return None, _NOTHING
        (_, first, x), (_, second, y) = parts
        return times(first, second, 1 if node.op == "multiply" else -1), (node.op, x, y)

    on_multiply = on_divide = _product

    def on_negative(self, node: Node) -> _Result:
        parts = self.quantities(node)
        return (parts[0][1], ("negative", parts[0][2])) if parts else (None, _NOTHING)

    def on_power(self, node: Node) -> _Result:
        parts = self.quantities(node)
        if parts is None:
            return None, _NOTHING
        exponent = int(str(node.parts[1]))
        if exponent > 9:
            return self.fault(node, "a power above 9 is a slip of the pen")
        return tuple(base * exponent for base in parts[0][1]), ("power", parts[0][2], exponent)

    # --- yes and no -------------------------------------------------------------------------

    def flags(self, node: Node) -> list[Code] | None:
        """The parts when all are flags; else the fault is noted."""
        parts = self.parts(node)
        for part, kind, _ in parts:
            if kind not in (FLAG, None):
                self.fault(part, f"this is {one(kind)}; yes or no belongs here")
        return [code for _, _, code in parts] if all(kind == FLAG for _, kind, _ in parts) else None

    def _and_or(self, node: Node) -> _Result:
        codes = self.flags(node)
        return (FLAG, (node.op.strip("_"), *codes)) if codes else (None, _NOTHING)

    on_and = on_or = on_not = _and_or

    def on_compare(self, node: Node) -> _Result:
        sides = self.parts(node)
        signs = [str(part) for part in node.parts if not isinstance(part, Node)]
        codes = [self._pair(sides[i], sign, sides[i + 1]) for i, sign in enumerate(signs)]
        if None in codes:
            return None, _NOTHING
        whole = cast("Code", codes[0])
        for code in codes[1:]:
            whole = ("and", whole, code)
        return FLAG, whole

    def _pair(
        self, left: tuple[Node, Kind | None, Code], sign: str, right: tuple[Node, Kind | None, Code]
    ) -> Code | None:
        (first, first_kind, x), (second, second_kind, y) = left, right
        if first_kind is None or second_kind is None:
            return None
        if not self.fits(second, second_kind, first_kind) and not self.fits(first, first_kind, second_kind):
            self.fault(second, f"{one(first_kind)} can't be compared with {one(second_kind)}")
            return None
        if sign in ("==", "!="):
            exact = isinstance(first_kind, str)
            return (
                ({"==": "equal", "!=": "unequal"} if exact else {"==": "near", "!=": "not near"})[sign],
                x,
                y,
            )
        if isinstance(first_kind, str):
            self.fault(first, f"{one(first_kind)} has no size; compare it with == or !=")
            return None
        return sign, x, y

    def on_in(self, node: Node) -> _Result:
        member, among = (part for part in node.parts if isinstance(part, Node))
        kind, code = self.expression(member)
        return (
            self._in_list(member, kind, code, among)
            if among.op == "list_"
            else self._in_words(kind, code, among)
        )

    def on_not_in(self, node: Node) -> _Result:
        kind, code = self.on_in(node)
        return kind, ("not", code)

    def _in_list(self, member: Node, kind: Kind | None, code: Code, among: Node) -> _Result:
        items = self.parts(among)
        if kind is None or any(other is None for _, other, _ in items):
            return None, _NOTHING
        for item, other, _ in items:
            if not self.fits(item, cast("Kind", other), kind):
                return self.fault(item, f"{one(other)} among {named(kind)}s")
        return FLAG, ("in" if isinstance(kind, str) else "near in", code, tuple(item for _, _, item in items))

    def _in_words(self, kind: Kind | None, code: Code, among: Node) -> _Result:
        words, words_code = self.expression(among)
        if kind is None or words is None:
            return None, _NOTHING
        if kind != WORD or words != WORDS:
            return self.fault(among, "`in` needs a word before it and after it a [list] or a column of words")
        return FLAG, ("holds", words_code, code)

    def on_if_else(self, node: Node) -> _Result:
        (first, kind, x), (condition, flag, c), (second, other, y) = self.parts(node)
        if kind is None or flag is None or other is None:
            return None, _NOTHING
        if flag != FLAG:
            return self.fault(condition, f"this is {one(flag)}; yes or no belongs here")
        if self.fits(second, other, kind):
            return kind, ("if", c, x, y)
        if self.fits(first, kind, other):
            return other, ("if", c, x, y)
        return self.fault(second, f"{one(kind)} before `if`, {one(other)} after `else`")

    # --- calls ------------------------------------------------------------------------------

    def on_call(self, node: Node) -> _Result:
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
            return None, _NOTHING
        return self._sums(node, name, parts)

    def _known(self, node: Node) -> _Result:
        parts = self.parts(node)
        if len(parts) != 1:
            return self.fault(node, "`known` takes one value")
        return (FLAG, ("known", parts[0][2])) if parts[0][1] is not None else (None, _NOTHING)

    def _count(self, node: Node) -> _Result:
        parts = self.parts(node)
        if len(parts) != 1 or parts[0][1] != WORDS:
            return self.fault(node, "`count` takes one column of words")
        return NUMBER, ("call", "count", parts[0][2])

    def _trade(self, node: Node, name: str) -> _Result:
        takes, gives, _ = FUNCTIONS[name]
        parts = self.parts(node)
        if len(parts) != len(takes):
            return self.fault(node, f"`{name}` takes {len(takes)} values: {', '.join(takes)}")
        for (part, kind, _), wanted in zip(parts, takes, strict=True):
            if kind is not None and not self.fits(part, kind, OF_COLUMN[wanted]):
                self.fault(part, f"this is {one(kind)}; `{name}` takes {one(OF_COLUMN[wanted])} here")
        return OF_COLUMN[gives], ("trade", name, *(code for _, _, code in parts))

    def _sums(self, node: Node, name: str, parts: list[tuple[Node, Quantity, Code]]) -> _Result:
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

    def _steps(self, node: Node, name: str, parts: list[tuple[Node, Quantity, Code]]) -> _Result:
        codes = [code for _, _, code in parts]
        if len(parts) == 1 and parts[0][1] == NUMBER:
            return NUMBER, ("call", name, codes[0], ("constant", 1.0))
        if len(parts) != 2:
            return self.fault(node, f"`{name}` takes a number, or a value and the step to round to")
        return self.alike(node, parts, "rounded to"), ("call", name, *codes)

    def _one(self, node: Node, name: str, part: tuple[Node, Quantity, Code]) -> _Result:
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


def _is_zero(node: Node) -> bool:
    return node.op == "number" and _amount(str(node.parts[0])) == 0


def _unit_start(written: str) -> int:
    """Where the unit begins in `3 1/2 in`, `4 lbf/in2`."""
    return next(i for i, letter in enumerate(written) if letter.isalpha() or letter in "%°")


def _amount(written: str) -> float:
    """`3`, `3.5`, `1/2`, `3 1/2` as a float."""
    total = 0.0
    for piece in written.split():
        above, _, below = piece.partition("/")
        total += float(above) / float(below) if below else float(above)
    return total
