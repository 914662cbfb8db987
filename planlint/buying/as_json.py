"""The list as JSON, for programs: every amount in base units and as it is shown.

    {"path", "title", "units",
     "basis": {"text", "mends": [{"line", "from", "to"}], "open_stops": [line, …]},
     "groups": [{"key", "title", "notes": […], "lines": [LINE, …]}],
     "totals": [{"key", "title", "amount": AMOUNT or null, "notes": […]}],
     "not_known": [{"what", "add"}]}
    LINE: {"what", "buy", "needed": AMOUNT or null, "spare", "plan_list": {"number", "words", "line"} or null,
           "difference", "why", "price", "cost", "notes": […]}
    AMOUNT: {"least", "most", "unit", "text"}; "most" is null where there may be more than is known

Keys may be added; none is ever missing. `difference` is same, more, less, missing, not needed, changed or not
checked, seen from the plan's list as it is written (`plan_list`; its `words` stand where it has another article).
Units are mm, mm2, mm3 and kg; counts and prices have the unit "", board feet the unit "board feet".
"""

from __future__ import annotations

import json
from typing import Any

from planlint.buying.basis import basis, open_stops
from planlint.buying.measures import BASE_UNITS, shown
from planlint.buying.shopping import Group, Line, Measure, Own, Shopping, Total
from planlint.mending.mended import Mended

Json = dict[str, Any]


def as_json(shopping: Shopping, mended: Mended) -> str:
    """The JSON text, ended by a line end."""
    whole = {
        "path": shopping.path,
        "title": shopping.title,
        "units": shopping.units,
        "basis": _basis(mended),
        "groups": [_group(group, shopping.units) for group in shopping.groups],
        "totals": [_total(total, shopping.units) for total in shopping.totals],
        "not_known": [one._asdict() for one in shopping.not_known],
    }
    return json.dumps(whole, indent=2, ensure_ascii=False) + "\n"


def _basis(mended: Mended) -> Json:
    place = mended.before.source.place
    changes = sorted({change for made in mended.made for change in made.changes})
    return {
        "text": basis(mended),
        "mends": [{"line": place(one.span).line, "from": one.was, "to": one.now} for one in changes],
        "open_stops": open_stops(mended),
    }


def _group(group: Group, units: str) -> Json:
    return {
        "key": group.key,
        "title": group.title,
        "notes": list(group.notes),
        "lines": [_line(line, units) for line in group.lines],
    }


def _line(line: Line, units: str) -> Json:
    return {
        "what": line.what,
        "buy": line.buy,
        "needed": _amount(line.needed, units),
        "spare": line.spare,
        "plan_list": _own(line.own),
        "difference": line.difference,
        "why": line.why,
        "price": line.price,
        "cost": line.cost,
        "notes": list(line.notes),
    }


def _own(own: Own | None) -> Json | None:
    return None if own is None else own._asdict()


def _amount(amount: Measure | None, units: str) -> Json | None:
    if amount is None:
        return None
    return {
        "least": round(amount.low, 6),
        "most": None if amount.at_least else round(amount.high, 6),
        "unit": BASE_UNITS[amount.kind],
        "text": shown(amount, units),
    }


def _total(total: Total, units: str) -> Json:
    return {
        "key": total.key,
        "title": total.title,
        "amount": _amount(total.amount, units),
        "notes": list(total.notes),
    }
