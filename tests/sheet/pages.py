"""The pages of the repository's own plans, each made once for all tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from planlint.auditing import audit_text
from planlint.sheet.page import page
from tests.drawing.plans import audited as audit_of
from tests.sheet.reading import Page

ROOT = Path(__file__).parents[2]
FAULTY = sorted(ROOT.glob("samples/faulty/*.plan"))
# Besides the samples: leaning parts, doors on hinges, copies of a drawer, a top made of boards.
OTHERS = ("sawhorse", "door-cabinet", "drawer-chest", "breadboard-table")
PLANS = [
    *FAULTY,
    *sorted(ROOT.glob("samples/sound/*.plan")),
    *(ROOT / f"tests/plans/sound/{name}.plan" for name in OTHERS),
]

__all__ = ["FAULTY", "PLANS", "ROOT", "audit_of", "page_of", "page_of_text", "read_page"]


@cache
def page_of(path: Path) -> str:
    return page(audit_of(path))


@cache
def read_page(path: Path) -> Page:
    return Page(page_of(path))


def page_of_text(text: str, path: str = "bench.plan") -> str:
    return page(audit_text(text, path))
