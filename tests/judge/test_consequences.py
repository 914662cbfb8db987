"""One mistake, one finding: what an open cause silences, and what the plan accepts."""

from __future__ import annotations

from typing import Any

from planlint.judge.accepting import Acceptance
from planlint.judge.engine import judge
from planlint.observe.facts import Missing, Row
from planlint.source import Span
from tests.judge.toy import BOARD, INCH, book, facts, rule, screw

ALWAYS = '{check: "true"}'
STALE = rule(
    "stale", about="accept_entry", where="not not_checked and not silenced", let=None, names=None,
    severity="{check: matches == 0}", says="It accepts nothing of {rule}.",
)  # fmt: skip


def said(verdict: Any) -> list[tuple[str, int]]:
    return [(finding.rule, finding.consequences) for finding in verdict.findings]


def silences(rules: str, same: str | None = "join", when: str | None = None) -> str:
    parts = [f"rules: [{rules}]"] + ([f"same: {same}"] if same else []) + ([f"when: {when}"] if when else [])
    return f"[{{{', '.join(parts)}}}]"


def test_a_consequence_is_counted_and_not_shown() -> None:
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS))
    assert said(judge(facts(screw()), rules)) == [("cause", 1)]


def test_another_join_has_other_causes() -> None:
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS))
    other = screw(9, join="other", embedment=3 * INCH)
    assert said(judge(facts(screw(), other), rules)) == [("cause", 1), ("effect", 0)]


def test_equal_consequences_count_as_the_one_finding_they_would_be() -> None:
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS))
    assert said(judge(facts(screw(3), screw(3), screw(5)), rules)) == [("cause", 2), ("cause", 0)]


def test_words_need_only_one_in_common() -> None:
    rules = book(
        rule("cause", silences=silences("effect", "parts"), severity="{stop: held < 1 in}"),
        rule("effect", severity=ALWAYS),
    )
    shared = (
        screw(1, held=0.0, parts=("leg", "rail")),
        screw(2, parts=("rail", "slat")),
        screw(3, parts=("slat",)),
    )
    assert said(judge(facts(*shared), rules)) == [("cause", 2), ("effect", 0)]


def test_the_column_of_another_table_may_have_another_name() -> None:
    rules = book(
        rule("cause", silences=silences("thin", "{parts: piece}")),
        rule("thin", about="board", where=None, let=None, severity="{check: thick < 1 in}", says="Thin."),
    )
    assert rules.faults == ()
    observed = facts(screw())
    boards = [Row({"name": n, "piece": n, "thick": 1.0}, Span(50, 51)) for n in ("leg", "slat")]
    observed.add(BOARD, boards)
    assert said(judge(observed, rules)) == [("cause", 1), ("thin", 0)]


def test_all_columns_of_same_must_agree() -> None:
    rules = book(
        rule("cause", silences=silences("effect", "[join, kind]"), severity="{stop: held < 1 in}"),
        rule("effect", severity=ALWAYS),
    )
    rows = screw(1, held=0.0), screw(2, kind="nail")
    assert said(judge(facts(*rows), rules)) == [("cause", 1), ("effect", 0)]


def test_a_value_that_is_not_known_is_nobodys_cause() -> None:
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS))
    unknown = Missing("no join", "")
    assert said(judge(facts(screw(join=unknown)), rules)) == [("cause", 0), ("effect", 0)]


def test_without_same_every_finding_is_silenced() -> None:
    rules = book(rule("cause", silences=silences("effect", None)), rule("effect", severity=ALWAYS))
    other = screw(9, join="other", embedment=3 * INCH)
    assert said(judge(facts(screw(), other), rules)) == [("cause", 2)]


def test_when_limits_it_to_some_findings() -> None:
    stop_only = silences("effect", when="'severity == \"stop\"'")
    levels = "{stop: embedment < 0.6 in, check: embedment < 2 in}"
    rules = book(rule("cause", silences=stop_only, severity=levels), rule("effect", severity=ALWAYS))
    rows = screw(1), screw(5, join="other", embedment=INCH)
    assert said(judge(facts(*rows), rules)) == [("cause", 1), ("cause", 0), ("effect", 0)]


def test_a_whole_chapter_is_silenced_but_not_the_cause_itself() -> None:
    rules = book(
        rule("cause", silences=silences("fastenings")),
        rule("effect", severity=ALWAYS),
        rule("other", severity=ALWAYS),
        rule("afar", severity=ALWAYS),
        chapters={"afar": "fit"},
    )
    assert said(judge(facts(screw()), rules)) == [("afar", 0), ("cause", 2)]


