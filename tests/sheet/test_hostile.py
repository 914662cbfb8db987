"""A plan is somebody else's file: nothing in it may run, load, or pass for ours."""

from __future__ import annotations

import pytest

from planlint.sheet.script import SCRIPT
from planlint.sheet.style import STYLE
from tests.sheet.hostile import ATTACKS, plan
from tests.sheet.pages import page_of_text
from tests.sheet.reading import Page

_PAGE = """
    html head meta title style script body a header p h1 h2 h3 h4 dl div dt dd nav ul ol li main section span mark
    article b i code del ins table caption thead tbody tr th td input label figure figcaption details summary footer
"""
_DRAWING = (
    "svg title desc g rect line polygon polyline circle ellipse path text tspan defs clippath pattern marker"
)
USUAL = set(f"{_PAGE} {_DRAWING}".split())  # what a page of ours is made of


@pytest.mark.parametrize("attack", ATTACKS, ids=range(len(ATTACKS)))
def test_no_text_of_a_plan_becomes_more_than_text(attack: str) -> None:
    html = page_of_text(plan(attack), path=f"{attack.replace('/', '_')[:80]}.plan")
    read = Page(html)
    assert read.faults == []
    assert read.scripts == [SCRIPT] and read.styles == [STYLE]
    assert {one.tag for one in read.elements} <= USUAL
    for one in read.elements:
        assert not [name for name in one.attributes if name.startswith("on") or name in ("src", "style")]
    assert not set(html) & set("\u202e\u2066\u0007\u001b\u200b\u0000")


def test_the_hostile_words_are_there_to_be_read() -> None:
    read = Page(page_of_text(plan(ATTACKS[0])))
    told = "".join(read.text)
    assert told.count(ATTACKS[0]) >= 6


def test_the_page_of_a_hostile_plan_has_findings_and_drawings() -> None:
    read = Page(page_of_text(plan(ATTACKS[0])))
    assert read.all("article", "finding") and read.all("article", "accepted") and read.all("svg")
