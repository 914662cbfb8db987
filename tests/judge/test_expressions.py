"""The rule language: what it computes, and what it refuses before any plan is read."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.judge.checking import Checked, check
from planlint.judge.closures import Unknown, compiled
from planlint.observe.facts import Missing
from tests.judge.toy import KINDS, SCREW, book

CASES = yaml.safe_load((Path(__file__).parent / "expression_cases.yaml").read_text("utf-8"))
BOOK = book()
NAMES = {**KINDS, "tolerance.fit": KINDS["held"], "tolerance.fastening": KINDS["held"]}


def value_of(text: str, metric: bool = False, **changes: object) -> object:
    checked = check(text, NAMES)
    assert isinstance(checked, Checked), checked
    return compiled(checked.code, BOOK.limits(metric))({**SCREW, **changes})


@pytest.mark.parametrize(("text", "value"), CASES["values"])
def test_value(text: str, value: object) -> None:
    found = value_of(text)
    if isinstance(value, float):
        assert found == pytest.approx(value, rel=1e-6)
    else:
        assert found == value


@pytest.mark.parametrize(("text", "says", "start"), CASES["faults"])
def test_fault(text: str, says: str, start: int) -> None:
    faults = check(text, NAMES)
    assert isinstance(faults, list)
    assert faults[0].says.startswith(says)
    assert faults[0].start == start


def test_at_least_one_case_in_eight_expects_a_fault() -> None:
    assert 8 * len(CASES["faults"]) >= len(CASES["values"]) + len(CASES["faults"])


def test_all_faults_of_an_expression_are_said_at_once() -> None:
    faults = check("hld < 1 in and kind and 2 lb > load", NAMES)
    assert isinstance(faults, list)
    assert [fault.start for fault in faults] == [0, 15, 31]


def test_a_long_or_deep_expression_is_refused_and_not_a_traceback() -> None:
    assert isinstance(check("(" * 600 + "1" + ")" * 600, NAMES), list)
    assert isinstance(check("(" * 450 + "1" + ")" * 450, NAMES), Checked)
    assert isinstance(check("-" * 900 + "1", NAMES), list)
    assert isinstance(check("not " * 40 + "threaded", NAMES), Checked)


def test_fit_is_coarser_in_metric_plans() -> None:
    assert value_of("tolerance.fit", metric=True) == 1.0


@pytest.mark.parametrize(
    "text", ["embedment < 1 in", "2 * embedment", "min(embedment, held)", "threaded and embedment < 1 in"]
)
def test_a_value_that_is_not_known_stays_unknown(text: str) -> None:
    missing = Missing("no place is stated", "a place")
    with pytest.raises(Unknown) as met:
        value_of(text, embedment=missing)
    assert met.value.missing == missing
    assert value_of(f"known({text})", embedment=missing) is False


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("known(embedment) and embedment < 1 in", False),
        ("not known(embedment) or embedment < 1 in", True),
        ("embedment if known(embedment) else 7 mm", 7.0),
    ],
)
def test_asking_first_keeps_an_unknown_value_out(text: str, value: object) -> None:
    assert value_of(text, embedment=Missing("", "")) == value


def test_none_is_never_compared() -> None:
    with pytest.raises(TypeError, match="embedment holds None"):
        value_of("embedment < 1 in", embedment=None)


@settings(max_examples=200, deadline=None)
@given(st.floats(0.01, 5000), st.floats(-1e-9, 1e-9))
def test_rounding_never_decides_at_the_limit(limit: float, slip: float) -> None:
    nearly = limit * (1 + slip)
    assert value_of("embedment < held", embedment=nearly, held=limit) is False
    assert value_of("embedment >= held", embedment=nearly, held=limit) is True
    assert value_of("embedment > held", embedment=nearly, held=limit) is False
    assert value_of("embedment == held", embedment=nearly, held=limit) is True


@settings(max_examples=200, deadline=None)
@given(st.text(alphabet="abinkdw019 ./*+-^()[]<>=!,\"'%°", max_size=30))
def test_no_text_ends_in_a_traceback(text: str) -> None:
    assert isinstance(check(text, NAMES), (Checked, list))
