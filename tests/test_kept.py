"""What is kept in the user's cache: fast when it is there, harmless when it is old, garbage or unwritable."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path
from zlib import crc32

import pytest

from planlint import kept as module
from planlint.kept import kept
from planlint.resources import stamps_below

ROOT = Path(__file__).parents[1]
VALUE = {"a": [1.5, ("x", None)], "b": "½"}


@pytest.fixture
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "planlint"


def never() -> object:
    pytest.fail("made again")


def test_it_is_made_once_and_then_read_back(cache: Path) -> None:
    assert kept("thing", ["one"], lambda: VALUE) == VALUE
    assert kept("thing", ["one"], never) == VALUE
    assert len(list(cache.iterdir())) == 1


def test_what_was_made_from_something_else_does_not_count(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept("thing", ["one"], lambda: 1)
    assert kept("thing", ["two"], lambda: 2) == 2
    monkeypatch.setattr(module, "__version__", "another")
    assert kept("thing", ["two"], lambda: 3) == 3


@pytest.mark.parametrize("garbage", [b"", b"xy", b"garbage", bytes(64), bytes(range(256)) * 50])
def test_garbage_is_never_read_and_made_anew(cache: Path, garbage: bytes) -> None:
    """marshal may crash Python on bytes it did not write, so a check sum stands before them."""
    kept("thing", ["one"], lambda: VALUE)
    (path,) = cache.iterdir()
    good = path.read_bytes()
    for broken in (garbage, good[:4] + garbage, good[:-1], good + b"x", good[:40] + b"?" + good[41:]):
        path.write_bytes(broken)
        assert kept("thing", ["one"], lambda: "anew") == "anew"
        path.write_bytes(good)
        assert kept("thing", ["one"], never) == VALUE


def test_a_sound_file_of_another_make_is_made_anew(cache: Path) -> None:
    import marshal

    kept("thing", ["one"], lambda: VALUE)
    (path,) = cache.iterdir()
    for value in (None, 3, [], ("", "x")):
        content = marshal.dumps(value)
        path.write_bytes(crc32(content).to_bytes(4, "big") + content)
        assert kept("thing", ["one"], lambda: "anew") == "anew"


def test_a_folder_that_cannot_be_written_does_no_harm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert kept("thing", ["one"], lambda: VALUE) == VALUE


def test_a_file_that_cannot_be_written_whole_leaves_nothing(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A full disk must not leave half a file, neither in the place of the good one nor beside it."""

    def full(*_: object) -> None:
        raise OSError("no space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert kept("thing", ["one"], lambda: VALUE) == VALUE
    assert list(cache.iterdir()) == []


def test_a_changed_file_has_another_stamp(tmp_path: Path) -> None:
    """Its size or its time tells; a file that came or went tells too."""
    file = tmp_path / "a.yaml"
    file.write_text("one")
    first = stamps_below(str(tmp_path), ".yaml")
    os.utime(file, ns=(1, 1))
    second = stamps_below(str(tmp_path), ".yaml")
    file.write_text("three")
    os.utime(file, ns=(1, 1))
    third = stamps_below(str(tmp_path), ".yaml")
    (tmp_path / "b.yaml").write_text("")
    assert len({str(each) for each in (first, second, third, stamps_below(str(tmp_path), ".yaml"))}) == 4


AUDIT = (
    'import planlint; print(len(planlint.audit("plan \\"x\\"\\n  units in\\nparts\\n  a: 2 of").findings))'
)


def environment(tmp_path: Path) -> dict[str, str]:
    return {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache"), "PYTHONDONTWRITEBYTECODE": "1"}


def test_two_that_start_at_once_on_an_empty_cache_both_audit(tmp_path: Path) -> None:
    runs = [
        subprocess.Popen(
            [sys.executable, "-c", AUDIT],
            cwd=ROOT,
            env=environment(tmp_path),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        for _ in range(2)
    ]
    for run in runs:
        out, errors = run.communicate()
        assert (int(out), errors) == (1, b"")
    kinds = {path.name.partition("-")[0] for path in (tmp_path / "cache" / "planlint").iterdir()}
    assert kinds == {"notation", "rulebook", "tables"}


def test_a_change_of_the_code_that_reads_rules_makes_the_rulebook_anew(tmp_path: Path) -> None:
    """In a checkout the version stays the same while the rule language grows."""
    for folder in ("planlint", "rules", "grammar"):
        shutil.copytree(ROOT / folder, tmp_path / folder, ignore=shutil.ignore_patterns("__pycache__"))
    code = "import planlint.judge.rulebook as r, planlint.auditing as a; r._read_anew = print; a.rules()"

    def made_anew() -> bool:
        run = subprocess.run(
            [sys.executable, "-c", code],
            cwd=tmp_path,
            env=environment(tmp_path),
            capture_output=True,
            check=False,
        )
        return b"cannot unpack" in run.stderr  # what stands in for reading gives nothing

    subprocess.run([sys.executable, "-c", AUDIT], cwd=tmp_path, env=environment(tmp_path), check=True)
    assert not made_anew()
    with (tmp_path / "planlint" / "judge" / "checking.py").open("a") as file:
        file.write("# changed\n")
    assert made_anew()
