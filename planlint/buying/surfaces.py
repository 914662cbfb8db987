"""Areas of the finished piece: what air can reach, and what is glued. mm²."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.outline import area, cut_below, project
from planlint.geometry.solid import Face, Plane, extent
from planlint.geometry.vector import EXACT, Vec, dot, scale
from planlint.observe.circumstances import is_metric
from planlint.read.plan import PanelOf
from planlint.trade.joinery import reach

_SAME_WAY = 0.99999  # cos of 0.26 deg: faces that look the same way
_LEAST = 0.01  # mm²: less than this is no area


@once_a_piece
def exposed(piece: Piece) -> float:
    """The surface of all parts together, less where they lie on or reach into each other.

    Ends, undersides and insides count. Of each face what another part covers is taken off: where the air just
    outside the face is inside that part, gaps up to the fit tolerance left out. Where two parts that cut into each
    other are flush, the face counts once.
    """
    beside: dict[int, list[Part]] = {}
    for first, second in _touching(piece):
        beside.setdefault(first.order, []).append(second)
        beside.setdefault(second.order, []).append(first)
    out = reach(is_metric(piece.plan)) + EXACT
    return sum(
        [
            _bare(face, part, beside.get(part.order, ()), out)
            for part in piece.parts
            for face in part.solid.faces
        ]
    )


def glued(piece: Piece) -> float:
    """The areas that join lines glue, and the edges of panels that are glued up."""
    joints = [
        patch.area
        for meeting in piece.meetings
        if any(one.kind == "glue" for one in meeting.join.fastenings)
        for patch in meeting.patches
    ]
    return sum(joints) + _panel_edges(piece)


def all_faces(piece: Piece) -> float | None:
    """Every face of every entry of the cut list, as if nothing touched; None where a size is not known."""
    total = 0.0
    for listed in piece.listed:
        if listed.used_in_panel:
            continue
        size = listed.size
        if size is None:
            return None
        long, wide, thick = size.length, size.width, size.thickness
        total += listed.entry.pieces * 2 * (long * wide + long * thick + wide * thick)
    return total


def _panel_edges(piece: Piece) -> float:
    total = 0.0
    for listed in piece.listed:
        stock, size = listed.entry.stock, listed.size
        if isinstance(stock, PanelOf) and size is not None:
            long = size.width if listed.entry.grain_across else size.length
            total += listed.entry.pieces * (stock.boards - 1) * long * size.thickness
    return total


def _touching(piece: Piece) -> list[tuple[Part, Part]]:
    """Every two parts that touch or share space, each pair once."""
    pairs = [(first, second) for first, second, _ in piece.contacts]
    pairs += [(one.first, one.second) for one in piece.overlaps]
    return list({tuple(sorted((a.order, b.order))): (a, b) for a, b in pairs}.values())


def _bare(face: Face, part: Part, others: Sequence[Part], out: float) -> float:
    """What of a face other parts leave bare."""
    normal, offset = face.plane
    left = [face.outline]
    for other in others:
        low, high = extent(other.solid, normal)
        if low < offset + out < high:
            left = [piece for one in left for piece in _outside(one, other, face.plane, out)]
        if other.order < part.order and low < offset - out and _is_flush(face.plane, other):
            left = [piece for one in left for piece in _outside(one, other, face.plane, -out)]
    return sum([_area(one, normal) for one in left])


def _is_flush(plane: Plane, other: Part) -> bool:
    """Whether a face of the other part lies in the same plane and looks the same way."""
    return any(
        dot(one.normal, plane.normal) > _SAME_WAY and abs(one.offset - plane.offset) < EXACT
        for one in other.solid.planes
    )


def _outside(outline: tuple[Vec, ...], other: Part, plane: Plane, out: float) -> list[tuple[Vec, ...]]:
    """The outline without what is in the other part, seen `out` mm before the face: convex pieces."""
    if _apart(outline, other, abs(out)):
        return [outline]
    normal = plane.normal
    pieces: list[tuple[Vec, ...]] = []
    inside = outline
    for side in other.solid.planes:
        moved = Plane(side.normal, side.offset - out * dot(side.normal, normal))
        beyond = tuple(cut_below(inside, Plane(scale(moved.normal, -1.0), -moved.offset)))
        inside = tuple(cut_below(inside, moved))
        if _area(inside, normal) < _LEAST:
            return [outline]
        if _area(beyond, normal) >= _LEAST:
            pieces.append(beyond)
    return pieces


def _apart(outline: tuple[Vec, ...], other: Part, out: float) -> bool:
    """Whether the bounds of the two already tell that they have nothing in common."""
    low, high = other.solid.low, other.solid.high
    for axis in (0, 1, 2):
        reach = [corner[axis] for corner in outline]
        if min(reach) > high[axis] + out or max(reach) < low[axis] - out:
            return True
    return False


def _area(outline: tuple[Vec, ...], normal: Vec) -> float:
    return area(project(outline, normal)) if len(outline) > 2 else 0.0
