"""Lengths that the plan fixes twice, and what may have led to the difference."""

from __future__ import annotations

from planlint.build.piece import Fit, Measured, Part, Piece
from planlint.build.sides import DIRECTIONS
from planlint.geometry.vector import EXACT, world_axis
from planlint.observe.circumstances import is_metric
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import pair_of
from planlint.observe.stated import axis_of
from planlint.observe.unplaced import add_gaps
from planlint.read.plan import Overall
from planlint.trade.joinery import reach
from planlint.trade.lumber import nominal

FIT = Table(
    "fixed_twice",
    "a length that the plan fixes twice: by the part's own size, and by the space its places leave",
    {
        "part": Column("word", "the part (of an entry with several pieces, the first)"),
        "parts": Column("words", "all pieces of that entry, and the parts they lie between"),
        "direction": Column("word", "left-right, front-back, up, or length for a part that leans"),
        "own_length": Column("flag", "it is the part's length, as the cut list has it"),
        "size": Column("length", "how large the part is there"),
        "opening": Column("length", "the space that is left for it, joints not counted"),
        "sunk": Column("length", "what the joints at its ends take up besides"),
        "room": Column("length", "the size that would fit: opening and joints together"),
        "like_nominal": Column("word", "the lumber whose name explains the difference, such as 4x4"),
        "like_named": Column("length", "what that name says it measures"),
        "like_real": Column("length", "what it does measure"),
        "wrong": Column("word", "what a stated dimension speaks against: size or opening"),
        "witness": Column("word", "that stated dimension"),
        "pairs": Column("words", "pairs whose overlap or gap is just this difference"),
        "dimensions": Column("words", "stated dimensions that are out by just this difference"),
    },
    {"other": "the words that fix it the other way"},
)  # fmt: skip

TABLES = (FIT,)

_NO_NOMINAL = Missing("no nominal size explains the difference", "")
_NO_WITNESS = Missing("no stated dimension decides which is wrong", "a dimension from the drawing")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every length that is fixed twice."""
    if add_gaps(piece, facts, TABLES):
        facts.add(FIT, [_row(piece, fit, reach(is_metric(piece.plan))) for fit in piece.fits])


def _row(piece: Piece, fit: Fit, near: float) -> Row:
    copies = [part for part in piece.parts if part.span == fit.part.span]
    neighbours = set(fit.neighbours)
    beside = [part for part in piece.parts if _answers(part, neighbours)]
    room = fit.opening + fit.sunk
    off = fit.size - room
    axis = DIRECTIONS.index(fit.direction) if fit.direction in DIRECTIONS else None
    named: tuple[object, object, object] = (_NO_NOMINAL, _NO_NOMINAL, _NO_NOMINAL)
    wrong: tuple[object, object] = (_NO_WITNESS, _NO_WITNESS)
    pairs: tuple[str, ...] = ()
    out: list[Measured] = []
    if abs(off) > near:  # what fits needs no explaining
        named = _explained(fit, beside, axis, abs(off), near) or named
        pairs = _pairs(piece, copies, beside, axis, abs(off), near)
        out = _out_by(piece, axis, abs(off), {part.name for part in (*copies, *beside)}, near)
        wrong = _wrong(piece, copies, beside, axis, out, near) or wrong
    like, says, measures = named
    values: dict[str, object] = {
        "part": _name(fit, axis),
        "parts": tuple(dict.fromkeys([part.name for part in (*copies, *beside)])),
        "direction": fit.direction,
        "own_length": axis is None or (world_axis(fit.part.along) == axis and _is_own(fit, axis)),
        "size": fit.size,
        "opening": fit.opening,
        "sunk": fit.sunk,
        "room": room,
        "like_nominal": like,
        "like_named": says,
        "like_real": measures,
        "wrong": wrong[0],
        "witness": wrong[1],
        "pairs": pairs,
        "dimensions": tuple([one.label for one in out]),
    }
    return Row(values, fit.second_span, {"other": fit.first_span})


def _answers(part: Part, names: set[str]) -> bool:
    """Whether a part is meant by one of these names, in the finished piece or on the bench where it was made."""
    own = part.name.partition(" of ")[0]
    return not names.isdisjoint((part.name, own, own.partition(".")[0], part.copy_of, part.assembly))


def _extent(part: Part, axis: int) -> float:
    return part.solid.high[axis] - part.solid.low[axis]


def _is_own(fit: Fit, axis: int) -> bool:
    """Whether it is the part's own size, not that of its row or of the sub-assembly that holds it."""
    return abs(_extent(fit.part, axis) - fit.size) < EXACT


