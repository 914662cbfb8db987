"""The samples: sound plans stay silent, faulty ones give just the findings that stand beside them.

`NAME.findings` beside each faulty plan has a line for each finding: line, severity, rule. Rewrite them with
`BLESS=1 python -m pytest tests/plans/test_samples.py` and read the difference before you keep it.
"""

import os
from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_source
from planlint.source import Source

SAMPLES = Path(__file__).parents[2] / "samples"
SOUND = sorted((SAMPLES / "sound").glob("*.plan"))
FAULTY = sorted((SAMPLES / "faulty").glob("*.plan"))


def audited(path: Path) -> Audit:
    return audit_source(Source(path.read_text(encoding="utf-8"), path.name))


def told(audit: Audit) -> list[str]:
    """Each finding as `line severity rule`."""
    return [
        f"{audit.source.place(finding.span).line} {finding.severity} {finding.rule}"
        for finding in audit.verdict.findings
    ]


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_plan_gives_no_stop_and_no_check(path: Path) -> None:
    assert [line for line in told(audited(path)) if " hint " not in line] == []


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_plan_gives_the_findings_beside_it(path: Path) -> None:
    beside = path.with_suffix(".findings")
    found = "\n".join(told(audited(path))) + "\n"
    if os.environ.get("BLESS") and not os.environ.get("CI"):
        beside.write_text(found, encoding="utf-8")
    assert found == beside.read_text(encoding="utf-8")


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_plan_has_a_stop(path: Path) -> None:
    """A sample of mistakes that stops nobody would teach nothing."""
    assert any(" stop " in line for line in told(audited(path)))


@pytest.mark.parametrize("path", SOUND + FAULTY, ids=lambda path: path.stem)
def test_a_sample_is_a_whole_plan(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) >= 40


def test_the_samples_show_what_the_notation_can_do() -> None:
    """At least four sound and four faulty ones, two metric, a sub-assembly, a leaning back, one cut list only."""
    plans = {path: audited(path).plan for path in SOUND + FAULTY}
    assert len(SOUND) >= 4
    assert len(FAULTY) >= 4
    assert sum(plan.heading.units in ("mm", "cm", "m") for plan in plans.values()) >= 2
    assert any(placement.assembly for plan in plans.values() for placement in plan.placements)
    assert any("leans" in path.read_text(encoding="utf-8") for path in SOUND)
    assert any(not plan.placements for plan in plans.values())


def test_no_findings_file_is_left_over() -> None:
    assert {path.stem for path in (SAMPLES / "faulty").glob("*.findings")} == {path.stem for path in FAULTY}
