"""What names and expressions lead to once everything is placed: parts by name, bodies, axes."""

from __future__ import annotations

from planlint.build.body import Body
from planlint.build.faces import placed_body
from planlint.build.scope import Pick
from planlint.build.sides import AXIS_OF_DIRECTION, OF_SIDE
from planlint.read.plan import Expression, MiddleOf, SideOf


def part_names(pick: Pick) -> list[str]:
    """The full names of the parts a pick stands for: one, or all of a sub-assembly's."""
    copy, body = pick
    if body is not None:
        return [f"{body.name} of {copy.name}"]
    if copy.item.listed is not None:
        return [copy.name]
    return [f"{inner.name} of {copy.name}" for inner in copy.item.bodies]


def bodies_of(pick: Pick) -> list[Body]:
    """The bodies a pick stands for, where they are in the finished piece."""
    copy, body = pick
    if copy.item.failed is not None:
        return []
    return [placed_body(copy, inner) for inner in ([body] if body is not None else copy.item.bodies)]


def axes_of(expression: Expression) -> set[int]:
    """The axes that an expression's sides and middles belong to."""
    found: set[int] = set()
    for term in expression.terms:
        if isinstance(term.of, SideOf):
            found.add(OF_SIDE[term.of.side][0])
        elif isinstance(term.of, MiddleOf):
            found.add(AXIS_OF_DIRECTION[term.of.direction])
    return found


def said(expression: Expression) -> str:
    """The sides and middles of an expression, in the plan's words."""
    words: list[str] = []
    for term in expression.terms:
        if isinstance(term.of, SideOf):
            words.append(f"{term.of.side} of {term.of.ref}")
        elif isinstance(term.of, MiddleOf):
            words.append(f"middle {term.of.direction} of {term.of.ref}")
    return " + ".join(words) or "floor"
