"""Parts that carry a stated load between what holds them up: how far they sag, what would break them.

The model: each part is a beam that lies free between two things that hold it (see `frame.py` and
`loading.py`), of its full section and of clear, straight wood; beyond the last it stands out. What it passes
on goes down by the lever rule to the parts that hold it. One load acts at a time, and the wood's own weight is
left out. Posts and legs are not asked whether they bend.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Part, Piece
from planlint.geometry.solid import extent
from planlint.observe.beam import Beam, Bend
from planlint.observe.circumstances import outdoors
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.frame import Frame, Held, frame_of, same_way
from planlint.observe.loading import Case, Surface, cases, shares, surfaces, turned
from planlint.observe.unplaced import add_gaps
from planlint.trade import beams
from planlint.trade.beams import Load
from planlint.trade.loads import GRAVITY
from planlint.trade.woods import with_figures, wood

SPAN = Table(
    "span",
    "a part that carries a stated load between what holds it up, or beyond it, as it bends most",
    {
        "part": Column("word", "the part"),
        "entry": Column("word", "its name in the cut list"),
        "on": Column("word", "what the load is stated for"),
        "how": Column("word", "how the load lies: `people`, `spread` or `middle`"),
        "people": Column("number", "how many people sit on this span; 0 for another load"),
        "first": Column("word", "what holds it at one end of the span"),
        "second": Column("word", "what holds it at the other end; what it stands out from, where it does"),
        "stands_out": Column("flag", "it carries beyond the last that holds it, like a bracket"),
        "reach": Column("length", "the clear span and what of its bearings counts; how far it stands out"),
        "span": Column(
            "length", "the length that its sag is held against: `reach`, twice that where it stands out"
        ),
        "carries": Column("mass", "what of the load this part carries there"),
        "sag": Column("length", "how far it bends at once under that, creep not counted"),
        "breaks_at": Column("mass", "the load, lying so, at which clear wood of this kind breaks"),
        "depth": Column("length", "how deep the part is from top to bottom"),
        "outdoors": Column("flag", "the piece stands outdoors"),
    },
    {"load": "the load's entry"},
)

TABLES = (SPAN,)


class Worst(NamedTuple):
    """The worst that a part met: which load, how it lay, how it bends the part."""

    part: Part
    surface: Surface
    case: Case
    bend: Bend


# By a part's order and what is worst: its sag for the span, or its moment.
Found = dict[tuple[int, str], Worst]


def observe(piece: Piece, facts: Facts) -> None:
    """For each part that carries the span where it sags most, and that where it is nearest to breaking."""
    if not add_gaps(piece, facts, TABLES):
        return
    if not piece.plan.loads:
        facts.gaps.append(_no_load(piece))
        return
    frame = frame_of(piece)
    beams_of: dict[int, Beam] = {}
    found: Found = {}
    for surface in surfaces(piece):
        order = [
            part
            for part in frame.downward([board.part for board in surface.boards])
            if not frame.stands(part)
        ]
        facts.gaps += [_not_held(part) for part in order if not any(frame.holders(part))]
        for case in cases(surface, frame):
            _lay(surface, case, order, frame, beams_of, found)
    place = outdoors(piece.plan)
    rows = {(worst.part.order, worst.bend): worst for worst in found.values()}
    facts.add(SPAN, [_row(worst, place) for worst in rows.values()])


def _no_load(piece: Piece) -> Gap:
    return Gap(
        SPAN.name,
        "the plan states no load",
        "a load section, such as `seat: 2 people` or `shelf: 40 lb spread`",
        piece.plan.heading.title_span,
    )


def _not_held(part: Part) -> Gap:
    return Gap(
        SPAN.name,
        f"nothing that stands holds {part.name} up",
        "what carries it: a part under it, or how it is joined",
        part.span,
    )


# --- a load goes down -----------------------------------------------------------------------------------


def _lay(
    surface: Surface,
    case: Case,
    order: Sequence[Part],
    frame: Frame,
    beams_of: dict[int, Beam],
    found: Found,
) -> None:
    """Lay a load on its boards and follow it down, part by part."""
    on: dict[int, list[Load]] = {}
    for part, load in shares(surface, case):
        on.setdefault(part.order, []).append(load)
    for part in order:
        loads = on.get(part.order)
        if loads is None:
            continue
        places, along = frame.holders(part)
        if along:
            for held in along:
                below = on.setdefault(held.by.order, [])
                below += [_passed_along(part, held, load, 1.0 / len(along)) for load in loads]
            continue
        beam = beams_of.get(part.order)
        if beam is None:
            beam = beams_of[part.order] = Beam(part, places, *extent(part.solid, part.along))
        for bend in beam.bend(loads):
            _keep(beam, Worst(part, surface, case, bend), found)
        for held, mass in beam.passed(loads):
            on.setdefault(held.by.order, []).append(Load(*held.there, mass))


def _passed_along(part: Part, held: Held, load: Load, share: float) -> Load:
    """What a part that is held all along passes on: at the same place where both run one way."""
    sign = same_way(part.along, held.by.along)
    if sign == 0.0:
        return Load(*held.there, load.force * share)
    start = min(max(load.start, held.start), held.end)
    end = max(min(load.end, held.end), held.start)
    return turned(Load(start, end, load.force * share), sign)


def _keep(beam: Beam, worst: Worst, found: Found) -> None:
    bend = worst.bend
    if bend.sag > beam.most_sag * bend.stretch.span:
        beam.most_sag = bend.sag / bend.stretch.span
        found[worst.part.order, "sag"] = worst
    if bend.moment > beam.most_moment:
        beam.most_moment = bend.moment
        found[worst.part.order, "moment"] = worst


# --- the rows -------------------------------------------------------------------------------------------


def _row(worst: Worst, place: bool | Missing) -> Row:
    part, surface, case, bend = worst
    stretch = bend.stretch
    sag, breaks_at = _bending(part, bend)
    return Row(
        {
            "part": part.name,
            "entry": part.copy_of,
            "on": str(surface.load.on),
            "how": case.how,
            "people": float(case.people),
            "first": stretch.first,
            "second": stretch.second,
            "stands_out": stretch.stands_out,
            "reach": stretch.reach,
            "span": stretch.span,
            "carries": bend.mass,
            "sag": sag,
            "breaks_at": breaks_at,
            "depth": part.solid.high[2] - part.solid.low[2],
            "outdoors": place,
        },
        part.entry.stock.span,
        {"load": surface.load.span},
    )


def _bending(part: Part, bend: Bend) -> tuple[float | Missing, float | Missing]:
    """The sag, mm, and the mass that breaks clear wood, kg."""
    if part.entry.shaped:
        unknown = Missing(
            f"{part.copy_of} is shaped, and its narrowest place is not known", "a straight part"
        )
        return unknown, unknown
    found = None if part.stock.wood is None else wood(part.stock.wood)
    if found is None:
        unknown = Missing(
            f"the wood of {part.copy_of} is not known", "a wood that planlint knows, behind its size"
        )
        return unknown, unknown
    weaker = beams.across_the_grain() if part.entry.grain_across and not part.stock.sheet else 1.0
    section = _section(part)
    sag: float | Missing = Missing(f"no table gives the stiffness of {found.name}", with_figures(found.name))
    breaks_at: float | Missing = Missing(
        f"no table gives the strength of {found.name}", with_figures(found.name)
    )
    if found.moe is not None:
        sag = bend.sag * GRAVITY / (found.moe * weaker * section.inertia)
    if found.mor is not None and bend.moment > 0.0:
        breaks_at = bend.mass * found.mor * weaker * section.modulus / (bend.moment * GRAVITY)
    return sag, breaks_at


def _section(part: Part) -> beams.Section:
    size = part.size
    if size.diameter is not None:
        return beams.round_section(size.diameter)
    # how its width stands to the level
    return beams.leaning_rectangle(size.width, size.thickness, min(1.0, abs(part.across[2])))
