"""End grain that people look at indoors: plugs cut from a rod, and the ends of parts on the front of a case."""

from __future__ import annotations

from itertools import groupby

from planlint.build.joinery.sides import side_of
from planlint.build.piece import Part, Piece
from planlint.build.sides import toward
from planlint.geometry.vector import dot, onward
from planlint.observe.circumstances import kind_of_piece, outdoors, seen_sides
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.holes import mouth_of
from planlint.observe.onlooker import Onlooker, spot
from planlint.observe.unplaced import add_gaps
from planlint.read.plan import Fastening, Round
from planlint.trade.pieces import is_case

END_GRAIN = Table(
    "end_grain",
    "end grain in a surface, indoors: plugs cut from a rod, or the end of a part at the front of a case",
    {
        "part": Column("word", "the part in whose surface it shows"),
        "parts": Column("words", "the same"),
        "plug": Column("flag", "it is a plug; else the end of the part itself"),
        "face": Column("word", "the side that surface looks to"),
        "share": Column("number", "the share of nine points of it that is seen, from where most is"),
    },
)

TABLES = (END_GRAIN,)

_END_ON = 0.95  # cos of 18 deg: grain nearer to straight out than this shows as end grain
_SAME = 0.01  # mm: diameters nearer than this are one


def observe(piece: Piece, facts: Facts) -> None:
    """Rows where there is such end grain; a plan that does not say where the piece stands has a gap."""
    plan = piece.plan
    rods = [one.stock.diameter.value for one in plan.purchases if isinstance(one.stock, Round)]
    case = is_case(kind_of_piece(plan))
    fastenings = [one for step in plan.steps for join in step.joins for one in join.fastenings]
    plugged = any(_from_rod(one, rods) for one in fastenings)
    outside = outdoors(plan)
    if not (plugged or case) or outside is True:
        return
    if isinstance(outside, Missing):
        facts.gaps.append(Gap(END_GRAIN.name, outside.reason, outside.add, plan.heading.title_span))
        return
    if add_gaps(piece, facts, TABLES):
        sides = seen_sides(plan)
        onlooker = Onlooker(piece.parts, sides)
        facts.add(END_GRAIN, _plugs(piece, rods, onlooker))
        if case and "front" in sides:
            facts.add(END_GRAIN, _ends(piece, onlooker))


def _from_rod(fastening: Fastening, rods: list[float]) -> bool:
    """Whether its plugs are cut from a rod on the shopping list: that shows end grain, a plug cutter's does not."""
    bore = fastening.counterbore
    if fastening.plugged is None or bore is None:
        return False
    return any(abs(rod - bore.diameter.value) < _SAME for rod in rods)


def _plugs(piece: Piece, rods: list[float], onlooker: Onlooker) -> list[Row]:
    found: list[Row] = []
    driven = [one for one in piece.driven if _from_rod(one.fastening, rods)]
    for _, some in groupby(driven, key=lambda one: (id(one.meeting), id(one.fastening))):
        first = next(some)
        share = max(onlooker.shares(mouth_of(first)).values(), default=0.0)
        values = _values(first.first, side_of(first.mouth), share, plug=True)
        found.append(Row(values, first.fastening.span))
    return found


def _ends(piece: Piece, onlooker: Onlooker) -> list[Row]:
    front = toward("front")
    found: list[Row] = []
    for part in piece.parts:
        if part.stock.sheet or part.stock.diameter is not None:  # a peg's or a rung's end is meant to be seen
            continue
        if abs(dot(part.grain, front)) < _END_ON:
            continue
        face = max(part.solid.faces, key=lambda one: dot(one.plane.normal, front))
        count = len(face.outline)
        middle = (0.0, 0.0, 0.0)
        for corner in face.outline:
            middle = onward(middle, corner, 1.0 / count)
        across, size = (
            (part.along, part.size.length) if part.entry.grain_across else (part.across, part.size.width)
        )
        end = spot(middle, face.plane.normal, across, part.through, size, part.size.thickness)
        share = onlooker.shares(end).get("front", 0.0)
        found.append(Row(_values(part, "front", share, plug=False), part.span))
    return found


def _values(part: Part, face: str, share: float, *, plug: bool) -> dict[str, object]:
    return {"part": part.name, "parts": (part.name,), "plug": plug, "face": face, "share": share}
