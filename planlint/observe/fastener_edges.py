"""How near fasteners come to edges, to ends, and to each other along the grain: one row a measure and part.

Places that the plan states are taken as they are. Of places it leaves open, the best even spread over the
area counts, for each measure: in a row either way, or in two rows.
"""

from __future__ import annotations

from itertools import combinations
from math import sqrt
from typing import TYPE_CHECKING

from planlint.build.joinery.spots import Place, direction_for, points_at
from planlint.build.piece import Driven, Part, Passage
from planlint.geometry.outline import span_along
from planlint.geometry.vector import Vec, cross, dot
from planlint.observe.facts import Missing, Row
from planlint.observe.joins import pair_of
from planlint.observe.wood import Wood

if TYPE_CHECKING:
    from planlint.observe.fastener import Group

_BESIDE = 0.2  # cos of 78 deg: only faces that the axis runs along are beside it, not those it slants to
_END = 0.7  # cos of 45 deg: a face that looks along the grain is an end, any other an edge
_IN_ROW = 0.866  # cos of 30 deg: two that lie nearer to the grain's line than this are in a row

Spread = list[Vec]
Beside = tuple[
    Vec, float, float
]  # a face: the way it looks, how far along that it is, how the axis slants to it


class _Across:
    """A part seen along an axis: its least size square to it, and its edges and ends beside it."""

    __slots__ = ("edges", "ends", "rows", "width")

    def __init__(self, width: float, edges: list[Beside], ends: list[Beside], rows: bool) -> None:
        self.width = width
        self.edges = edges
        self.ends = ends
        self.rows = rows  # whether fasteners along this axis can split it in a row along its grain


Seen = dict[tuple[int, Vec], _Across]  # by the part's order and the axis


def rows(groups: list[Group], wood: Wood) -> list[Row]:
    """The rows of all fasteners that are driven into wood; fittings sit where their plates let them."""
    found: list[Row] = []
    seen: Seen = {}
    for group in groups:
        if group.own.kind.what != "plate":
            _add_rows(group, wood, seen, found)
    return found


def _add_rows(group: Group, wood: Wood, seen: Seen, found: list[Row]) -> None:
    first, depth = group.fasteners[0], group.depth
    assert depth is not None
    shared: dict[str, object] = {
        **group.own.values,
        "first": first.first.name,
        "second": first.second.name,
        "pair": pair_of(first.first, first.second),
    }
    spreads = _spreads(group)
    for passage in first.passages[depth.receiver if group.own.kind.pocketed else 0 : depth.receiver + 1]:
        part = passage.part
        key = (part.order, first.axis)
        if key not in seen:
            seen[key] = _across(part, first.axis)
        across = seen[key]
        shared["part"], shared["width"] = part.name, across.width
        unsure = _unsure(part)
        for measure, distance in _measures(passage, first, across, spreads, wood):
            values = {**shared, "measure": measure, "distance": unsure or distance}
            found.append(Row(values, first.fastening.span, group.own.spans))


def _unsure(part: Part) -> Missing | None:
    if not part.entry.shaped:
        return None
    return Missing(f"{part.name} is cut to a shape that the plan does not give", "look at the drawing")


def _across(part: Part, axis: Vec) -> _Across:
    ax, ay, az = axis
    gx, gy, gz = part.grain
    sheet = part.stock.sheet
    edges: list[Beside] = []
    ends: list[Beside] = []
    for normal, offset in part.solid.planes:
        nx, ny, nz = normal
        rise = nx * ax + ny * ay + nz * az
        if -_BESIDE < rise < _BESIDE:
            is_edge = sheet or abs(nx * gx + ny * gy + nz * gz) < _END
            (edges if is_edge else ends).append((normal, offset, rise))
    rows = not sheet and abs(ax * gx + ay * gy + az * gz) < _END
    return _Across(_width(part, axis), edges, ends, rows)


def _width(part: Part, axis: Vec) -> float:
    """The part's least size square to the axis."""
    size = part.size
    sizes = ((size.length, part.along), (size.width, part.across), (size.thickness, part.through))
    return min([one for one, way in sizes if abs(dot(way, axis)) < _END], default=size.thickness)


