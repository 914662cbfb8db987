"""What the plan uses beside what its shopping list buys: screws, fittings, glue and plugs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planlint.build.piece import Piece
from planlint.observe.allotting import allotted
from planlint.observe.buying import could_be, hardware_of, same_size, same_word, singular
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.fastener_kind import gauge_word
from planlint.observe.joins import join_key
from planlint.observe.plugs import Bores, bores
from planlint.observe.used import Use, uses
from planlint.read.plan import FastenerSize, Fastening, Plan, Purchase, Quantity, Round
from planlint.source import Span
from planlint.trade.screws import FastenerKind, kind

HARDWARE = Table(
    "hardware",
    "one kind, size and finish of hardware that the plan uses, beside what is bought of it",
    {
        "label": Column("word", "what it is called in a shop, without its length: wood-screws #10"),
        "kind": Column("word", "what it is, as the plan says: wood-screws, hinges, glue, plugs"),
        "what": Column("word", "screw, bolt, nail, pin, plate, glue, plug or other"),
        "length": Column("length", "its length; not known where the plan gives none"),
        "finish": Column("word", "its finish; not known where the plan names none"),
        "used": Column("number", "how many the plan uses, every copy counted"),
        "at_least": Column("number", "how many it surely uses, whatever the plan leaves open"),
        "bought": Column("number", "how many of those bought can be used here"),
        "listed": Column("flag", "a line of the shopping list is for it"),
        "near_kind": Column(
            "word",
            "a like kind, bought in this size and enough of it; not known where none is",
        ),
        "other_length": Column(
            "length",
            "the length in which this kind is bought instead; not known where none is",
        ),
        "other_finish": Column(
            "word",
            "the finish in which this size is bought instead; not known where none is",
        ),
        "parts": Column("words", "the names it joins"),
        "join": Column("words", "the join lines that use it; for comparing only"),
    },
    {"bought": "the count in the one `buy` line for it"},
)

TABLES = (HARDWARE,)

_SAME = 0.2  # mm: a rod and a dowel nearer than this are one size
_NONE_LISTED = "the shopping list names no screws or other hardware"
_ADD_LINE = "a buy line for each kind: how many, which, gauge and length"
_NOT_SAID = Missing("the plan does not say it", "kind, size and finish in the join line")
_NOTHING_LIKE = Missing("the shopping list has nothing like it", "")


class Want(NamedTuple):
    """Fastenings of one kind, size and finish, all that the plan uses."""

    fastening: Fastening
    kind: FastenerKind | None
    uses: list[Use]
    least: int


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each kind, size and finish that the plan uses."""
    plan = piece.plan
    used = uses(piece)
    wants, glue, bored = wanted_fastenings(used, plan), _glue_row(plan), bores(piece, used)
    if not wants and glue is None:
        return
    bought = hardware_of(plan)
    if not bought and (wants or not any(one.kind == "glue" for one in plan.purchases)):
        span = plan.sections.get("buy", plan.heading.title_span)
        facts.gaps.append(Gap(HARDWARE.name, _NONE_LISTED, _ADD_LINE, span))
        return
    facts.add(HARDWARE, _rows(wants, bought))
    facts.add(HARDWARE, [row for row in (glue, *map(_plug_row, bored)) if row is not None])


def wanted_fastenings(used: Iterable[Use], plan: Plan) -> list[Want]:
    """Equal fastenings together; dowels that are cut from a rod need no line of their own."""
    found: dict[object, Want] = {}
    rods = [one.stock.diameter.value for one in plan.purchases if isinstance(one.stock, Round)]
    for use in used:
        fastening = use.fastening
        what = kind(fastening.noun.text)
        size = fastening.size
        if what is not None and what.noun == "dowels" and cut_from_rod(size, rods):
            continue
        key = (
            singular(fastening.noun.text),
            None if size is None else (size.gauge, _value(size.diameter), _value(size.length)),
            None if fastening.finish is None else fastening.finish.text,
        )
        before = found.get(key)
        if before is None:
            found[key] = Want(fastening, what, [use], use.least)
        else:
            before.uses.append(use)
            found[key] = before._replace(least=before.least + use.least)
    return list(found.values())


def cut_from_rod(size: FastenerSize | None, rods: list[float]) -> bool:
    """Whether dowels of this size are cut from one of the rods (their diameters) that are bought."""
    across = None if size is None else size.diameter
    return bool(rods) if across is None else any(abs(across.value - rod) < _SAME for rod in rods)


def _value(quantity: Quantity | None) -> float | None:
    return None if quantity is None else round(quantity.value, 2)


def _rows(wants: list[Want], bought: list[Purchase]) -> list[Row]:
    lines = [[i for i, one in enumerate(bought) if could_be(want.fastening, one)] for want in wants]
    given, left = allotted([want.least for want in wants], [one.number for one in bought], lines)
    found: list[Row] = []
    for group in _groups(wants, lines):
        together = all(lines[i] == lines[group[0]] for i in group)
        for some in [group] if together else [[i] for i in group]:
            own = lines[some[0]]
            number = sum([bought[j].number for j in own]) if together else sum([given[i] for i in some])
            row = _row([wants[i] for i in some], number, [bought[j] for j in own], bought, left)
            found.append(row)
    return found


