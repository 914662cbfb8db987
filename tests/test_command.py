"""The command, run as a user runs it: exit codes, bad input of every kind, both forms of answer."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
SOUND = ROOT / "samples" / "sound" / "allotment-bench.plan"
FAULTY = ROOT / "samples" / "faulty" / "balcony-bench.plan"


def planlint(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[str]:
    made = subprocess.run(
        [sys.executable, "-m", "planlint", *map(str, arguments)],
        capture_output=True,
        encoding="utf-8",
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", **environment},
        check=False,
    )
    assert "Traceback" not in made.stderr + made.stdout
    return made


def test_a_sound_plan_ends_with_0() -> None:
    assert planlint("audit", SOUND).returncode == 0


def test_a_faulty_plan_ends_with_1() -> None:
    made = planlint("audit", FAULTY)
    assert made.returncode == 1
    assert "STOP" in made.stdout


def test_fail_at_counts_the_severities_from_there_up(tmp_path: Path) -> None:
    plan = tmp_path / "unsaid.plan"
    text = SOUND.read_text(encoding="utf-8")
    plan.write_text(
        text.replace("  long-rail to bearer: 2", "  bearer to long-rail: unsaid\n  long-rail to bearer: 2")
    )
    assert planlint("audit", plan).returncode == 0
    assert planlint("audit", plan, "--fail-at", "check").returncode == 1


def test_json_has_the_promised_shape() -> None:
    plans = json.loads(planlint("audit", FAULTY, SOUND, "--as", "json").stdout)["plans"]
    assert [plan["title"] for plan in plans] == ["Balcony bench", "Allotment bench"]
    for finding in plans[0]["findings"]:
        assert {
            "rule",
            "severity",
            "line",
            "column",
            "end_line",
            "end_column",
            "message",
            "values",
            "mend",
        } <= set(finding)
        for value in finding["values"].values():
            assert set(value) == {"value", "unit"}
    assert all({"rule", "line", "reason"} <= set(each) for plan in plans for each in plan["not_checked"])


def test_nothing_is_wider_than_80_columns_and_nothing_is_coloured_in_a_pipe() -> None:
    out = planlint("audit", ROOT / "samples").stdout
    assert max(map(len, out.splitlines())) <= 80
    assert "\x1b" not in out


def test_a_terminal_that_knows_no_drawing_characters_gets_plain_ones() -> None:
    out = planlint("audit", FAULTY, PYTHONIOENCODING="ascii").stdout
    assert out.isascii()
    assert "STOP" in out


BAD_INPUT = {
    "no-such.plan": None,
    "binary.plan": bytes(range(256)) * 40,
    "latin-1.plan": 'plan "Caf\xe9"\n'.encode("latin-1"),
    "huge.plan": b"parts\n" + b"  leg: 4 of 2x4 @ 16\n" * 500_000,
}


@pytest.mark.parametrize("name", BAD_INPUT)
def test_unusable_input_is_said_and_the_other_plans_are_still_audited(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    content = BAD_INPUT[name]
    if content is not None:
        path.write_bytes(content)
    made = planlint("audit", path, FAULTY)
    assert made.returncode == 2
    assert name in "".join(made.stdout.split())  # a long path is broken over two lines
    assert "Balcony bench" in made.stdout
    both = json.loads(planlint("audit", path, FAULTY, "--as", "json").stdout)["plans"]
    assert both[0]["unusable"]
    assert both[1]["findings"]


def test_a_folder_without_plans_is_said(tmp_path: Path) -> None:
    made = planlint("audit", tmp_path)
    assert made.returncode == 2
    assert str(tmp_path) in "".join(made.stdout.split())


def test_a_plan_of_only_errors_has_a_finding_for_every_line(tmp_path: Path) -> None:
    path = tmp_path / "errors.plan"
    path.write_text("parts\n  leg 4 of\n  rail: two of 2x4\n  slat: 3 of 1x4 @\n")
    findings = json.loads(planlint("audit", path, "--as", "json").stdout)["plans"][0]["findings"]
    assert {2, 3, 4} <= {finding["line"] for finding in findings if finding["rule"] == "unreadable"}


def test_a_folder_is_searched_and_every_plan_answered_for() -> None:
    plans = json.loads(planlint("audit", ROOT / "samples", "--as", "json").stdout)["plans"]
    assert len(plans) == len(list((ROOT / "samples").rglob("*.plan")))


def test_a_call_without_sense_ends_with_2() -> None:
    for call in ([], ["audit"], ["saw"], ["audit", str(SOUND), "--as", "paper"], ["lesson", "no-such-rule"]):
        assert planlint(*call).returncode == 2


def test_a_lesson_has_its_limits_sources_and_both_examples() -> None:
    out = planlint("lesson", "screw-embedment").stdout
    assert "common practice, no source" in out
    assert out.count("wood-screws") >= 2


def test_the_list_of_lessons_names_every_rule() -> None:
    out = planlint("lesson").stdout
    rules = [path.stem for path in (ROOT / "rules").rglob("*.yaml") if path.parent.name != "tables"]
    assert [rule for rule in rules if rule not in out] == []


def test_a_reader_who_closes_early_is_no_fault() -> None:
    command = f"{sys.executable} -m planlint audit {ROOT / 'samples'} | head -1"
    made = subprocess.run(command, shell=True, capture_output=True, text=True, cwd=ROOT, check=False)
    assert made.stderr == ""


@pytest.mark.skipif(not Path("/dev/full").is_char_device(), reason="no device that is always full")
@pytest.mark.parametrize(
    "call", [["mend"], ["mend", "--as", "diff"], ["buy"], ["buy", "--as", "csv"], ["cut"], ["audit"]]
)
def test_a_full_disk_under_the_answer_is_told_and_no_traceback(call: list[str]) -> None:
    command = f"{sys.executable} -m planlint {' '.join(call)} {FAULTY} > /dev/full"
    made = subprocess.run(command, shell=True, capture_output=True, text=True, cwd=ROOT, check=False)
    assert made.returncode == 2
    assert made.stderr.count("\n") == 1 and "the answer cannot be written: No space left" in made.stderr


def test_a_caller_who_closed_stdout_gets_the_exit_code_alone() -> None:
    command = f"{sys.executable} -m planlint audit {FAULTY} >&-"
    made = subprocess.run(command, shell=True, capture_output=True, text=True, cwd=ROOT, check=False)
    assert (made.returncode, made.stdout, made.stderr) == (1, "", "")


@pytest.mark.parametrize(
    "call", [["buy", "--as", "csv"], ["buy", "--as", "json"], ["cut", "--as", "svg"], ["cut"]]
)
def test_a_stdout_that_knows_ascii_alone_does_not_stop_a_plan_with_accents(
    call: list[str], tmp_path: Path
) -> None:
    plan = tmp_path / "étagère.plan"
    text = FAULTY.read_text(encoding="utf-8")
    plan.write_text(
        text.replace("Balcony bench", "Étagère").replace("seat-slat", "latte-dé"), encoding="utf-8"
    )
    assert planlint(*call, plan, PYTHONIOENCODING="ascii").returncode == 0
