"""Plans that an experienced maker would build as drawn: the audit stops none of them and doubts none of them.

A stop or a check on one of these is a false alarm, or a mistake that slipped into the plan: find out which before
either is changed. Nothing is accepted here, and no plan may silence a finding with `accept`.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_source
from planlint.read.plan import PanelOf
from planlint.source import Source

PLANS = sorted((Path(__file__).parent / "sound").glob("*.plan"))

every_plan = pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)


def audited(path: Path) -> Audit:
    return audit_source(Source(path.read_text(encoding="utf-8"), path.name))


@every_plan
def test_a_sound_plan_is_neither_stopped_nor_doubted(path: Path) -> None:
    audit = audited(path)
    alarms = [
        f"{audit.source.place(finding.span).line} {finding.severity} {finding.rule}"
        for finding in audit.verdict.findings
        if finding.severity != "hint"
    ]
    assert alarms == []


@every_plan
def test_every_part_of_a_sound_plan_has_its_place(path: Path) -> None:
    """A part without a place is judged by no rule of fit: the silence above would mean nothing."""
    audit = audited(path)
    assert not audit.plan.accepts
    assert audit.piece.unplaced_names == {}
    assert audit.piece.unplaced_fasteners == []
    placed = {part.copy_of for part in audit.piece.parts}
    boards = {str(entry.stock.board) for entry in audit.plan.parts if isinstance(entry.stock, PanelOf)}
    assert {entry.name for entry in audit.plan.parts} <= placed | boards


def test_the_plans_are_many_and_unlike() -> None:
    """Ten plans of one kind would try one corner of the rules."""
    plans = [audited(path).plan for path in PLANS]
    assert len(plans) >= 10
    assert len({plan.heading.piece.text for plan in plans if plan.heading.piece}) >= 7
    assert sum(plan.heading.units == "mm" for plan in plans) >= 3
    assert all(plan.steps and plan.purchases for plan in plans)
