"""The list as CSV (RFC 4180): a header, one thing to buy or one total a row, numbers plain, units beside them."""

from __future__ import annotations

import csv
import io

from planlint.buying.measures import plain, unit_of
from planlint.buying.shopping import Line, Measure, Shopping, Total

COLUMNS = (
    *(
        "group",
        "item",
        "buy",
        "needed_least",
        "needed_most",
        "needed_unit",
        "spare",
        "plan_list",
        "plan_line",
    ),
    *("difference", "price_each", "price_all", "why", "notes"),
)
# A cell that begins so may run as a formula in a spreadsheet; some take the wide forms too.
_RUNS = tuple("=+-@＝＋－＠")


def table(shopping: Shopping, basis: str = "") -> str:
    """The rows, ended by CR LF. Words that could run as a formula have an apostrophe before them.

    `basis` says what the list stands on; it is the last row.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for group in shopping.groups:
        for line in group.lines:
            writer.writerow(_line(line, group.title, shopping.units))
    for total in shopping.totals:
        writer.writerow(_total(total, shopping.units))
    for unknown in shopping.not_known:
        writer.writerow(_words("Not known", unknown.what, unknown.add and f"add {unknown.add}"))
    if basis:
        writer.writerow(_words("Counted in and open", basis, ""))
    return text.getvalue()


def safe(text: str) -> str:
    """Words as they may stand in a cell: on one line, and never a formula."""
    one_line = " ".join(text.split())
    return f"'{one_line}" if one_line.startswith(_RUNS) else one_line


def _line(line: Line, group: str, units: str) -> list[str]:
    own = line.own
    return [
        safe(group),
        safe(line.what),
        _number(line.buy),
        *_needed(line.needed, units),
        _number(line.spare),
        "" if own is None else _number(own.number),
        "" if own is None else _number(own.line),
        line.difference,
        _price(line.price),
        _price(line.cost),
        safe(line.why),
        safe("; ".join([*_other(line), *line.notes])),
    ]


def _total(total: Total, units: str) -> list[str]:
    notes = safe("; ".join(total.notes))
    if total.key == "price" and total.amount is not None:
        return ["Totals", total.title, *[""] * 9, _price(total.amount.low), "", notes]
    return ["Totals", safe(total.title), "", *_needed(total.amount, units), *[""] * 7, notes]


def _words(group: str, item: str, notes: str) -> list[str]:
    return [group, safe(item), *[""] * (len(COLUMNS) - 3), safe(notes)]


def _needed(amount: Measure | None, units: str) -> list[str]:
    """Least, most and unit; the most is empty where there may be more than is known."""
    if amount is None:
        return ["", "", ""]
    most = "" if amount.at_least else plain(amount.high, amount, units)
    return [plain(amount.low, amount, units), most, unit_of(amount, units).name]


def _other(line: Line) -> list[str]:
    return [f"the plan's list has {line.own.words}"] if line.own is not None and line.own.words else []


def _number(number: int | None) -> str:
    return "" if number is None else str(number)


def _price(price: float | None) -> str:
    return "" if price is None else f"{price:.2f}"
