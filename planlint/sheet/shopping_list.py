"""The shopping list to carry to the yard: a box to tick, how many, what, and what the plan's own list says."""

from __future__ import annotations

from planlint.buying.measures import shown
from planlint.buying.shopping import Group, Line, Shopping, Total
from planlint.sheet.html import Chapter, Html, chapter, element, items, joined, link, paragraph, prose, text

HEADS = (("Buy", "figure"), ("What", ""), ("Used", "figure"), ("Spare", "figure"), ("The plan’s list", ""))
PRICE = ("Price", "figure")


def shopping_list(shopping: Shopping) -> Chapter:
    """The whole list by group, its totals, and what could not be worked out."""
    groups = [
        _group(number, group, shopping.units)
        for number, group in enumerate(shopping.groups, start=1)
        if group.lines
    ]
    if not groups:
        groups = [paragraph("There is nothing to buy that this plan tells of.")]
    return chapter("buy", "What to buy", *groups, _totals(shopping), _not_known(shopping))


def _group(number: int, group: Group, units: str) -> Html:
    priced = any(line.price is not None for line in group.lines)
    heads = [
        element("th", {"scope": "col", "class": class_}, text(words))
        for words, class_ in ((*HEADS, PRICE) if priced else HEADS)
    ]
    rows = [_row(f"buy-{number}-{place}", line, units, priced) for place, line in enumerate(group.lines, 1)]
    whole = element(
        "table",
        {"class": "buying priced" if priced else "buying"},
        element("caption", {}, text(group.title)),
        element("thead", {}, element("tr", {}, *heads)),
        element("tbody", {}, *rows),
    )
    notes = [paragraph(note, "note") for note in group.notes]
    return element("div", {"class": "group"}, element("div", {"class": "scroll"}, whole), *notes)


def _row(name: str, line: Line, units: str, priced: bool) -> Html:
    """One thing to buy; the reason for its number and what else to know stand under its name."""
    count = text("?" if line.buy is None else str(line.buy))
    what = text(line.what)
    if line.difference != "not needed":
        tick = element("input", {"type": "checkbox", "id": name, "autocomplete": "off"})
        count = joined([tick, count])
        what = element("label", {"for": name}, what)
    told = [text(note) for note in (line.why, *line.notes) if note]
    used = "not known" if line.needed is None else shown(line.needed, units)
    cells = [
        element("td", {"class": "figure"}, count),
        element("th", {"scope": "row"}, what, items(told, "notes")),
        element("td", {"class": "figure"}, text(used)),
        element("td", {"class": "figure"}, text("" if line.spare is None else str(line.spare))),
        element("td", {}, _own(line)),
    ]
    if priced:
        cells.append(
            element("td", {"class": "figure"}, text("" if line.cost is None else f"{line.cost:.2f}"))
        )
    return element("tr", {}, *cells)


def _own(line: Line) -> Html:
    """What the plan's list says, with its line and how the number to buy differs."""
    if line.own is None:
        return element("b", {}, text("not listed"))
    said = f"{line.own.number} {line.own.words}".strip()
    where = element(
        "span",
        {"class": "quiet"},
        text(" (line "),
        link(f"line-{line.own.line}", str(line.own.line)),
        text(")"),
    )
    differs = _differs(line)
    return joined([text(said), where, *([text(" "), element("b", {}, text(differs))] if differs else [])])


def _differs(line: Line) -> str:
    if line.difference in ("changed", "not needed", "not checked"):
        return line.difference
    if line.own is None or line.buy is None or line.buy == line.own.number:
        return ""
    by = line.buy - line.own.number
    return f"{by} more" if by > 0 else f"{-by} fewer"


def _totals(shopping: Shopping) -> Html:
    told = [
        element(
            "div",
            {},
            element("dt", {}, text(total.title)),
            element(
                "dd",
                {},
                text(_amount(total, shopping.units)),
                *(paragraph(note, "note") for note in total.notes),
            ),
        )
        for total in shopping.totals
    ]
    return element("dl", {"class": "block totals"}, *told) if told else Html("")


def _amount(total: Total, units: str) -> str:
    if total.amount is None:
        return "not known"
    if total.key == "price":
        return f"{'at least ' if total.amount.at_least else ''}{total.amount.low:.2f}"
    return shown(total.amount, units)


def _not_known(shopping: Shopping) -> Html:
    if not shopping.not_known:
        return Html("")
    told = [
        joined(
            [
                text(f"{each.what}."),
                *([element("b", {}, text(" Add ")), prose(f"{each.add}.")] if each.add else []),
            ]
        )
        for each in shopping.not_known
    ]
    return joined([element("h3", {}, text("What could not be worked out")), items(told)])
