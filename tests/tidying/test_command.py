"""`planlint tidy`, run as a user runs it."""

from __future__ import annotations

import argparse
import shutil
import subprocess
from pathlib import Path

import pytest

from planlint.auditing import audit_text
from planlint.commands import keeping
from planlint.commands.tidy import run
from planlint.show.strokes import strokes_for
from planlint.source import Source
from planlint.tidying import tidying
from planlint.tidying.page import tidied_page

ROOT = Path(__file__).parents[2]
RACK = ROOT / "samples" / "faulty" / "shoe-rack.plan"


def asked(plan: Path, form: str = "text", write: bool = False) -> argparse.Namespace:
    return argparse.Namespace(command="tidy", plan=str(plan), form=form, write=write)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    return Path(shutil.copy(RACK, tmp_path / "shoe rack.plan"))


def test_without_write_nothing_is_written(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A look must not change the plan; the exit code says that there is something to change."""
    before = plan.read_bytes()
    for form in ("text", "diff", "plan"):
        assert run(asked(plan, form)) == 1
    assert plan.read_bytes() == before
    assert "Nothing is written" in capsys.readouterr().out


def test_write_keeps_what_was_shown_and_once_is_enough(
    plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is written is what `--as plan` shows; then the plan is tidy."""
    run(asked(plan, "plan"))
    shown = capsys.readouterr().out
    assert run(asked(plan, write=True)) == 0
    assert plan.read_text(encoding="utf-8") == shown
    assert run(asked(plan)) == 0
    assert "The plan is tidy." in capsys.readouterr().out


@pytest.mark.skipif(shutil.which("git") is None, reason="there is no git here")
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_git_applies_the_patch(plan: Path, ends: str, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    """Rows are put in and taken out: the ranges of the patch must count them."""
    text = plan.read_text(encoding="utf-8").replace("\n", ends)
    plan.write_bytes(text.encode("utf-8"))
    with pytest.MonkeyPatch.context() as patched:
        patched.chdir(plan.parent)
        assert run(asked(Path(plan.name), "diff")) == 1
    made = capfdbinary.readouterr().out
    subprocess.run(["git", "apply", "--whitespace=nowarn", "-"], input=made, cwd=plan.parent, check=True)
    assert plan.read_bytes().decode("utf-8") == tidying.tidied(Source(text))


def test_a_fault_of_ours_leaves_the_plan(
    plan: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """If tidying ever changed a number, the plan must not be written, and the user must not look for their own slip."""
    before = plan.read_bytes()
    wrong = before.decode("utf-8").replace("@ 500", "@ 501")
    monkeypatch.setattr(tidying, "tidied", lambda source: wrong)
    assert run(asked(plan, write=True)) == 2
    assert plan.read_bytes() == before
    told = capsys.readouterr()
    assert told.out == ""
    assert "a fault of planlint" in told.err


def test_an_interrupt_while_writing_leaves_the_plan(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C at the worst moment."""

    def interrupted(_: int) -> None:
        raise KeyboardInterrupt

    before = plan.read_bytes()
    monkeypatch.setattr(keeping.os, "fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        run(asked(plan, write=True))
    assert plan.read_bytes() == before
    assert list(plan.parent.iterdir()) == [plan]


@pytest.mark.parametrize("width", [40, 80])
def test_the_page_shows_every_changed_row_in_its_width(width: int) -> None:
    """A reader sees each row as it is and as it will be."""
    audit = audit_text(RACK.read_text(encoding="utf-8"), RACK.name)
    new = tidying.tidied(audit.source)
    lines = tidied_page(audit, new, False, width, strokes_for("utf-8"))
    page = ["".join(text for text, _ in line) for line in lines]
    assert max(map(len, page)) <= width
    whole = " ".join(" ".join(page).split())
    old_rows, new_rows = audit.source.text.splitlines(), new.splitlines()
    for row in {*old_rows, *new_rows} - ({*old_rows} & {*new_rows}):
        if width == 80 and len(row) < 70:
            assert " ".join(row.split()) in whole
