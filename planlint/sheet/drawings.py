"""The drawings on the page, each a figure with its title; sections of fastenings go with their findings."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.drawing.drawing import Drawing
from planlint.drawing.exploded import exploded
from planlint.drawing.fastenings import faulty
from planlint.drawing.ink import drawn
from planlint.drawing.section_sheet import Shown, apart
from planlint.drawing.views import views
from planlint.sheet.html import Chapter, Html, chapter, element, paragraph, text, visible
from planlint.sheet.parts import parts_table

# What A4 and Letter both hold upright inside the margins of the page, and what both hold on their side.
UPRIGHT = (190.0, 250.0)
ON_ITS_SIDE = (250.0, 178.0)


def drawings(audit: Audit) -> Chapter:
    """All parts together, taken apart, and the list of parts with where the plan speaks of each."""
    if not audit.piece.parts:
        told = "There is nothing to draw: the plan does not say where its parts go."
        return chapter("drawings", "Drawings", paragraph(told), parts_table(audit))
    hint = paragraph(
        "Point at a part to see its name and the lines about it. Numbers in rings are the findings’.",
        "on-screen",
    )
    return chapter(
        "drawings",
        "Drawings",
        hint,
        figure(views(audit), "picture-views"),
        figure(exploded(audit), "picture-exploded"),
        parts_table(audit),
    )


def figure(drawing: Drawing, name: str = "") -> Html:
    """A drawing, which has its title in it. Where no page holds it at its size on paper, that is said."""
    fits = _fit(drawing)
    told = "Too big for one page at its scale, so it is printed smaller: go by its figures and its scale bar."
    caption = element("figcaption", {}, text(told)) if fits == "shrunk" else Html("")
    wide = "wide" if drawing.width > drawing.height else "tall"
    return element(
        "figure",
        {"class": f"drawn {fits} {wide}", "id": name},
        element("div", {"class": "scroll"}, Html(visible(drawn(drawing)))),
        caption,
    )


def _fit(drawing: Drawing) -> str:
    if drawing.width <= UPRIGHT[0] and drawing.height <= UPRIGHT[1]:
        return "upright"
    if drawing.width <= ON_ITS_SIDE[0] and drawing.height <= ON_ITS_SIDE[1]:
        return "sideways"
    return "shrunk"


def fastenings(audit: Audit) -> dict[int, Html]:
    """Sections of each faulty fastening, to scale, by the number of the finding: side by side where there is room."""
    return {section.one.number: _side_by_side(section) for section in faulty(audit)}


def _side_by_side(section: Shown) -> Html:
    drawings = [Html(visible(drawn(drawing))) for drawing in apart(section)]
    return element(
        "figure",
        {"class": "drawn upright sections"},
        element("div", {"class": "scroll"}, *drawings),
        element("figcaption", {}, text(section.caption)),
    )
