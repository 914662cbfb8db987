"""The whole page: one file that needs nothing else, and in which nothing but our own script can run."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath

from planlint import __version__
from planlint.auditing import Audit
from planlint.buying.listing import shopping_for
from planlint.mending.mending import mend
from planlint.sawing.sawing import layout
from planlint.sheet.assembly import assembly
from planlint.sheet.care import care
from planlint.sheet.cutting import cutting
from planlint.sheet.drawings import drawings, fastenings
from planlint.sheet.findings import annotated, not_checked
from planlint.sheet.foot import foot
from planlint.sheet.html import Chapter, Html, chapter, element, items, link, paragraph, text
from planlint.sheet.mends import mends
from planlint.sheet.noted import Noted, noted
from planlint.sheet.script import SCRIPT, fingerprint
from planlint.sheet.shopping_list import shopping_list
from planlint.sheet.style import STYLE
from planlint.sheet.verdict import at_a_glance, by_itself, sentence, title_block, worst

# Only what is written here may style or run; the page can load nothing and send nothing.
_POLICY = (
    "default-src 'none'; style-src '{style}'; script-src '{script}'; img-src 'none'; "
    "base-uri 'none'; form-action 'none'"
)


def page(audit: Audit) -> str:
    """The page for one plan. What is bought and cut is for the plan as mended."""
    return "<!doctype html>\n" + element("html", {"lang": "en"}, _head(audit), _body(audit)) + "\n"


def _head(audit: Audit) -> Html:
    policy = _POLICY.format(style=fingerprint(STYLE), script=fingerprint(SCRIPT))
    return element(
        "head",
        {},
        element("meta", {"charset": "utf-8"}),
        element("meta", {"http-equiv": "Content-Security-Policy", "content": policy}),
        element("meta", {"name": "viewport", "content": "width=device-width, initial-scale=1"}),
        element("meta", {"name": "referrer", "content": "no-referrer"}),
        element("meta", {"name": "generator", "content": f"planlint {__version__}"}),
        element("title", {}, text(f"{name_of(audit)}: workshop sheet")),
        element("style", {}, Html(STYLE)),
    )


def name_of(audit: Audit) -> str:
    """The plan's title, or its file's name where it has none."""
    return audit.plan.heading.title.strip() or PurePath(audit.source.path).name or "A plan"


def _body(audit: Audit) -> Html:
    mended = mend(audit)
    boards = layout(mended.audit)
    findings = noted(audit)
    chapters = [
        _verdict(audit, findings, len(mended.made)),
        annotated(audit, findings, fastenings(audit)),
        not_checked(audit),
        drawings(audit),
        mends(mended, findings),
        shopping_list(shopping_for(mended.audit, audit, boards)),
        cutting(boards, audit.plan.heading.units),
        assembly(mended, findings),
        care(mended.audit),
    ]
    return element(
        "body",
        {},
        element("a", {"class": "skip", "href": "#main"}, text("To the sheet")),
        _top(audit),
        _contents(chapters),
        element("main", {"id": "main", "tabindex": -1}, *(each.html for each in chapters)),
        foot(audit),
        element("div", {"id": "inset", "aria-hidden": "true", "hidden": True}),
        element("div", {"id": "strip", "role": "status", "aria-live": "polite"}),
        element("script", {}, Html(SCRIPT)),
    )


def _top(audit: Audit) -> Html:
    """The plan's name, and the block that a drawing has in its corner."""
    name = element(
        "div",
        {},
        element("p", {"class": "eyebrow"}, text("Workshop sheet")),
        element("h1", {}, text(name_of(audit))),
    )
    return element("header", {"class": "top"}, name, title_block(audit))


def _contents(chapters: Sequence[Chapter]) -> Html:
    links = [link(each.name, each.title) for each in chapters if each.html]
    return element("nav", {"aria-label": "On this sheet"}, items(links))


def _verdict(audit: Audit, findings: Sequence[Noted], made: int) -> Chapter:
    said = paragraph(sentence(audit), f"says-all {worst(audit)}")
    return chapter("verdict", "Verdict", said, at_a_glance(findings), by_itself(made))
