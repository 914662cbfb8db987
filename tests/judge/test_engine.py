"""Judging rows: findings, what is together in one, what is not checked, and the mend."""

from __future__ import annotations

from typing import Any

import pytest

from planlint.judge.engine import judge
from planlint.judge.finding import Edit, NotChecked, Value
from planlint.judge.functions import FUNCTIONS, register
from planlint.judge.template import NOT_KNOWN, wording
from planlint.observe.facts import Facts, Gap, Missing, Row
from planlint.source import Span
from tests.judge.toy import BOARD, INCH, book, facts, rule, screw

HERE = Missing("no place is stated", "a place")


def found(*rows: Row, **keys: str | None) -> Any:
    """The verdict of one rule on these rows."""
    return judge(facts(*rows), sound(rule("too-short", **keys)))


def sound(*rules: tuple[str, str]) -> Any:
    made = book(*rules)
    assert made.faults == ()
    return made


def test_a_finding_holds_what_was_measured_and_what_is_needed() -> None:
    (finding,) = found(screw(7)).findings
    assert (finding.rule, finding.severity, finding.span) == ("too-short", "stop", Span(7, 8))
    assert finding.values["embedment"] == Value(0.5 * INCH, "length")
    assert finding.values["needed"].value == pytest.approx(0.76 * INCH)
    assert finding.names == ("screw",)
    assert finding.related == (("length", Span(7, 8)),)


def test_where_leaves_other_rows_alone() -> None:
    assert found(screw(pocketed=True), screw(threaded=False)).findings == ()


@pytest.mark.parametrize(
    ("embedment", "severity"), [(0.5, "stop"), (1.5, "check"), (2.5, "hint"), (3.5, None)]
)
def test_the_first_severity_that_is_true_wins(embedment: float, severity: str | None) -> None:
    levels = "{stop: embedment < 1 in, check: embedment < 2 in, hint: embedment < 3 in}"
    findings = found(screw(embedment=embedment * INCH), severity=levels).findings
    assert [finding.severity for finding in findings] == ([severity] if severity else [])


def test_findings_come_by_place_and_then_by_rule() -> None:
    rules = sound(rule("b-rule"), rule("a-rule"))
    findings = judge(facts(screw(9), screw(2)), rules).findings
    assert [(one.span.start, one.rule) for one in findings] == [
        (2, "a-rule"), (2, "b-rule"), (9, "a-rule"), (9, "b-rule"),
    ]  # fmt: skip


# --- what is one finding ------------------------------------------------------------------------


def test_rows_of_the_same_words_are_one_finding_with_a_count() -> None:
    (finding,) = found(screw(3, name="s.1"), screw(3, name="s.2"), screw(3, name="s.1")).findings
    assert (finding.rows, finding.names) == (3, ("s.1", "s.2"))


def test_rows_of_other_words_are_findings_of_their_own() -> None:
    assert len(found(screw(3), screw(4)).findings) == 2


def test_group_puts_rows_with_equal_columns_together() -> None:
    rows = screw(3), screw(4), screw(5, join="slat to rail")
    assert [one.rows for one in found(*rows, group="[join]").findings] == [2, 1]


def test_the_last_digits_of_a_float_do_not_part_a_group() -> None:
    rows = screw(3, embedment=0.2 * INCH), screw(4, embedment=0.2 * INCH + 1e-12)
    assert [one.rows for one in found(*rows, group="[embedment]").findings] == [2]


def test_a_finding_keeps_the_words_of_every_row() -> None:
    (finding,) = found(screw(3), screw(4), screw(4), group="[join]").findings
    assert len(finding.spans) == 2


def test_a_group_of_two_severities_is_two_findings() -> None:
    levels = "{stop: embedment < 0.3 in, check: embedment < 1 in}"
    rows = screw(3, embedment=0.2 * INCH), screw(4)
    assert [one.severity for one in found(*rows, group="[join]", severity=levels).findings] == [
        "stop",
        "check",
    ]


def test_once_a_plan_is_one_finding_at_the_first_place() -> None:
    (finding,) = found(screw(9), screw(3), screw(5), once="plan").findings
    assert (finding.rows, finding.span) == (3, Span(3, 4))


def test_worst_gives_the_numbers_that_are_shown() -> None:
    rows = screw(3), screw(4, embedment=0.1 * INCH), screw(5, embedment=HERE)
    (finding,) = found(*rows, once="plan", worst="needed - embedment").findings
    assert finding.values["embedment"].value == pytest.approx(0.1 * INCH)
    assert finding.span == Span(3, 4)


# --- what is not known ----------------------------------------------------------------------------


