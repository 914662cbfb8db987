"""What rules silence each other, settled when the rules are read: rings and columns that do not fit are refused."""

from __future__ import annotations

from collections.abc import Mapping

from planlint.judge.rule import Rule, RuleFault, Silence
from planlint.judge.rulefile import RuleFile
from planlint.observe.facts import Table


def settled(files: list[RuleFile], tables: Mapping[str, Table]) -> tuple[list[Rule], list[RuleFault]]:
    """The sound rules, causes before what they silence; and what is wrong with their `silences`."""
    rules = {file.id: file.rule for file in files if file.rule is not None}
    faults: list[RuleFault] = []
    for file in files:
        if file.rule is not None:
            silences, says = _resolved(file.rule, rules, tables)
            rules[file.id] = file.rule._replace(silences=silences)
            faults += [RuleFault(file.rule.path, file.silences_line, 1, text) for text in says]
    lines = {file.id: file.silences_line for file in files}
    return _causes_first(rules, lines, faults), faults


def _resolved(
    rule: Rule, rules: Mapping[str, Rule], tables: Mapping[str, Table]
) -> tuple[tuple[Silence, ...], list[str]]:
    silences, says = [], []
    for silence in rule.silences:
        ids: list[str] = []
        for name in silence.rules:
            whole_chapter = name not in rules
            named = [
                one for one in rules.values() if whole_chapter and one.chapter == name and one.id != rule.id
            ]
            for other in named if whole_chapter else [rules[name]]:
                clash = _clash(silence, tables[rule.about], tables[other.about])
                if clash is None:
                    ids.append(other.id)
                elif not whole_chapter:
                    says.append(f"`{rule.id}` can't silence `{other.id}`: {clash}")
        silences.append(silence._replace(rules=tuple(dict.fromkeys(ids))))
    return tuple(silences), says


def _clash(silence: Silence, own_table: Table, other_table: Table) -> str | None:
    """Why the columns of a `same` can't be held against each other."""
    for own, theirs in silence.same:
        column = other_table.columns.get(theirs)
        if column is None:
            return f"the table `{other_table.name}` has no column `{theirs}`"
        kinds = {own_table.columns[own].kind, column.kind}
        if len(kinds) > 1 and kinds != {"word", "words"}:
            return f"`{own}` is a {own_table.columns[own].kind} and `{theirs}` a {column.kind}"
    return None


def _causes_first(rules: dict[str, Rule], lines: Mapping[str, int], faults: list[RuleFault]) -> list[Rule]:
    """The rules ordered so that a cause stands before what it silences. A ring is a fault; it silences nothing."""
    waiting = dict.fromkeys(rules, 0)
    for rule in rules.values():
        for name in _silenced(rule):
            waiting[name] += 1
    ordered: list[Rule] = []
    while waiting:
        free = next((name for name, causes in waiting.items() if causes == 0), None)
        if free is None:
            free = _in_ring(rules, waiting)
            says = f"the rules {', '.join(sorted(waiting))} silence each other in a ring"
            faults.append(RuleFault(rules[free].path, lines[free], 1, says))
            for name in _silenced(rules[free]) & waiting.keys():
                waiting[name] -= 1
            rules[free] = rules[free]._replace(silences=())
            continue
        del waiting[free]
        ordered.append(rules[free])
        for name in _silenced(rules[free]) & waiting.keys():
            waiting[name] -= 1
    return ordered


def _in_ring(rules: Mapping[str, Rule], waiting: Mapping[str, int]) -> str:
    """A rule that is part of a ring: following causes backward from any that waits must come round."""
    name, seen = next(iter(waiting)), set[str]()
    while name not in seen:
        seen.add(name)
        name = next(cause for cause in waiting if name in _silenced(rules[cause]))
    return name


def _silenced(rule: Rule) -> set[str]:
    return {name for silence in rule.silences for name in silence.rules}
