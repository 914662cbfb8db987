"""Texts stored beside the tests, so that a change of what the reader sees shows in review.

`BLESS=1 python -m pytest tests/show` writes them anew. A missing one fails, and so does one no test asks for.
"""

from __future__ import annotations

import os
from pathlib import Path

HERE = Path(__file__).parent


def check(folder: str, name: str, text: str) -> None:
    """The text equals the stored one."""
    path = HERE / folder / f"{name}.txt"
    if os.environ.get("BLESS") and not os.environ.get("CI"):
        path.write_text(text + "\n", encoding="utf-8")
    assert path.exists(), f"no stored text {path}; run BLESS=1 python -m pytest tests/show"
    assert path.read_text(encoding="utf-8") == text + "\n"


def orphans(folder: str, names: set[str]) -> set[str]:
    """Stored texts that no test asks for."""
    return {path.stem for path in (HERE / folder).glob("*.txt")} - names
