"""Finish by the area that air reaches, and glue by the area that is glued."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Piece
from planlint.buying.articles import article
from planlint.buying.measures import shown
from planlint.buying.own import OwnList
from planlint.buying.shopping import Group, Line, Measure, NotKnown, differs
from planlint.buying.surfaces import glued
from planlint.observe.circumstances import is_metric, outdoors
from planlint.observe.facts import Missing
from planlint.read.plan import Join, Plan, Purchase
from planlint.trade.finishing import (
    Finish,
    bottle_for,
    can_for,
    finish_of,
    glue_for,
    glue_rate,
    is_finish,
    usual_finishes,
)


def finish_group(piece: Piece, area: Measure | None, own: OwnList) -> Group:
    """The finish that the list names, else what is usual where the piece stands, with what else would do."""
    plan = piece.plan
    named = [one for one in plan.purchases if one.kind == "hardware" and is_finish(one.noun.text)]
    lines = [_named(one, area, own, plan) for one in named]
    where = outdoors(plan)
    if named or isinstance(where, Missing) or not plan.parts:
        return Group("finish", "Finish", tuple(lines))
    usual = usual_finishes("outdoors" if where else "indoors")
    first, others = usual[0], usual[1:]
    notes = ["The plan names no finish; this is what is usual where the piece stands."]
    if others and area is not None:
        notes.append(f"Instead: {_instead(others, area, plan)}.")
    notes += [one for one in (first.note, first.caution) if one]
    return Group("finish", "Finish", (_usual(first, area, plan),), tuple(notes))


def finish_not_known(piece: Piece) -> list[NotKnown]:
    """Where the piece stands, if nobody says: it decides what finish will do."""
    named = any(is_finish(one.noun.text) for one in piece.plan.purchases)
    where = False if named else outdoors(piece.plan)
    return [NotKnown(f"which finish: {where.reason}", where.add)] if isinstance(where, Missing) else []


def _usual(finish: Finish, area: Measure | None, plan: Plan) -> Line:
    needed = None if area is None else _amount(finish, area)
    count, can = (None, "") if needed is None else can_for(needed.high, is_metric(plan))
    return Line(
        what=", ".join([finish.word, *([can] if can else [])]),
        needed=needed,
        buy=count,
        spare=None,
        own=None,
        difference="missing",
        why=finish.told if needed is not None else f"{finish.told}; the area is not known",
        price=None,
        notes=(_source(finish, plan),),
    )


def _named(purchase: Purchase, area: Measure | None, own: OwnList, plan: Plan) -> Line:
    finish = finish_of(purchase.noun.text)
    needed = None if finish is None or area is None else _amount(finish, area)
    return Line(
        what=article(purchase, plan.heading.units),
        needed=needed,
        buy=purchase.number,
        spare=None,
        own=own.of(purchase),
        difference="not checked",
        why="no rate is known for it" if finish is None else finish.told,
        price=purchase.price,
        notes=() if finish is None else (_source(finish, plan),),
    )


def _amount(finish: Finish, area: Measure) -> Measure:
    low, high = finish.amount(area.low)[0], finish.amount(area.high)[1]
    return Measure("volume", low, high, area.at_least)


def _source(finish: Finish, plan: Plan) -> str:
    rate = finish.rates[is_metric(plan)]
    return f"{rate}, one coat on smooth wood: {finish.source} ({finish.confidence})"


def _instead(others: Sequence[Finish], area: Measure, plan: Plan) -> str:
    return "; or ".join(
        [f"{shown(_amount(one, area), plan.heading.units)} of {one.word}, {one.told}" for one in others]
    )


def glue_group(piece: Piece, own: OwnList) -> Group:
    """Glue by the bottle: the smallest that holds what all glued joints take."""
    plan = piece.plan
    units, where = plan.heading.units, outdoors(plan)
    bought = [one for one in plan.purchases if one.kind == "glue"]
    joins = [
        join
        for step in plan.steps
        for join in step.joins
        if any(one.kind == "glue" for one in join.fastenings)
    ]
    area = glued(piece)
    if not joins and not area:
        why = "no join line glues" if plan.steps else "the plan has no steps that can be read"
        return Group("glue", "Glue", tuple([_unused(one, own, plan, why) for one in bought]))
    needed = _glue_needed(piece, area, certain=_all_met(piece, joins))
    first = bought[0] if bought else None
    waterproof = where is True or (first is not None and first.waterproof)
    as_written = own.of(first)
    bottle = "" if needed is None else f", a bottle of {bottle_for(needed.high, is_metric(plan))[1]} or more"
    number = 1 if needed is None else bottle_for(needed.high, is_metric(plan))[0]
    if first is not None:
        number = max(number, first.number) if number > 1 else first.number
    wet = as_written is not None and where is True and first is not None and not first.waterproof
    line = Line(
        what=("waterproof glue" if waterproof else "wood glue") + bottle,
        needed=needed,
        buy=number,
        spare=None,
        own=as_written,
        difference="changed" if wet else differs(number, as_written),
        why=_glue_why(area, needed, units, wet=wet),
        price=None if first is None else first.price,
        notes=(glue_rate(),) if needed is not None else (),
    )
    rest = [_unused(one, own, plan, "the first does") for one in bought[1:]]
    return Group("glue", "Glue", (line, *rest))


def _all_met(piece: Piece, joins: Sequence[Join]) -> bool:
    """Whether the area of every glued join is known."""
    met = {id(meeting.join) for meeting in piece.meetings}
    unmet = {id(one.join) for one in piece.unmet}
    glued_joins = {id(join) for join in joins}
    return not piece.unplaced_names and glued_joins <= met and not glued_joins & unmet


def _glue_needed(piece: Piece, area: float, *, certain: bool) -> Measure | None:
    if not area:
        return None
    low, high = glue_for(area)
    return Measure("mass", low, high, not certain)


def _glue_why(area: float, needed: Measure | None, units: str, *, wet: bool) -> str:
    outdoors_words = "the piece stands outdoors; " if wet else ""
    if needed is None:
        return f"{outdoors_words}the glued area is not known: the parts have no place"
    return f"{outdoors_words}for {shown(Measure('area', area, area, needed.at_least), units)} of glued joints"


def _unused(purchase: Purchase, own: OwnList, plan: Plan, why: str) -> Line:
    as_written = own.of(purchase)
    return Line(
        what=article(purchase, plan.heading.units),
        needed=None,
        buy=purchase.number,
        spare=None,
        own=as_written,
        difference="not checked",
        why=why,
        price=purchase.price,
        notes=(),
    )