def test_a_value_that_is_not_known_is_not_checked_and_never_passed() -> None:
    verdict = found(screw(3, embedment=HERE))
    assert verdict.findings == ()
    assert verdict.not_checked == (NotChecked("too-short", Span(3, 4), "no place is stated", "a place"),)


def test_not_checked_is_said_once_a_reason() -> None:
    other = Missing("the wood is not known", "the wood")
    rows = screw(3, embedment=HERE), screw(4, embedment=HERE), screw(5, depth=other)
    assert [(one.span, one.reason) for one in found(*rows).not_checked] == [
        (Span(3, 4), "no place is stated"),
        (Span(5, 6), "the wood is not known"),
    ]


def test_an_unknown_let_matters_only_where_it_is_used() -> None:
    levels = "{stop: embedment < 1 in}"
    assert len(found(screw(depth=HERE), severity=levels, says="Short.").findings) == 1


def test_a_row_that_the_rule_is_not_about_may_be_unknown() -> None:
    assert found(screw(embedment=HERE, pocketed=True)).not_checked == ()


def test_a_gap_makes_every_rule_about_its_table_not_checked() -> None:
    observed = facts(screw())
    observed.gaps.append(Gap("fastener", "the rail has no place", "a `place` entry", Span(20, 24)))
    verdict = judge(observed, sound(rule("too-short"), rule("too-thin", about="board", where=None, let=None,
        severity="{check: thick < 1 in}", says="Thin.", names="name")))  # fmt: skip
    assert verdict.not_checked == (
        NotChecked("too-short", Span(20, 24), "the rail has no place", "a `place` entry"),
    )
    assert len(verdict.findings) == 1


def test_a_row_with_and_a_row_without_an_unknown_value_are_judged_alike() -> None:
    rows = screw(3), screw(4, weight=HERE), screw(5, load=HERE), screw(6, embedment=3 * INCH, weight=HERE)
    asking = "{stop: known(load) and embedment < needed}"
    assert [one.span.start for one in found(*rows, severity=asking).findings] == [3, 4]


def test_rows_that_a_rule_reads_alike_are_each_a_fault_with_its_own_values() -> None:
    """Equal facts are judged once; the second row must not get the first one's name, nor go missing."""
    rows = screw(1, name="a", patch=1.0), screw(3, name="b", patch=2.0), screw(5, name="c", held=HERE)
    findings = found(*rows).findings
    assert [(finding.span.start, finding.names) for finding in findings] == [
        (1, ("a",)),
        (3, ("b",)),
        (5, ("c",)),
    ]


def test_rows_that_only_a_let_tells_apart_are_judged_apart() -> None:
    rows = screw(1), screw(3, diameter=0.1 * INCH)  # 4 diameters are 0.76 and 0.4 in; 0.5 in are left
    assert [finding.span.start for finding in found(*rows).findings] == [1]


def test_a_sum_without_an_answer_is_not_checked() -> None:
    stop = "{stop: embedment / share < needed}"
    (unchecked,) = found(screw(3, share=0.0), severity=stop).not_checked
    assert unchecked.reason == "it would be divided by nothing"
    asking = "{stop: known(most) and embedment < most}"
    assert (
        found(screw(3, share=0.0), let="{most: 1 in / share}", severity=asking, says="Ok.").not_checked == ()
    )


def test_one_rules_let_is_not_another_rules_value() -> None:
    first = rule("first", let="{better: held}", severity='{check: "true"}', says='"{better}"')
    mend = """
  let: {better: "1 in / share"}
  change: {length: better}"""
    second = rule("second", mend=mend, severity='{check: "true"}', let=None, says='"{better}"')
    findings = judge(facts(screw(share=0.0)), sound(first, second)).findings
    assert [one.values["better"] for one in findings] == [Value(2.5 * INCH, "length"), NOT_KNOWN]


def test_no_rows_no_findings() -> None:
    assert judge(Facts(), sound(rule("too-short"))).findings == ()


# --- texts ------------------------------------------------------------------------------------------


def worded(*rows: Row, **keys: str | None) -> Any:
    made = sound(rule("too-short", **keys))
    return wording(made.rules["too-short"], judge(facts(*rows), made).findings[0])


def test_a_text_is_words_and_values_in_turn() -> None:
    texts = worded(screw(), says="Only {embedment} of {2 * held} in {name}.")
    measured, doubled, name = Value(0.5 * INCH, "length"), Value(5 * INCH, "length"), Value("screw", "word")
    assert texts.says == ("Only ", measured, " of ", doubled, " in ", name, ".")


