"""`planlint mend`, run as a user runs it: what is shown, what is written, and a plan that is whole whatever happens."""

from __future__ import annotations

import argparse
import errno
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from planlint.auditing import audit_text, rules
from planlint.commands import keeping
from planlint.commands.mend import run
from planlint.mending.mending import mend
from planlint.mending.page import all_changes, mended_page
from planlint.show.strokes import strokes_for

ROOT = Path(__file__).parents[2]
FAULTY = sorted((ROOT / "samples" / "faulty").glob("*.plan"))
BENCH = ROOT / "samples" / "faulty" / "balcony-bench.plan"
SOUND = ROOT / "samples" / "sound" / "allotment-bench.plan"


def asked(plan: Path, form: str = "text", write: bool = False) -> argparse.Namespace:
    return argparse.Namespace(command="mend", plan=str(plan), form=form, write=write)


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    return Path(shutil.copy(BENCH, tmp_path / "my bench.plan"))


def mended_text(plan: Path) -> str:
    return mend(audit_text(plan.read_bytes().decode("utf-8"))).audit.source.text


def test_without_write_nothing_is_written(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A look must not change the plan; the exit code says that there is something to change."""
    before = plan.read_bytes()
    for form in ("text", "diff", "plan"):
        assert run(asked(plan, form)) == 1
    assert plan.read_bytes() == before
    assert list(plan.parent.iterdir()) == [plan]
    assert "Nothing is written" in capsys.readouterr().out


def test_write_keeps_what_was_shown(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is written must be what `--as plan` shows, and a second time there is nothing to do."""
    run(asked(plan, "plan"))
    shown = capsys.readouterr().out
    assert run(asked(plan, write=True)) == 0
    assert "The file is written, with " in capsys.readouterr().out
    assert plan.read_bytes().decode("utf-8") == shown
    assert run(asked(plan)) == 0
    assert "nothing to change" in capsys.readouterr().out


def test_write_with_a_patch_prints_the_patch_and_writes(
    plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A keeper who pipes the patch to a file and keeps the plan too needs both to be the same change."""
    old, new = plan.read_text(encoding="utf-8"), mended_text(plan)
    assert run(asked(plan, "diff", write=True)) == 0
    assert plan.read_text(encoding="utf-8") == new
    out = capsys.readouterr().out
    assert [line[1:] for line in out.splitlines()[2:] if line.startswith("-")] == [
        line for line in old.splitlines() if line not in new.splitlines()
    ]


@pytest.mark.skipif(shutil.which("git") is None, reason="there is no git here")
@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_git_applies_the_patch_of_a_plan_with_carriage_returns(path: Path, tmp_path: Path) -> None:
    """The whole way, as a user goes it: print the patch, apply it."""
    target = tmp_path / "a plan.plan"
    target.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n").rstrip())
    wanted = mended_text(target)
    here = {**os.environ, "PYTHONPATH": str(ROOT)}
    made = subprocess.run(
        [sys.executable, "-m", "planlint", "mend", target.name, "--as", "diff"],
        cwd=tmp_path,
        env=here,
        capture_output=True,
        check=False,
    )
    assert made.returncode == 1, made.stderr
    subprocess.run(["git", "apply", "-"], input=made.stdout, cwd=tmp_path, check=True, capture_output=True)
    assert target.read_bytes().decode("utf-8") == wanted


def test_a_sound_plan_has_nothing_to_mend(capsys: pytest.CaptureFixture[str]) -> None:
    """Said in words, with exit code 0; an empty patch is empty."""
    assert run(asked(SOUND)) == 0
    assert "nothing to change" in capsys.readouterr().out
    assert run(asked(SOUND, "diff")) == 0
    assert capsys.readouterr().out == ""
    assert run(asked(SOUND, "plan")) == 0
    assert capsys.readouterr().out == SOUND.read_text(encoding="utf-8")


def test_what_cannot_be_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A missing file, a folder: no traceback."""
    assert run(asked(tmp_path / "none.plan", write=True)) == 2
    assert run(asked(tmp_path, write=True)) == 2
    assert capsys.readouterr().err.count("planlint: ") == 2


# --- the page -------------------------------------------------------------------------------------


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
@pytest.mark.parametrize("width", [40, 80])
def test_the_page_shows_each_change_before_and_after_in_its_width(path: Path, width: int) -> None:
    """A reader who cannot see a change cannot agree to it; longer lines are torn by the terminal."""
    mended = mend(audit_text(path.read_text(encoding="utf-8"), path.name))
    lines = mended_page(mended, rules().rules, False, width, strokes_for("utf-8"))
    page = ["".join(text for text, _ in line) for line in lines]
    assert max(map(len, page)) <= width
    whole = " ".join(" ".join(page).replace("‾", " ").split())
    for change in all_changes(mended):
        source, new = mended.before.source, mended.audit.source
        line = source.line_of(change.span.start)
        for text in (source.line_text(line), new.line_text(line)):
            if width == 80 and len(text) < 70:
                assert " ".join(text.split()) in whole
        assert f" {line} " in whole
    for made in mended.made:
        assert rules().rules[made.finding.rule].title.split()[-1] in whole
    assert whole.count("STOP ") + whole.count("CHECK ") + whole.count("HINT ") == len(mended.made) + len(
        mended.left
    )


# --- the file is whole, whatever happens -----------------------------------------------------------


def test_a_link_stays_a_link(plan: Path) -> None:
    """The plan that the link leads to is mended; the link is not replaced by a copy."""
    link = plan.parent / "link.plan"
    link.symlink_to(plan)
    wanted = mended_text(plan)
    assert run(asked(link, write=True)) == 0
    assert link.is_symlink()
    assert plan.read_text(encoding="utf-8") == wanted


def test_permissions_stay(plan: Path) -> None:
    """A plan that a whole group may write must not become the last writer's own."""
    plan.chmod(0o664)
    run(asked(plan, write=True))
    assert plan.stat().st_mode & 0o777 == 0o664


def _full(*_: object) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def _forbidden(*_: object, **__: object) -> None:
    raise PermissionError(errno.EACCES, "Permission denied")


@pytest.mark.parametrize(
    ("where", "name", "fails", "says"),
    [
        ("os", "fsync", _full, "No space left"),
        ("Path", "replace", _full, "No space left"),
        ("tempfile", "mkstemp", _forbidden, "no new file may be made in its folder"),
    ],
)
def test_a_full_disk_or_a_locked_folder_leaves_the_plan(
    where: str,
    name: str,
    fails: object,
    says: str,
    plan: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Half a plan is worse than none: the old one stays whole, nothing is left lying about, and the reason is told."""
    before = plan.read_bytes()
    monkeypatch.setattr(getattr(keeping, where), name, fails)
    assert run(asked(plan, write=True)) == 2
    monkeypatch.undo()
    assert plan.read_bytes() == before
    assert list(plan.parent.iterdir()) == [plan]
    told = capsys.readouterr()
    assert says in told.err
    assert "written" not in told.out


def _interrupted(*_: object) -> None:
    raise KeyboardInterrupt


@pytest.mark.parametrize(("where", "name"), [("os", "fsync"), ("os", "fdopen"), ("Path", "replace")])
def test_an_interrupt_while_writing_leaves_the_plan(
    where: str, name: str, plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl-C at the worst moment."""
    before = plan.read_bytes()
    monkeypatch.setattr(getattr(keeping, where), name, _interrupted)
    with pytest.raises(KeyboardInterrupt):
        run(asked(plan, write=True))
    monkeypatch.undo()
    assert plan.read_bytes() == before
    assert list(plan.parent.iterdir()) == [plan]


def test_an_interrupt_at_any_moment_leaves_a_whole_plan(plan: Path) -> None:
    """A real signal to a real process: the file is the old one or the new one, and nothing is left beside it."""
    before, after = plan.read_bytes(), mended_text(plan).encode("utf-8")
    for moment in range(8):
        plan.write_bytes(before)
        process = subprocess.Popen(
            [sys.executable, "-m", "planlint", "mend", str(plan), "--write"],
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(0.08 + 0.05 * moment)
        process.send_signal(signal.SIGINT)
        process.wait(timeout=20)
        assert plan.read_bytes() in (before, after)
        assert list(plan.parent.iterdir()) == [plan]


def test_a_plan_that_was_changed_meanwhile_is_left(
    plan: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Somebody saves the plan in an editor while planlint audits: their work must not be lost."""

    def fsync(_: int) -> None:
        plan.write_bytes(b'plan "Newer"\n')

    monkeypatch.setattr(keeping.os, "fsync", fsync)
    assert run(asked(plan, write=True)) == 2
    assert plan.read_bytes() == b'plan "Newer"\n'
    assert list(plan.parent.iterdir()) == [plan]
    assert "was changed by another program" in capsys.readouterr().err


def test_joins_that_are_changed_though_they_were_not_at_fault_are_named(
    capsys: pytest.CaptureFixture[str],
) -> None:
    # One joint's screws were too short, and all other screws of the box grew without a word.
    run(asked(BENCH))
    said = " ".join(capsys.readouterr().out.split())
    assert "Lines 45, 47, 48, 49, 50 and 51 were not at fault: they take the same box and go along." in said
    assert said.count("not at fault") == 1, "where every changed join was at fault there is nothing to say"
