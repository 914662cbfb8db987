"""Joints that a stated load hangs on: the force, and what the design standard publishes for their fasteners."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from itertools import groupby

from planlint.build.piece import Driven, Part, Piece
from planlint.observe.circumstances import moisture_range
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.fastener_tables import FASTENER
from planlint.observe.joins import join_key, pair_of
from planlint.observe.joint_load import Force, forces
from planlint.observe.load_path import Key, key_of, loaded_pairs
from planlint.observe.unplaced import add_gaps
from planlint.trade import screws, strength
from planlint.trade.woods import with_figures, wood

JOINT = Table(
    "loaded_joint",
    "two parts whose fasteners alone carry a share of a stated load, or are pulled by it",
    {
        "load": Column("word", "the load's name"),
        "people": Column("flag", "it is people"),
        "force": Column(
            "force", "the load's share on this joint, by a simple share: lever rule, equal screws"
        ),
        "pulls": Column("flag", "it pulls the fasteners out along their axis; else it presses across them"),
        "strength": Column("force", "what the published strength allows for all of them"),
        "each": Column("force", "the same for the weakest of them"),
        "kind": Column("word", "what they are, as the plan says"),
        "gauge": Column("word", "their gauge or diameter, as it is asked for in a shop"),
        "diameter": Column("length", "their diameter"),
        "count": Column("number", "how many hold these two parts"),
        "embedment": Column("length", "how much of one is in the part that must hold it, the tip counted"),
        "into": Column("word", "the part that must hold them"),
        "end_grain": Column("flag", "they go into end grain"),
        "first": Column("word", "the part the join names first"),
        "second": Column("word", "the part the join names second"),
        "parts": Column("words", "both parts"),
        "pair": Column("word", "both parts"),
        "join": Column("word", "the join line; for comparing only"),
    },
    {"load": "the load's entry", "length": "the length in the join line"},
)

TABLES = (JOINT,)

_NO_LOAD = ("the plan states no load", "a load section, such as `seat: 2 people` or `shelf: 40 lb spread`")
_UPRIGHT = 0.7  # cos of 45 deg: on fasteners that stand more upright than this, a load pulls
_END = 30.0  # degrees to the grain: less is end grain
_NOTHING = 1.0  # N: less is rounding
_ANOTHER = "a cleat or a housing that bears the load, or screws or nails in boards"


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each two parts that a stated load hangs on or pulls at."""
    if not piece.plan.loads:
        if piece.driven or piece.unplaced_fasteners:
            facts.gaps.append(Gap(JOINT.name, *_NO_LOAD, piece.plan.heading.title_span))
        return
    if not piece.driven and not piece.unplaced_fasteners:
        return
    if not add_gaps(piece, facts, TABLES):
        return
    hanging = loaded_pairs(piece)
    pressed = forces(piece, hanging)
    driven = _by_pair(piece, facts, pressed)
    for key, force in pressed.items():
        pulled = key not in hanging
        if key in driven and (force.up if pulled else max(force.down, force.up)) > _NOTHING:
            facts.add(JOINT, [_row(piece, driven[key], force, pulled)])


def _by_pair(piece: Piece, facts: Facts, keys: Collection[Key]) -> dict[Key, list[tuple[Driven, Row]]]:
    """The fasteners between these pairs of parts with their own rows: depth, grain, sizes.

    One that never meets the part it should hold in has none, and a rule of its own.
    """
    rows = {
        (row.span, row.values["pair"], row.values["into"]): row
        for row in facts.rows.get(FASTENER.name, ())
        if row.values["placed"]
    }
    found: dict[Key, list[tuple[Driven, Row]]] = {}
    for (_, _, into), some in groupby(
        piece.driven, key=lambda one: (id(one.meeting), id(one.fastening), one.into.name)
    ):
        group = list(some)
        first = group[0]
        key = key_of(first.first, first.second)
        if key in keys:
            row = rows.get((first.fastening.span, pair_of(first.first, first.second), into))
            if row is not None:
                found.setdefault(key, []).extend([(driven, row) for driven in group])
    return found


