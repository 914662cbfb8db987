"""Screws, nails, bolts and fittings: what the steps use, every copy counted, with what to have spare."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Piece
from planlint.buying.articles import article, used
from planlint.buying.own import OwnList
from planlint.buying.shopping import Line, Measure, differs, exactly
from planlint.observe.allotting import allotted
from planlint.observe.buying import could_be, hardware_of, same_size, same_word, singular
from planlint.observe.facts import Missing
from planlint.observe.hardware import Want, wanted_fastenings
from planlint.observe.used import Use
from planlint.read.plan import Plan, Purchase
from planlint.show.quantities import listed
from planlint.trade.buying import caution, enough, stands
from planlint.trade.finishing import is_finish
from planlint.trade.screws import kind

_NAMES = 4  # joins that are named of those that use a fastener
_USED_UP = ("screw", "bolt", "nail", "pin")  # kinds that only a step can use
_PARTS_UNKNOWN = "the parts it joins are not known, so nobody can count it"
_OWN_SCREWS = "the screws that fix them come on top"
_HOME_MADE = "button"
_FROM_OFFCUTS = "one for each button; the buttons are made from offcuts"


class Fastened(NamedTuple):
    """A line and what it is: "screw", "bolt", "nail", "pin", "plate" or "other"."""

    what: str
    line: Line


def fastenings(piece: Piece, uses: Sequence[Use], own: OwnList) -> list[Fastened]:
    """The plan's list in its order, then what the steps use beside it."""
    plan = piece.plan
    wants = wanted_fastenings(uses, plan)
    bought = [one for one in hardware_of(plan) if not is_finish(one.noun.text) and not is_plug(one)]
    fits = [_lines_for(want, bought) for want in wants]
    amounts, sources = _shared_out(wants, bought, fits)
    fittings = any(want.kind is not None and want.kind.what == "plate" for want in wants)
    found = [
        _listed(one, sources[j], amounts[j], plan, own, fittings=fittings) for j, one in enumerate(bought)
    ]
    return found + [
        _missing(want, plan) for want, own_lines in zip(wants, fits, strict=True) if not own_lines
    ]


def _lines_for(want: Want, bought: Sequence[Purchase]) -> list[int]:
    """The list's lines it can come from. Buttons are made from offcuts: then their screws are what is bought."""
    own = [j for j, one in enumerate(bought) if could_be(want.fastening, one)]
    if own or singular(want.fastening.noun.text) != _HOME_MADE:
        return own
    return [
        j
        for j, one in enumerate(bought)
        if _what(one.noun.text) == "screw"
        and one.size is not None
        and same_size(want.fastening, one.size)
        and same_word(want.fastening.finish, one.finish)
    ]


def is_plug(purchase: Purchase) -> bool:
    """Whether a line buys plugs."""
    return purchase.kind == "hardware" and purchase.noun.text.removesuffix("s").endswith("plug")


def _shared_out(
    wants: Sequence[Want], bought: Sequence[Purchase], fits: list[list[int]]
) -> tuple[list[int], list[list[Want]]]:
    """How many are used of each line, and by what; what no line covers is counted to the first that could."""
    given, left = allotted([want.least for want in wants], [one.number for one in bought], fits)
    amounts = [one.number - round(rest) for one, rest in zip(bought, left, strict=True)]
    sources: list[list[Want]] = [[] for _ in bought]
    for want, got, lines in zip(wants, given, fits, strict=True):
        if lines:
            amounts[lines[0]] += want.least - round(got)
        for j in lines:
            sources[j].append(want)
    return amounts, sources


def _listed(
    purchase: Purchase, wants: list[Want], number: int, plan: Plan, own: OwnList, *, fittings: bool
) -> Fastened:
    what = _what(purchase.noun.text)
    as_written = own.of(purchase)
    words = article(purchase, plan.heading.units)
    if wants and not any(want.least for want in wants):
        return Fastened(what, _uncounted(words, purchase, own, _PARTS_UNKNOWN))
    if not wants and (not plan.steps or what not in _USED_UP or (fittings and what == "screw")):
        return Fastened(what, _uncounted(words, purchase, own, _why_uncounted(plan, what)))
    buy = purchase.number if number and stands(purchase.number, number, what) else enough(number, what)
    return Fastened(
        what,
        Line(
            what=words,
            needed=_needed(wants, number),
            buy=buy,
            spare=buy - number,
            own=as_written,
            difference=differs(buy, as_written),
            why=_why(wants, number),
            price=purchase.price,
            notes=tuple(_notes(wants, what)),
        ),
    )


def _why_uncounted(plan: Plan, what: str) -> str:
    if not plan.steps:
        return "the plan has no steps that can be read, so nobody can count it"
    return f"no step counts it{'; it may be for the fittings' if what == 'screw' else ''}"


def _uncounted(words: str, purchase: Purchase, own: OwnList, why: str) -> Line:
    """Bought, and nothing in the plan says how many are used."""
    return Line(
        what=words,
        needed=None,
        buy=purchase.number,
        spare=None,
        own=own.of(purchase),
        difference="not checked",
        why=why,
        price=purchase.price,
        notes=(),
    )


def _missing(want: Want, plan: Plan) -> Fastened:
    what = "other" if want.kind is None else want.kind.what
    words, buy = used(want.fastening, plan.heading.units), enough(want.least, what)
    if not want.least:
        return Fastened(what, Line(words, None, None, None, None, "missing", _PARTS_UNKNOWN, None, ()))
    return Fastened(
        what,
        Line(
            what=words,
            needed=_needed([want], want.least),
            buy=buy,
            spare=buy - want.least,
            own=None,
            difference="missing",
            why=_where([want]),
            price=None,
            notes=tuple(_notes([want], what)),
        ),
    )


def _needed(wants: Sequence[Want], number: int) -> Measure:
    unsure = any(use.unsure is not None for want in wants for use in want.uses)
    return exactly(number)._replace(at_least=unsure)


def _why(wants: Sequence[Want], number: int) -> str:
    if not wants:
        return "no step uses it"
    return _where(wants) if number else "another line of the list does"


def _where(wants: Sequence[Want]) -> str:
    """The joins that use it, as the plan names them."""
    joins = [f"{use.join.first} to {use.join.second}" for want in wants for use in want.uses]
    return f"for {listed(list(dict.fromkeys(joins)), _NAMES)}"


def _notes(wants: Sequence[Want], what: str) -> list[str]:
    notes = [_OWN_SCREWS] if what == "plate" else [caution("bolt")] if what == "bolt" else []
    if what == "screw" and any(singular(one.fastening.noun.text) == _HOME_MADE for one in wants):
        notes = [_FROM_OFFCUTS]
    unsure: Missing | None = next(
        (use.unsure for want in wants for use in want.uses if use.unsure is not None), None
    )
    return notes if unsure is None else [*notes, f"at least so many: {unsure.reason}"]


def _what(noun: str) -> str:
    found = kind(noun)
    return "other" if found is None else found.what
