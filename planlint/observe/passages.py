"""Whether what is carried goes through a doorway or into a load space that the plan states."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Part, Piece
from planlint.geometry import passing
from planlint.geometry.vector import EXACT, Vec
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.trade.carrying import closed_share

OPENING = Table(
    "opening_to_pass",
    "a piece that is carried at once, and a doorway or a load space that the plan states",
    {
        "name": Column("word", "what is carried"),
        "whole": Column("flag", "it is the whole piece"),
        "part": Column("word", "its first part"),
        "parts": Column("words", "its parts"),
        "doorway": Column("flag", "it is a doorway; else a load space"),
        "passes": Column("flag", "in some turn or tilt it goes through, or in"),
        "never": Column("flag", "it is a closed box, and the sum proves that it does not"),
        "longest": Column("length", "its longest side"),
        "middle": Column("length", "its middle side"),
        "shortest": Column("length", "its shortest side"),
        "wide": Column("length", "how wide the opening is"),
        "high": Column("length", "how high it is"),
        "deep": Column("length", "how deep the load space is"),
        "comes_off": Column("words", "sub-assemblies that pass when they are carried by themselves"),
    },
)

_STEPS = 90  # a quarter turn is tried by degrees, where the box round the piece does not pass
_DOORWAY = Missing("a doorway has no depth", "")
_NEAR_SIDE = 0.1  # of the size: parts no further in than this close a side

Boxes = list[tuple[str, bool, list[Part]]]


def opening_rows(piece: Piece, facts: Facts, carried: Boxes, assemblies: dict[str, list[Part]]) -> None:
    """A row for each piece that is carried and each opening."""
    carry = piece.plan.carry
    openings: list[tuple[str, tuple[float, ...]]] = []
    if carry.doorway is not None:
        openings.append(("doorway", tuple([side.value for side in carry.doorway])))
    if carry.load_space is not None:
        openings.append(("load-space", tuple([side.value for side in carry.load_space])))
    for what, sides in openings:
        span = carry.spans.get(what, piece.plan.heading.title_span)
        reason = _not_known(piece)
        if reason is not None:
            facts.gaps.append(Gap(OPENING.name, *reason, span))
            continue
        rows = [_values(piece, name, whole, parts, sides) for name, whole, parts in carried]
        stuck = any(not row["passes"] for row in rows)
        off = [name for name, parts in assemblies.items() if stuck and _passes(parts, sides)]
        facts.add(OPENING, [Row({**row, "comes_off": tuple(off)}, span) for row in rows])


def _not_known(piece: Piece) -> tuple[str, str] | None:
    if not piece.parts:
        return "nothing is placed", "a place section: where each part goes"
    if piece.unplaced_names:
        name = next(iter(piece.unplaced_names))
        return f"{name} has no place", "what fixes its place in every direction"
    return None


def _values(
    piece: Piece, name: str, whole: bool, parts: list[Part], sides: tuple[float, ...]
) -> dict[str, object]:
    shortest, middle, longest = sorted(_sizes(parts))
    passes = _passes(parts, sides)
    return {
        "name": name,
        "whole": whole,
        "part": parts[0].name,
        "parts": tuple([part.name for part in parts]),
        "doorway": len(sides) == 2,
        "passes": passes,
        "never": not passes and _never(piece, parts, sides),
        "longest": longest,
        "middle": middle,
        "shortest": shortest,
        "wide": sides[0],
        "high": sides[-1],
        "deep": sides[1] if len(sides) == 3 else _DOORWAY,
    }


def _sizes(parts: Sequence[Part]) -> Vec:
    low, high = _bounds(parts)
    return high[0] - low[0], high[1] - low[1], high[2] - low[2]


def _bounds(parts: Sequence[Part]) -> tuple[Vec, Vec]:
    lows = [part.solid.low for part in parts]
    highs = [part.solid.high for part in parts]
    return (
        (min([p[0] for p in lows]), min([p[1] for p in lows]), min([p[2] for p in lows])),
        (max([p[0] for p in highs]), max([p[1] for p in highs]), max([p[2] for p in highs])),
    )


def _passes(parts: Sequence[Part], sides: tuple[float, ...]) -> bool:
    """Whether the box round the parts passes, or the parts themselves in some turn about one axis."""
    if _box_passes(_sizes(parts), sides):
        return True
    if all(part.solid.aligned for part in parts) and len(parts) == 1:
        return False
    points = [point for part in parts for point in part.solid.vertices]
    for axis in (0, 1, 2):
        u, v = (axis + 1) % 3, (axis + 2) % 3
        through = [point[axis] for point in points]
        far = max(through) - min(through)
        for wide, high in passing.turned_sizes([(point[u], point[v]) for point in points], _STEPS):
            if _box_passes((far, wide, high), sides):
                return True
    return False


def _box_passes(box: Vec, sides: tuple[float, ...]) -> bool:
    if len(sides) == 2:
        return passing.goes_through(box, (sides[0], sides[1]))
    return passing.goes_into(box, (sides[0], sides[1], sides[2]))


def _never(piece: Piece, parts: Sequence[Part], sides: tuple[float, ...]) -> bool:
    """Whether the closed box that the parts make cannot pass at all."""
    box = _closed_box(piece, parts)
    if box is None:
        return False
    if len(sides) == 2:
        return passing.never_goes_through(box, (sides[0], sides[1]))
    return passing.never_goes_into(box, (sides[0], sides[1], sides[2]))


def _closed_box(piece: Piece, parts: Sequence[Part]) -> Vec | None:
    """The box between the six closed sides; None where a side is open. What lies loose can be taken out."""
    loose = {
        one.first.order
        for one in piece.meetings
        if all(fastening.kind == "loose" for fastening in one.join.fastenings)
    }
    firm = [part for part in parts if part.order not in loose]
    if not firm:
        return None
    low, high = _bounds(firm)
    inner: list[float] = []
    for axis in (0, 1, 2):
        near, far = (_closing(firm, low, high, axis, upper) for upper in (False, True))
        if near is None or far is None:
            return None
        inner.append(far - near)
    return inner[0], inner[1], inner[2]


def _closing(parts: Sequence[Part], low: Vec, high: Vec, axis: int, upper: bool) -> float | None:
    """How far out the parts lie that close one side between them; None where they leave it open."""
    u, v = (axis + 1) % 3, (axis + 2) % 3
    near = _NEAR_SIDE * (high[axis] - low[axis]) + EXACT
    needed = closed_share() * (high[u] - low[u]) * (high[v] - low[v])
    ends = [(part.solid.high[axis] if upper else part.solid.low[axis], part.solid) for part in parts]
    ends.sort(key=lambda one: -one[0] if upper else one[0])
    faces: list[tuple[float, float, float, float]] = []
    for end, solid in ends:
        if (high[axis] - end if upper else end - low[axis]) > near:
            return None
        faces.append((solid.low[u], solid.low[v], solid.high[u], solid.high[v]))
        if passing.covered(faces) >= needed:
            return end
    return None