def test_the_first_text_that_fits_is_said() -> None:
    texts = worded(
        screw(), says="[{when: pocketed, say: Pocket.}, {when: known(held), say: Held.}, {say: Else.}]"
    )
    assert texts.says == ("Held.",)


def test_a_value_that_is_not_known_is_said_to_be_so() -> None:
    assert worded(screw(weight=HERE), says="It weighs {weight}.").says[1] == NOT_KNOWN


def test_a_fix_with_an_unknown_value_is_passed_over() -> None:
    texts = worded(screw(weight=HERE), fix='[{say: "Carry {weight}."}, {say: Weigh it.}]')
    assert texts.fix == ("Weigh it.",)


def test_no_fix_fits_no_fix_is_said() -> None:
    assert worded(screw(weight=HERE), fix='"Carry {weight}."').fix == ()


def test_a_text_may_name_the_count_the_pieces_and_the_severity() -> None:
    texts = worded(screw(name="s.1"), screw(name="s.2"), says="A {severity} of {rows} screws, {names}.")
    assert [piece.value for piece in texts.says if isinstance(piece, Value)] == ["stop", 2.0, ("s.1", "s.2")]


# --- mends ------------------------------------------------------------------------------------------


@pytest.fixture(autouse=True)
def trade() -> Any:
    """A toy of the trade: screws are sold in whole inches up to 6."""

    @register(("length", "length"), "length")
    def next_toy_length(least: float, most: float) -> float | Missing:
        sold = [inches * INCH for inches in range(1, 7)]
        return next((one for one in sold if least <= one <= most), Missing("none is sold", ""))

    yield
    del FUNCTIONS["next_toy_length"]


MEND = """
  let: {better: "next_toy_length(held + needed, 6 in)"}
  change: {screw length: better}
  was: length
  edits: {length: better, bought_length: better}"""


def test_a_mend_is_computed_and_edits_only_the_words_that_are_there() -> None:
    (finding,) = found(screw(3), mend=MEND).findings
    four = Value(4 * INCH, "length")
    assert finding.mend.change == "screw length"
    assert (finding.mend.was, finding.mend.to) == (Value(3 * INCH, "length"), four)
    assert finding.mend.edits == (Edit(Span(3, 4), four, None, ""),)


def test_a_mend_edits_the_words_of_every_row_of_its_finding_once() -> None:
    rows = screw(3), screw(3), screw(5, held=3.5 * INCH)
    (finding,) = found(*rows, mend=MEND, once="plan").findings
    assert [(edit.span.start, edit.value.value / INCH) for edit in finding.mend.edits] == [(3, 4.0), (5, 5.0)]


def test_no_length_sold_no_mend() -> None:
    (finding,) = found(screw(held=5.9 * INCH), mend=MEND).findings
    assert finding.mend is None


def test_texts_use_what_the_mend_computes() -> None:
    fix = '[{when: known(better), say: "Use {better}."}, {say: No screw is long enough.}]'
    assert worded(screw(), mend=MEND, fix=fix).fix[1] == Value(4 * INCH, "length")
    assert worded(screw(held=5.9 * INCH), mend=MEND, fix=fix).fix == ("No screw is long enough.",)


def test_the_first_mend_that_fits_is_taken_and_advice_has_no_edits() -> None:
    mends = """
  - {when: pocketed, change: {angle: lean}}
  - {change: {weight: weight}}
  - {change: {part: held - 1 in}}"""
    (finding,) = found(screw(weight=HERE), mend=mends).findings
    assert (finding.mend.change, finding.mend.edits) == ("part", ())


def test_a_text_may_use_what_a_mend_after_the_taken_one_computes() -> None:
    """Else the text of the first mend's finding would fail on a name that only the second one's fills."""
    mends = """
  - {let: {less: held}, change: {part: less}}
  - {let: {less: embedment, more: length}, change: {part: more}}"""
    texts = worded(screw(), mend=mends, fix="Take {less} or {more}.").fix
    assert texts == ("Take ", Value(2.5 * INCH, "length"), " or ", Value(3 * INCH, "length"), ".")


def test_a_word_is_edited_as_text() -> None:
    mend = """
  change: {kind: '"deck-screw"'}
  edits: {length: '"deck-screw"'}"""
    (finding,) = found(screw(3), mend=mend).findings
    assert finding.mend.edits == (Edit(Span(3, 4), None, "deck-screw", ""),)


def test_board_rows_are_not_fastener_rows() -> None:
    board = Row({"name": "leg", "piece": "leg", "thick": 1.0}, Span(0, 1))
    assert judge(facts(board, table=BOARD), sound(rule("too-short"))).findings == ()