def _row(piece: Piece, driven: list[tuple[Driven, Row]], force: Force, pulled: bool) -> Row:
    first, row = driven[0]
    pulls = pulled or abs(first.axis[2]) > _UPRIGHT
    each = {id(own): _hold(one, own, piece, force, pulls) for one, own in _distinct(driven)}
    holds = [each[id(own)] for _, own in driven]
    unknown = next((hold for hold in holds if isinstance(hold, Missing)), None)
    known = [hold for hold in holds if not isinstance(hold, Missing)]
    values = {name: row.values[name] for name in ("kind", "gauge", "diameter", "embedment", "into")}
    values.update(
        load=str(force.surface.load.on),
        people=force.how == "people",
        force=force.up if pulled else max(force.down, force.up),
        pulls=pulls,
        strength=sum(known) if unknown is None else unknown,
        each=min(known) if unknown is None else unknown,
        count=float(len(driven)),
        end_grain=_in_end_grain(row),
        first=first.first.name,
        second=first.second.name,
        parts=(first.first.name, first.second.name),
        pair=pair_of(first.first, first.second),
        join=join_key(first.join),
    )
    spans = {"load": force.surface.load.span}
    if "length" in row.spans:
        spans["length"] = row.spans["length"]
    return Row(values, first.fastening.span, spans, row.picture)


def _distinct(driven: list[tuple[Driven, Row]]) -> Iterable[tuple[Driven, Row]]:
    """One fastener of each row: the others of its row hold as much."""
    return {id(own): (one, own) for one, own in reversed(driven)}.values()


def _in_end_grain(row: Row) -> bool:
    angle = row.values["grain_angle"]
    return isinstance(angle, float) and angle < _END


# --- what one fastener may carry --------------------------------------------------------------------------


def _hold(driven: Driven, row: Row, piece: Piece, force: Force, pulls: bool) -> float | Missing:
    """What one fastener may carry, N; or why nothing is published for it."""
    values = row.values
    what = screws.kind(driven.fastening.noun.text)
    kind = None if what is None else "nail" if what.noun == "nails" else what.noun
    if kind not in ("wood-screws", "deck-screws", "nail"):
        return Missing(f"planlint has no published strength for {values['kind']} and does not judge them", "")
    across, depth, held = values["diameter"], values["embedment"], values["held"]
    outer = driven.first if driven.into is driven.second else driven.second
    main, side = _design_g(driven.into), _design_g(outer)
    unknown = next((one for one in (across, depth, held, main, side) if isinstance(one, Missing)), None)
    if unknown is not None:
        return unknown
    assert isinstance(across, float) and isinstance(depth, float) and isinstance(held, float)
    assert isinstance(main, float) and isinstance(side, float)
    if depth < screws.least_penetration(across, "nail" if kind == "nail" else "screw") - _CLOSE:
        reason = "no strength is published for screws and nails that hold by less than six diameters"
        return Missing(reason, "longer screws or nails")
    if held <= _CLOSE:
        return Missing("nothing is left under the head of these", "a shallower counterbore")
    found = (
        _along(kind, across, depth, driven, main, row)
        if pulls
        else _across(kind, across, strength.Member(main, depth), strength.Member(side, held), row)
    )
    return found * strength.factor(force.how) * _wet(piece) if isinstance(found, float) else found


_CLOSE = 0.01  # mm: floats must not decide


def _across(
    kind: str, across: float, main: strength.Member, side: strength.Member, row: Row
) -> float | Missing:
    root = across if kind == "nail" else screws.root_of(across, kind)
    found = strength.lateral(across, root, main, side)
    if found is None:
        return Missing("the formula for thin fasteners ends below these", _ANOTHER)
    found *= strength.depth_share(main.depth, across)
    return found * strength.factor("end-grain") if _in_end_grain(row) else found


def _along(kind: str, across: float, depth: float, driven: Driven, g: float, row: Row) -> float:
    if _in_end_grain(row):
        return 0.0
    if kind == "nail":
        return strength.withdrawal("nail", g, across) * depth
    thread = screws.threaded_length(driven.length or depth, across, kind)
    return strength.withdrawal("screw", g, across) * min(depth, thread)


def _design_g(part: Part) -> float | Missing:
    if part.stock.sheet:
        return Missing(
            "planlint has no published strength for screws and nails in sheet goods and does not judge them",
            "",
        )
    found = strength.design_g(None if part.stock.wood is None else wood(part.stock.wood))
    if found is None:
        return Missing(
            f"no table gives the weight of {part.stock.wood or 'a wood that is not named'}",
            with_figures(part.stock.wood),
        )
    return found


def _wet(piece: Piece) -> float:
    moisture = moisture_range(piece.plan)
    wet = not isinstance(moisture, Missing) and strength.wet_above(moisture[1])
    return strength.factor("wet") if wet else 1.0
