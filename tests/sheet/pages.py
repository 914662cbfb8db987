"""The pages of the repository's own plans, each made once for all tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from planlint.auditing import Audit, audit_source, audit_text
from planlint.read.files import read_file
from planlint.sheet.page import page
from planlint.source import Source
from tests.sheet.reading import Page

ROOT = Path(__file__).parents[2]
FAULTY = sorted(ROOT.glob("samples/faulty/*.plan"))
PLANS = [*FAULTY, *sorted(ROOT.glob("samples/sound/*.plan")), *sorted(ROOT.glob("tests/plans/sound/*.plan"))]


@cache
def audit_of(path: Path) -> Audit:
    source = read_file(str(path))
    assert isinstance(source, Source)
    return audit_source(source)


@cache
def page_of(path: Path) -> str:
    return page(audit_of(path))


@cache
def read_page(path: Path) -> Page:
    return Page(page_of(path))


def page_of_text(text: str, path: str = "bench.plan") -> str:
    return page(audit_text(text, path))
