"""Joins that are glued, and whether the plan's glue stands water."""

from __future__ import annotations

from planlint.build.piece import Piece
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key, pair_name

GLUE = Table(
    "glued_join",
    "a join that is glued",
    {
        "waterproof": Column("flag", "the join line says that the glue is waterproof"),
        "bought_waterproof": Column("flag", "waterproof glue is on the shopping list"),
        "bought": Column("flag", "glue is on the shopping list"),
        "any_plain": Column("flag", "some glued join of the plan does not say that its glue is waterproof"),
        "outdoors": Column("flag", "the piece stands outdoors"),
        "first": Column("word", "the part the join names first"),
        "second": Column("word", "the part the join names second"),
        "parts": Column("words", "both parts"),
        "pair": Column("word", "both parts"),
        "join": Column("word", "the join line; for comparing only"),
    },
    {
        "glue": "the word glue in the join line",
        "bought_glue": "the word glue on the shopping list, if not waterproof",
    },
)

TABLES = (GLUE,)


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every join line with glue."""
    plan = piece.plan
    bought = [one for one in plan.purchases if one.kind == "glue"]
    waterproof = any(one.waterproof for one in bought)
    where: bool | Missing = outdoors(plan)
    plain = any(
        one.kind == "glue" and not one.waterproof
        for step in plan.steps
        for join in step.joins
        for one in join.fastenings
    )
    rows = []
    for step in plan.steps:
        for join in step.joins:
            for fastening in join.fastenings:
                if fastening.kind != "glue":
                    continue
                first, second = str(join.first), str(join.second)
                values: dict[str, object] = {
                    "waterproof": fastening.waterproof,
                    "bought_waterproof": waterproof,
                    "bought": bool(bought),
                    "any_plain": plain,
                    "outdoors": where,
                    "first": first,
                    "second": second,
                    "parts": (first, second),
                    "pair": pair_name(first, second),
                    "join": join_key(join),
                }
                spans = {"glue": fastening.noun.span}
                if len(bought) == 1 and not waterproof:
                    spans["bought_glue"] = bought[0].noun.span
                rows.append(Row(values, fastening.span, spans))
    facts.add(GLUE, rows)
