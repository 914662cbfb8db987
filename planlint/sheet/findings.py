"""The findings as cards beside the plan: what is wrong, why, the mend; and what could not be checked."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.auditing import Audit, rules
from planlint.sheet.html import Chapter, Html, chapter, element, items, joined, link, paragraph, prose, text
from planlint.sheet.marking import marks
from planlint.sheet.noted import Noted
from planlint.sheet.plan_text import listing, sections
from planlint.show.report import Unmade, Worded
from planlint.show.wording import unmade

NOT_CHECKED = "What could not be checked"


def annotated(audit: Audit, findings: Sequence[Noted], sections_of: dict[int, Html]) -> Chapter:
    """The plan's text section by section, the findings beside the section their line is in.

    `sections_of` are drawings by the number of the finding they belong to.
    """
    by_line = marks(findings, audit.source)
    rows = []
    for lines in sections(audit.source):
        own = [each for each in findings if each.worded.place.line in lines]
        cards = [card(each, sections_of.get(each.number, Html(""))) for each in own]
        rows.append(
            element(
                "div",
                {"class": "row"},
                element("div", {"class": "text"}, listing(audit.source, lines, by_line)),
                element("div", {"class": "cards"}, *cards) if cards else Html(""),
            )
        )
    if not findings:
        return chapter("plan", "The plan", element("div", {"class": "unmarked"}, *rows))
    return chapter("plan", "The plan, and what was found in it", _key(findings), *rows)


def _key(findings: Sequence[Noted]) -> Html:
    """What the severities mean, where there are any."""
    if not findings:
        return Html("")
    told = (
        ("stop", "do not buy or cut before this is solved"),
        ("check", "probably wrong: look"),
        ("hint", "better practice"),
    )
    entries = [
        joined([element("span", {"class": f"severity {name}"}, text(name)), text(f" {meaning}")])
        for name, meaning in told
    ]
    return items(entries, "key")


def card(each: Noted, drawing: Html) -> Html:
    """One finding. It can be reached with the Tab key, and lights its parts when it is."""
    worded = each.worded
    if not each.number:
        return _accepted(each)
    severity = worded.finding.severity
    title = f"{each.anchor}-title"
    head = element(
        "h3",
        {"id": title},
        element("span", {"class": "tag"}, text(str(each.number))),
        text(" "),
        element("span", {"class": "severity"}, text(severity)),
        text(" "),
        text(worded.title),
    )
    return element(
        "article",
        {
            "id": each.anchor,
            "class": f"finding {severity}",
            "tabindex": 0,
            "aria-labelledby": title,
            "data-finding-card": each.number,
            "data-parts": "|".join(each.parts),  # a name has no such character
            "data-lines": " ".join(str(line) for line in _all_lines(worded)),
        },
        head,
        _where(worded),
        paragraph(worded.says, "says"),
        paragraph(worded.others, "others"),
        drawing,
        _labelled("Why", worded.why),
        _labelled("Mend", worded.fix, "mend"),
        _labelled("Care", worded.caution, "care"),
        _labelled("Then", worded.consequences),
    )


def _accepted(each: Noted) -> Html:
    worded = each.worded
    title = f"{each.anchor}-title"
    return element(
        "article",
        {"id": each.anchor, "class": "accepted", "aria-labelledby": title},
        element(
            "h3",
            {"id": title},
            element("span", {"class": "severity"}, text("accepted")),
            text(f" {worded.title}"),
        ),
        _where(worded),
        paragraph(worded.says, "says"),
        paragraph(f"The plan accepts it: “{worded.finding.accepted}”", "reason"),
    )


def _all_lines(worded: Worded) -> list[int]:
    return sorted({worded.place.line, *worded.lines, *(quote.line for quote in worded.quoted)})


def _where(worded: Worded) -> Html:
    """The lines it is about, its own first, and what becomes of the words there."""
    own = worded.place.line
    by_label: dict[str, list[int]] = {}
    for quote in sorted(worded.quoted, key=lambda quote: (quote.line != own, quote.line)):
        label = "" if quote.label == "here" else quote.label
        lines = by_label.setdefault(label, [])
        if quote.line not in lines:
            lines.append(quote.line)
    if len(by_label) > 1 and all(
        line in lines for line in by_label.get("", []) for lines in by_label.values()
    ):
        by_label.pop("", None)
    return items([_on_lines(lines, label) for label, lines in by_label.items()], "where")


def _on_lines(lines: list[int], label: str) -> Html:
    links = joined([link(f"line-{line}", str(line)) for line in lines], ", ")
    said = f": {label}" if label else ""
    return joined([text("Line " if len(lines) == 1 else "Lines "), links, text(said)])


def _labelled(label: str, words: str, class_: str = "") -> Html:
    if not words:
        return Html("")
    said = element("span", {}, prose(words))
    return element(
        "p", {"class": f"labelled {class_}".strip()}, element("b", {}, text(label)), text(" "), said
    )


def not_checked(audit: Audit) -> Chapter:
    """Checks that could not be made, by what stood in the way and what to add to the plan; nothing without any."""
    groups = unmade(audit.verdict.not_checked, rules().rules, audit.source)
    if not groups:
        return chapter("not-checked", NOT_CHECKED)
    intro = paragraph(
        "planlint never takes “not known” for “sound”. These checks wait for something the plan does not say."
    )
    return chapter("not-checked", NOT_CHECKED, intro, items([_unmade(group) for group in groups], "unmade"))


def _unmade(group: Unmade) -> Html:
    reason = (
        group.reason if group.reason.startswith("planlint") else group.reason[:1].upper() + group.reason[1:]
    )
    lines = [link(f"line-{line}", str(line)) for line in group.lines]
    where = (
        joined([text(" Line " if len(lines) == 1 else " Lines "), joined(lines, ", "), text(".")])
        if lines
        else Html("")
    )
    return joined(
        [
            element("p", {"class": "says"}, prose(f"{reason}."), where),
            _labelled("Add", group.add, "mend"),
            _labelled("Waiting", "; ".join(group.titles) + "."),
        ]
    )
