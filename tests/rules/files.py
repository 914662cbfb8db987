"""The repository's rule files: where they are, and the rulebook read from them without the cache."""

from __future__ import annotations

import importlib
import pkgutil
import sys
from functools import cache
from pathlib import Path

import planlint.observe
import planlint.trade.for_rules
from planlint.judge.accepting import ACCEPTED
from planlint.judge.lesson import Lesson, read_lesson
from planlint.judge.rulebook import Rulebook, read_rulebook
from planlint.observe.facts import Table

ROOT = Path(__file__).parents[2]
PATHS = sorted(path for path in (ROOT / "rules").rglob("*.yaml") if path.parent.name != "tables")


@cache
def tables() -> dict[str, Table]:
    """Every fact table that a module of planlint/observe declares; one that can't be imported is named."""
    found = {ACCEPTED.name: ACCEPTED}
    for module in pkgutil.iter_modules(planlint.observe.__path__, "planlint.observe."):
        try:
            declared = vars(importlib.import_module(module.name)).values()
        except ImportError as error:  # its rules then have the fault that there is no such table
            print(f"{module.name} is left out: {error}", file=sys.stderr)
            continue
        found.update({value.name: value for value in declared if isinstance(value, Table)})
    return found


@cache
def book() -> Rulebook:
    """All rules, read anew."""
    return read_rulebook(tables())


@cache
def lesson(path: Path) -> Lesson:
    read = read_lesson(str(path.relative_to(ROOT)), path.read_bytes())
    assert read is not None
    return read
