"""The patch, given to the real git."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.mending.patch import patch

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="there is no git here")


def applied(folder: Path, name: str, old: str, new: str) -> str:
    """The file after `git apply` in its folder."""
    target = folder / name
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(old.encode("utf-8"))
    made = subprocess.run(
        ["git", "apply", "--whitespace=nowarn", "-"],
        input=patch(name, old, new).encode("utf-8"),
        cwd=folder,
        capture_output=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr.decode()
    return target.read_bytes().decode("utf-8")


OLD = "".join(f"line {n}\n" for n in range(40))
CASES = {
    "one value": (OLD, OLD.replace("line 20", "line 21")),
    "first and last line": (OLD, OLD.replace("line 0\n", "new\n").replace("line 39", "last")),
    "carriage returns": (OLD.replace("\n", "\r\n"), OLD.replace("line 7", "seven").replace("\n", "\r\n")),
    "mixed line ends": ("a\r\nb\nc\r\nd\n", "a\r\nB\nc\r\nD\n"),
    "old Macintosh": ("a\rb\rc", "a\rB\rc"),
    "no end of the last line": (OLD + "end", OLD + "END"),
    "an end is put in": (OLD + "end", OLD + "end\n"),
    "an end is taken out": (OLD + "end\n", OLD + "end"),
    "byte-order mark": ("\ufeffplan\nleg\n", "\ufeffPLAN\nleg\n"),
    "not ASCII": ("Tür 3½″\n", "Tür 4″ – größer\n"),
    "form feed": ("a\fb\nc\x0b\u2028d\n", "a\fB\nc\x0b\u2028D\n"),
    "lines put in and taken out": (OLD, OLD.replace("line 3\n", "").replace("line 30\n", "x\ny\nz\n")),
    "all gone but one": ("a\nb\nc\n", "b\n"),
    "looks like a patch": ("--- a/x\n+++ b/x\n@@ -1 +1 @@\n", "--- a/x\n+++ b/y\n@@ -1 +2 @@\n"),
}


@pytest.mark.parametrize(("old", "new"), CASES.values(), ids=CASES)
def test_git_applies_it(old: str, new: str, tmp_path: Path) -> None:
    """A patch that is refused, or that changes line ends on its way, is worse than none."""
    assert applied(tmp_path, "bench.plan", old, new) == new


@pytest.mark.parametrize(
    "name",
    [
        "my bench.plan",
        "plans/deep down/b.plan",
        "Bänke/Stühlchen.plan",
        'a "b".plan',
        "tab\there.plan",
        "./b.plan",
    ],
)
def test_git_finds_the_file_by_any_name(name: str, tmp_path: Path) -> None:
    """A blank in a file's name ends it for git unless it is marked."""
    assert applied(tmp_path, name, OLD, OLD.replace("line 3\n", "three\n")) == OLD.replace(
        "line 3\n", "three\n"
    )


def test_a_path_from_the_root_is_made_relative(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """git takes no path that begins with a slash."""
    monkeypatch.chdir(tmp_path)
    assert patch(str(tmp_path / "b.plan"), "a\n", "b\n").startswith("--- a/b.plan\n+++ b/b.plan\n")


def test_git_applies_it_in_a_folder_of_a_repository(tmp_path: Path) -> None:
    """A keeper stands in the folder of plans, not at the top: names count from where they stand."""
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    assert applied(tmp_path / "plans", "b.plan", OLD, OLD.replace("line 3\n", "three\n")) != OLD
    assert applied(tmp_path, "plans/b.plan", OLD, OLD.replace("line 3\n", "three\n")) != OLD


def test_nothing_changed_is_no_patch() -> None:
    """An empty patch with two headers is refused by git."""
    assert patch("b.plan", OLD, OLD) == ""


LINES = st.lists(
    st.tuples(
        st.sampled_from(["", "a", "b", "ä", "-- x", "@@", "\x0c"]), st.sampled_from(["\n", "\n", "\r\n"])
    ),
    max_size=12,
)


@settings(max_examples=40, deadline=None)
@given(LINES, LINES, st.booleans())
def test_git_makes_the_new_text_of_any_old_one(
    old: list[tuple[str, str]], new: list[tuple[str, str]], end: bool
) -> None:
    """Ranges off by one show only where hunks lie close together or at the ends of the file."""
    before, after = ("".join(line + mark for line, mark in lines) for lines in (old, new))
    after = after if end else after.rstrip("\n")
    if before and after and before != after:  # git makes or removes a file where one side is empty
        with TemporaryDirectory() as folder:
            assert applied(Path(folder), "b.plan", before, after) == after


def test_a_plan_elsewhere_or_behind_a_link_gets_a_patch_that_git_takes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # "a/../plans/b.plan" is taken by no git in no folder, and a link is to git a file of its own.
    plans, work = tmp_path / "plans", tmp_path / "work"
    plans.mkdir()
    work.mkdir()
    (plans / "link.plan").symlink_to("b.plan")
    (plans / "b.plan").write_text(OLD)
    new = OLD.replace("line 7", "seven")
    monkeypatch.chdir(work)
    assert patch("../plans/b.plan", OLD, new).startswith("--- a/b.plan\n")
    monkeypatch.chdir(plans)
    assert patch("link.plan", OLD, new).startswith("--- a/b.plan\n")
    assert applied(plans, "b.plan", OLD, new) == new
