"""Whether a part that sinks into others at both ends can still be put in when its turn comes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from planlint.build.joinery.sides import side_of
from planlint.build.piece import Part, Piece, Share
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, scale
from planlint.observe.circumstances import is_metric
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.holding import Groups
from planlint.observe.joins import join_key
from planlint.observe.unplaced import add_gaps
from planlint.read.plan import Join, Plan
from planlint.trade.joinery import reach

LET_IN = Table(
    "let_in_part",
    "a part that is housed or tenoned at both ends",
    {
        "part": Column("word", "the part"),
        "first": Column("word", "what one end goes into"),
        "second": Column("word", "what the other end goes into"),
        "parts": Column("words", "all three"),
        "join": Column("word", "the later of its two join lines"),
        "length": Column("length", "how long it is there, joints and all"),
        "clear": Column("length", "the clear space between the two parts"),
        "step": Column("number", "the step that puts it in"),
        "step_name": Column("word", "that step's title, or its number"),
        "fixed_step": Column(
            "number", "the step by which other joins hold the two apart; missing if none do"
        ),
        "fixed_name": Column("word", "that step's title, or its number"),
        "glued": Column("flag", "it is glued in"),
        "slides": Column("flag", "both cuts are open to one side, and nothing put in earlier stands there"),
        "slides_from": Column("word", "that side"),
    },
    {"fixed": "the join that closes the space"},
)

TABLES = (LET_IN,)

_NEVER_FIXED = Missing("no other join holds the two apart", "")
_CLOSED = Missing("the cuts are not open to any side", "")
_SINKING = ("housed", "mortise-and-tenon")
_FIRM = frozenset(("counted", "glue", "housed", "notched", "half-lap", "mortise-and-tenon"))

Edge = tuple[int, int, Join]  # two parts by their order, and the join that holds them


class Ends(NamedTuple):
    """A part let in at two ends: the shares it keeps there, and the direction from one to the other."""

    part: Part
    low: Share
    high: Share
    way: Vec


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each such part, and each two parts that it lies between."""
    sunk = [
        share for share in piece.shares if share.fastening.kind in _SINKING and share.keeper is share.first
    ]
    if not sunk or not add_gaps(piece, facts, TABLES):
        return
    edges: list[Edge] = sorted(
        [
            (meeting.first.order, meeting.second.order, meeting.join)
            for meeting in piece.meetings
            if any(fastening.kind in _FIRM for fastening in meeting.join.fastenings)
        ],
        key=lambda edge: edge[2].step,
    )
    facts.add(LET_IN, [_row(piece, ends, edges) for ends in _all_ends(sunk)])


def _all_ends(sunk: Iterable[Share]) -> list[Ends]:
    by_part: dict[int, list[Share]] = {}
    for share in sunk:
        by_part.setdefault(share.first.order, []).append(share)
    found: list[Ends] = []
    for shares in by_part.values():
        part = shares[0].first
        for way in (part.along, part.across) if len(shares) > 1 else ():
            least, most = extent(part.solid, way)
            lows = [share for share in shares if extent(share.solid, way)[0] < least + EXACT]
            highs = [share for share in shares if extent(share.solid, way)[1] > most - EXACT]
            for low, high in zip(lows, highs, strict=False):
                if low.second is not high.second and low is not high:
                    found.append(Ends(part, low, high, way))
    return found


def _row(piece: Piece, ends: Ends, edges: list[Edge]) -> Row:
    part, low, high, way = ends
    last = max(low, high, key=lambda share: share.join.step)
    fixed = _fixed_by(part, low.second, high.second, edges)
    side = None
    if fixed is not None and fixed.step < last.join.step:
        side = _open_side(piece, ends, _there_before(edges, last.join.step))
    size = _length(part, way)
    values: dict[str, object] = {
        "part": part.name,
        "first": low.second.name,
        "second": high.second.name,
        "parts": (part.name, low.second.name, high.second.name),
        "join": join_key(last.join),
        "length": size,
        "clear": size - _reach(low, way) - _reach(high, way),
        "step": float(last.join.step),
        "step_name": _title(piece.plan, last.join),
        "fixed_step": _NEVER_FIXED if fixed is None else float(fixed.step),
        "fixed_name": _NEVER_FIXED if fixed is None else _title(piece.plan, fixed),
        "glued": any(
            fastening.kind == "glue" for share in (low, high) for fastening in share.join.fastenings
        ),
        "slides": side is not None,
        "slides_from": _CLOSED if side is None else side,
    }
    return Row(values, last.fastening.span, {} if fixed is None else {"fixed": fixed.span})


def _length(part: Part, way: Vec) -> float:
    least, most = extent(part.solid, way)
    return most - least


def _reach(share: Share, way: Vec) -> float:
    low, high = extent(share.solid, way)
    return high - low


def _title(plan: Plan, join: Join) -> str:
    title = next((step.title for step in plan.steps if step.number == join.step), "")
    return f"“{title}”" if title else f"step {join.step}"


def _fixed_by(part: Part, first: Part, second: Part, edges: list[Edge]) -> Join | None:
    """The earliest join after which the two hold together without the part; None if they never do."""
    groups = Groups()
    for a, b, join in edges:
        if part.order not in (a, b):
            groups.join(a, b)
            if groups.of(first.order) == groups.of(second.order):
                return join
    return None


def _there_before(edges: list[Edge], step: int) -> set[int]:
    return {order for a, b, join in edges if join.step < step for order in (a, b)}


# --- sliding it in ------------------------------------------------------------------------------------


def _open_side(piece: Piece, ends: Ends, there: set[int]) -> str | None:
    """The side from which the part slides into both cuts, past everything that is there already."""
    part = ends.part
    fit = reach(is_metric(piece.plan))
    across = [axis for axis in (part.along, part.across, part.through) if axis is not ends.way]
    for axis, other in (across, across[::-1]):
        for out in (axis, scale(axis, -1.0)):
            if all(_open(share, out, fit) for share in (ends.low, ends.high)) and not _blocked(
                piece, ends, out, other, there
            ):
                return side_of(out)
    return None


def _open(share: Share, out: Vec, fit: float) -> bool:
    """Whether the cut goes through to the outside of the other part on this side."""
    return extent(share.solid, out)[1] >= extent(share.second.solid, out)[1] - fit


def _blocked(piece: Piece, ends: Ends, out: Vec, other: Vec, there: set[int]) -> bool:
    """Whether something put in earlier stands in the part's way, judged by its extents."""
    part, beside = ends.part, (ends.low.second, ends.high.second)
    edge = extent(part.solid, out)[0]
    for one in piece.parts:
        if one.order not in there or one is part or one in beside:
            continue
        if extent(one.solid, out)[1] > edge + EXACT and all(
            _common(part, one, way) > EXACT for way in (ends.way, other)
        ):
            return True
    return False


def _common(first: Part, second: Part, way: Vec) -> float:
    a, b = extent(first.solid, way), extent(second.solid, way)
    return min(a[1], b[1]) - max(a[0], b[0])
