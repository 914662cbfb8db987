"""Wood that grows and shrinks across its grain: held fast, held in slots, or fitted between rigid faces."""

from __future__ import annotations

from math import acos, degrees

from planlint.build.joinery.joints import CUTTING
from planlint.build.piece import Part, Piece
from planlint.geometry.vector import EXACT, dot
from planlint.observe.circumstances import is_metric
from planlint.observe.extents import Extents, extents_of
from planlint.observe.facts import Facts, Missing, Row
from planlint.observe.fastener_kind import diameter_of, length_of
from planlint.observe.fixings import Fixing, Fixings, Holding, holding
from planlint.observe.joins import join_key, pair_of
from planlint.observe.movement_tables import FITTED, HELD, SLIDING
from planlint.observe.panels import Panel, Some, across_grain, panels, runs_along
from planlint.observe.swelling import Swelling, Swellings
from planlint.observe.unplaced import add_gaps
from planlint.trade import screws
from planlint.trade.hardware import button_travel, figure_8_travel
from planlint.trade.joinery import reach

TABLES = (HELD, SLIDING, FITTED)

_CUTTING_FIRST = ("mortise-and-tenon", "half-lap", "housed", "notched")
_GLUED = Missing("it is held by glue", "")


def observe(piece: Piece, facts: Facts) -> None:
    """Rows for every panel that is held, slides or is fitted tight."""
    if not add_gaps(piece, facts, TABLES):
        return
    extents, fixings, swellings = extents_of(piece), Fixings(piece), Swellings(piece.plan)
    fit, touched = reach(is_metric(piece.plan)), _touched_on_both_edges(piece)
    for panel in panels(piece, extents):
        own = fixings.of(panel)
        swelling = swellings.of(panel.parts[0])
        shared: dict[str, object] | None = None
        held = holding(panel, own, fixings, extents)
        sliding = [fixing for fixing in own if not fixing.rigid and fixing.at_edge == 0]
        swells = 0.0 if isinstance(swelling, Missing) else (panel.high - panel.low) * swelling.from_mid
        beside = None
        if swells > fit or touched >> panel.parts[0].order & 1:
            beside = _beside(panel, fixings, extents, max(fit, swells))
        if held is not None or sliding or beside is not None:
            shared = _shared(panel, swellings, swelling)
        if shared is not None:
            if held is not None:
                facts.add(HELD, [_held_row(panel, held, shared, swelling)])
            if sliding:
                facts.add(SLIDING, _sliding_rows(panel, own, fixings, shared, swelling))
            if beside is not None:
                facts.add(FITTED, [_fitted_row(panel, beside, shared, swelling, extents)])


def _shared(panel: Panel, swellings: Swellings, swelling: Swelling | Missing) -> dict[str, object]:
    part = panel.parts[0]
    driest, wettest = swellings.ends
    return {
        "panel": part.name,
        "part": part.name,
        "parts": tuple([one.name for one in panel.parts]),
        "entry": part.copy_of,
        "boards": float(len(panel.parts)),
        "width": panel.high - panel.low,
        "wood": part.stock.wood or Missing("the plan names no wood", "wood red-oak, in the plan section"),
        "driest": driest,
        "wettest": wettest,
        "equation": swelling if isinstance(swelling, Missing) else swelling.equation,
    }


# --- held fast --------------------------------------------------------------------------------------


def _held_row(panel: Panel, held: Holding, shared: dict[str, object], swelling: Swelling | Missing) -> Row:
    lowest, highest = held.lowest, held.highest
    between = held.high - held.low
    glued = "glue" in (lowest.fastening.kind, highest.fastening.kind)
    shown = highest if not glued or highest.fastening.kind == "glue" else lowest
    values: dict[str, object] = {
        **shared,
        "parts": tuple(dict.fromkeys([*_names(panel), lowest.to.name, highest.to.name])),
        "first": lowest.to.name,
        "second": highest.to.name,
        "pair": pair_of(panel.parts[0], highest.to),
        "join": join_key(highest.meeting.join),
        "between": between,
        "moves": swelling if isinstance(swelling, Missing) else between * swelling.year,
        "by": "glue" if glued else _noun(highest),
        "glued": glued,
        "joint": _joint(shown),
        "diameter": _GLUED if glued else _diameter(highest),
    }
    return Row(values, shown.fastening.span)


