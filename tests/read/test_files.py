"""Files that are no plans: each is refused with its reason, none ends in a traceback."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from planlint.read.files import NotRead, plans_below, read_file
from planlint.read.notation import notation
from planlint.source import Source


def refused(path: Path | str) -> NotRead:
    found = read_file(str(path))
    assert isinstance(found, NotRead)
    assert found.reason.endswith(".") and "{" not in found.reason
    return found


def test_a_file_is_kept_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "a.plan"
    path.write_bytes("\ufeffplan “x”\r\n  units in\r".encode())
    found = read_file(str(path))
    assert isinstance(found, Source)
    assert (found.text, found.path) == ("\ufeffplan “x”\r\n  units in\r", str(path))


def test_missing_folders_and_odd_files(tmp_path: Path) -> None:
    assert refused(tmp_path / "no.plan").kind == "missing"
    assert refused(tmp_path).kind == "folder"
    assert refused("a\0b").kind in ("broken", "missing")
    assert refused("x" * 5000).kind == "broken"
    assert refused(os.devnull).kind == "special"


def test_a_locked_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.plan"
    path.write_text("plan")

    def locked(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", locked)
    assert refused(path).kind == "locked"


def test_text_that_is_not_utf_8_names_its_line_and_byte(tmp_path: Path) -> None:
    path = tmp_path / "a.plan"
    path.write_bytes(b"plan\n  -- " + "é".encode("latin-1") + b"\n")
    found = refused(path)
    assert found.kind == "encoding" and "line 2, byte 11" in found.reason
    path.write_bytes("plan".encode("utf-16"))
    assert refused(path).kind == "encoding"


def test_binary_files(tmp_path: Path) -> None:
    path = tmp_path / "a.plan"
    path.write_bytes(b"plan\n\n\0")
    found = refused(path)
    assert found.kind == "binary" and "line 3" in found.reason


def test_the_limit_is_where_phrases_yaml_says(tmp_path: Path) -> None:
    limit = notation().words["largest_file"]
    path = tmp_path / "a.plan"
    path.write_bytes(b" " * limit)
    assert isinstance(read_file(str(path)), Source)
    path.write_bytes(b" " * (limit + 1))
    assert str(limit) in refused(path).reason
    path.write_bytes(b"\xff" * 10_000_000)
    assert refused(path).kind == "large"


def test_a_folder_gives_its_plans_in_order_and_an_empty_one_says_so(tmp_path: Path) -> None:
    for name in ("b.plan", "a.plan", "c.txt", "sub/d.plan", ".hidden/e.plan"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("plan")
    found = [os.path.relpath(str(path), tmp_path) for path in plans_below(str(tmp_path))]
    assert found == ["a.plan", "b.plan", str(Path("sub", "d.plan"))]
    (tmp_path / "empty").mkdir()
    (only,) = plans_below(str(tmp_path / "empty"))
    assert isinstance(only, NotRead) and only.kind == "folder"
    assert list(plans_below("no.plan")) == ["no.plan"]
