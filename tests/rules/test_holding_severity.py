"""How bad each case of the rules about holding is: the excerpts only say that a rule speaks."""

from __future__ import annotations

import pytest

from tests.rules.excerpts import whole_audit
from tests.rules.files import ROOT, book, lesson

SEVERITIES = [
    ("end-grain-only", "flagged", "hint"),
    ("end-grain-only", "one #8 x 2 1/2 up into the end of a leg", "check"),
    ("end-grain-only", "two #8 x 2 into pine ends: 1 1/4 in, 7.6 diameters", "hint"),
    ("end-grain-only", "pockets in the stile go into the end of the rail, without glue", "check"),
    ("end-grain-only", "pockets in the stile go into the end of the rail, with glue", "hint"),
    ("end-grain-only", "nails in end grain, without glue", "check"),
    ("end-grain-only", "a shelf that hangs on its screws", "check"),
    ("glue-end-grain", "flagged", "check"),
    ("glue-end-grain", "the end of a plywood shelf glued to a side", "hint"),
    ("glue-end-grain", "a mitre of 2 1/4 in stock", "hint"),
    ("pilot-wrong-size", "flagged", "check"),
    ("pilot-wrong-size", "3/32 in for a #10 in oak: 62 % of its core", "hint"),
    ("rusting-fastener", "flagged", "check"),
    ("rusting-fastener", "coated in cedar", "hint"),
    ("indoor-glue-outdoors", "flagged", "check"),
    ("indoor-glue-outdoors", "the list says waterproof, the join does not", "hint"),
    ("hardware-short", "flagged", "check"),
    ("hardware-short", "3 in used, only 2 1/2 in bought", "check"),
    ("hardware-short", "deck screws bought for wood screws", "hint"),
    ("hardware-short", "glue used, none on the list", "hint"),
]


@pytest.mark.parametrize(("rule", "title", "severity"), SEVERITIES)
def test_severity(rule: str, title: str, severity: str) -> None:
    excerpts = lesson(ROOT / "rules" / "fastenings" / f"{rule}.yaml").excerpts
    plan = next(one.plan for one in excerpts if one.title == title)
    found = whole_audit(plan, book()).verdict.findings
    assert {finding.severity for finding in found if finding.rule == rule} == {severity}
