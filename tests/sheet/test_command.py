"""`planlint sheet`: what it writes, and what it never touches."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.command import main
from tests.sheet.pages import FAULTY


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    copy = tmp_path / "bench.plan"
    copy.write_bytes(FAULTY[0].read_bytes())
    return copy


def test_the_page_is_written_and_the_plan_is_as_it_was(plan: Path) -> None:
    before = plan.read_bytes()
    file = plan.with_name("bench.html")
    assert main(["sheet", str(plan), "-o", str(file)]) == 0
    assert file.read_text(encoding="utf-8").startswith("<!doctype html>\n<html")
    assert plan.read_bytes() == before


def test_a_page_is_never_written_over_its_plan(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = plan.read_bytes()
    link = plan.with_name("link.html")
    link.symlink_to(plan)
    for file in (plan, link):
        assert main(["sheet", str(plan), "-o", str(file)]) == 2
        assert "is the plan itself" in capsys.readouterr().err
    assert plan.read_bytes() == before


def test_what_cannot_be_read_or_written_is_told(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(plan.with_name("none.plan")), "-o", str(plan.with_name("x.html"))]) == 2
    assert main(["sheet", str(plan), "-o", str(plan.parent / "no" / "x.html")]) == 2
    err = capsys.readouterr().err
    assert err.count("planlint: ") == 2 and "Traceback" not in err
    assert [file.name for file in plan.parent.iterdir()] == ["bench.plan"]
