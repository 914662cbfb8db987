"""How a seat or a table fits people: heights, depths, the back's angle, room for knees."""

from __future__ import annotations

from planlint.build.piece import Part, Piece
from planlint.observe.circumstances import for_children, kind_of_piece
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.frame import level
from planlint.observe.ground import hangs
from planlint.observe.sitting import Surface, back_of, seat_of, top_of
from planlint.observe.unplaced import add_gaps

SEAT = Table(
    "seat",
    "the seat of a bench, a chair or a stool",
    {
        "kind": Column("word", "the kind of piece"),
        "has_back": Column("flag", "it has a back to lean on"),
        "height": Column("length", "from the floor to the top of the seat at its front edge"),
        "depth": Column(
            "length", "from the seat's front edge to the back, or to its rear edge where it has no back"
        ),
        "back_angle": Column("angle", "between the seat and the back; more than 90 leans back"),
        "back": Column("word", "the part one leans on"),
        "children": Column("flag", "it is for children"),
        "accessible": Column("flag", "the accessible-design figures are asked for"),
        "part": Column("word", "a part of the seat"),
    },
)

TABLE_TOP = Table(
    "table_top",
    "the top of a table or desk",
    {
        "kind": Column("word", "the kind of piece"),
        "height": Column("length", "from the floor to the top"),
        "knees": Column("length", "from the floor to the lowest part over the knees of those who sit at it"),
        "lowest": Column("word", "that part"),
        "children": Column("flag", "it is for children"),
        "accessible": Column("flag", "the accessible-design figures are asked for"),
        "part": Column("word", "a part of the top"),
    },
)

TABLES = (SEAT, TABLE_TOP)

_SEATS = ("bench", "chair", "lounge-chair", "stool", "bar-stool")
_TOPS = ("table", "coffee-table", "side-table", "desk")
_SAT_AT = ("table", "desk")
_KNEES = 300.0  # mm: how far under a top knees reach (common practice, no source)


def observe(piece: Piece, facts: Facts) -> None:
    """A row for the seat, or for the top."""
    kind = kind_of_piece(piece.plan)
    tables = TABLES if kind is None else (SEAT,) if kind in _SEATS else (TABLE_TOP,) if kind in _TOPS else ()
    if not tables or not add_gaps(piece, facts, tables):
        return
    title = piece.plan.heading.title_span
    if kind is None:
        reason, add = (
            "the plan does not say what kind of piece it is",
            "piece bench, piece table, … under its title",
        )
        facts.gaps += [Gap(table.name, reason, add, title) for table in tables]
        return
    floor = 0.0 if hangs(piece) else min([part.solid.low[2] for part in piece.parts])
    users: dict[str, object] = {
        "kind": kind,
        "children": for_children(piece.plan),
        "accessible": any(user.text == "accessible" for user in piece.plan.heading.users),
    }
    if kind in _SEATS:
        seat = seat_of(piece, floor)
        if isinstance(seat, Missing):
            facts.gaps.append(Gap(SEAT.name, *seat, title))
        else:
            facts.add(SEAT, [Row({**users, **_seat(piece, seat, floor)}, seat.span)])
        return
    top = top_of(piece, floor)
    if top is not None:
        facts.add(TABLE_TOP, [Row({**users, **_top(piece, kind, top, floor)}, top.span)])


def _seat(piece: Piece, seat: Surface, floor: float) -> dict[str, object]:
    back = back_of(piece, seat, floor)
    none = Missing("the seat has no back", "a back")
    return {
        "has_back": back is not None,
        "height": seat.height,
        "depth": (seat.back if back is None else back.line) - seat.front,
        "back_angle": none if back is None else 90.0 + back.leans - seat.tilt,
        "back": none if back is None else back.part.name,
        "part": seat.parts[0].name,
    }


def _top(piece: Piece, kind: str, top: Surface, floor: float) -> dict[str, object]:
    lowest = _over_knees(piece, top, floor) if kind in _SAT_AT else None
    none = Missing("nobody sits at it", "a table or a desk")
    return {
        "height": top.height,
        "knees": none if lowest is None else lowest.solid.low[2] - floor,
        "lowest": none if lowest is None else lowest.name,
        "part": top.parts[0].name,
    }


def _over_knees(piece: Piece, top: Surface, floor: float) -> Part:
    """The lowest part in the upper half that lies over the knees: under a long side, in its middle half.

    Of a desk the front counts; of a table both long sides, and the roomier where they differ.
    """
    desk = kind_of_piece(piece.plan) == "desk"
    axis = 1 if desk or top.right - top.left >= top.back - top.front else 0
    low, high = (top.front, top.back) if axis == 1 else (top.left, top.right)
    start, end = (top.left, top.right) if axis == 1 else (top.front, top.back)
    quarter = (end - start) / 4.0
    sides = [(low, low + _KNEES)] if desk else [(low, low + _KNEES), (high - _KNEES, high)]
    found = [_lowest(piece, top, floor, axis, side, (start + quarter, end - quarter)) for side in sides]
    return max(found, key=lambda part: part.solid.low[2])


def _lowest(
    piece: Piece, top: Surface, floor: float, axis: int, near: tuple[float, float], along: tuple[float, float]
) -> Part:
    best = max(top.parts, key=lambda part: part.solid.volume)
    for part in piece.parts:
        solid = part.solid
        if not level(part) or solid.low[2] < floor + top.height / 2.0 or solid.low[2] >= best.solid.low[2]:
            continue
        if solid.low[axis] >= near[1] or solid.high[axis] <= near[0]:
            continue
        if solid.low[1 - axis] < along[1] and solid.high[1 - axis] > along[0]:
            best = part
    return best
