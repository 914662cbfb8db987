"""Findings as JSON, for programs: every finding, every value in base units, every edit by line and column.

`fix` says in words what to do; `mend` is what was computed of it, with the edits that planlint can make. `count` equal
faults are one finding: `names` are their parts, `lines` every line they stand on. `may_change` counts what it hides.

The shape is a promise: keys may be added, none is ever missing. Units are mm, mm2, mm3, deg, kg, N and %;
plain numbers, words and flags have the unit "". Lines and columns count from 1.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isfinite
from typing import Any

from planlint.judge.finding import Edit, Finding, NotChecked, Value, Verdict
from planlint.judge.rule import Rule
from planlint.show.quantities import BASE_UNITS, word_all
from planlint.show.report import Unusable
from planlint.show.rewriting import edited
from planlint.show.wording import word_finding
from planlint.source import Source

Json = dict[str, Any]


def as_json(plans: Iterable[Json]) -> str:
    """The JSON text of what `plan_json` and `unusable_json` made of each file."""
    import json

    return json.dumps({"plans": list(plans)}, indent=2, ensure_ascii=False)


def plan_json(source: Source, title: str, units: str, verdict: Verdict, rules: Mapping[str, Rule]) -> Json:
    """One plan."""
    return {
        "path": source.path,
        "title": title,
        "findings": [_finding(finding, rules[finding.rule], source, units) for finding in verdict.findings],
        "not_checked": [_not_checked(each, source) for each in verdict.not_checked],
    }


def unusable_json(unusable: Unusable) -> Json:
    """A file that could not be read at all."""
    return {
        "path": unusable.path,
        "title": "",
        "findings": [],
        "not_checked": [],
        "unusable": unusable.reason,
    }


def _finding(finding: Finding, rule: Rule, source: Source, units: str) -> Json:
    worded = word_finding(finding, rule, source, units)
    return {
        "rule": finding.rule,
        "title": worded.title,
        "severity": finding.severity,
        **worded.place._asdict(),
        "message": worded.says,
        "values": {name: _value(value) for name, value in finding.values.items()},
        "mend": _mend(finding, source, units),
        "why": worded.why,
        "fix": worded.fix,
        "caution": worded.caution,
        "count": finding.rows,
        "names": list(finding.names),
        "lines": list(worded.lines),
        "may_change": finding.consequences,
        "accepted": finding.accepted,
    }


def _mend(finding: Finding, source: Source, units: str) -> Json | None:
    mend = finding.mend
    if mend is None:
        return None
    both = {"to": mend.to} if mend.was is None else {"from": mend.was, "to": mend.to}
    return {
        "change": mend.change,
        "from": None if mend.was is None else _value(mend.was),
        "to": _value(mend.to),
        "text": word_all(both, units)["to"],
        "edits": [_edit(edit, source, units) for edit in mend.edits],
    }


def _edit(edit: Edit, source: Source, units: str) -> Json:
    return {**source.place(edit.span)._asdict(), "text": edited(edit, source, units)}


def _value(value: Value) -> Json:
    plain = list(value.value) if isinstance(value.value, tuple) else value.value
    if isinstance(plain, float):
        plain = round(plain, 6) if isfinite(plain) else None  # JSON has no infinity
    return {"value": plain, "unit": BASE_UNITS.get(value.kind, "")}


def _not_checked(each: NotChecked, source: Source) -> Json:
    line = None if each.span is None else source.place(each.span).line
    return {"rule": each.rule, "line": line, "reason": each.reason, "add": each.add}
