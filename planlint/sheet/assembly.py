"""The order of work as cards to tick off: what joins what, with which fasteners and tools."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planlint.drawing.marks import numbered
from planlint.mending.mended import Mended
from planlint.sheet.html import Chapter, Html, chapter, element, items, joined, link, paragraph, text
from planlint.sheet.noted import Noted
from planlint.sheet.steps import Fixing, Joint, StepCard, Tool, steps

NOTHING = "Nothing of this step can be read that joins two parts: see its lines in the plan."


def assembly(mended: Mended, findings: Sequence[Noted]) -> Chapter:
    """A card for each step of the plan as mended, to go with what is bought and cut; that it has none is said."""
    cards = steps(mended.audit)
    still_open = _still_open(mended, findings)
    if not cards:
        told = "The plan has no steps: it does not say how its parts are put together."
        return chapter("steps", "Putting it together", paragraph(told))
    return chapter("steps", "Putting it together", *(_card(card, still_open) for card in cards))


def _still_open(mended: Mended, findings: Sequence[Noted]) -> dict[int, Noted]:
    """The findings of the page that no mend solves, by their number in the mended plan."""
    own = {(each.worded.finding.rule, each.worded.place.line): each for each in findings if each.number}
    line_of = mended.audit.source.line_of  # a mend adds and takes no lines
    found = {
        one.number: own.get((one.finding.rule, line_of(one.finding.span.start)))
        for one in numbered(mended.audit)
    }
    return {number: each for number, each in found.items() if each is not None}


def _card(card: StepCard, still_open: Mapping[int, Noted]) -> Html:
    title = f"step-{card.number}-title"
    whole = f" — makes {card.assembly}" if card.assembly else ""
    head = element("h3", {"id": title}, text(f"Step {card.number}. {card.title}{whole}"))
    return element(
        "article",
        {"class": "step", "aria-labelledby": title, "data-step": card.number},
        head,
        _faults([still_open[number] for number in card.findings if number in still_open]),
        paragraph("" if card.joints else NOTHING),
        element(
            "div",
            {"class": "parts-of-step"},
            _part("First", items([text(told) for told in card.before])),
            _part("Join", _joints(card)),
            _part("With", items([text(_fixing(each)) for each in card.fixings] + _glue(card))),
            _part("Tools", items([text(_tool(each)) for each in card.tools])),
        ),
    )


def _faults(findings: Sequence[Noted]) -> Html:
    """A warning by name: this step has faults that no mend solves."""
    stops = [each for each in findings if each.worded.finding.severity == "stop"]
    others = [each for each in findings if each not in stops]
    return joined([_listed("Solve first: ", stops), _listed("Look at first: ", others)])


def _listed(label: str, findings: Sequence[Noted]) -> Html:
    if not findings:
        return Html("")
    links = [link(each.anchor, f"{each.number}. {each.worded.title}") for each in findings]
    return element("p", {"class": "faults"}, element("b", {}, text(label)), joined(links, "; "), text("."))


def _part(label: str, content: Html) -> Html:
    if not content:
        return Html("")
    return element("div", {"class": "part"}, element("h4", {}, text(label)), content)


def _joints(card: StepCard) -> Html:
    """Each join with a box to tick, on paper or on the screen."""
    told = []
    for place, joint in enumerate(card.joints, start=1):
        box = f"step-{card.number}-{place}"
        tick = element("input", {"type": "checkbox", "id": box, "autocomplete": "off"})
        told.append(joined([tick, element("label", {"for": box}, text(_joint(joint))), _line(joint)]))
    return items(told, "tick")


def _joint(joint: Joint) -> str:
    times = f", {joint.times} times" if joint.times > 1 else ""
    return f"{joint.first} to {joint.second}{times}: {joint.how}"


def _line(joint: Joint) -> Html:
    return joined(
        [
            element(
                "span", {"class": "quiet"}, text(" line\u00a0"), link(f"line-{joint.line}", str(joint.line))
            )
        ]
    )


def _fixing(fixing: Fixing) -> str:
    if fixing.number is not None:
        return f"{fixing.number} {fixing.words}"
    return (
        f"at least {fixing.at_least} {fixing.words}"
        if fixing.at_least
        else f"{fixing.words}: how many is not known"
    )


def _glue(card: StepCard) -> list[Html]:
    return [text(card.glue)] if card.glue else []


def _tool(tool: Tool) -> str:
    size = f" {tool.size}" if tool.size else ""
    purpose = f": {tool.purpose}" if tool.purpose else ""
    return f"{tool.name}{size}{purpose}"
