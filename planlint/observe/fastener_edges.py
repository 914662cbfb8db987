"""How near fasteners come to edges, to ends, and to each other along the grain: one row a measure and part.

Places that the plan states are taken as they are. Of places it leaves open, the best even spread over the
area counts, for each measure: in a row either way, or in two rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from planlint.build.joinery.spots import Place, direction_for, point_at
from planlint.build.piece import Driven, Part, Passage
from planlint.geometry.outline import span_along
from planlint.geometry.solid import extent
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


def rows(groups: list[Group], wood: Wood) -> list[Row]:
    """The rows of all fasteners that are driven into wood; fittings sit where their plates let them."""
    found: list[Row] = []
    told: set[tuple[object, ...]] = set()
    for group in groups:
        if group.own.kind.what == "plate":
            continue
        for row in _of_group(group, wood):
            values = row.values
            key = (
                values["join"],
                values["pair"],
                values["kind"],
                values["part"],
                values["measure"],
                row.span,
            )
            if key not in told:
                told.add(key)
                found.append(row)
    return found


def _of_group(group: Group, wood: Wood) -> Iterator[Row]:
    first, depth = group.fasteners[0], group.depth
    assert depth is not None
    passages = first.passages[depth.receiver if group.own.kind.pocketed else 0 : depth.receiver + 1]
    spreads = list(_spreads(group))
    for passage in passages:
        for measure, distance in _measures(passage, first, spreads, wood):
            values: dict[str, object] = {
                **group.own.values,
                "first": first.first.name,
                "second": first.second.name,
                "pair": pair_of(first.first, first.second),
                "part": passage.part.name,
                "measure": measure,
                "distance": _unsure(passage.part) or distance,
                "width": _width(passage.part, first.axis),
            }
            yield Row(values, first.fastening.span, group.own.spans)


def _unsure(part: Part) -> Missing | None:
    if not part.entry.shaped:
        return None
    return Missing(f"{part.name} is cut to a shape that the plan does not give", "look at the drawing")


def _measures(
    passage: Passage, driven: Driven, spreads: list[Spread], wood: Wood
) -> Iterator[tuple[str, float]]:
    part = passage.part
    edges, ends = _beside(part, driven.axis)
    for measure, faces in (("edge", edges), ("end", ends)):
        if faces:
            yield measure, max([_least(faces, spread, passage, driven, wood) for spread in spreads])
    if not part.stock.sheet and abs(dot(driven.axis, part.grain)) < _END:
        between = [_in_row(spread, part.grain) for spread in spreads]
        known = [gap for gap in between if gap is not None]
        if len(known) == len(between):
            yield "row", max(known)


def _beside(part: Part, axis: Vec) -> tuple[list[tuple[Vec, float]], list[tuple[Vec, float]]]:
    """The faces beside an axis: edges and ends. Sheet goods have only edges."""
    edges: list[tuple[Vec, float]] = []
    ends: list[tuple[Vec, float]] = []
    for normal, offset in part.solid.planes:
        if abs(dot(normal, axis)) < _BESIDE:
            is_end = not part.stock.sheet and abs(dot(normal, part.grain)) > _END
            (ends if is_end else edges).append((normal, offset))
    return edges, ends


def _least(
    faces: list[tuple[Vec, float]], spread: Spread, passage: Passage, driven: Driven, wood: Wood
) -> float:
    """The least distance from any axis of a spread to these faces, over the whole way through the part."""
    at = dot(sub(driven.spot, driven.entry), driven.axis)
    least = float("inf")
    for normal, offset in faces:
        rise = dot(normal, driven.axis)
        reach = offset - max(rise * (passage.enter - at), rise * (passage.leave - at))
        for spot in spread:
            distance = reach - dot(normal, spot)
            if distance < least:
                least = min(least, _with_glued(passage.part, spot, normal, distance, wood))
    return least


def _with_glued(part: Part, spot: Vec, normal: Vec, distance: float, wood: Wood) -> float:
    """A face to which another part is glued is no edge."""
    if not any(wood.are_glued(part, other) for other in wood.beside.get(part.order, ())):
        return distance
    return wood.to_open_air(part, spot, normal, distance)


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
    sizes = [
        high - low
        for low, high in [extent(part.solid, way) for way in (part.along, part.across, part.through)]
    ]
    across = [
        size
        for size, way in zip(sizes, (part.along, part.across, part.through), strict=True)
        if abs(dot(way, axis)) < _END
    ]
    return min(across, default=min(sizes))


def _spreads(group: Group) -> Iterable[Spread]:
    """The spreads to choose from: the plan's own, and where it states none, the other even ones."""
    own = [one.spot for one in group.fasteners]
    yield own
    first, count = group.fasteners[0], len(own)
    if count == 1 or group.own.kind.pocketed or any(one.known_spot for one in group.fasteners):
        return
    outline, normal = first.patch.outline, first.patch.normal
    along = direction_for(outline, normal, None, first.first.across) or first.first.across
    across = cross(normal, along)
    yield _even(outline, across, count, 1)
    if count > 3 and count % 2 == 0:
        yield _even(outline, along, count // 2, 2)
        yield _even(outline, across, count // 2, 2)


def _even(outline: tuple[Vec, ...], along: Vec, count: int, abreast: int) -> Spread:
    low, high = span_along(outline, along)
    return [
        point_at(outline, along, Place(low + (i + 0.5) * (high - low) / count, (j + 0.5) / abreast, False))
        for i in range(count)
        for j in range(abreast)
    ]