def _names(panel: Panel) -> list[str]:
    return [part.name for part in panel.parts]


def _noun(fixing: Fixing) -> str:
    kind = screws.kind(fixing.fastening.noun.text)
    return fixing.fastening.noun.text if kind is None else kind.noun


def _joint(fixing: Fixing) -> str:
    kinds = {one.kind for one in fixing.meeting.join.fastenings if one.kind in CUTTING}
    return next((kind for kind in _CUTTING_FIRST if kind in kinds), "butt")


def _diameter(fixing: Fixing) -> float | Missing:
    kind = screws.kind(fixing.fastening.noun.text)
    found = None if kind is None else diameter_of(fixing.fastening, kind, length_of(fixing.fastening, kind))
    if found is None:
        noun = fixing.fastening.noun.text
        return Missing(
            f"the plan gives no gauge for these {noun}", "their gauge or diameter, before the length"
        )
    return found


# --- let slide ----------------------------------------------------------------------------------------


def _sliding_rows(
    panel: Panel,
    own: list[Fixing],
    known: Fixings,
    shared: dict[str, object],
    swelling: Swelling | Missing,
) -> list[Row]:
    """Each group of parts that are joined without the panel for itself: a batten goes along with its lid."""
    found: list[Row] = []
    for group in known.groups(dict.fromkeys([fixing.to.order for fixing in own]), panel.own):
        here = [fixing for fixing in own if fixing.at_edge == 0 and group >> fixing.to.order & 1]
        found += _sliding_in_group(panel, here, shared, swelling)
    return found


def _sliding_in_group(
    panel: Panel, here: list[Fixing], shared: dict[str, object], swelling: Swelling | Missing
) -> list[Row]:
    rigid = [fixing for fixing in here if fixing.rigid]
    line = _middle(rigid or here) if here else 0.0
    found: list[Row] = []
    for fixing in here:
        if fixing.rigid:
            continue
        away = max(abs(fixing.low - line), abs(fixing.high - line))
        values = _room(fixing, panel)
        if values is not None and away > EXACT:
            values.update(shared)
            values["parts"] = (*_names(panel), fixing.to.name)
            values["second"] = fixing.to.name
            values["pair"] = pair_of(panel.parts[0], fixing.to)
            values["join"] = join_key(fixing.meeting.join)
            values["from_held"], values["held"] = away, bool(rigid)
            values["travel"] = swelling if isinstance(swelling, Missing) else away * swelling.year
            values["diameter"] = _diameter(fixing)
            spans = {} if fixing.fastening.slotted is None else {"slot": fixing.fastening.slotted.span}
            found.append(Row(values, fixing.fastening.span, spans))
    return found


def _middle(fixings: list[Fixing]) -> float:
    return (min([fixing.low for fixing in fixings]) + max([fixing.high for fixing in fixings])) / 2.0


def _room(fixing: Fixing, panel: Panel) -> dict[str, object] | None:
    """How far a fixing gives along the movement; None where it slides freely, or nobody knows how far."""
    slot = fixing.fastening.slotted
    noun = _noun(fixing)
    not_turned = Missing("only a figure-8 can be turned", "")
    if slot is not None:
        across = _diameter(fixing)
        room = across if isinstance(across, Missing) else slot.value - across
        return {"kind": "slot", "room": room, "turned_room": not_turned}
    if noun == "figure-8":
        # Set square to the part it lies on, its arm points along the movement where that part runs with the grain.
        from_part = degrees(acos(min(1.0, abs(dot(fixing.to.along, panel.across)))))
        room = figure_8_travel(90.0 - from_part)
        return {"kind": "figure-8", "room": room, "turned_room": max(room, figure_8_travel(45.0))}
    if noun == "buttons" and not runs_along(fixing.to, panel.across):
        return {"kind": "button", "room": button_travel(), "turned_room": not_turned}
    return None  # a button's groove lets it go along; of other fittings no table knows


