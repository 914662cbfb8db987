"""Space that two parts both fill, beside what the joint between them allows."""

from __future__ import annotations

import math

from planlint.build.joinery.sides import side_of
from planlint.build.piece import Overlap, Part, Piece, Share
from planlint.geometry.solid import Solid
from planlint.geometry.vector import EXACT, dot
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.joins import join_key, pair_of
from planlint.observe.unplaced import add_gaps

OVERLAP = Table(
    "overlap",
    "two parts that both fill some space, or that a cut joint joins",
    {
        "first": Column("word", "one of them: with a joint, the part that is let in"),
        "second": Column("word", "the other"),
        "pair": Column("word", "both, as one word"),
        "parts": Column("words", "both"),
        "join": Column("word", "the join line that has the cut joint; missing without one"),
        "first_entry": Column("word", "the first part's name in the cut list"),
        "second_entry": Column("word", "the second part's name in the cut list"),
        "jointed": Column("flag", "a cut joint (housed, notched, half-lap, mortise-and-tenon) explains it"),
        "joint": Column("word", "that joint; none without one"),
        "depth": Column("length", "how deep one is drawn in the other: the least push that parts them"),
        "stated": Column(
            "length", "how deep the joint says; 0 without a joint, missing where it doesn't say"
        ),
        "digs": Column("flag", "only the edge of a square end digs in, because that part stands aslant"),
        "digging": Column("word", "the part whose square end that is"),
        "bevel": Column("angle", "how much off square that end should be cut"),
        "shorten": Column("word", "the part whose end is in the other; missing if neither's is"),
        "move": Column("word", "the part to move, where one move parts them"),
        "toward": Column("word", "the side to move it to"),
    },
)

TABLES = (OVERLAP,)

_NO_JOIN = Missing("no cut joint joins them", "")
_UNSAID = Missing("the plan does not say how deep", "the depth, such as housed 3/8 deep")
_NO_END = Missing("neither goes in with its end", "")
_NO_SQUARE_END = Missing("no square end digs in", "")
_NO_MOVE = Missing("no straight move parts them", "")
_STRAIGHT = 0.9999  # cos of 0.8 deg


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every overlap that is wood in wood, and for every cut joint."""
    if add_gaps(piece, facts, TABLES):
        facts.add(OVERLAP, [row for overlap in piece.overlaps if (row := _row(overlap, piece.shares))])


def _row(overlap: Overlap, kept: list[Share]) -> Row | None:
    first, second = overlap.first, overlap.second
    space = overlap.solid if overlap.fastening is None else None
    if space is not None and any(_taken_away(part, space, kept) for part in (first, second)):
        return None
    digging = overlap.square_end_of_leaning
    shorten = _goes_in_endwise(overlap)
    straight = max([abs(along) for along in overlap.push]) > _STRAIGHT
    values: dict[str, object] = {
        "first": first.name,
        "second": second.name,
        "pair": pair_of(first, second),
        "parts": (first.name, second.name),
        "join": _NO_JOIN if overlap.join is None else join_key(overlap.join),
        "first_entry": first.copy_of,
        "second_entry": second.copy_of,
        "jointed": overlap.fastening is not None,
        "joint": "none" if overlap.fastening is None else overlap.fastening.kind,
        "depth": overlap.depth,
        "stated": _UNSAID if overlap.allowed is None else overlap.allowed,
        "digs": digging is not None,
        "digging": _NO_SQUARE_END if digging is None else digging.name,
        "bevel": _NO_SQUARE_END if digging is None else _off_square(digging, overlap),
        "shorten": _NO_END if shorten is None else shorten.name,
        "move": second.name if straight else _NO_MOVE,
        "toward": side_of(overlap.push) if straight else _NO_MOVE,
    }
    later = max(first, second, key=lambda part: part.span.start)
    return Row(values, later.span if overlap.fastening is None else overlap.fastening.span)


def _off_square(part: Part, overlap: Overlap) -> float:
    return math.degrees(math.acos(min(1.0, abs(dot(part.along, overlap.push)))))


def _goes_in_endwise(overlap: Overlap) -> Part | None:
    """The part that the push would draw out along its length."""
    for part in (overlap.second, overlap.first):
        if abs(dot(part.along, overlap.push)) > _STRAIGHT:
            return part
    return None


# --- wood that a third part's joint took away ---------------------------------------------------------


def _taken_away(part: Part, space: Solid, kept: list[Share]) -> bool:
    """Whether a joint with another part leaves this part no wood in a space, but for a tenon.

    Two rails that are tenoned into one leg share space in the leg as drawn, and have only their tenons
    there: whether these meet is told with the joints.
    """
    return any(
        share.keeper is not part
        and (part is share.first or part is share.second)
        and _inside(space, share.solid)
        for share in kept
    )


def _inside(inner: Solid, outer: Solid) -> bool:
    return all(
        dot(plane.normal, corner) <= plane.offset + EXACT
        for plane in outer.planes
        for corner in inner.vertices
    )
