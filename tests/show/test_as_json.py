"""The JSON output. Guards against: a missing key, a wrong unit or column, text that is no JSON."""

from __future__ import annotations

import json
from typing import Any

from planlint.judge.finding import Value, Verdict
from planlint.show.as_json import as_json, plan_json, unusable_json
from planlint.show.report import Unusable
from tests.show.cases import PLAN, RULES, gap_finding, screw_finding, source, verdict

FINDING_KEYS = {
    "rule", "title", "severity", "line", "column", "end_line", "end_column", "message", "why", "fix", "caution",
    "values", "mend", "count", "names", "lines", "may_change", "accepted",
}  # fmt: skip


def plan(of: Verdict) -> Any:
    text = as_json([plan_json(source(), "Allotment bench", "in", of, RULES)])
    return json.loads(text)["plans"][0]


def test_every_promised_key_is_there() -> None:
    made = plan(verdict())
    assert {"path", "title", "findings", "not_checked"} <= set(made)
    assert (made["path"], made["title"]) == ("samples/allotment-bench.plan", "Allotment bench")
    for finding in made["findings"]:
        assert set(finding) == FINDING_KEYS
        assert all(set(value) == {"value", "unit"} for value in finding["values"].values())
    for each in made["not_checked"]:
        assert {"rule", "line", "reason"} <= set(each)


def test_values_are_in_base_units() -> None:
    finding = plan(Verdict((screw_finding(),), ()))["findings"][0]
    assert finding["values"]["through"] == {"value": 88.9, "unit": "mm"}
    kinds = {
        "angle": (12.0, "deg"), "mass": (2.0, "kg"), "force": (3.0, "N"), "moisture": (5.0, "%"),
        "number": (7.0, ""), "word": ("oak", ""), "flag": (True, ""), "area": (4.0, "mm2"),
    }  # fmt: skip
    values = {**screw_finding().values, **{kind: Value(value, kind) for kind, (value, _) in kinds.items()}}
    made = plan(Verdict((screw_finding()._replace(values=values),), ()))["findings"][0]["values"]
    assert {kind: (made[kind]["value"], made[kind]["unit"]) for kind in kinds} == kinds


def test_a_mend_tells_old_and_new_and_its_edits_make_the_new_plan() -> None:
    finding = plan(Verdict((screw_finding(),), ()))["findings"][0]
    mend = finding["mend"]
    assert mend["change"] == "screw length"
    assert mend["from"] == {"value": 76.2, "unit": "mm"}
    assert mend["to"] == {"value": 101.6, "unit": "mm"}
    assert (mend["text"], finding["fix"]) == ("4 in", "Use 4 in screws.")
    lines = PLAN.split("\n")
    for edit in mend["edits"]:
        line = lines[edit["line"] - 1]
        assert edit["line"] == edit["end_line"]
        lines[edit["line"] - 1] = line[: edit["column"] - 1] + edit["text"] + line[edit["end_column"] - 1 :]
    assert "\n".join(lines) == PLAN.replace("#10 x 3 in", "#10 x 4 in")


def test_advice_in_words_has_no_mend() -> None:
    finding = plan(Verdict((gap_finding(),), ()))["findings"][0]
    assert finding["mend"] is None
    assert finding["fix"] == "Set one more slat, ripped to 3 in."


def test_equal_faults_tell_every_line_they_stand_on() -> None:
    spread = screw_finding()._replace(spans=(screw_finding().span, gap_finding().span))
    assert plan(Verdict((spread,), ()))["findings"][0]["lines"] == [6, 9]


def test_lines_and_columns_count_from_one() -> None:
    finding = plan(Verdict((gap_finding(),), ()))["findings"][0]
    line = PLAN.split("\n")[finding["line"] - 1]
    assert line[finding["column"] - 1 : finding["end_column"] - 1] == line.strip()


def test_every_finding_is_there_however_many() -> None:
    assert len(plan(Verdict((screw_finding(),) * 9, ()))["findings"]) == 9


def test_what_is_accepted_or_unknown_is_marked() -> None:
    made = plan(verdict())
    assert [finding["accepted"] for finding in made["findings"]] == [None, None, "stands against the shed"]
    assert [each["line"] for each in made["not_checked"]] == [3, 5, None]


def test_infinity_and_the_unknown_are_null() -> None:
    values = {**screw_finding().values, "a": Value(float("inf"), "length"), "b": Value(None, "unknown")}
    made = plan(Verdict((screw_finding()._replace(values=values),), ()))["findings"][0]["values"]
    assert (made["a"]["value"], made["b"]["value"]) == (None, None)


def test_a_file_that_cannot_be_used_is_listed_with_its_reason() -> None:
    made = json.loads(as_json([unusable_json(Unusable("x.plan", "It is a folder."))]))
    assert made == {
        "plans": [
            {"path": "x.plan", "title": "", "findings": [], "not_checked": [], "unusable": "It is a folder."}
        ]
    }
