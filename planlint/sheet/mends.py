"""What the lists count in: the mends that planlint made for them, before and after, and what stays open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import PurePath
from typing import NamedTuple

from planlint.auditing import rules
from planlint.mending.mended import Change, Left, Made, Mended
from planlint.sheet.html import Chapter, Html, chapter, element, items, joined, link, paragraph, prose, text
from planlint.sheet.noted import Noted
from planlint.show.quantities import numbered
from planlint.source import Source

TITLE = "Mends counted in"
HEADS = ("Finding", "The plan says", "Counted in as", "Lines")

Anchors = Mapping[tuple[str, int], Noted]  # the open findings, by rule and line


class _Same(NamedTuple):
    """Lines on which the same words are replaced by the same."""

    was: str
    now: str
    lines: list[int]


def mends(mended: Mended, findings: Sequence[Noted]) -> Chapter:
    """The mends that are counted in, how to keep them, and how many findings may still change the lists."""
    known = {(each.worded.finding.rule, each.worded.place.line): each for each in findings if each.number}
    if not mended.made:
        told = "No mend is counted in: what follows is for the plan as it is written."
        return chapter("mends", TITLE, paragraph(told), _open(mended, known))
    intro = paragraph(
        "What to buy, how to cut it and how to put it together, below, are for the plan with these mends made. "
        "The drawings and the text are of the plan as it is written, and its file is as it was."
    )
    rows = [row for made in mended.made for row in _rows(made, mended.before.source, known)]
    head = element("tr", {}, *(element("th", {"scope": "col"}, text(words)) for words in HEADS))
    whole = element(
        "table",
        {"class": "mends"},
        element("caption", {}, text("Before and after")),
        element("thead", {}, head),
        element("tbody", {}, *rows),
    )
    return chapter(
        "mends",
        TITLE,
        intro,
        element("div", {"class": "scroll"}, whole),
        _command(mended),
        _open(mended, known),
    )


def _command(mended: Mended) -> Html:
    name = PurePath(mended.before.source.path).name
    return element(
        "p",
        {},
        text("To see them in the text: "),
        element("code", {}, text(f"planlint mend {name}")),
        text(". To keep them in the file: "),
        element("code", {}, text(f"planlint mend {name} --write")),
        text("."),
    )


def _rows(made: Made, source: Source, known: Anchors) -> list[Html]:
    """One mend: a row for each change of words, with all the lines it is made on."""
    alike = _alike(made.changes, source)
    title = _title(made.finding.rule, source.place(made.finding.span).line, known)
    rows = []
    for place, each in enumerate(alike):
        head = element("th", {"scope": "rowgroup" if len(alike) > 1 else "row", "rowspan": len(alike)}, title)
        cells = [
            element("td", {}, element("del", {}, text(each.was)) if each.was.strip() else text("nothing")),
            element("td", {}, element("ins", {}, text(each.now)) if each.now.strip() else text("taken out")),
            element("td", {}, joined([link(f"line-{line}", str(line)) for line in each.lines], ", ")),
        ]
        rows.append(element("tr", {}, *([] if place else [head]), *cells))
    return rows


def _alike(changes: Sequence[Change], source: Source) -> list[_Same]:
    by_words: dict[tuple[str, str], _Same] = {}
    for change in changes:
        same = by_words.setdefault((change.was, change.now), _Same(change.was, change.now, []))
        line = source.place(change.span).line
        if line not in same.lines:
            same.lines.append(line)
    return list(by_words.values())


def _title(rule: str, line: int, known: Anchors) -> Html:
    """The finding's title, as a link to its card where it is on the page."""
    title = rules().rules[rule].title
    card = known.get((rule, line))
    return text(title) if card is None else link(card.anchor, f"{card.number}. {title}")


def _open(mended: Mended, known: Anchors) -> Html:
    """The findings that stay: they may change what is bought and cut."""
    if not mended.left:
        return Html("")
    stay = "stays" if len(mended.left) == 1 else "stay"
    told = (
        f"{numbered(len(mended.left), 'finding')} {stay} open. What is done about "
        f"{'it' if len(mended.left) == 1 else 'them'} may change what follows."
    )
    left = items([_left(each, mended, known) for each in mended.left], "left")
    return joined([element("h3", {}, text("What stays open")), paragraph(told), left])


def _left(each: Left, mended: Mended, known: Anchors) -> Html:
    """A mend changes values and no lines, so that a line of the mended text is that of the plan."""
    line = mended.audit.source.place(each.finding.span).line
    where = joined([text(", line "), link(f"line-{line}", str(line)), text(". ")])
    return joined([_title(each.finding.rule, line, known), where, prose(each.why)])
