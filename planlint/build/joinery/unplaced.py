"""Joins whose parts have no place, and fastenings that nobody knows."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.piece import UnplacedFastener
from planlint.build.troubles import Troubles
from planlint.read.plan import CutEntry, Join, Plan, Ref
from planlint.trade.screws import kind
from planlint.trade.tables import rows


def unplaced(plan: Plan, join: Join, reason: str) -> list[UnplacedFastener]:
    """The counted fastenings of a join that cannot be drawn, with the cut-list entries of its names."""
    first, second = listed(plan, join.first), listed(plan, join.second)
    return [
        UnplacedFastener(join, fastening, first, second, reason)
        for fastening in join.fastenings
        if fastening.kind == "counted"
    ]


def listed(plan: Plan, ref: Ref) -> CutEntry | None:
    """The cut-list entry of a name, also of one that `place` gives to its pieces; None for anything else."""
    subjects = {ref.name}
    for placement in plan.placements:
        if ref.name in [word.text for word in placement.names]:
            subjects.add(placement.subject.name)
    return next((entry for entry in plan.parts if entry.name in subjects), None)


def tell_unknown_nouns(plan: Plan, troubles: Troubles) -> None:
    """Fastening nouns that neither the trade tables nor the shopping list have; each once."""
    bought = {purchase.noun.text for purchase in plan.purchases}
    for step in plan.steps:
        for join in step.joins:
            for fastening in join.fastenings:
                if fastening.kind == "counted" and not _known(fastening.noun.text, bought):
                    noun = fastening.noun
                    troubles.unknown(noun.text, "fastening", noun.span, _nouns(bought))


def _known(noun: str, bought: set[str]) -> bool:
    return (
        kind(noun) is not None or noun in bought or f"{noun}s" in bought or noun.removesuffix("s") in bought
    )


def _nouns(bought: Iterable[str]) -> list[str]:
    return sorted({*rows("screws", "kinds"), *rows("screws", "fittings"), *bought})
