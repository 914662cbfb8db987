"""The cautions that fit the plan, each with where it comes from."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.sheet.cautions import Caution, cautions
from planlint.sheet.html import Chapter, Html, chapter, element, paragraph, text


def care(audit: Audit) -> Chapter:
    """All cautions of the plan, in their order."""
    told = [_caution(each) for each in cautions(audit)]
    return chapter("care", "Take care", *([element("div", {"class": "lists"}, *told)] if told else []))


def _caution(each: Caution) -> Html:
    title = f"care-{each.name}"
    said = [paragraph(words) for words in each.says]
    return element(
        "article",
        {"class": "caution", "aria-labelledby": title},
        element("h3", {"id": title}, text(each.title)),
        *said,
        paragraph(_source(each), "source"),
    )


def _source(each: Caution) -> str:
    if each.source == each.confidence:
        return f"{each.source[:1].upper()}{each.source[1:]}."
    return f"Source: {each.source} ({each.confidence})."
