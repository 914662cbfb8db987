"""The page in a real browser: what a builder sees, points at, tabs to and prints."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.sheet.browser import CHROMIUM, DRIVER, MISSING, Browser, window
from tests.sheet.hostile import ATTACKS, plan
from tests.sheet.pages import FAULTY, ROOT, audit_of, page_of, page_of_text

pytestmark = pytest.mark.skipif(not (CHROMIUM and DRIVER), reason=MISSING)

TAB, ESCAPE = "\ue004", "\ue00c"
BENCH = next(path for path in FAULTY if path.stem == "balcony-bench")
FEW = [BENCH, ROOT / "samples/faulty/yard-workbench.plan", ROOT / "samples/sound/reading-chair.plan"]


@pytest.fixture(scope="module")
def browser() -> Browser:
    return window()


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("pages")
    pages = {path.stem: page_of(path) for path in FEW} | {"hostile": page_of_text(plan(" ".join(ATTACKS)))}
    for name, html in pages.items():
        (folder / f"{name}.html").write_text(html, encoding="utf-8")
    return {name: folder / f"{name}.html" for name in pages}


def _count(browser: Browser, what: str) -> int:
    return int(browser.run("return document.querySelectorAll(arguments[0]).length", what))


def _lit(browser: Browser, what: str, key: str) -> set[str]:
    return set(
        browser.run(
            "return [...document.querySelectorAll(arguments[0] + '.lit')].map(e => e.getAttribute(arguments[1]))",
            what,
            key,
        )
    )


@pytest.mark.parametrize("name", ["balcony-bench", "yard-workbench", "reading-chair", "hostile"])
def test_no_error_no_request_and_nothing_wider_than_the_window(
    browser: Browser, files: dict[str, Path], name: str
) -> None:
    browser.size(1400, 900)
    browser.open(files[name])
    for width in (360, 800, 1400):
        browser.size(width, 900)
        room = browser.run(
            "const page = document.documentElement; return [page.scrollWidth, page.clientWidth]"
        )
        assert room[0] <= room[1] <= width, width
    assert browser.run("return performance.getEntriesByType('resource').map(one => one.name)") == []
    assert browser.errors() == []


def test_what_is_counted_on_the_page_is_what_the_audit_has(browser: Browser, files: dict[str, Path]) -> None:
    for path in FEW:
        browser.open(files[path.stem])
        audit = audit_of(path)
        assert _count(browser, "article.finding") == len(
            [finding for finding in audit.verdict.findings if finding.accepted is None]
        )
        drawn = browser.run(
            "return [...document.querySelectorAll('section > figure [data-part]')].map(e => e.dataset.part)"
        )
        assert set(drawn) == {part.name for part in audit.piece.parts}
        assert _count(browser, "article.step") == len(audit.plan.steps)


def test_the_tab_key_reaches_the_findings_in_order_and_lights_their_parts(
    browser: Browser, files: dict[str, Path]
) -> None:
    browser.size(1400, 900)
    browser.open(files["balcony-bench"])
    browser.run("document.getElementById('plan').scrollIntoView(); document.getElementById('main').focus()")
    reached: list[str] = []
    for _ in range(80):
        browser.press(TAB)
        card = browser.run("return document.activeElement.dataset.findingCard || ''")
        if card and card not in reached:
            reached.append(card)
        if card == "5":
            break
    assert reached == ["1", "2", "3", "4", "5"]
    parts = set(browser.run("return document.activeElement.dataset.parts").split("|"))
    assert len(parts) >= 2
    assert _lit(browser, "#picture-views [data-part]", "data-part") == parts
    assert _lit(browser, "#picture-exploded [data-part]", "data-part") == parts
    assert {"16", "43"} <= _lit(browser, "li[data-line]", "data-line")
    assert all("5" in numbers.split() for numbers in _lit(browser, "mark", "data-findings"))
    assert browser.run("return getComputedStyle(document.activeElement).outlineStyle") == "solid"
    told = browser.run("return document.getElementById('strip').textContent")
    assert told.startswith("Finding 5") and "43" in told
    faded, lit = browser.run(
        "const of = (s) => getComputedStyle(document.querySelector(s)).opacity;"
        "return [of('#picture-views [data-part]:not(.lit)'), of('#picture-views [data-part].lit')]"
    )
    assert float(faded) < float(lit) == 1
    inset = "return [!document.getElementById('inset').hidden, document.querySelectorAll('#inset .lit').length > 0]"
    assert browser.run(inset) == [True, True]  # the drawings are out of sight: the corner shows the parts
    browser.press(ESCAPE)
    assert _count(browser, ".lit, .some-lit") == 0
    assert browser.run("return document.getElementById('strip').textContent") == ""
    assert browser.errors() == []


def test_pointing_at_a_part_tells_its_name_and_lines(browser: Browser, files: dict[str, Path]) -> None:
    browser.size(1400, 900)
    browser.open(files["balcony-bench"])
    x, y, name = browser.run(
        "const views = document.getElementById('picture-views'); views.scrollIntoView({block: 'center'});"
        "for (const one of views.querySelectorAll('[data-part]')) {"
        "  const box = one.getBoundingClientRect();"
        "  for (let i = 1; i < 8; i++) for (let j = 1; j < 8; j++) {"
        "    const x = box.left + box.width * i / 8, y = box.top + box.height * j / 8;"
        "    const hit = document.elementFromPoint(x, y)?.closest('[data-part]');"
        "    if (hit === one) return [x, y, one.dataset.part];"
        "  }"
        "} return null;"
    )
    browser.point_at(x, y)
    told = browser.run("return document.getElementById('strip').textContent")
    assert told.startswith(f"{name}: ") and re.search(r"In the plan: lines? \d", told)
    assert _lit(browser, "#picture-views [data-part]", "data-part") == {name}
    assert _count(browser, "li[data-line].lit") >= 1
    browser.point_at(2, 2)
    assert _count(browser, ".lit") == 0


def test_dark_is_dark_on_the_screen_and_never_on_paper(browser: Browser, files: dict[str, Path]) -> None:
    browser.open(files["balcony-bench"])
    shades = {}
    for media, scheme in (("screen", "light"), ("screen", "dark"), ("print", "dark")):
        features = [{"name": "prefers-color-scheme", "value": scheme}]
        browser.devtools("Emulation.setEmulatedMedia", {"media": media, "features": features})
        colour = browser.run("return getComputedStyle(document.documentElement).backgroundColor")
        shades[media, scheme] = sum(map(int, re.findall(r"\d+", colour)[:3])) / 3
    browser.devtools("Emulation.setEmulatedMedia", {"media": "", "features": []})
    assert shades["screen", "light"] > 220 and shades["print", "dark"] == 255
    assert shades["screen", "dark"] < 60


@pytest.mark.parametrize(("paper", "width", "height"), [("A4", 21.0, 29.7), ("Letter", 21.59, 27.94)])
def test_it_prints(browser: Browser, files: dict[str, Path], paper: str, width: float, height: float) -> None:
    browser.open(files["balcony-bench"])
    pdf = browser.printed(width, height)
    assert pdf.startswith(b"%PDF") and 2 <= len(re.findall(rb"/Type\s*/Page\b", pdf)) <= 30


def test_a_drawing_on_paper_has_its_true_size(browser: Browser, files: dict[str, Path]) -> None:
    browser.devtools("Emulation.setEmulatedMedia", {"media": "print"})
    browser.size(719, 1000)  # what is left of A4 inside its margins: 190 mm at 96 pixels an inch
    browser.open(files["balcony-bench"])
    sizes = browser.run(
        "return [...document.querySelectorAll('figure.upright svg')].map("
        "e => [e.getAttribute('width'), e.getBoundingClientRect().width])"
    )
    browser.devtools("Emulation.setEmulatedMedia", {"media": ""})
    assert sizes
    for asked, pixels in sizes:
        assert pixels == pytest.approx(float(asked.removesuffix("mm")) * 96 / 25.4, abs=0.5)


def test_no_card_is_higher_than_a_page(browser: Browser, files: dict[str, Path]) -> None:
    """The printer cuts such a card in two, through its drawing."""
    browser.devtools("Emulation.setEmulatedMedia", {"media": "print"})
    browser.size(719, 1000)
    for name in ("balcony-bench", "yard-workbench"):
        browser.open(files[name])
        high = browser.run(
            "const cards = [...document.querySelectorAll('.finding, .step, .caution')];"
            "return cards.map(e => e.getBoundingClientRect().height)"
        )
        assert high and max(high) < 250 * 96 / 25.4  # what A4 and Letter both hold
    browser.devtools("Emulation.setEmulatedMedia", {"media": ""})


def test_without_the_script_nothing_is_missing(browser: Browser, files: dict[str, Path]) -> None:
    browser.devtools("Emulation.setScriptExecutionDisabled", {"value": True})
    browser.open(files["balcony-bench"])
    browser.devtools("Emulation.setScriptExecutionDisabled", {"value": False})
    assert _count(browser, "article.finding") == 9 and _count(browser, "svg") >= 3
