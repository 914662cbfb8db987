"""The lines of the `plan` section and the heads of all sections."""

from __future__ import annotations

from typing import Any, NamedTuple

from planlint.read.amounts import is_length_unit, quantity, size, unit_named
from planlint.read.expressions import Children, Rules, common_word, direction, over, word
from planlint.read.lexer import Lexeme
from planlint.read.near import nearest
from planlint.read.plan import Heading, Quantity, Trouble, Word
from planlint.source import Span
from planlint.trade.pieces import kinds, settings, users


class Head(NamedTuple):
    """A section's first line: its word, a title, and the sub-assembly it is `in`."""

    section: str
    title: str
    title_span: Span
    assembly: Word | None
    span: Span


class Said(NamedTuple):
    """One line of `plan`: the field of `Heading` it fills, the value, and the words that name it."""

    field: str
    value: Any
    span: Span


def put(heading: Heading, said: Said) -> None:
    """Write one line of `plan` into the heading."""
    if said.field == "wood":
        heading.wood, heading.treated = said.value
    elif said.field == "units":
        heading.units, heading.units_span = said.value, said.span
    elif said.field.startswith("centre "):
        heading.centres[said.field[len("centre ") :]] = said.value
    else:
        setattr(heading, said.field, said.value)


def _head(children: Children, text: Lexeme | None, assembly: Word | None) -> Head:
    first: Lexeme = children[0]
    span = over(children)
    if text is None:
        return Head(first.text, "", Span(first.end, first.end), assembly, span)
    inside = Span(text.start + 1, text.end - 1)
    return Head(first.text, first.line_of.written(*inside).strip(), inside, assembly, span)


def _from_list(lexeme: Lexeme, what: str, known: tuple[str, ...]) -> Word:
    if lexeme.text not in known:
        values: dict[str, object] = {"name": lexeme.text, "what": what}
        near = nearest(lexeme.text, known)
        if near:
            values["nearest"] = near
        lexeme.line_of.troubles.append(Trouble("unknown-name", Span(lexeme.start, lexeme.end), values))
    return word(lexeme)


def _units(children: Children) -> Said:
    lexeme: Lexeme = children[1]
    name = unit_named(lexeme.text)
    if not is_length_unit(name):
        _from_list(lexeme, "unit", ("in", "ft", "mm", "cm", "m"))
    return Said("units", name, over(children))


def _users(children: Children) -> Said:
    return Said("users", tuple(_from_list(each, "user", users()) for each in children[1::2]), over(children))


def _moisture(children: Children) -> Said:
    return Said("moisture", (_percent(children[1]), _percent(children[3])), over(children))


def _percent(lexeme: Lexeme) -> Quantity:
    return quantity(lexeme, unit_named("%"), "moisture")


RULES: Rules = {
    "plan_head": lambda c: _head(c, c[1], None),
    "section_head": lambda c: _head(c, None, None),
    "place_head": lambda c: _head(c, None, c[2]),
    "step_head": lambda c: _head(c, c[1], c[3]),
    "units": _units,
    "piece": lambda c: Said("piece", _from_list(c[1], "piece", kinds()), over(c)),
    "setting": lambda c: Said("setting", _from_list(c[1], "setting", settings()), over(c)),
    "plan_wood": lambda c: Said("wood", (common_word(c[1]), c[2] is not None), over(c)),
    "seen": lambda c: Said("seen", tuple(map(word, c[1::2])), over(c)),
    "users": _users,
    "moisture": _moisture,
    "kerf": lambda c: Said("kerf", size(c[1]), over(c)),
    "centre": lambda c: Said("centre " + direction(c[1]), c[3], over(c)),
    "pilots": lambda c: Said("pilots_everywhere", over(c), over(c)),
    "fixed": lambda c: Said("fixed_to_wall", over(c), over(c)),
}
