"""The notation: what it is made of is what lark worked out of the grammar, kept or not."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.read import notation as module
from planlint.read.notation import make, notation
from planlint.resources import data


def test_what_is_kept_is_what_was_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    made = notation.__wrapped__()  # past the process's own memory of it
    monkeypatch.setattr(module, "make", lambda *_: pytest.fail("made again"))
    assert notation.__wrapped__() == made


def test_another_grammar_is_another_notation() -> None:
    grammar = data("grammar", "plan.lark").decode("utf-8")
    changed = make(grammar.replace('"plugged"', '"stopped"'), data("grammar", "phrases.yaml"))
    assert "stopped" in changed.keywords and "stopped" not in notation().keywords
