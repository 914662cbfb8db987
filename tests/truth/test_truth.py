"""What planlint can plant, it finds: a seeded sample of it all. In full: `python -m tests.truth.table`."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from planlint.auditing import rules
from planlint.planting.kinds import KINDS
from planlint.planting.mistake import Change, Edit, lines_to_answer, planted
from planlint.planting.sound import Sound
from planlint.source import Source, Span
from tests.truth.table import GOOD, answered, cases, false_alarms, misses, sound_plans, unexpected

SAMPLE = 400
PER_KIND = 1  # so that a kind with few places is asked too
ANSWERED = 0.99


@pytest.fixture(scope="module")
def plans() -> list[tuple[str, Sound]]:
    return sound_plans()


def test_what_is_planted_is_found(plans: list[tuple[str, Sound]]) -> None:
    """A rule that falls silent, or points at another line, shows here although its own excerpts still pass."""
    chance = random.Random(20)
    every = cases(plans)
    chance.shuffle(every)
    told: Counter[str] = Counter()
    chosen = []
    for case in every:
        told[case.kind.title] += 1
        if told[case.kind.title] <= PER_KIND or len(chosen) < SAMPLE - len(KINDS):
            chosen.append(case)
    answers = [answered(case) for case in chosen]
    found = sum(answer.how in GOOD for answer in answers)
    assert found >= ANSWERED * len(answers), "\n".join(misses(answers))
    assert not unexpected(answers), unexpected(answers)


def test_sound_plans_are_sound(plans: list[tuple[str, Sound]]) -> None:
    """A false alarm in a plan without a mistake would be counted as an answer to whatever is planted there."""
    assert len(plans) >= 27
    assert {name: false_alarms(sound) for name, sound in plans if false_alarms(sound)} == {}


def test_there_are_many_mistakes_of_many_kinds(plans: list[tuple[str, Sound]]) -> None:
    """A planter that finds no place any more would pass every other test."""
    planted_by = Counter(case.kind.title for case in cases(plans))
    assert sum(planted_by.values()) >= 1500
    assert len(planted_by) >= 40
    assert [kind.title for kind in KINDS if not planted_by[kind.title]] == []


def test_every_kind_names_rules_that_exist() -> None:
    known = set(rules().rules)
    for kind in KINDS:
        assert {*kind.rules, *kind.also} <= known, kind.title


def test_every_rule_has_a_kind_of_its_own() -> None:
    assert set(rules().rules) - {rule for kind in KINDS for rule in kind.rules} == set()


def test_the_line_that_must_answer_moves_with_the_edit() -> None:
    """A line put in above once made every later answer count as given elsewhere."""
    source = Source("one\ntwo\nthree\n")
    three = Span(8, 13)
    above = Edit((Change(Span(4, 4), "new\n"), Change(three, "3\n4")), (three,))
    assert planted(source.text, above) == "one\nnew\ntwo\n3\n4\n"
    assert lines_to_answer(source, above) == {4, 5}
