"""The Python interface: what a program that imports planlint relies on."""

import subprocess
import sys

import planlint

SHORT_SCREW = """plan "Leg and rail"
  units in
parts
  leg:  1 of 4x4 @ 16 1/2
  rail: 1 of 4x4 @ 24
place
  leg: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, left at right of leg, front at front of leg, top at top of leg
step "Frame"
  leg to rail: 2 wood-screws #10 x 3 in counterbored 1 x 1 in plugged piloted 1/8 and glue
"""


def test_the_screw_that_stops_short_is_told_with_its_numbers_and_mend() -> None:
    """3 in in a 1 in counterbore in a 3 1/2 in part leaves 1/2 in; 4 in is sold and fits.

    Source: common practice, no source.
    """
    [finding] = [f for f in planlint.audit(SHORT_SCREW).findings if f.rule == "screw-embedment"]
    assert finding.severity == "stop"
    assert finding.line == 10
    assert abs(float(str(finding.values["embedment"].value)) - 12.7) < 1e-6
    assert finding.mend is not None
    assert abs(float(str(finding.mend.to.value)) - 101.6) < 1e-6
    assert "1/2 in" in finding.message


def test_with_the_mend_the_finding_is_gone() -> None:
    findings = planlint.audit(SHORT_SCREW.replace("#10 x 3 in", "#10 x 4 in")).findings
    assert [f.rule for f in findings if f.severity != "hint"] == []


def test_a_text_that_is_no_plan_gives_findings_and_no_exception() -> None:
    for text in (
        "",
        "\ufeff",
        "Dear Sir,\n  yours",
        "\x00\x01",
        "plan",
        "-- only a note",
        'plan "x"\n  units furlong',
    ):
        assert isinstance(planlint.audit(text).findings, tuple)


def test_importing_planlint_imports_nothing_else_and_prints_nothing() -> None:
    code = "import sys, planlint; print([m for m in sys.modules if m.split('.')[0] in ('lark','yaml','pint','rich')])"
    made = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert made.stdout.strip() == "[]"
    assert made.stderr == ""
