"""The kept notation: fast when it is there, harmless when it is not, old or garbage."""

from __future__ import annotations

import pickle
from pathlib import Path
from typing import Any

import pytest

from planlint.read import notation as module
from planlint.read.notation import make, notation
from planlint.resources import data


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    return tmp_path / "planlint"


def fresh() -> Any:
    return notation.__wrapped__()  # past the process's own memory of it


def same(one: Any, other: Any) -> bool:
    return (one.words, one.keywords, one.terminals) == (other.words, other.keywords, other.terminals)


def test_it_is_made_once_and_then_read_back(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = fresh()
    assert (folder / "notation").is_file()
    monkeypatch.setattr(module, "make", lambda *_: pytest.fail("made again"))
    assert same(fresh(), made)


@pytest.mark.parametrize("garbage", [b"", b"x" * 100, "cut", "old"])
def test_garbage_is_made_anew(folder: Path, garbage: bytes | str) -> None:
    made = fresh()
    path = folder / "notation"
    kept = path.read_bytes()
    if garbage == "cut":
        garbage = kept[:-200]
    elif garbage == "old":
        garbage = bytes(32) + kept[32:]
    assert isinstance(garbage, bytes)
    path.write_bytes(garbage)
    assert same(fresh(), made)
    assert path.read_bytes()[:32] == kept[:32]


def test_a_right_key_over_nonsense_is_made_anew(folder: Path) -> None:
    made = fresh()
    path = folder / "notation"
    path.write_bytes(path.read_bytes()[:32] + pickle.dumps(["a", "b"]))
    assert same(fresh(), made)


def test_a_folder_that_cannot_be_written_does_no_harm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert fresh().keywords


def test_another_grammar_is_another_notation() -> None:
    grammar = data("grammar", "plan.lark").decode("utf-8")
    changed = make(grammar.replace('"plugged"', '"stopped"'), data("grammar", "phrases.yaml"))
    assert "stopped" in changed.keywords and "stopped" not in notation().keywords
