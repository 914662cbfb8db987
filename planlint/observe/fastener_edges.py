"""How near fasteners come to edges, to ends, and to each other along the grain: one row a measure and part.

Places that the plan states are taken as they are. Of places it leaves open, the best even spread over the
area counts, for each measure: in a row either way, or in two rows.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from planlint.build.joinery.spots import Place, direction_for, point_at
from planlint.build.piece import Driven, Part, Passage
from planlint.geometry.outline import span_along
from planlint.geometry.vector import Vec, cross, dot, length, sub
from planlint.observe.facts import Missing, Row
from planlint.observe.joins import pair_of
from planlint.observe.wood import Wood

if TYPE_CHECKING:
    from planlint.observe.fastener import Group

_BESIDE = 0.2  # cos of 78 deg: only faces that the axis runs along are beside it, not those it slants to
_END = 0.7  # cos of 45 deg: a face that looks along the grain is an end, any other an edge
_IN_ROW = 0.866  # cos of 30 deg: two that lie nearer to the grain's line than this are in a row

Spread = list[Vec]
Beside = tuple[Vec, float]  # a face: the way it looks, and how far along that it is


def rows(groups: list[Group], wood: Wood) -> list[Row]:
    """The rows of all fasteners that are driven into wood; fittings sit where their plates let them."""
    found: list[Row] = []
    for group in groups:
        if group.own.kind.what != "plate":
            _add_rows(group, wood, found)
    return found


def _add_rows(group: Group, wood: Wood, found: list[Row]) -> None:
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
        width = _width(part, first.axis)
        for measure, distance in _measures(passage, first, spreads, wood).items():
            values = {**shared, "part": part.name, "measure": measure, "width": width}
            values["distance"] = _unsure(part) or distance
            found.append(Row(values, first.fastening.span, group.own.spans))


def _unsure(part: Part) -> Missing | None:
    if not part.entry.shaped:
        return None
    return Missing(f"{part.name} is cut to a shape that the plan does not give", "look at the drawing")


def _measures(passage: Passage, driven: Driven, spreads: list[Spread], wood: Wood) -> dict[str, float]:
    """The best of the spreads, by measure. Sheet goods have edges but no ends and no rows along a grain."""
    part = passage.part
    edges, ends = _beside(passage, driven)
    best: dict[str, float] = {}
    for measure, faces in (("edge", edges), ("end", ends)):
        if faces:
            best[measure] = max([_least(part, faces, spread, wood) for spread in spreads])
    if not part.stock.sheet and abs(dot(driven.axis, part.grain)) < _END:
        between = [_in_row(spread, part.grain) for spread in spreads]
        known = [gap for gap in between if gap is not None]
        if len(known) == len(between):
            best["row"] = max(known)
    return best


def _beside(passage: Passage, driven: Driven) -> tuple[list[Beside], list[Beside]]:
    """The faces beside an axis, edges and ends, as far off as they are half way through the part.

    Where the axis slants to a face it comes nearer with its tip; that is another measure's business.
    """
    part, (ax, ay, az) = passage.part, driven.axis
    leave = passage.leave if driven.tip is None else max(passage.enter, min(passage.leave, driven.tip))
    half_way = (passage.enter + leave) / 2.0
    gx, gy, gz = part.grain
    at = dot(sub(driven.spot, driven.entry), driven.axis)
    edges: list[Beside] = []
    ends: list[Beside] = []
    for normal, offset in part.solid.planes:
        nx, ny, nz = normal
        rise = nx * ax + ny * ay + nz * az
        if -_BESIDE < rise < _BESIDE:
            is_edge = part.stock.sheet or abs(nx * gx + ny * gy + nz * gz) < _END
            reach = offset - rise * (half_way - at)
            (edges if is_edge else ends).append((normal, reach))
    return edges, ends


def _least(part: Part, faces: list[Beside], spread: Spread, wood: Wood) -> float:
    """The least distance from any axis of a spread to these faces; one that a part is glued to is no edge."""
    if part.order in wood.bonded:
        return min(
            [
                _past_glue(part, spot, normal, reach - dot(normal, spot), wood)
                for normal, reach in faces
                for spot in spread
            ]
        )
    return min([reach - (nx * x + ny * y + nz * z) for (nx, ny, nz), reach in faces for x, y, z in spread])


def _past_glue(part: Part, spot: Vec, normal: Vec, distance: float, wood: Wood) -> float:
    return wood.to_open_air(part, spot, normal, distance, glued_only=True)


def _in_row(spread: Spread, grain: Vec) -> float | None:
    """The least distance of two that lie in a row along the grain; None where none do."""
    least: float | None = None
    for i, one in enumerate(spread):
        for other in spread[i + 1 :]:
            way = sub(one, other)
            far = length(way)
            if abs(dot(way, grain)) >= _IN_ROW * far and (least is None or far < least):
                least = far
    return least


def _width(part: Part, axis: Vec) -> float:
    """The part's least size square to the axis."""
    size = part.size
    sizes = ((size.length, part.along), (size.width, part.across), (size.thickness, part.through))
    return min([one for one, way in sizes if abs(dot(way, axis)) < _END], default=size.thickness)


def _spreads(group: Group) -> list[Spread]:
    """The spreads to choose from: the plan's own, and where it states none, the other even ones."""
    own = [one.spot for one in group.fasteners]
    first = group.fasteners[0]
    count = max(len(own), first.fastening.number)  # of very many only the first are drawn
    if count == 1 or group.own.kind.pocketed or any(one.known_spot for one in group.fasteners):
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
    return [
        point_at(outline, along, Place(low + (i + 0.5) * (high - low) / count, (j + 0.5) / abreast, False))
        for i in range(count)
        for j in range(abreast)
    ]
