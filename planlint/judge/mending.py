"""What to change, computed from a finding's rows: the first of a rule's mends that fits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from planlint.judge.closures import Unknown, compiled
from planlint.judge.finding import Edit, Mend, Value
from planlint.judge.rule import Code, Let, MendRecipe, Rule
from planlint.judge.template import holds

if TYPE_CHECKING:
    from planlint.judge.engine import Fault

Values = dict[str, Any]


def mend_for(
    rule: Rule, shown: Fault, group: list[Fault], values: Values, limits: Mapping[str, float]
) -> tuple[Mend | None, Values]:
    """The mend, if one fits, and the values for the texts: with what it computes, and what the others do."""
    taken: Mend | None = None
    own: Values = {}
    computed = dict(values)
    for recipe in rule.mends:
        trial = _with(recipe.lets, values, limits)
        for name, _, _ in recipe.lets:
            computed.setdefault(name, trial[name])
        if taken is None:
            taken = _mend(recipe, shown, group, trial, limits)
            own = {} if taken is None else trial
    return taken, {**computed, **own}


def _with(lets: tuple[Let, ...], values: Values, limits: Mapping[str, float]) -> Values:
    values = dict(values)
    for name, code, _ in lets:
        try:
            values[name] = compiled(code, limits)(values)
        except Unknown as met:
            values[name] = met.missing
    return values


def _mend(
    recipe: MendRecipe, shown: Fault, group: list[Fault], values: Values, limits: Mapping[str, float]
) -> Mend | None:
    if recipe.when is not None and not holds(recipe.when, values, limits):
        return None
    to = _shown(recipe.to, values, limits)
    if to is None:
        return None
    was = _shown(recipe.was, values, limits) if recipe.was else None
    return Mend(recipe.change, was, to, tuple(_edits(recipe, shown, group, values, limits)))


def _shown(code: tuple[Code, str], values: Values, limits: Mapping[str, float]) -> Value | None:
    try:
        return Value(compiled(code[0], limits)(values), code[1])
    except Unknown:
        return None


def _edits(
    recipe: MendRecipe, shown: Fault, group: list[Fault], values: Values, limits: Mapping[str, float]
) -> list[Edit]:
    """The edits of every row the finding stands for, by its own values; the same words are changed once."""
    edits: dict[object, Edit] = {}
    leads = dict(recipe.leads)
    if not recipe.edits:
        return []
    for fault in (shown, *group):
        own = values if fault is shown else _with(recipe.lets, {**values, **fault.values}, limits)
        for name, code, kind in recipe.edits:
            span = fault.row.spans.get(name)
            value = _shown((code, kind), own, limits)
            if span is not None and span not in edits and value is not None:
                text = value.value if kind == "word" else leads.get(name)
                edits[span] = Edit(span, None if kind == "word" else value, text, "")  # type: ignore[arg-type]
    return list(edits.values())
