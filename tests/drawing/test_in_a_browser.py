"""The texts' real boxes, measured in a browser: none on another, none off the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.drawing.drawing import Drawing
from planlint.drawing.exploded import exploded
from planlint.drawing.ink import INK, drawn
from planlint.drawing.views import views
from tests.sheet.browser import CHROMIUM, DRIVER, MISSING, window

from .plans import SAMPLES, sheet

pytestmark = pytest.mark.skipif(not (CHROMIUM and DRIVER), reason=MISSING)

# A text's box holds room for accents over it and tails under it, which numbers and names seldom use.
MEASURE = """
const told = [];
for (const sheet of document.querySelectorAll('svg')) {
  const name = sheet.getAttribute('aria-label'), own = sheet.getBoundingClientRect();
  const mm = sheet.viewBox.baseVal.width / own.width;
  const marks = [...sheet.querySelectorAll('text, circle.mark')].filter(
    (one) => one.tagName !== 'text' || !one.closest('.finding-mark'));
  const boxes = marks.map((one) => {
    const r = one.getBoundingClientRect();
    const box = [r.left - own.left, r.top - own.top, r.right - own.left, r.bottom - own.top].map((x) => x * mm);
    const spare = one.tagName === 'text' ? 0.18 * one.getAttribute('font-size') : 0;
    const upright = (one.getAttribute('transform') || '').includes('-90');
    box[upright ? 0 : 1] += spare;
    box[upright ? 2 : 3] -= spare / 3;
    if (box[0] < 0.5 || box[1] < 0.5 || box[2] > own.width * mm - 0.5 || box[3] > own.height * mm - 0.5)
      told.push(name + ': off the sheet: ' + one.textContent);
    return box;
  });
  for (let i = 0; i < boxes.length; i++) for (let j = 0; j < i; j++) {
    const [a, b] = [boxes[i], boxes[j]];
    const wide = Math.min(a[2], b[2]) - Math.max(a[0], b[0]), high = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
    if (wide > 0.1 && high > 0.1) told.push(name + ': ' + marks[i].textContent + ' lies on ' + marks[j].textContent);
  }
}
return [told, document.querySelectorAll('text').length];
"""


def measured(drawings: list[Drawing], folder: Path) -> tuple[list[str], int]:
    sheets = "".join(f"<div>{drawn(drawing)}</div>" for drawing in drawings)
    page = folder / "page.html"
    page.write_text(f'<meta charset="utf-8"><style>{INK}</style>{sheets}', encoding="utf-8")
    browser = window()
    browser.size(1400, 900)
    browser.open(page)
    told, texts = browser.run(MEASURE)
    return told, texts


def test_no_text_lies_on_another_or_off_its_sheet(tmp_path: Path) -> None:
    """Widths are estimated from a table: a wrong one puts a number on a name."""
    drawings = [sheet(path, draw) for path in SAMPLES for draw in (views, exploded)]
    told, texts = measured(drawings, tmp_path)
    assert told == []
    assert texts > 1000


def test_the_measure_finds_what_lies_on_another(tmp_path: Path) -> None:
    """A measure that finds nothing would pass everything."""
    from planlint.svg import words

    twice = (words("one", (10, 10), 4), words("two", (11, 10), 4), words("off", (58, 30), 4))
    told, _ = measured([Drawing("x", "Sheet", "", 60, 40, twice)], tmp_path)
    assert any("two lies on one" in one for one in told)
    assert any("off the sheet: off" in one for one in told)
