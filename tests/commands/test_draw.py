"""`planlint draw`: the files it writes, and what it says."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from planlint.command import main

ROOT = Path(__file__).parents[2]
BENCH = ROOT / "samples/faulty/balcony-bench.plan"


def test_the_drawings_go_into_a_new_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder that is not there yet, or a file under another name than the one told."""
    into = tmp_path / "new" / "drawings"
    assert main(["draw", str(BENCH), "-o", str(into)]) == 0
    told = capsys.readouterr().out
    for kind in ("views", "exploded", "fastenings"):
        path = into / f"balcony-bench-{kind}.svg"
        assert f"{path}: " in told
        ElementTree.parse(path)
    assert len(list(into.iterdir())) == 3


def test_a_plan_without_places_is_told_why(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An empty drawing without a word."""
    assert main(["draw", str(ROOT / "samples/sound/boot-room-shelves.plan"), "-o", str(tmp_path)]) == 0
    assert "Nothing can be drawn" in capsys.readouterr().out


def test_parts_without_a_place_are_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A drawing that leaves a part out in silence."""
    assert main(["draw", str(ROOT / "samples/faulty/yard-workbench.plan"), "-o", str(tmp_path)]) == 0
    assert "Not drawn, the place section does not name it: foot-rail." in capsys.readouterr().out


def test_no_folder_can_be_made_in_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A traceback where the place to write to is no folder."""
    (tmp_path / "taken").write_text("", encoding="utf-8")
    assert main(["draw", str(BENCH), "-o", str(tmp_path / "taken")]) == 2
    assert "taken is no folder" in capsys.readouterr().err


def test_an_unreadable_plan_is_no_drawing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A drawing of nothing where the plan is not there."""
    assert main(["draw", str(tmp_path / "no.plan"), "-o", str(tmp_path)]) == 2
    assert not list(tmp_path.iterdir())
    assert "no.plan" in capsys.readouterr().err
