"""`planlint cut`: what it writes, where, and what it answers."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.command import main

SAMPLES = Path(__file__).parents[2] / "samples"
CHAIR = SAMPLES / "sound" / "reading-chair.plan"


def test_the_layout_goes_to_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", str(CHAIR)]) == 0
    said = capsys.readouterr().out
    assert "Reading chair: cutting layout" in said and "fewest possible of each size" in said


def test_the_mends_that_are_counted_in_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    # The list is one 1x4 short; the layout is that of the mended plan.
    assert main(["cut", str(SAMPLES / "faulty" / "porch-chair.plan")]) == 0
    said = capsys.readouterr().out
    assert "This layout counts in" in said and "cut after" in said
    assert "1x4 @ 96, douglas fir" in said and "2 boards, fewest possible" in said


@pytest.mark.parametrize(("form", "begins"), [("text", "Reading chair"), ("svg", "<?xml")])
def test_a_file_holds_the_same_and_the_plan_stays_as_it_was(
    tmp_path: Path, form: str, begins: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = CHAIR.read_bytes()
    file = tmp_path / "out"
    assert main(["cut", str(CHAIR), "--as", form, "-o", str(file)]) == 0
    assert file.read_text(encoding="utf-8").startswith(begins)
    assert capsys.readouterr().out == ""
    assert CHAIR.read_bytes() == before


def test_svg_without_a_file_goes_to_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", str(CHAIR), "--as", "svg"]) == 0
    assert capsys.readouterr().out.rstrip().endswith("</svg>")


def test_no_plan_and_no_place_to_write_are_told_without_a_traceback(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["cut", str(tmp_path / "none.plan")]) == 2
    assert main(["cut", str(CHAIR), "--as", "svg", "-o", str(tmp_path / "no" / "folder.svg")]) == 2
    assert "planlint: " in capsys.readouterr().err
