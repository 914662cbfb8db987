"""Findings in words. Guards against misleading numbers, wrong marks, lost counts, floods of findings."""

from __future__ import annotations

import pytest

from planlint.judge.finding import Edit, Verdict
from planlint.show.wording import tally, word_finding, word_plan
from planlint.source import Span
from tests.show.cases import (
    PLAN,
    RULES,
    SHORT,
    WIDE,
    gap_finding,
    length,
    screw_finding,
    source,
    span,
    verdict,
)


def test_the_sentence_holds_the_numbers_in_the_plans_unit() -> None:
    worded = word_finding(screw_finding(), SHORT, source(), "in")
    assert worded.says == "The screw passes 3 1/2 in, and only 1/2 in is left; it needs 3/4 in."
    assert worded.fix == "Use 4 in screws."
    metric = word_finding(screw_finding(), SHORT, source(), "mm")
    assert metric.says == "The screw passes 88.9 mm, and only 12.7 mm is left; it needs 19.3 mm."


def test_two_numbers_of_one_finding_that_differ_are_told_apart() -> None:
    finding = screw_finding()
    values = {**finding.values, "embedment": length(0.7448)}
    worded = word_finding(finding._replace(values=values), SHORT, source(), "in")
    assert "only 3/4 in is left; it needs 49/64 in" in worded.says


def test_the_words_to_change_are_marked_with_what_they_become() -> None:
    worded = word_finding(screw_finding(), SHORT, source(), "in")
    marked = [(q.line, q.text[q.first - 1 : q.last - 1], q.label) for q in worded.quoted]
    assert marked == [(6, "3 in", "make it 4 in"), (4, "3 in", "make it 4 in")]


def test_words_to_add_or_take_out_are_marked_where_they_belong() -> None:
    # an empty span would get no mark at all
    finding = screw_finding()
    assert finding.mend is not None
    end = span("glue waterproof").end
    edits = (Edit(Span(end, end), None, " plugged", ""), Edit(span(" in plugged"), None, "", ""))
    worded = word_finding(finding._replace(mend=finding.mend._replace(edits=edits)), SHORT, source(), "in")
    taken, added = worded.quoted
    assert (taken.line, taken.label, taken.text[taken.first - 1 : taken.last - 1]) == (
        6,
        "take out",
        " in plugged",
    )
    assert (added.line, added.label, added.first) == (7, "add plugged", len(added.text))


def test_without_an_edit_the_flagged_words_are_marked() -> None:
    worded = word_finding(gap_finding(), WIDE, source(), "in")
    quoted = worded.quoted[0]
    assert (quoted.line, quoted.label) == (9, "here")
    assert quoted.text[quoted.first - 1 : quoted.last - 1].startswith("seat: seat-slat")


def test_a_finding_over_two_lines_marks_both() -> None:
    start, end = span("2 wood-screws", after="step").start, span("at 5/8").end
    worded = word_finding(gap_finding()._replace(span=Span(start, end)), WIDE, source(), "in")
    marked = [(q.line, q.text[q.first - 1 : q.last - 1], q.label) for q in worded.quoted]
    assert marked[1] == (7, "at 5/8", "here")
    assert marked[0][1].startswith("2 wood-screws") and marked[0][1].endswith("1/8,")


def test_equal_faults_are_counted_and_named() -> None:
    worded = word_finding(screw_finding(), SHORT, source(), "in")
    assert worded.others == "8 alike, on leg-fl, leg-fr, leg-bl and leg-br."
    assert word_finding(gap_finding(), WIDE, source(), "in").others == ""


@pytest.mark.parametrize(
    ("rows", "names", "others"),
    [
        (2, ("leg-l", "leg-r"), "2 alike: leg-l and leg-r."),
        (4, ("leg-l + rail", "leg-r + rail"), "4 alike, in 2 joints: leg-l + rail and leg-r + rail."),
        (2, ("leg-l + rail",), "2 alike, in 1 joint: leg-l + rail."),
        (3, (), "3 alike."),
    ],
)
def test_four_screws_in_two_joints_are_not_said_to_be_two(
    rows: int, names: tuple[str, ...], others: str
) -> None:
    finding = gap_finding()._replace(rows=rows, names=names)
    assert word_finding(finding, WIDE, source(), "in").others == others


def test_equal_faults_on_lines_that_are_not_quoted_are_told_by_line() -> None:
    finding = gap_finding()._replace(rows=2, names=("seat", "back"), spans=(gap_finding().span, span("step")))
    assert word_finding(finding, WIDE, source(), "in").others == "2 alike (lines 5 and 9): seat and back."


def test_consequences_are_counted() -> None:
    assert word_finding(screw_finding(), SHORT, source(), "in").consequences == (
        "2 more findings may change when this is mended."
    )
    one = word_finding(screw_finding()._replace(consequences=1), SHORT, source(), "in")
    assert one.consequences == "1 more finding may change when this is mended."


def test_a_computed_mend_without_words_is_said_anyway() -> None:
    worded = word_finding(screw_finding()._replace(said=(0, 0, -1)), SHORT, source(), "in")
    assert worded.fix == "Change the screw length from 3 in to 4 in."


def test_more_than_five_of_one_rule_are_three_and_a_count() -> None:
    many = Verdict((*[screw_finding()] * 7, gap_finding()), ())
    report = word_plan(source(), "Bench", "in", many, RULES)
    assert [worded.finding.rule for worded in report.shown] == ["screw-embedment"] * 3 + ["gap-too-wide"]
    assert report.more == {2: "4 more of “A screw that stops short”, line 6."}
    assert report.tally == "7 stop (line 6), 1 to check."


def test_five_of_one_rule_are_all_shown() -> None:
    report = word_plan(source(), "Bench", "in", Verdict((screw_finding(),) * 5, ()), RULES)
    assert len(report.shown) == 5 and not report.more


def test_accepted_findings_are_listed_and_not_counted() -> None:
    report = word_plan(source(), "Bench", "in", verdict(), RULES)
    assert report.accepted == ("Line 6: A hole in view, because “stands against the shed”",)
    assert report.tally == "1 stop (line 6), 1 to check; 1 accepted; 3 rules not checked in full."


def test_what_was_not_checked_is_put_together_by_reason() -> None:
    report = word_plan(source(), "Bench", "in", verdict(), RULES)
    first, second = report.unmade
    assert first.titles == ("Too little hardware", "A hole in view")
    assert (first.add, first.lines) == ("a `glue` line in `buy`", (3, 5))
    assert second.lines == ()


def test_nothing_found_is_not_said_to_be_sound() -> None:
    assert tally(Verdict((), ()), source()) == "Nothing found."
    assert (
        tally(Verdict((), verdict().not_checked), source()) == "Nothing found; 3 rules not checked in full."
    )


def test_the_plan_is_quoted_without_its_line_end() -> None:
    crlf = PLAN.replace("\n", "\r\n")
    finding = gap_finding()._replace(span=span("seat: seat-slat", crlf))
    assert "\r" not in word_finding(finding, WIDE, source(crlf), "in").quoted[0].text
