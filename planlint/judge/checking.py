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

from collections.abc import Mapping
from typing import NamedTuple, cast

from planlint.judge.calls import Calls
from planlint.judge.expression import Node, Unread, parse
from planlint.judge.kinds import FLAG, NUMBER, WORD, WORDS, Kind, named, one, times
from planlint.judge.kinds import quantity as kind_of
from planlint.judge.nearest import did_you_mean
from planlint.judge.operands import NOTHING, Code, Fault, Result, amount
from planlint.units import simple_units, unit


class Checked(NamedTuple):
    """A sound expression: its kind and its operations.

    The kind is None where it uses a name whose own fault is noted elsewhere.
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


class _Checker(Calls):
    """The walk through all other operations; `on_compare` checks what grammar/rule.lark calls `compare`."""

    # --- what stands for itself -------------------------------------------------------------

    def on_number(self, node: Node) -> Result:
        return NUMBER, ("constant", amount(str(node.parts[0])))

    def on_quantity(self, node: Node) -> Result:
        written = str(node.parts[0])
        start = _unit_start(written)
        number, name = written[:start].strip(), written[start:]
        found = unit(name)
        if found is None:
            return self.fault(node, self._unknown_unit(number, name))
        return kind_of(found.dimension), ("constant", amount(number) * found.factor)

    def _unknown_unit(self, digits: str, name: str) -> str:
        if name in self.names:
            return f"write {digits} * {name}"
        return f"there is no unit `{name}`; the units are {', '.join(simple_units())}"

    def on_word(self, node: Node) -> Result:
        return WORD, ("constant", str(node.parts[0])[1:-1])

    def on_true(self, node: Node) -> Result:
        return FLAG, ("constant", True)

    def on_false(self, node: Node) -> Result:
        return FLAG, ("constant", False)

    def on_name(self, node: Node) -> Result:
        name = str(node.parts[0])
        if name not in self.names:
            return self.fault(node, f"there is no `{name}` here{did_you_mean(name, self.names)}")
        return self.names[name], ("limit" if "." in name else "column", name)

    # --- sums -------------------------------------------------------------------------------

    def _sum(self, node: Node) -> Result:
        parts = self.quantities(node)
        if parts is None:
            return None, NOTHING
        kind = self.alike(node, parts, "added to" if node.op == "add" else "taken from")
        return kind, (node.op, parts[0][2], parts[1][2])

    on_add = on_subtract = _sum

    def _product(self, node: Node) -> Result:
        parts = self.quantities(node)
        if parts is None:
            return None, NOTHING
        (_, first, x), (_, second, y) = parts
        return times(first, second, 1 if node.op == "multiply" else -1), (node.op, x, y)

    on_multiply = on_divide = _product

    def on_negative(self, node: Node) -> Result:
        parts = self.quantities(node)
        return (parts[0][1], ("negative", parts[0][2])) if parts else (None, NOTHING)

    def on_power(self, node: Node) -> Result:
        parts = self.quantities(node)
        if parts is None:
            return None, NOTHING
        exponent = int(str(node.parts[1]))
        if exponent > 9:
            return self.fault(node, "a power above 9 is a slip of the pen")
        return tuple(base * exponent for base in parts[0][1]), ("power", parts[0][2], exponent)

    # --- yes and no -------------------------------------------------------------------------

    def _and_or(self, node: Node) -> Result:
        codes = self.flags(node)
        return (FLAG, (node.op.strip("_"), *codes)) if codes else (None, NOTHING)

    on_and = on_or = on_not = _and_or

    def on_compare(self, node: Node) -> Result:
        sides = self.parts(node)
        signs = [str(part) for part in node.parts if not isinstance(part, Node)]
        codes = [self._pair(sides[i], sign, sides[i + 1]) for i, sign in enumerate(signs)]
        if None in codes:
            return None, NOTHING
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

    def on_in(self, node: Node) -> Result:
        member, among = (part for part in node.parts if isinstance(part, Node))
        kind, code = self.expression(member)
        return (
            self._in_list(member, kind, code, among)
            if among.op == "list_"
            else self._in_words(kind, code, among)
        )

    def on_not_in(self, node: Node) -> Result:
        kind, code = self.on_in(node)
        return kind, ("not", code)

    def _in_list(self, member: Node, kind: Kind | None, code: Code, among: Node) -> Result:
        items = self.parts(among)
        if kind is None or any(other is None for _, other, _ in items):
            return None, NOTHING
        for item, other, _ in items:
            if not self.fits(item, cast("Kind", other), kind):
                return self.fault(item, f"{one(other)} among {named(kind)}s")
        return FLAG, ("in" if isinstance(kind, str) else "near in", code, tuple(item for _, _, item in items))

    def _in_words(self, kind: Kind | None, code: Code, among: Node) -> Result:
        words, words_code = self.expression(among)
        if kind is None or words is None:
            return None, NOTHING
        if kind != WORD or words != WORDS:
            return self.fault(among, "`in` needs a word before it and after it a [list] or a column of words")
        return FLAG, ("holds", words_code, code)

    def on_if_else(self, node: Node) -> Result:
        (first, kind, x), (condition, flag, c), (second, other, y) = self.parts(node)
        if kind is None or flag is None or other is None:
            return None, NOTHING
        if flag != FLAG:
            return self.fault(condition, f"this is {one(flag)}; yes or no belongs here")
        if self.fits(second, other, kind):
            return kind, ("if", c, x, y)
        if self.fits(first, kind, other):
            return other, ("if", c, x, y)
        return self.fault(second, f"{one(kind)} before `if`, {one(other)} after `else`")


def _unit_start(written: str) -> int:
    """Where the unit begins in `3 1/2 in`, `4 lbf/in2`."""
    return next(i for i, letter in enumerate(written) if letter.isalpha() or letter in "%°")
