"""Housings and tenons as they are cut: how thick, how deep, and how much wood is left behind them."""

from __future__ import annotations

from planlint.build.piece import Overlap, Part, Piece, Share
from planlint.geometry.meeting import push_apart, shared
from planlint.geometry.path import cross_line
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, dot, scale
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps

JOINT_CUT = Table(
    "joint_cut",
    "a housing, or a tenon and its mortise, between two pieces",
    {
        "part": Column("word", "the part that goes in"),
        "receiver": Column("word", "the part that is cut to take it"),
        "pair": Column("word", "both, as one word"),
        "parts": Column("words", "both"),
        "join": Column("word", "the join line"),
        "joint": Column("word", "housed or mortise-and-tenon"),
        "tenon": Column("length", "how thick the tenon is; missing for a housing"),
        "thickness": Column("length", "how thick the part that goes in is"),
        "round": Column("flag", "that part is round stock, and so is its tenon"),
        "depth": Column("length", "how deep it goes in, as drawn"),
        "receiver_thickness": Column("length", "how thick the other part is, that way"),
        "left": Column("length", "the wood that is left behind it; less than 0 where it comes out"),
        "meets": Column(
            "word", "another part let into the same one, that the tenon runs into; missing if none"
        ),
        "meets_by": Column("length", "how deep the two run into each other"),
    },
)

TABLES = (JOINT_CUT,)

_NO_TENON = Missing("it is a housing", "")
_NO_SIZE = Missing("the plan gives no size for the tenon", "its thickness x width x length")
_NO_DEPTH = Missing("no face of the other part lies across it", "")
_NO_OTHER = Missing("it runs into no other joint", "")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each housing and each tenon that is drawn in its other part."""
    if not any(
        fastening.kind in ("housed", "mortise-and-tenon")
        for step in piece.plan.steps
        for join in step.joins
        for fastening in join.fastenings
    ):
        return
    if add_gaps(piece, facts, TABLES):
        facts.add(JOINT_CUT, [_row(overlap, piece.shares) for overlap in piece.overlaps if _is_cut(overlap)])


def _is_cut(overlap: Overlap) -> bool:
    fastening = overlap.fastening
    return (
        fastening is not None
        and fastening.kind in ("housed", "mortise-and-tenon")
        and overlap.solid is not None
    )


def _row(overlap: Overlap, kept: list[Share]) -> Row:
    part, receiver, fastening, join = overlap.first, overlap.second, overlap.fastening, overlap.join
    assert fastening is not None and join is not None, "only cut joints have a row"
    tenon: float | Missing = _NO_TENON
    if fastening.kind == "mortise-and-tenon":
        tenon = _NO_SIZE if fastening.tenon is None else fastening.tenon[0].value
    thick = _thickness_of(receiver, overlap)
    other = None if fastening.tenon is None else _run_into(part, receiver, kept)
    values: dict[str, object] = {
        "part": part.name,
        "receiver": receiver.name,
        "pair": pair_of(part, receiver),
        "parts": (part.name, receiver.name),
        "join": join_key(join),
        "joint": fastening.kind,
        "tenon": tenon,
        "thickness": part.size.thickness,
        "round": part.size.diameter is not None,
        "depth": overlap.depth,
        "receiver_thickness": _NO_DEPTH if thick is None else thick,
        "left": _NO_DEPTH if thick is None else thick - overlap.depth,
        "meets": _NO_OTHER if other is None else other[0],
        "meets_by": _NO_OTHER if other is None else other[1],
    }
    return Row(values, fastening.span)


def _thickness_of(receiver: Part, overlap: Overlap) -> float | None:
    """How thick the part that is cut is, in the direction in which the other goes in."""
    for way in _ways_in(overlap):
        middle = overlap.solid.centroid if overlap.solid is not None else receiver.solid.centroid
        through = cross_line(receiver.solid, middle, way)
        if through is not None:
            return through[1] - through[0]
    return None


def _ways_in(overlap: Overlap) -> list[Vec]:
    """The directions in which it goes in: a tenon's length, else those in which it is as deep as drawn."""
    part, receiver = overlap.first, overlap.second
    if overlap.fastening is not None and overlap.fastening.kind == "mortise-and-tenon":
        return [part.along]
    found: list[Vec] = []
    for way in receiver.solid.normals:
        first, second = extent(part.solid, way), extent(receiver.solid, way)
        if any(abs(d - overlap.depth) < EXACT for d in (first[1] - second[0], second[1] - first[0])):
            found.append(way)
    # Where several fit (a corner), the one the push shows.
    return sorted(found, key=lambda way: -abs(dot(way, overlap.push))) or [scale(overlap.push, -1.0)]


def _run_into(part: Part, receiver: Part, kept: list[Share]) -> tuple[str, float] | None:
    """Another part let into the same one, whose joint this part's tenon runs into, and how deep."""
    own = [share for share in kept if share.keeper is part and share.second is receiver]
    for share in kept:
        if share.keeper is part or share.keeper is not share.first or share.second is not receiver:
            continue
        for tenon in own:
            if shared(tenon.solid, share.solid) is not None:
                return share.first.name, push_apart(tenon.solid, share.solid)[0]
    return None
