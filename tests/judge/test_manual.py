"""The rule author's manual says what the loader does: its example is read, its tables are complete."""

from __future__ import annotations

import re
from pathlib import Path

from planlint.judge.functions import BUILT_IN, FUNCTIONS, Function
from planlint.judge.lesson import CONFIDENCES
from planlint.judge.rulefile import OPTIONAL, REQUIRED, read_rule
from planlint.observe.facts import Column, Table
from planlint.units import simple_units
from tests.judge.toy import KINDS

MANUAL = (Path(__file__).parents[2] / "rules" / "RULES.md").read_text("utf-8")

SCREWS = Table(
    "fastener",
    "a screw",
    {
        name: Column(kind, "")
        for kind, names in {
            "flag": ("threaded", "pocketed"),
            "length": ("diameter", "receiving_depth", "held", "embedment", "through", "length"),
            "word": ("fastener_name", "first", "second", "gauge", "kind", "join"),
        }.items()
        for name in names
    },
    {"length": "", "bought_length": ""},
)


def test_the_complete_rule_is_sound(monkeypatch) -> None:  # type: ignore[no-untyped-def]
    sold = Function(("word", "length", "length", "length"), "length", lambda *values: values[2])
    monkeypatch.setitem(FUNCTIONS, "next_length_sold", sold)
    example = re.search(r"```yaml\n(rule: .*?)```", MANUAL, re.DOTALL)
    assert example is not None
    others = {"screw-light-for-load": "fastenings", "screw-a-little-short": "fastenings"}
    limits = {"tolerance.fastening": KINDS["held"]}
    read = read_rule(
        "rules/fastenings/screw-embedment.yaml", example[1].encode(), {"fastener": SCREWS}, limits, others
    )
    assert read.faults == []


def test_the_table_of_keys_is_the_loaders() -> None:
    rows = dict(re.findall(r"^\| `(\w+)` \| (yes)? ?\|", MANUAL, re.MULTILINE))
    assert {key for key, needed in rows.items() if needed} == set(REQUIRED)
    assert {key for key, needed in rows.items() if not needed} == set(OPTIONAL)


def test_every_function_unit_and_confidence_is_in_the_manual() -> None:
    for word in (*BUILT_IN, "known", *CONFIDENCES):
        assert word in MANUAL, word
    shown = {"in", "mm", "ft", "deg", "lb", "kg", "N", "lbf", "points", "%"}
    assert shown <= set(simple_units())
