"""The same piece told from another corner, in a mirror, or in other units, gives the same findings.

A sheet measures from the left or from the right, in inches or in millimetres; an audit that hung on it would tell
two readers of one drawing two things. Each plan's words are turned (`turning.py`); the lines stay.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.auditing import Audit, audit_text
from planlint.geometry.vector import Vec
from tests.rules.files import PATHS as RULES
from tests.rules.files import lesson

from .turning import in_units, mirrored, moved

HERE = Path(__file__).parent
PLANS = sorted([*(HERE.parents[1] / "samples").glob("*/*.plan"), *(HERE / "sound").glob("*.plan")])
each_plan = pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)

# Plans that place nothing have nothing to move or to mirror.
LISTS_ONLY = {"pantry-list", "boot-room-shelves"}

# Words of a value are compared nowhere: of equal parts the first is named, and a mirror has another first.
# These numbers are what the reader is told to make or buy, so they are in steps of the plan's own units.
IN_STEPS_OF_ITS_UNITS = ("step.", "next_")

# (rule, severity, line, rows, what it silences) and its numbers by name
Told = tuple[tuple[str, str, int, int, int], dict[str, float]]
micrometres = st.integers(-5_000_000, 5_000_000).filter(bool)


@cache
def before(path: Path) -> Audit:
    return audit_text(path.read_text(encoding="utf-8"))


def told(audit: Audit) -> list[Told]:
    """What is found, on which line, with its numbers."""
    found: list[Told] = []
    for finding in audit.verdict.findings:
        line = audit.source.line_of(finding.span.start)
        numbers = {k: float(v.value) for k, v in finding.values.items() if isinstance(v.value, (float, int))}
        found.append(
            ((finding.rule, finding.severity, line, finding.rows, finding.consequences), numbers),
        )
    return sorted(found, key=lambda one: (one[0], sorted(one[1].items())))


def unknown(audit: Audit) -> list[tuple[str, str]]:
    """What could not be checked, and why: that is told once, of the first part that has it."""
    return sorted((one.rule, one.reason) for one in audit.verdict.not_checked)


def corners(audit: Audit) -> dict[str, tuple[Vec, Vec]]:
    return {part.name: (part.solid.low, part.solid.high) for part in audit.piece.parts}


def assert_same_findings(turned: Audit, path: Path, apart_from: tuple[str, ...] = ()) -> None:
    first, second = told(before(path)), told(turned)
    assert [one[0] for one in second] == [one[0] for one in first]
    assert unknown(turned) == unknown(before(path))
    for (head, numbers), (_, others) in zip(first, second, strict=True):
        kept = {name: n for name, n in numbers.items() if not any(word in name for word in apart_from)}
        assert {name: others.get(name) for name in kept} == pytest.approx(kept, rel=1e-6, abs=1e-4), head


@each_plan
@settings(max_examples=2, deadline=None, derandomize=True)
@given(right=micrometres, back=micrometres)
def test_a_plan_measured_from_another_corner_would_be_judged_otherwise(
    path: Path, right: int, back: int
) -> None:
    text = path.read_text(encoding="utf-8")
    by = (right / 1000.0, back / 1000.0, 0.0)
    further = moved(moved(text, "left-right", by[0]), "front-back", by[1])
    assert (further == text) == (path.stem in LISTS_ONLY)
    if further == text:
        return
    turned = audit_text(further)
    stood, stands = corners(before(path)), corners(turned)
    assert stands.keys() == stood.keys()
    for name, ends in stands.items():
        for now, then in zip(ends, stood[name], strict=True):
            assert now == pytest.approx([a + b for a, b in zip(then, by, strict=True)], abs=1e-5), name
    assert_same_findings(turned, path)


@each_plan
def test_a_plan_seen_in_a_mirror_would_be_judged_otherwise(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    other = mirrored(text)
    assert (other == text) == (path.stem in LISTS_ONLY)
    if other == text:
        return
    turned = audit_text(other)
    stood, stands = corners(before(path)), corners(turned)
    assert stands.keys() == stood.keys()
    for name, (low, high) in stands.items():
        then_low, then_high = stood[name]
        assert low == pytest.approx([-then_high[0], *then_low[1:]], abs=1e-5), name
        assert high == pytest.approx([-then_low[0], *then_high[1:]], abs=1e-5), name
    assert_same_findings(turned, path)


@each_plan
def test_a_plan_written_in_other_units_would_be_judged_otherwise(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    other = in_units(text, "mm" if before(path).plan.heading.units == "in" else "in")
    turned = audit_text(other)
    assert turned.plan.heading.units != before(path).plan.heading.units
    stood, stands = corners(before(path)), corners(turned)
    assert stands.keys() == stood.keys()
    for name, ends in stands.items():
        for now, then in zip(ends, stood[name], strict=True):
            assert now == pytest.approx(then, abs=1e-5), name
    assert_same_findings(turned, path, apart_from=IN_STEPS_OF_ITS_UNITS)


def test_a_plan_left_out_of_the_turned_ones_would_go_unnoticed() -> None:
    places = {path.stem for path in PLANS if not before(path).plan.placements}
    assert places == LISTS_ONLY


# What a rule allows may differ by the units: 1/32 in or 1 mm of fit, and mends in steps of 1/8 in or 1 mm.
BY_UNITS = {
    ("span-mismatch", "a metric plan allows 1 mm"),
    ("not-enough-boards", "An eighth of an inch on each piece is no longer a hair"),
}


def heads(audit: Audit) -> list[tuple[str, str, int, int]]:
    """What is found, on which line, and how often."""
    line_of = audit.source.line_of
    return sorted((f.rule, f.severity, line_of(f.span.start), f.rows) for f in audit.verdict.findings)


@pytest.mark.parametrize("path", RULES, ids=lambda path: path.stem)
def test_a_rule_would_hang_on_the_corner_the_hand_or_the_units_of_a_plan(path: Path) -> None:
    """Every excerpt of every rule file; that each rule speaks in them at all is tested beside the rule files."""
    for excerpt in lesson(path).excerpts:
        first = audit_text(excerpt.plan)
        turned = mirrored(moved(moved(excerpt.plan, "left-right", -1371.31), "front-back", 613.217))
        if first.plan.heading.units_span is not None:  # else a bare number is in inches; no word to change
            turned = in_units(turned, "in" if first.plan.heading.units != "in" else "mm")
        alike = heads(audit_text(turned)) == heads(first)
        assert alike == ((path.stem, excerpt.title) not in BY_UNITS), (excerpt.title, turned)


@pytest.mark.parametrize("toward", ["front", "back"])
def test_the_mirror_of_a_turned_board_would_turn_the_wrong_way(toward: str) -> None:
    """No plan above has such a board, so `turning.py` itself is held here."""
    text = f"""plan "Bar"
  units in
parts
  bar: 1 of 2x4 @ 30
  peg: 1 of 2x4 @ 10
place
  bar: runs left-right, face top, left at 1, front at 2, bottom at 0, turns 20 toward {toward}
  peg: runs up, face front, left at 25, front at 12, bottom at 0
"""
    turned = {part.name: part.solid for part in audit_text(mirrored(text)).piece.parts}
    for part in audit_text(text).piece.parts:
        wanted = sorted((-x, y, z) for x, y, z in part.solid.vertices)
        assert sorted(turned[part.name].vertices) == [pytest.approx(corner, abs=1e-6) for corner in wanted]