# --- fitted between faces -----------------------------------------------------------------------------

_Beside = tuple[Part, Part, float]

_SQUARE = 0.99  # cos of 8 deg
_LET_IN = 1.0  # mm: a part that reaches deeper than this over the edge lets the panel in, or crosses it


def _beside(panel: Panel, fixings: Fixings, extents: Extents, most: float) -> _Beside | None:
    """The nearest parts beyond both edges and the room there, `most` mm or less, where the two are held apart
    without the panel.
    """
    if fixings.loose & panel.own:
        return None
    near = _nearest(panel, extents, most)
    if near is None:
        return None
    first, second, _ = near
    entries = {part.copy_of for part in panel.parts}
    if entries & {first.copy_of, second.copy_of} or first is second:
        return None  # boards in a row give way to each other
    group = fixings.groups((first.order,), panel.own)[0]
    return near if group >> second.order & 1 and group & fixings.along(panel.across) else None


def _touched_on_both_edges(piece: Piece) -> Some:
    """The parts that others lie against on both edges."""
    below, above = 0, 0
    across = [across_grain(part) for part in piece.parts]
    for first, second, patches in piece.contacts:
        a, b = first.order, second.order
        (ax, ay, az), (bx, by, bz) = across[a], across[b]
        for patch in patches:
            x, y, z = patch.normal
            looks = x * ax + y * ay + z * az
            if looks > _SQUARE:
                above |= 1 << a
            elif looks < -_SQUARE:
                below |= 1 << a
            looks = x * bx + y * by + z * bz
            if looks > _SQUARE:
                below |= 1 << b
            elif looks < -_SQUARE:
                above |= 1 << b
    return below & above


def _nearest(panel: Panel, extents: Extents, most: float) -> _Beside | None:
    """The nearest part beyond each edge, and how far the two are away together; `most` mm or less; None where one
    side has none."""
    model = panel.parts[0]
    spans = extents.along(panel.across)
    lengths, depths = extents.along(model.grain), extents.along(model.through)
    (a, b), (c, d) = lengths[model.order], depths[model.order]
    low, high, own = panel.low, panel.high, panel.own
    room, faces = [most, most], [-1, -1]
    for order, (start, end) in enumerate(spans):
        if end < low - most or start > high + most or (start < high - _LET_IN and end > low + _LET_IN):
            continue  # too far away, or beside the panel's length
        if lengths[order][0] >= b - EXACT or lengths[order][1] <= a + EXACT or own >> order & 1:
            continue
        if depths[order][0] >= d - EXACT or depths[order][1] <= c + EXACT:
            continue
        side, gap = (0, low - end) if end < high else (1, start - high)
        if gap <= room[side]:
            room[side], faces[side] = gap, order
    if -1 in faces or room[0] + room[1] > most:
        return None
    return extents.parts[faces[0]], extents.parts[faces[1]], max(0.0, room[0]) + max(0.0, room[1])


def _fitted_row(
    panel: Panel,
    beside: _Beside,
    shared: dict[str, object],
    swelling: Swelling | Missing,
    extents: Extents,
) -> Row:
    first, second, room = beside
    width = panel.high - panel.low
    values: dict[str, object] = {
        **shared,
        "parts": (*_names(panel), first.name, second.name),
        "first": first.name,
        "second": second.name,
        "pair": pair_of(first, second),
        "clear": width + room,
        "room": room,
        "swells": swelling if isinstance(swelling, Missing) else width * swelling.from_mid,
    }
    return Row(values, panel.parts[0].span)
