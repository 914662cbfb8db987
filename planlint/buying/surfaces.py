"""Areas of the finished piece: what air can reach, and what is glued. mm²."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.outline import area, cut_below, project
from planlint.geometry.solid import Face, Plane, extent
from planlint.geometry.vector import EXACT, WORLD, Vec, dot, scale
from planlint.observe.circumstances import is_metric
from planlint.read.plan import PanelOf
from planlint.trade.joinery import reach

_SAME_WAY = 0.99999  # cos of 0.26 deg: faces that look the same way
_LEAST = 0.01  # mm²: less than this is no area
_MANY = 12  # covers of one face: more are sorted by halves

Outline = tuple[Vec, ...]
Cover = tuple[Part, float]  # a part that may lie on a face, and how far before the face it is looked for (mm)


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
    covers: list[Cover] = []
    for other in others:
        low, high = extent(other.solid, normal)
        if low < offset + out < high:
            covers.append((other, out))
        if other.order < part.order and low < offset - out and _is_flush(face.plane, other):
            covers.append((other, -out))
    return sum([_area(one, normal) for one in _left(face.outline, covers, face.plane)])


def _left(outline: Outline, covers: Sequence[Cover], plane: Plane) -> list[Outline]:
    """What the covers leave of an outline: convex pieces.

    A rail that many slats lie on is halved, and halved again: else each slat would be tried on each piece that the
    others leave.
    """
    near = [cover for cover in covers if not _apart(outline, cover[0], abs(cover[1]))]
    if len(near) > _MANY:
        halves = _halved(outline)
        of_each = [[one for one in near if not _apart(half, one[0], abs(one[1]))] for half in halves]
        if sum(map(len, of_each)) < 1.5 * len(near):  # else they all lie on both
            parts = zip(halves, of_each, strict=True)
            return [piece for half, own in parts for piece in _left(half, own, plane)]
    left = [outline]
    for other, out in near:
        left = [piece for one in left for piece in _outside(one, other, plane, out)]
    return left


def _halved(outline: Outline) -> tuple[Outline, Outline]:
    """An outline cut across the middle of its longest extent."""
    spans = [(min(along), max(along)) for along in zip(*outline, strict=True)]
    axis = max((0, 1, 2), key=lambda one: spans[one][1] - spans[one][0])
    middle = sum(spans[axis]) / 2.0
    below, above = Plane(WORLD[axis], middle), Plane(scale(WORLD[axis], -1.0), -middle)
    return tuple(cut_below(outline, below)), tuple(cut_below(outline, above))


def _is_flush(plane: Plane, other: Part) -> bool:
    """Whether a face of the other part lies in the same plane and looks the same way."""
    return any(
        dot(one.normal, plane.normal) > _SAME_WAY and abs(one.offset - plane.offset) < EXACT
        for one in other.solid.planes
    )


def _outside(outline: Outline, other: Part, plane: Plane, out: float) -> list[Outline]:
    """The outline without what is in the other part, seen `out` mm before the face: convex pieces."""
    if _apart(outline, other, abs(out)):
        return [outline]
    normal = plane.normal
    pieces: list[Outline] = []
    inside = outline
    for side in other.solid.planes:
        moved = Plane(side.normal, side.offset - out * dot(side.normal, normal))
        beyond = tuple(cut_below(inside, Plane(scale(moved.normal, -1.0), -moved.offset)))
        if not beyond:
            continue  # this side passes it by
        inside = tuple(cut_below(inside, moved))
        if _area(inside, normal) < _LEAST:
            return [outline]
        if _area(beyond, normal) >= _LEAST:
            pieces.append(beyond)
    return pieces


def _apart(outline: Outline, other: Part, out: float) -> bool:
    """Whether the bounds of the two already tell that they have nothing in common."""
    low, high = other.solid.low, other.solid.high
    for axis in (0, 1, 2):
        reach = [corner[axis] for corner in outline]
        if min(reach) > high[axis] + out or max(reach) < low[axis] - out:
            return True
    return False


def _area(outline: Outline, normal: Vec) -> float:
    return area(project(outline, normal)) if len(outline) > 2 else 0.0