def _groups(wants: list[Want], lines: list[list[int]]) -> list[list[int]]:
    """Wants that can come from the same lines, together; each want once."""
    groups: list[tuple[set[int], list[int]]] = []
    for i in range(len(wants)):
        reach, members = set(lines[i]), [i]
        for other in [one for one in groups if one[0] & reach]:
            groups.remove(other)
            reach |= other[0]
            members = other[1] + members
        groups.append((reach, members))
    return [sorted(members) for _, members in groups]


def _row(
    wants: list[Want], number: float, own: list[Purchase], bought: list[Purchase], left: list[float]
) -> Row:
    want = next((one for one in wants if one.fastening.finish is not None), wants[0])
    all_uses = [use for one in wants for use in one.uses]
    least = sum([one.least for one in wants])
    unsure = next((use.unsure for use in all_uses if use.unsure is not None), None)
    size = want.fastening.size
    spare = {id(one): left[i] for i, one in enumerate(bought)}
    values: dict[str, object] = {
        "label": _label(want),
        "kind": want.fastening.noun.text,
        "what": "other" if want.kind is None else want.kind.what,
        "length": _NOT_SAID if size is None or size.length is None else size.length.value,
        "finish": _NOT_SAID if want.fastening.finish is None else want.fastening.finish.text,
        "used": unsure or float(least),
        "at_least": float(least),
        "bought": float(number),
        "listed": bool(own),
        "near_kind": _near_kind(want, least - number, bought, spare),
        "other_length": _other_length(want, bought),
        "other_finish": _other_finish(want, bought),
        "parts": tuple(
            dict.fromkeys([str(ref) for use in all_uses for ref in (use.join.first, use.join.second)])
        ),
        "join": tuple(dict.fromkeys([join_key(use.join) for use in all_uses])),
    }
    spans = {"bought": own[0].number_span} if len(own) == 1 else {}
    return Row(values, _first_span(own, all_uses), spans)


def _first_span(own: list[Purchase], all_uses: list[Use]) -> Span:
    return own[0].span if own else all_uses[0].fastening.span


def _label(want: Want) -> str:
    noun = want.fastening.noun.text if want.kind is None else want.kind.noun
    size = gauge_word(want.fastening.size)
    return noun if size is None else f"{noun} {size}"


def _near_kind(want: Want, short: float, bought: list[Purchase], spare: dict[int, float]) -> str | Missing:
    """Another kind that does the same work, in the same size and finish, and enough of it is left."""
    for one in bought:
        other = kind(one.noun.text)
        if other is None or want.kind is None or other.noun == want.kind.noun or spare[id(one)] < short:
            continue
        alike = (other.what, other.holds) == (want.kind.what, want.kind.holds)
        screws_of_fitting = want.kind.what == "plate" and other.what == "screw"
        if (
            (alike or screws_of_fitting)
            and one.size is not None
            and want.fastening.size is not None
            and same_size(want.fastening, one.size)
            and same_word(want.fastening.finish, one.finish)
        ):
            return other.noun
    return _NOTHING_LIKE


def _other_length(want: Want, bought: list[Purchase]) -> float | Missing:
    """The length of a line that differs from what is wanted in its length alone."""
    own = want.fastening.size
    for one in bought:
        if one.size is None or one.size.length is None or own is None or could_be(want.fastening, one):
            continue
        if could_be(want.fastening._replace(size=own._replace(length=one.size.length)), one):
            return one.size.length.value
    return _NOTHING_LIKE


def _other_finish(want: Want, bought: list[Purchase]) -> str | Missing:
    """The finish of a line that differs from what is wanted in its finish alone."""
    for one in bought:
        if one.finish is None or same_word(want.fastening.finish, one.finish):
            continue
        if could_be(want.fastening._replace(finish=None), one):
            return one.finish.text
    return _NOTHING_LIKE


def _glue_row(plan: Plan) -> Row | None:
    """Glue is bought by the bottle: one line is enough."""
    joins = [
        (join, fastening)
        for step in plan.steps
        for join in step.joins
        for fastening in join.fastenings
        if fastening.kind == "glue"
    ]
    if not joins:
        return None
    lines = [one for one in plan.purchases if one.kind == "glue"]
    values = _plain("glue", "glue", 1.0, float(sum([one.number for one in lines])))
    values["parts"] = tuple(
        dict.fromkeys([str(ref) for join, _ in joins for ref in (join.first, join.second)])
    )
    values["join"] = tuple([join_key(join) for join, _ in joins])
    return Row(values, joins[0][1].span)


def _plug_row(bored: Bores) -> Row | None:
    """Plugs bought as such, or not at all; those that are cut from a rod are another table's."""
    if bored.rods or (not bored.plugs and bored.others):
        return None
    values = _plain("plugs", "plug", float(bored.number), float(sum([one.number for one in bored.plugs])))
    values["length"] = bored.diameter
    if bored.unsure is not None:
        values["used"] = bored.unsure
    values["parts"] = bored.parts
    values["join"] = bored.joins
    spans = {"bought": bored.plugs[0].number_span} if len(bored.plugs) == 1 else {}
    return Row(values, bored.plugs[0].span if bored.plugs else bored.span, spans)


def _plain(noun: str, what: str, used: float, bought: float) -> dict[str, object]:
    return {
        "label": noun,
        "kind": noun,
        "what": what,
        "length": _NOT_SAID,
        "finish": _NOT_SAID,
        "used": used,
        "at_least": used,
        "bought": bought,
        "listed": bought > 0,
        "near_kind": _NOTHING_LIKE,
        "other_length": _NOTHING_LIKE,
        "other_finish": _NOTHING_LIKE,
    }
