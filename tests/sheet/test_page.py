"""The page of every plan in the repository: well formed, whole, and nothing left out."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from planlint import __version__
from planlint.mending.mending import mend
from planlint.sheet.cautions import cautions
from planlint.sheet.script import SCRIPT, fingerprint
from planlint.sheet.steps import steps
from planlint.sheet.style import STYLE
from planlint.sheet.verdict import sentence
from tests.sheet.pages import FAULTY, PLANS, audit_of, page_of, page_of_text, read_page
from tests.sheet.reading import Page

every_plan = pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)


@every_plan
def test_the_page_is_well_formed_and_reaches_nothing_outside(path: Path) -> None:
    read = read_page(path)
    assert read.faults == []
    assert not [name for one in read.elements for name in one.attributes if name.startswith("on")]
    assert not {"src", "style", "action", "srcset", "data", "xlink:href"} & {
        name for one in read.elements for name in one.attributes
    }


@every_plan
def test_the_policy_lets_in_our_script_and_style_and_nothing_else(path: Path) -> None:
    read = read_page(path)
    assert read.scripts == [SCRIPT] and read.styles == [STYLE]
    assert len(read.all("script")) == len(read.all("style")) == 1
    policy = next(
        one.attributes["content"] or ""
        for one in read.all("meta")
        if one.attributes.get("http-equiv") == "Content-Security-Policy"
    )
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert rules["default-src"] == rules["img-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert rules["script-src"] == f"'{fingerprint(SCRIPT)}'"
    assert rules["style-src"] == f"'{fingerprint(STYLE)}'"


@every_plan
def test_every_finding_is_on_the_page_once(path: Path) -> None:
    findings = audit_of(path).verdict.findings
    read = read_page(path)
    open_ones = [finding for finding in findings if finding.accepted is None]
    assert read.having("data-finding-card") == [str(n + 1) for n in range(len(open_ones))] or Counter(
        read.having("data-finding-card")
    ) == Counter(str(n + 1) for n in range(len(open_ones)))
    assert len(read.all("article", "accepted")) == len(findings) - len(open_ones)
    assert len([one for one in read.elements if one.attributes.get("tabindex") == "0"]) == len(open_ones)


@every_plan
def test_every_line_of_the_plan_is_on_the_page_in_order(path: Path) -> None:
    lines = audit_of(path).source.text.rstrip().splitlines()
    assert read_page(path).having("data-line") == [str(n + 1) for n in range(len(lines))]


@every_plan
def test_every_part_is_drawn_and_listed(path: Path) -> None:
    placed = [part.name for part in audit_of(path).piece.parts]
    read = read_page(path)
    assert sorted(read.having("data-piece")) == sorted(placed)
    assert set(read.having("data-part")) >= set(placed)


@every_plan
def test_what_a_finding_lights_is_there_to_be_lit(path: Path) -> None:
    read = read_page(path)
    drawn = set(read.having("data-part"))
    for one in read.all("article", "finding"):
        parts = (one.attributes.get("data-parts") or "").split("|")
        assert set(filter(None, parts)) <= drawn
    numbers = set(read.having("data-finding-card"))
    assert {n for names in read.having("data-findings") for n in names.split()} <= numbers
    assert set(read.having("data-finding")) <= numbers


@every_plan
def test_steps_and_cautions_are_all_there(path: Path) -> None:
    audit = audit_of(path)
    read = read_page(path)
    assert read.having("data-step") == [str(card.number) for card in steps(audit)]
    assert len(read.all("article", "caution")) == len(cautions(audit)) > 0
    ticks = [one for one in read.elements if one.attributes.get("type") == "checkbox"]
    assert len(ticks) == len(read.all("label"))


@every_plan
def test_tables_can_be_read_aloud(path: Path) -> None:
    read = read_page(path)
    assert len(read.all("table")) == len(read.all("caption"))
    assert all(one.attributes.get("scope") for one in read.all("th"))
    assert all(
        one.attributes.get("role") == "img" and one.attributes.get("aria-label") for one in read.all("svg")
    )
    assert len(read.all("desc")) == len(read.all("svg"))


@every_plan
def test_the_mends_that_are_counted_in_are_shown(path: Path) -> None:
    mended = mend(audit_of(path))
    html = page_of(path)
    assert html.count("<ins>") == len(
        {
            (id(made), change.was, change.now)
            for made in mended.made
            for change in made.changes
            if change.now.strip()
        }
    )
    assert (f"planlint mend {path.name} --write" in html) == bool(mended.made)


def test_the_verdict_says_what_to_do() -> None:
    told = {path.stem: sentence(audit_of(path)) for path in FAULTY}
    assert told["balcony-bench"].startswith("Do not buy or cut yet: 4 things stop this plan")
    assert all(words.endswith(".") and words.count(".") == 1 for words in told.values())


def test_the_foot_names_the_plan_and_the_program() -> None:
    html = page_of(FAULTY[0])
    assert f"Made from {FAULTY[0].name} by planlint {__version__}." in html


def test_headings_begin_with_the_plans_name() -> None:
    read = read_page(FAULTY[0])
    assert [one.tag for one in read.elements if re.fullmatch("h[1-6]", one.tag)][:2] == ["h1", "h2"]
    assert len(read.all("h1")) == 1 and len(read.all("main")) == len(read.all("footer")) == 1
    assert read.all("html")[0].attributes["lang"] == "en"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n\n",
        "not a plan at all",
        'plan "Only a name"\n',
        'plan "x"\n  units in\n\nparts\n  leg: 4 of 2x4 @ 20\n',
        'plan "x"\n  units in\n\nparts\n  leg: 1 of 2x4 @ 20\n\nplace\n  leg: runs up, left at 0, front at 0\n',
        'plan "x"\r\n  units mm\r\n\r\nparts\r\n  leg: 1 of 20 x 40 @ 500\r\nstep "A"\r\n  leg to nothing: glue\r\n',
        '\ufeffplan "x"\n',
        "parts\n  " + "very-" * 400 + "long: 1 of 2x4 @ 20\n",
    ],
)
def test_plans_that_lack_nearly_everything_have_a_page_too(text: str) -> None:
    assert Page(page_of_text(text)).faults == []


def test_a_plan_cut_off_anywhere_has_a_page() -> None:
    text = audit_of(FAULTY[0]).source.text
    for end in range(0, len(text), len(text) // 8):
        assert Page(page_of_text(text[:end])).faults == []
