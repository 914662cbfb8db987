"""The truth table: `python -m tests.truth.table [--sample N] [--seed S] [--kind WORDS] [--plan WORDS]`.

Every mistake that planlint can plant is planted in every sound plan, one at a time, and the audit is asked. By rule:
how many were planted, found (that rule, on the line that must answer), found by another (one of the rules that the
kind names besides, where the plan decides which), found elsewhere (on another line) and missed. Misses are listed
with their edit, so that each can be explained. What else a planted mistake provokes must follow from it: findings of
rules that its kind does not name as consequences are listed at the end.
"""

from __future__ import annotations

import argparse
import random
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from planlint.auditing import audit_text
from planlint.planting.kinds import KINDS
from planlint.planting.mistake import Edit, Kind, lines_to_answer, planted
from planlint.planting.sound import Sound

ROOT = Path(__file__).parents[2]
PLANS = sorted([*ROOT.glob("samples/sound/*.plan"), *ROOT.glob("tests/plans/sound/*.plan")])


HOW = ("missed", "elsewhere", "by another", "found")  # the worst answer first
GOOD = HOW[2:]


class Case(NamedTuple):
    """One planted mistake."""

    plan: str
    sound: Sound
    kind: Kind
    edit: Edit


class Answer(NamedTuple):
    """What the audit said of a case: `found`, `by another`, `elsewhere` or `missed`, and what else it said."""

    case: Case
    how: str
    others: tuple[str, ...]
    told: tuple[str, ...]


def sound_plans(plans: Iterable[Path] = PLANS) -> list[tuple[str, Sound]]:
    return [(path.stem, Sound(audit_text(path.read_text(encoding="utf-8"), path.name))) for path in plans]


def false_alarms(sound: Sound) -> list[str]:
    """The stops and checks of a plan that has no mistake."""
    return [
        f"{sound.source.place(finding.span).line} {finding.severity} {finding.rule}"
        for finding in sound.audit.verdict.findings
        if finding.severity != "hint"
    ]


def cases(plans: Iterable[tuple[str, Sound]], kinds: Iterable[Kind] = tuple(KINDS)) -> list[Case]:
    return [
        Case(name, sound, kind, edit)
        for name, sound in plans
        for kind in kinds
        for edit in kind.places(sound)
    ]


def answered(case: Case) -> Answer:
    """Plant it and ask the audit."""
    text = planted(case.sound.text, case.edit)
    audit = audit_text(text, case.plan)
    lines = lines_to_answer(case.sound.source, case.edit)
    before = Counter(finding.rule for finding in case.sound.audit.verdict.findings)
    how, told = "missed", []
    for finding in audit.verdict.findings:
        line = audit.source.place(finding.span).line
        told.append(f"{line} {finding.severity} {finding.rule}")
        if finding.rule in case.kind.rules:
            says = (
                "elsewhere"
                if line not in lines
                else "found"
                if finding.rule == case.kind.rule
                else "by another"
            )
            how = max(how, says, key=HOW.index)
        else:
            before[finding.rule] -= 1
    new = [rule for rule, left in before.items() if left < 0 and rule not in case.kind.rules]
    return Answer(case, how, tuple(new), tuple(told))


def shown(case: Case) -> str:
    """An edit in a line or two: what stood there and what stands there now."""
    told = []
    for change in case.edit.changes:
        line = case.sound.source.place(change.span).line
        told.append(f"{line}: “{case.sound.words(change.span)}” -> “{change.text}”")
    return "; ".join(told).replace("\n", "⏎")


def table(answers: list[Answer], plans: list[tuple[str, Sound]]) -> str:
    """The table by rule, and below it each miss and each finding that no kind expects."""
    by_rule: dict[str, Counter[str]] = {}
    for answer in answers:
        by_rule.setdefault(answer.case.kind.rule, Counter())[answer.how] += 1
    alarms = Counter(line.split()[2] for _, sound in plans for line in false_alarms(sound))
    for rule in alarms:
        by_rule.setdefault(rule, Counter())
    lines = [
        f"{'rule':26}{'planted':>8}{'found':>8}{'by another':>12}{'elsewhere':>11}{'missed':>8}{'false alarms':>14}"
    ]
    total: Counter[str] = Counter()
    for rule in sorted(by_rule):
        counts = by_rule[rule]
        total += counts
        lines.append(_row(rule, counts, alarms[rule]))
    lines += [_row("all", total, sum(alarms.values())), ""]
    lines.append(f"{len(KINDS)} kinds of mistake, {len(by_rule)} rules, {len(plans)} sound plans.")
    return "\n".join(lines)


def _row(rule: str, counts: Counter[str], alarms: int) -> str:
    found = f"{counts['found']:8}{counts['by another']:12}{counts['elsewhere']:11}{counts['missed']:8}"
    return f"{rule:26}{sum(counts.values()):8}{found}{alarms:14}"


def misses(answers: list[Answer]) -> list[str]:
    """Each case that was not answered where it should be: the edit, and what the audit said."""
    told = []
    for case, how, _, said in answers:
        if how not in GOOD:
            lines = sorted(lines_to_answer(case.sound.source, case.edit))
            told.append(
                f"{how}: {case.kind.rule} ({case.kind.title}), {case.plan} {shown(case)}\n"
                f"    must answer on {lines}; said: {', '.join(said) or 'nothing'}"
            )
    return told


def unexpected(answers: list[Answer]) -> Counter[tuple[str, str]]:
    """Findings that no kind names as its consequence, by kind and rule."""
    return Counter(
        (answer.case.kind.title, rule)
        for answer in answers
        for rule in answer.others
        if rule not in answer.case.kind.also
    )


def main() -> None:
    ask = argparse.ArgumentParser(description="What the audit finds of the mistakes that can be planted.")
    ask.add_argument("--sample", type=int, default=0, help="only so many cases, chosen by the seed")
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--kind", default="", help="only kinds whose title or rule holds these words")
    ask.add_argument("--plan", default="", help="only plans whose name holds these words")
    wanted = ask.parse_args()
    plans = sound_plans([path for path in PLANS if wanted.plan in path.stem])
    kinds = [kind for kind in KINDS if any(wanted.kind in word for word in (kind.title, *kind.rules))]
    chosen = cases(plans, kinds)
    if wanted.sample:
        chosen = random.Random(wanted.seed).sample(chosen, min(wanted.sample, len(chosen)))
    answers = [answered(case) for case in chosen]
    print(table(answers, plans))
    print("", *misses(answers), "", sep="\n")
    for (title, rule), count in unexpected(answers).most_common():
        print(f"{count:5}  {title}: {rule}")


if __name__ == "__main__":
    main()
