"""The verdict on top of the page: one sentence that says whether to buy and cut, and the title block beside it."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.auditing import Audit
from planlint.judge.finding import SEVERITIES, Value
from planlint.sheet.html import Html, element, joined, link, text
from planlint.sheet.noted import Noted
from planlint.show.quantities import listed, numbered, word


def sentence(audit: Audit) -> str:
    """What the audit comes to, for someone who is about to buy the wood."""
    open_ones = [finding.severity for finding in audit.verdict.findings if finding.accepted is None]
    counts = {severity: open_ones.count(severity) for severity in SEVERITIES}
    unchecked = len({each.rule for each in audit.verdict.not_checked})
    told = _advice(counts)
    accepted = len(audit.verdict.findings) - len(open_ones)
    if accepted:
        told += f"; the plan accepts {numbered(accepted, 'finding')}"
    if unchecked:
        told += f"; {numbered(unchecked, 'check')} could not be made in full"
    return told + "."


def _advice(counts: dict[str, int]) -> str:
    stop, check, hint = counts["stop"], counts["check"], counts["hint"]
    rest = []
    if check:
        rest.append(f"{check} {'wants' if check == 1 else 'want'} a second look")
    if hint:
        rest.append(f"{hint} could be done better")
    if stop:
        things = f"{numbered(stop, 'thing')} {'stops' if stop == 1 else 'stop'} this plan"
        return f"Do not buy or cut yet: {listed([things, *rest])}"
    if check:
        return f"Look before you cut: nothing found stops this plan, but {listed(rest)}"
    if hint:
        return f"Nothing found stops this plan; {listed(rest)}"
    return "Nothing wrong was found"


def worst(audit: Audit) -> str:
    """The gravest severity that is open, for the look of the verdict; "sound" without any."""
    open_ones = {finding.severity for finding in audit.verdict.findings if finding.accepted is None}
    return next((severity for severity in SEVERITIES if severity in open_ones), "sound")


def at_a_glance(findings: Sequence[Noted]) -> Html:
    """The open findings in one list, gravest first: a table of contents for who has to mend them."""
    order = {"stop": 0, "check": 1, "hint": 2}
    open_ones = [each for each in findings if each.number]
    open_ones.sort(key=lambda each: (order[each.worded.finding.severity], each.number))
    entries = [
        element(
            "li",
            {"class": each.worded.finding.severity},
            element("span", {"class": "severity"}, text(each.worded.finding.severity)),
            text(" "),
            link(each.anchor, f"{each.number}. {each.worded.title}"),
            element("span", {"class": "where"}, text(f" line\u00a0{each.worded.place.line}")),
        )
        for each in open_ones
    ]
    return element("ul", {"class": "glance"}, *entries) if entries else Html("")


def by_itself(made: int) -> Html:
    """How many of the findings planlint can mend."""
    if not made:
        return Html("")
    it = "that mend" if made == 1 else "those mends"
    told = f"planlint can mend {made} of these by itself. The lists and steps below count {it} in: "
    return element("p", {}, text(told), link("mends", "see before and after"), text("."))


def title_block(audit: Audit) -> Html:
    """What stands in the corner of a drawing: size over all, wood, where it will stand, how many parts."""
    told = [(name, words) for name, words in _block(audit) if words]
    rows = [
        element("div", {}, element("dt", {}, text(name)), element("dd", {}, text(words)))
        for name, words in told
    ]
    return element("dl", {"class": "block"}, joined(rows)) if rows else Html("")


def _block(audit: Audit) -> list[tuple[str, str]]:
    heading = audit.plan.heading
    wood = (
        heading.wood.text.replace("-", " ") + (", treated" if heading.treated else "") if heading.wood else ""
    )
    return [
        ("Size over all", _size(audit)),
        ("Wood", wood),
        ("Stands", heading.setting.text.replace("-", " ") if heading.setting else ""),
        ("Parts", _parts(audit)),
    ]


def _size(audit: Audit) -> str:
    """Left to right x front to back x up, of all parts that have a place."""
    units = audit.plan.heading.units
    solids = [part.solid for part in audit.piece.parts]
    if not solids:
        return ""
    wide, deep, high = (
        word(Value(max(s.high[axis] for s in solids) - min(s.low[axis] for s in solids), "length"), units)
        for axis in range(3)
    )
    return f"{wide} wide, {deep} deep, {high} high"


def _parts(audit: Audit) -> str:
    cut = sum(entry.pieces for entry in audit.plan.parts)
    if not cut:
        return ""
    placed = len(audit.piece.parts)
    return str(cut) if placed == cut else f"{cut} in the cut list, {placed} placed"
