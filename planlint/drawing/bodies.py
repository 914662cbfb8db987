"""The parts of a piece as they are cut: where a joint gives space to one of two parts, the other has it cut out."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece, Share
from planlint.geometry.cells import Body, body, cut
from planlint.geometry.solid import Solid, extent


@once_a_piece
def bodies(piece: Piece) -> tuple[Body, ...]:
    """A body for each part, in the order of `piece.parts`."""
    by_part: dict[int, list[Share]] = {}
    for share in piece.shares:
        for part in (share.first, share.second):
            by_part.setdefault(part.order, []).append(share)
    return tuple([_body(part, by_part.get(part.order, ())) for part in piece.parts])


def _body(part: Part, shares: Sequence[Share]) -> Body:
    """A later share of a pair goes over an earlier: a tenon is wood again where its end was cut away."""
    cells: list[Solid] = [part.solid]
    holes: list[Share] = []
    lost: set[tuple[int, int]] = set()
    for share in shares:
        pair = (share.first.order, share.second.order)
        if share.keeper is not part:
            holes.append(share)
            lost.add(pair)
        elif pair in lost:
            cells = [*_cut(part, cells, holes), share.solid]
            holes = []
    cells = _cut(part, cells, holes)
    return body(cells or [part.solid], part.along if part.size.diameter else None)


def _cut(part: Part, cells: Sequence[Solid], holes: Sequence[Share]) -> list[Solid]:
    ordered = sorted([share.solid for share in holes], key=lambda solid: extent(solid, part.along))
    return [left for cell in cells for left in cut(cell, ordered)]