def _measures(
    passage: Passage, driven: Driven, across: _Across, spreads: list[Spread], wood: Wood
) -> list[tuple[str, float]]:
    """The best of the spreads, by measure. Sheet goods have edges but no ends and no rows along a grain."""
    part = passage.part
    ahead = _half_way(passage, driven)
    best: list[tuple[str, float]] = []
    own, *others = spreads
    for measure, faces in (("edge", across.edges), ("end", across.ends)):
        if faces:
            least = _least(part, faces, ahead, own, wood)
            for spread in others:
                least = max(least, _least(part, faces, ahead, spread, wood))
            best.append((measure, least))
    if across.rows:
        widest = -1.0
        for spread in spreads:
            gap = _in_row(spread, part.grain)
            if gap is None:
                return best
            if gap > widest:
                widest = gap
        best.append(("row", widest))
    return best


def _half_way(passage: Passage, driven: Driven) -> float:
    """How far from its spot to half way through the part, along the axis: faces count as far off as they are there.

    Where the axis slants to a face it comes nearer with its tip; that is another measure's business.
    """
    _, enter, leave = passage
    tip = driven.tip
    if tip is not None and tip < leave:
        leave = tip if tip > enter else enter
    (x, y, z), (u, v, w), (a, b, c) = driven.spot, driven.entry, driven.axis
    return (enter + leave) / 2.0 - ((x - u) * a + (y - v) * b + (z - w) * c)


def _least(part: Part, faces: list[Beside], ahead: float, spread: Spread, wood: Wood) -> float:
    """The least distance from any axis of a spread to these faces; one that a part is glued to is no edge."""
    if part.order in wood.bonded:
        return min(
            [
                _past_glue(part, spot, normal, offset - rise * ahead - dot(normal, spot), wood)
                for normal, offset, rise in faces
                for spot in spread
            ]
        )
    return min(
        [
            offset - rise * ahead - (nx * x + ny * y + nz * z)
            for (nx, ny, nz), offset, rise in faces
            for x, y, z in spread
        ]
    )


def _past_glue(part: Part, spot: Vec, normal: Vec, distance: float, wood: Wood) -> float:
    return wood.to_open_air(part, spot, normal, distance, glued_only=True)


def _in_row(spread: Spread, grain: Vec) -> float | None:
    """The least distance of two that lie in a row along the grain; None where none do."""
    gx, gy, gz = grain
    least: float | None = None
    for (ax, ay, az), (bx, by, bz) in combinations(spread, 2):
        x, y, z = ax - bx, ay - by, az - bz
        far = sqrt(x * x + y * y + z * z)
        if abs(x * gx + y * gy + z * gz) >= _IN_ROW * far and (least is None or far < least):
            least = far
    return least


def _spreads(group: Group) -> list[Spread]:
    """The spreads to choose from: the plan's own, and where it states none, the other even ones."""
    own = [one.spot for one in group.fasteners]
    first = group.fasteners[0]
    count = max(len(own), first.fastening.number)  # of very many only the first are drawn
    if count == 1 or group.own.kind.pocketed or True in [one.known_spot for one in group.fasteners]:
        return [own]
    outline, normal = first.patch.outline, first.patch.normal
    along = direction_for(outline, normal, None, first.first) or first.first.across
    across = cross(normal, along)
    found = [own, _even(outline, across, count, 1)]
    if count > 3 and count % 2 == 0:
        found += [_even(outline, along, count // 2, 2), _even(outline, across, count // 2, 2)]
    return [spread[: len(own)] for spread in found]


def _even(outline: tuple[Vec, ...], along: Vec, count: int, abreast: int) -> Spread:
    low, high = span_along(outline, along)
    places = [
        Place(low + (i + 0.5) * (high - low) / count, (j + 0.5) / abreast, False)
        for i in range(count)
        for j in range(abreast)
    ]
    return points_at(outline, along, places)
