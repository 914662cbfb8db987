"""The lines of `cover`, `dimensions`, `load`, `carry` and `accept`: what the plan says of itself."""

from __future__ import annotations

from typing import Any, NamedTuple

from planlint.read.amounts import angle, count, length, lengths, misfit, quantity, sizes
from planlint.read.buying import line_span
from planlint.read.expressions import Children, Rules, over, side, word
from planlint.read.lexer import Lexeme
from planlint.read.notation import notation
from planlint.read.plan import Accept, AngleOf, Carry, Cover, Distance, Load, Overall, Quantity
from planlint.source import Span


class Carried(NamedTuple):
    """One line of `carry`: the field of `Carry` it fills and the value."""

    field: str
    value: Any
    name: str
    span: Span


def put(carry: Carry, said: Carried) -> None:
    """Write one line of `carry` into the record."""
    setattr(carry, said.field, said.value)
    carry.spans[said.name] = said.span


def _gap(least: Lexeme | None, most: Lexeme | None) -> tuple[Quantity | None, Quantity | None]:
    if least is None or most is None:
        return None, None
    first, second = lengths(least, most)
    return first, second


def _cover(children: Children) -> Cover:
    name, colon, slat, _, first, _, last, _, _, least, _, most = children
    return Cover(name, slat, first, last, None, None, *_gap(least, most), line_span(colon))


def _cover_count(children: Children) -> Cover:
    name, colon, slats, _, slat, _, across, _, _, least, _, most = children
    (width,) = sizes(across)
    return Cover(name, slat, None, None, int(slats.text), width, *_gap(least, most), line_span(colon))


def _overall(children: Children) -> Overall:
    wide, deep, high = sizes(*children[2::2])
    return Overall((wide, deep, high), over(children))


def _distance(children: Children) -> Distance:
    first, _, second, at, _, stated = children
    return Distance(first, second, at, length(stated), over(children))


def _load(children: Children) -> Load:
    on, colon, amount, *how = children
    span = line_span(colon)
    if how and how[0].type == "PEOPLE":
        return Load(on, count(amount), None, "", span)
    spread: Any = how[-1].text if how else ""
    return Load(on, None, quantity(amount, "", "mass", "force"), spread, span)


def _accept(children: Children) -> Accept:
    rule, _, on, _, text = children
    reason = text.line_of.written(text.start + 1, text.end - 1).strip()
    if not reason:
        misfit(text, notation().words["phrases"]["reason"])
    return Accept(word(rule), on, reason, over(children))


RULES: Rules = {
    "cover": _cover,
    "cover_count": _cover_count,
    "overall": _overall,
    "distance": _distance,
    "angle_of": lambda c: AngleOf(c[0].text, c[2], angle(c[4]), over(c)),
    "height_side": lambda c: side(c[1]),
    "height_up": lambda c: length(c[1]),
    "load": _load,
    "lift": lambda c: Carried("lift_by", count(c[2]), "lift", over(c)),
    "doorway": lambda c: Carried("doorway", sizes(*c[1::2]), "doorway", over(c)),
    "load_space": lambda c: Carried("load_space", sizes(*c[1::2]), "load-space", over(c)),
    "accept": _accept,
}