def _name(fit: Fit, axis: int | None) -> str:
    if axis is None or _is_own(fit, axis) or fit.part.leaning:
        return fit.part.name
    return fit.part.assembly or fit.part.name.partition(".")[0]


# --- as if a 4x4 measured 4 -------------------------------------------------------------------------


def _explained(
    fit: Fit, beside: list[Part], axis: int | None, off: float, near: float
) -> tuple[str, float, float] | None:
    """The lumber that, taken at its name, makes this difference: once, or once for each that lies there."""
    if axis is None:
        return None
    counted: dict[tuple[str, float, float], int] = {}
    for part in [*beside, fit.part]:
        for key in _sides_along(part, axis):
            counted[key] = counted.get(key, 0) + 1
    for (name, says, measures), count in counted.items():
        for times in range(1, count + 1):
            if abs(times * (says - measures) - off) <= near:
                return name, says, measures
    return None


def _sides_along(part: Part, axis: int) -> list[tuple[str, float, float]]:
    """How thick or wide lumber is along an axis: its name, what that says, what it measures."""
    size = nominal(part.stock.nominal) if part.stock.nominal else None
    if size is None or part.stock.nominal is None or world_axis(part.along) == axis:
        return []
    sides = ((part.through, min(size), part.stock.thickness), (part.across, max(size), part.stock.width))
    return [(part.stock.nominal, says, is_) for way, says, is_ in sides if world_axis(way) == axis]


# --- what follows from it -----------------------------------------------------------------------------


def _pairs(
    piece: Piece, copies: list[Part], beside: list[Part], axis: int | None, off: float, near: float
) -> tuple[str, ...]:
    """The pairs of one of the pieces and a part it lies between that overlap, or gape, by this difference."""
    own = {part.order for part in copies}
    alike = {part.copy_of for part in beside}  # a mirrored copy lies between other pieces of the same entries
    others = {part.order for part in piece.parts if part.copy_of in alike} - own

    def ours(first: Part, second: Part) -> bool:
        return (first.order in own and second.order in others) or (
            second.order in own and first.order in others
        )

    found: dict[str, None] = {}
    for overlap in piece.overlaps:
        if overlap.allowed is not None and ours(overlap.first, overlap.second):
            depths = [abs(overlap.depth - overlap.allowed)]
            if axis is not None and overlap.fastening is None:
                depths.append(_common(overlap.first, overlap.second, axis))
            if any(abs(depth - off) <= near for depth in depths):
                found[pair_of(overlap.first, overlap.second)] = None
    for unmet in piece.unmet:  # a mirrored copy may end at another entry, such as one leg of its own length
        nearest = unmet.nearest
        if nearest is None or not {unmet.part.order, nearest.order} & own:
            continue
        if abs(unmet.gap - off) <= near:
            found[pair_of(unmet.part, nearest)] = None
    return tuple(found)


def _common(first: Part, second: Part, axis: int) -> float:
    return min(first.solid.high[axis], second.solid.high[axis]) - max(
        first.solid.low[axis], second.solid.low[axis]
    )


def _out_by(piece: Piece, axis: int | None, off: float, names: set[str], near: float) -> list[Measured]:
    """The stated dimensions of that direction and these parts that differ from what is built by as much."""
    return [
        one
        for one in piece.measured
        if one.built is not None
        and one.dimension == "length"
        and (axis is None or axis_of(one) == axis)
        and (isinstance(one.entry, Overall) or names & set(one.parts))
        and abs(abs(one.built - one.stated) - off) <= near
    ]


def _wrong(
    piece: Piece, copies: list[Part], beside: list[Part], axis: int | None, out: list[Measured], near: float
) -> tuple[str, str] | None:
    """Which of the two a third fact speaks against: the part's own size, or the opening."""
    own, others = {part.name for part in copies}, {part.name for part in beside}
    for one in out:
        if one.parts and set(one.parts) <= own:
            return "size", one.label
    for one in out:
        if not own & set(one.parts):
            return "opening", one.label
    for one in piece.measured:
        agrees = one.built is not None and abs(one.built - one.stated) <= near
        if agrees and axis is not None and axis_of(one) == axis and _spans(piece, one, beside, others, axis):
            return "size", one.label
    return None


def _spans(piece: Piece, one: Measured, beside: list[Part], others: set[str], axis: int) -> bool:
    """Whether a stated dimension measures from one of the parts beside the opening to another."""
    if one.parts:
        return len(set(one.parts)) > 1 and set(one.parts) <= others
    if not isinstance(one.entry, Overall) or not beside:
        return False
    low, high = min([p.solid.low[axis] for p in beside]), max([p.solid.high[axis] for p in beside])
    return all(
        part.solid.low[axis] >= low - EXACT and part.solid.high[axis] <= high + EXACT for part in piece.parts
    )
