"""The broken lines of the exploded view: from where a joint is on one part to where it is on the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planlint.build.piece import Part
from planlint.drawing.moving import Moves, Touch
from planlint.drawing.picture import Picture
from planlint.geometry.outline import Flat
from planlint.geometry.vector import Vec, add
from planlint.svg import element, number

STRAIGHT = 1.0  # mm that a move may go aside for its line to be straight
LINES_EACH = 3  # that end at one part
MOST_LINES = 6  # parts of one cut-list entry with lines of their own; of more, the first and the last


def move_lines(parts: Sequence[Part], own: Moves, picture: Picture) -> list[str]:
    """The lines, not more than can be read: straight ones first, and for a part without one its way round a corner."""
    shown = _with_lines(parts)
    lines: dict[int, int] = {}
    paths: list[str] = []
    for corners in (False, True):
        for one in own.along:
            if one.first not in shown or one.second not in shown:
                continue
            most = 1 if corners else LINES_EACH
            counts = (lines.get(one.first, 0), lines.get(one.second, 0))
            if (min(counts) if corners else max(counts)) >= most:
                continue
            way = _way(one, own.of)
            if len(way) < 2 or (len(way) > 2) is not corners:
                continue
            path = [picture.spot(point) for point in way]
            if all(_is_on(picture, point) for point in path):
                paths.append("M" + "L".join([f"{number(x)},{number(y)}" for x, y in path]))
                for order in (one.first, one.second):
                    lines[order] = lines.get(order, 0) + 1
    return [element("path", {"class": "move", "d": path}) for path in paths]


def _way(one: Touch, moves: Sequence[Vec]) -> list[Vec]:
    """From the joint's place on the first part to that on the second, first along the joint, then aside."""
    end = add(one.middle, moves[one.second])
    way = [add(one.middle, moves[one.first])]
    for axis in (one.axis, *[axis for axis in range(3) if axis != one.axis]):
        step = list(way[-1])
        step[axis] = end[axis]
        if abs(end[axis] - way[-1][axis]) > STRAIGHT:
            way.append((step[0], step[1], step[2]))
    return way


def _is_on(picture: Picture, point: Flat) -> bool:
    """Whether the point lies on what the picture takes of the paper."""
    x, y = point
    return picture.left <= x <= picture.right and picture.top <= y <= picture.bottom


def _with_lines(parts: Sequence[Part]) -> set[int]:
    members: dict[str, list[int]] = {}
    for part in parts:
        members.setdefault(part.copy_of, []).append(part.order)
    return {order for orders in members.values() for order in _first_and_last(orders)}


def _first_and_last(orders: Sequence[int]) -> Iterator[int]:
    yield from orders if len(orders) <= MOST_LINES else (orders[0], orders[-1])
