"""A plan's text written anew for the same piece: stood elsewhere, seen in a mirror, measured in other units.

Only words change, never lines, so that a finding stands on the line it stood on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from planlint.read.plan import (
    At,
    Distance,
    Expression,
    Faces,
    Floor,
    MiddleAt,
    MiddleOf,
    Mirror,
    Placement,
    Plan,
    Quantity,
    Row,
    Runs,
    SideOf,
    Turned,
)
from planlint.read.reader import read
from planlint.source import Source, Span

DIRECTIONS = {
    "left": "left-right", "right": "left-right", "front": "front-back", "back": "front-back",
    "bottom": "up", "top": "up",
}  # fmt: skip
_OTHER_END = {"front": "back", "back": "front"}
_KEPT_OR_SIDE = re.compile(r'("[^"\n]*"|--[^\n]*)|(?<![\w.-])(left|right)(?![\w.-])', re.IGNORECASE)

Edits = dict[Span, str]


def moved(text: str, direction: str, by: float) -> str:
    """The whole piece further to the right or the back by so many mm; benches of sub-assemblies stay."""
    plan = read(Source(text))[0]
    edits: Edits = {}
    for expression in positions(plan, direction, benches=False):
        anchors = sum(term.sign for term in expression.terms if not isinstance(term.of, Quantity))
        shift = by * (1 - anchors)
        if shift:
            way = "-" if shift < 0 else "+"
            edits[expression.span] = f"{words(text, expression.span)} {way} {abs(shift):.9f} mm"
    return edited(text, edits)


def mirrored(text: str) -> str:
    """The piece as a mirror on its left shows it: left is right, and what was measured to the right is measured
    to the left."""
    plan = read(Source(text))[0]
    edits: Edits = {}
    for expression in positions(plan, "left-right", benches=True):
        terms = [
            (-term.sign if isinstance(term.of, Quantity) else term.sign, words(text, term.of.span))
            for term in expression.terms
        ]
        terms.sort(key=lambda term: -term[0])
        told = " ".join(f"{'-' if sign < 0 else '+'} {term}" for sign, term in terms)
        edits[expression.span] = told[2:] if told.startswith("+") else f"0 {told}"
    for clause in (clause for placement in plan.placements for clause in placement.clauses):
        # Of what runs left-right the right end turns that way; in the mirror, its left end does.
        if isinstance(clause, Turned) and clause.how == "turns" and clause.toward in _OTHER_END:
            toward = words(text, clause.span)
            edits[clause.span] = toward.replace(clause.toward, _OTHER_END[clause.toward])
    return _KEPT_OR_SIDE.sub(lambda found: found[1] or swapped(found[2]), edited(text, edits))


def in_units(text: str, units: str) -> str:
    """The same lengths under another `units`: each bare one says the unit that it had."""
    plan = read(Source(text))[0]
    edits: Edits = {}
    for quantity in quantities(plan):
        told = words(text, quantity.span)
        if quantity.dimension == "length" and not re.search(r"[a-z'\"″′]", told, re.IGNORECASE):
            edits[quantity.span] = f"{told} {quantity.unit}"
    assert plan.heading.units_span is not None
    edits[plan.heading.units_span] = re.sub(
        rf"\b{plan.heading.units}\b", units, words(text, plan.heading.units_span)
    )
    return edited(text, edits)


def positions(plan: Plan, direction: str, *, benches: bool) -> Iterator[Expression]:
    """Every place along a direction that the plan writes; those on the benches of sub-assemblies too, or not."""
    if direction in plan.heading.centres:
        yield plan.heading.centres[direction]
    for placement in plan.placements:
        if benches or placement.assembly is None:
            yield from positions_of(placement, direction)
    for cover in plan.covers:
        if (
            cover.first is not None
            and cover.last is not None
            and row_runs(plan, cover.slat.name) == direction
        ):
            yield from (cover.first, cover.last)
    for stated in plan.dimensions:
        if isinstance(stated, Distance):
            ends = (stated.first, stated.second)
            if direction in {way for end in ends for way in ways_of(end)}:
                yield from ends


def positions_of(placement: Placement, direction: str) -> Iterator[Expression]:
    """The places along a direction in one entry of `place`."""
    for clause in (*placement.clauses, *placement.mirrors):
        if isinstance(clause, At) and DIRECTIONS[clause.side] == direction:
            yield clause.where
        elif isinstance(clause, MiddleAt) and clause.direction == direction:
            # `centred D on rail` has no words of its own for the place, and needs none.
            if not all(isinstance(term.of, MiddleOf) for term in clause.where.terms):
                yield clause.where
        elif isinstance(clause, Row) and clause.direction == direction:
            yield from (end for end in (clause.first, clause.last) if isinstance(end, Expression))
        elif isinstance(clause, Mirror) and clause.direction == direction and clause.about is not None:
            yield clause.about


def ways_of(expression: Expression) -> Iterator[str]:
    """The directions of the sides and middles that an expression names."""
    for term in expression.terms:
        if isinstance(term.of, SideOf):
            yield DIRECTIONS[term.of.side]
        elif isinstance(term.of, MiddleOf):
            yield term.of.direction
        elif isinstance(term.of, Floor):
            yield "up"


def row_runs(plan: Plan, name: str) -> str | None:
    """Along which direction the pieces of that name stand in a row, or else side by side."""
    found: str | None = None
    for placement in plan.placements:
        if name in (placement.subject.name, *(word.text for word in placement.names)):
            taken: set[str] = set()
            for clause in placement.clauses:
                if isinstance(clause, Row):
                    return clause.direction
                if isinstance(clause, Runs):
                    taken.add(clause.direction)
                elif isinstance(clause, Faces):
                    taken.add(DIRECTIONS[clause.side])
            if len(taken) == 2:
                found = next(way for way in DIRECTIONS.values() if way not in taken)
    return found


def quantities(record: object) -> Iterator[Quantity]:
    """Every number with a unit, wherever it stands in what was read."""
    if isinstance(record, Quantity):
        yield record
    elif isinstance(record, (tuple, list)):
        for part in record:
            yield from quantities(part)
    elif isinstance(record, dict):
        yield from quantities(list(record.values()))
    elif hasattr(type(record), "__slots__") and not isinstance(record, (str, int, float)):
        yield from quantities([getattr(record, slot, None) for slot in type(record).__slots__])


def swapped(side: str) -> str:
    return "right" if side.lower() == "left" else "left"


def words(text: str, span: Span) -> str:
    return text[span.start : span.end]


def edited(text: str, edits: Edits) -> str:
    """The text with these words written anew, from the last to the first."""
    for span, told in sorted(edits.items(), reverse=True):
        text = text[: span.start] + told + text[span.end :]
    return text
