"""The sheet of views and the exploded view of every sample, and of what is hard to draw."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

from planlint.auditing import Audit, audit_text
from planlint.drawing.arranging import SHEETS
from planlint.drawing.drawing import Drawing
from planlint.drawing.exploded import exploded
from planlint.drawing.figures import figure
from planlint.drawing.ink import standalone
from planlint.drawing.marks import numbered
from planlint.drawing.naming_parts import entry_names
from planlint.drawing.rings import MOST
from planlint.drawing.views import views

from .plans import SAMPLES, audited, sheet, shelf

SVG = "{http://www.w3.org/2000/svg}"
every_sample = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
both = pytest.mark.parametrize("draw", [views, exploded])
Draw = Callable[[Audit], Drawing]


def tree(drawing: Drawing) -> ElementTree.Element:
    return ElementTree.fromstring(standalone(drawing).encode())


def texts(drawing: Drawing) -> list[str]:
    return [node.text or "" for node in tree(drawing).iter(f"{SVG}text")]


def names_on(drawing: Drawing) -> str:
    """All texts on one line, names broken over two lines put together again."""
    return " ".join(texts(drawing))


@every_sample
def test_each_entry_is_named_and_each_placed_part_drawn(path: Path) -> None:
    """A builder looking for a part that the sheet does not name, or an entry left out in silence."""
    audit = audited(path)
    drawing = sheet(path, views)
    told = names_on(drawing)
    for called in entry_names(audit.piece.parts).values():
        assert called in told
    assert all(part.name for part in audit.piece.parts)
    groups = {node.get("data-part") for node in tree(sheet(path, exploded)).iter(f"{SVG}g")} - {None}
    assert groups <= {part.name for part in audit.piece.parts}
    assert len(groups) >= 0.8 * len(audit.piece.parts)


@every_sample
def test_each_finding_is_ringed_once_or_told_to_have_no_place(path: Path) -> None:
    """A number in the list that nobody finds on the drawing."""
    audit = audited(path)
    if not audit.piece.parts:
        return
    drawing = sheet(path, views)
    in_list_and_views = [
        int(node.get("data-finding", "0"))
        for node in tree(drawing).iter(f"{SVG}g")
        if node.get("data-finding")
    ]
    told = re.search(r"Findings not placed: ([^.]*)\.", names_on(drawing))
    away = {int(number) for number in re.findall(r"\d+", told.group(1))} if told else set()
    for mark in numbered(audit)[:MOST]:
        assert in_list_and_views.count(mark.number) == (1 if mark.number in away else 2)
    assert {mark.number for mark in numbered(audit) if mark.spot is None} <= away


@both
@every_sample
def test_the_sheet_is_one_that_printers_have(path: Path, draw: Draw) -> None:
    """A drawing that a page cuts off."""
    drawing = sheet(path, draw)
    if audited(path).piece.parts:
        assert (drawing.width, drawing.height) in SHEETS


def test_the_overall_sizes_are_dimensioned() -> None:
    """A sheet without the three figures one asks first: 48 wide, 15 1/2 deep, 18 high."""
    told = texts(views(audited(next(path for path in SAMPLES if path.stem == "balcony-bench"))))
    assert told.count("48") >= 2
    assert told.count("15 1/2") >= 2
    assert told.count("18") >= 2


@pytest.mark.parametrize(
    ("length", "told"),
    [(25.4, "1"), (25.4 * 3.3125, "3 5/16"), (25.4 * 23 / 32, "23/32"), (25.4 * 15.5468, "15 9/16")],
)
def test_inches_are_told_as_a_tape_has_them(length: float, told: str) -> None:
    """15 35/64, which the block says nobody is told."""
    assert figure(length, "in") == told


@both
def test_names_from_the_plan_are_text(draw: Draw) -> None:
    """A title that is markup runs in the page that shows the drawing."""
    drawing = draw(shelf(title="<script>alert(1)</script>&"))
    assert "<script" not in "".join(drawing.content)
    assert any(text.startswith("<script>alert(1)") for text in texts(drawing))


@both
@pytest.mark.parametrize("title", ["Ein Brett für die Küche 棚板", "x" * 400, "", "\x07bell\x1b[31m"])
def test_any_title_gives_a_drawing_that_can_be_read(draw: Draw, title: str) -> None:
    """Wide letters, endless words and control characters break the sheet or its XML."""
    assert tree(draw(shelf(title=title))) is not None


@both
def test_a_long_part_name_stays_on_the_sheet(draw: Draw) -> None:
    """A name longer than its column pushes the view off the paper."""
    drawing = draw(shelf(name="a-very-long-name-for-a-single-plain-shelf-of-the-cupboard-in-the-hall"))
    assert (drawing.width, drawing.height) in SHEETS
    assert any(text.startswith("a-very-long") for text in texts(drawing))


@both
@pytest.mark.parametrize(
    "text",
    [
        "",
        'plan "Only a title"\n',
        "parts\n  leg: 4 of 2x4 @ 30\n",
        "nonsense\n" * 20,
        'plan "x"\nplace\n  ghost: runs up\n',
    ],
)
def test_without_a_placed_part_the_drawing_says_so(draw: Draw, text: str) -> None:
    """An empty sheet, or a traceback, where the plan has no place section."""
    drawing = draw(audit_text(text))
    told = names_on(drawing)
    assert "Nothing can be drawn" in told
    assert "place section" in told
    assert told.count(drawing.about[:30])
    assert tree(drawing) is not None


def test_what_has_no_place_is_named_with_its_reason() -> None:
    """A part that is missing in the drawing without a word."""
    path = next(path for path in SAMPLES if path.stem == "yard-workbench")
    assert "Not drawn, the place section does not name it: foot-rail." in names_on(views(audited(path)))


@both
def test_a_plan_cut_off_anywhere_is_drawn(draw: Draw) -> None:
    """Half-typed plans are the usual ones."""
    text = next(path for path in SAMPLES if path.stem == "porch-chair").read_text(encoding="utf-8")
    lines = text.splitlines(keepends=True)
    for count in range(20, len(lines), 7):
        assert tree(draw(audit_text("".join(lines[:count])))) is not None