def test_a_silenced_finding_still_silences_for_the_open_cause() -> None:
    rules = book(
        rule("z-cause", silences=silences("effect")),
        rule("effect", severity=ALWAYS, silences=silences("last")),
        rule("last", severity=ALWAYS),
    )
    assert said(judge(facts(screw()), rules)) == [("z-cause", 2)]


def test_the_first_open_cause_counts_it() -> None:
    rules = book(
        rule("b-cause", silences=silences("effect")),
        rule("a-cause", silences=silences("effect")),
        rule("effect", severity=ALWAYS),
    )
    assert said(judge(facts(screw(3)), rules)) == [("a-cause", 1), ("b-cause", 0)]


def test_a_ring_is_refused_and_no_finding_is_lost_in_it() -> None:
    rules = book(
        rule("first", severity=ALWAYS, silences=silences("second")),
        rule("second", severity=ALWAYS, silences=silences("first")),
    )
    assert ["in a ring" in fault.says for fault in rules.faults] == [True]
    assert [rule for rule, _ in said(judge(facts(screw()), rules))] != []


def test_a_silenced_rule_that_is_not_there_leaves_the_cause_sound() -> None:
    rules = book(rule("cause", silences=silences("efect")), rule("effect", severity=ALWAYS))
    assert [fault.says for fault in rules.faults] == [
        "there is no rule or chapter `efect`; did you mean `effect`?"
    ]
    assert said(judge(facts(screw()), rules)) == [("cause", 0), ("effect", 0)]


def test_a_silenced_rule_without_the_column_is_a_fault() -> None:
    rules = book(
        rule("cause", silences=silences("thin")),
        rule("thin", about="board", where=None, let=None, severity="{check: thick < 1 in}", says="Thin."),
    )
    assert [fault.says for fault in rules.faults] == [
        "`cause` can't silence `thin`: the table `board` has no column `join`"
    ]


# --- what the plan accepts ------------------------------------------------------------------------


def accept(rule_id: str, on: str = "", names: set[str] | None = None) -> Acceptance:
    return Acceptance(rule_id, on, frozenset(names or {on}), "it is a toy", Span(90, 95))


def test_an_accepted_finding_keeps_the_reason_and_is_shown_apart() -> None:
    rules = book(rule("too-short"))
    rows = screw(3, name="s.1"), screw(3, name="s.2")
    findings = judge(facts(*rows), rules, [accept("too-short", "s.1")]).findings
    assert sorted((one.names, one.accepted) for one in findings) == [
        (("s.1",), "it is a toy"),
        (("s.2",), None),
    ]


def test_an_accept_holds_for_every_instance_its_name_stands_for_and_for_related_parts() -> None:
    rules = book(rule("too-short"))
    entry = accept("too-short", "rails", {"rail", "rail.2"})
    assert [one.accepted for one in judge(facts(screw()), rules, [entry]).findings] == ["it is a toy"]


def test_an_accept_of_another_rule_or_part_does_not_hold() -> None:
    rules = book(rule("too-short"))
    entries = [accept("other"), accept("too-short", "slat")]
    assert [one.accepted for one in judge(facts(screw()), rules, entries).findings] == [None]


def test_an_accepted_finding_silences_nothing() -> None:
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS))
    assert said(judge(facts(screw()), rules, [accept("cause")])) == [("cause", 0), ("effect", 0)]


def test_an_accept_that_matches_nothing_is_stale() -> None:
    rules = book(rule("too-short"), STALE)
    assert rules.faults == ()
    sound = screw(embedment=3 * INCH)
    assert said(judge(facts(sound), rules, [accept("too-short")])) == [("stale", 0)]
    assert said(judge(facts(screw()), rules, [accept("too-short")])) == [("too-short", 0)]


def test_an_accept_is_not_stale_while_its_rule_is_not_checked_or_silenced() -> None:
    unknown = screw(embedment=Missing("no place", "a place"))
    assert said(judge(facts(unknown), book(rule("too-short"), STALE), [accept("too-short")])) == []
    rules = book(rule("cause", silences=silences("effect")), rule("effect", severity=ALWAYS), STALE)
    assert said(judge(facts(screw()), rules, [accept("effect", "slat")])) == [("cause", 1)]


def test_a_misspelt_rule_in_an_accept_is_stale_and_offers_the_nearest() -> None:
    stale = rule(
        "stale", about="accept_entry", let=None, names=None, where="not rule_known",
        severity=ALWAYS, says="Did you mean {nearest}?",
    )  # fmt: skip
    (finding,) = judge(
        facts(screw(embedment=3 * INCH)), book(rule("too-short"), stale), [accept("to-short")]
    ).findings
    assert finding.values["nearest"].value == "too-short"
