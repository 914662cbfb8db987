"""What a piece stands on: whether its feet reach one plane, and whether leaning ones stand flat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from planlint.build.piece import Part, Piece
from planlint.geometry.outline import Flat, hull2d
from planlint.geometry.vector import EXACT, Vec, cross, dot, scale, sub
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.observe.ground import hangs
from planlint.observe.unplaced import add_gaps

FOOT = Table(
    "foot",
    "a part that the piece stands on, or that ends within an inch of the floor as those do",
    {
        "part": Column("word", "the part"),
        "entry": Column("word", "its name in the cut list"),
        "feet": Column("number", "how many feet there are"),
        "above": Column("length", "how far it is above the plane the piece stands on"),
        "longer": Column("words", "the feet that reach lower than the highest one"),
        "by": Column("length", "how much lower the lowest of them reaches"),
        "leans": Column("angle", "how far it leans off upright"),
        "wedge": Column(
            "length", "the wood to saw off one edge of its end so that it stands flat: 0 if it does"
        ),
        "shaped": Column("flag", "it is curved or cut out"),
    },
)

TABLES = (FOOT,)

_NEAR_FLOOR = 25.4  # mm: a leg that ends higher than this is no foot but hangs
_LYING = 0.3  # sin of 17 deg: a part that rises less lies on its side


def observe(piece: Piece, facts: Facts) -> None:
    """A row for each foot; a piece that hangs on a wall has none."""
    if hangs(piece) or not add_gaps(piece, facts, TABLES):
        return
    floor = min([part.solid.low[2] for part in piece.parts])
    feet = _feet(piece.parts, floor)
    offs = _above_plane(feet, piece.parts)
    highest = max([foot.solid.low[2] for foot in feet])
    longer = [foot for foot in feet if highest - foot.solid.low[2] > EXACT]
    rows = [
        Row(
            {
                "part": foot.name,
                "entry": foot.copy_of,
                "feet": float(len(feet)),
                "above": above,
                "longer": tuple([one.name for one in longer]),
                "by": highest - floor,
                "leans": math.degrees(math.acos(min(1.0, abs(foot.along[2])))),
                "wedge": _wedge(foot),
                "shaped": foot.entry.shaped,
            },
            foot.span,
        )
        for foot, above in zip(feet, offs, strict=True)
    ]
    facts.add(FOOT, rows)


def _feet(parts: Sequence[Part], floor: float) -> list[Part]:
    """The parts that reach the floor, those alike that end near it, and shorter legs at the corners.

    What merely ends near the floor is no foot: boards between the legs, a low stretcher.
    """
    on_floor = [part for part in parts if part.solid.low[2] <= floor + EXACT]
    near = [part for part in parts if floor + EXACT < part.solid.low[2] <= floor + _NEAR_FLOOR]
    if not near:
        return on_floor
    entries = {part.copy_of for part in on_floor}
    legs = {_section(part) for part in on_floor if _upright(part)}
    spread = hull2d([(x, y) for part in on_floor for x, y, z in part.solid.vertices if z <= floor + EXACT])
    short = [
        part
        for part in near
        if part.copy_of in entries or (_upright(part) and _section(part) in legs and _outside(part, spread))
    ]
    return [part for part in parts if part in on_floor or part in short]


def _upright(part: Part) -> bool:
    return abs(part.along[2]) > 0.7


def _section(part: Part) -> tuple[float, float]:
    return round(part.size.thickness, 1), round(part.size.width, 1)


def _outside(part: Part, hull: Sequence[Flat]) -> bool:
    """Whether a part's foot stands beyond the hull of the others: a corner that would hang in the air."""
    if len(hull) < 3:
        return True
    x, y, _ = _point(part)
    ax, ay = hull[-1]
    for bx, by in hull:
        if (bx - ax) * (y - ay) - (by - ay) * (x - ax) < 0.0:
            return True
        ax, ay = bx, by
    return False


def _point(part: Part) -> Vec:
    """The middle of a part's lowest corners."""
    low = part.solid.low[2]
    lowest = [p for p in part.solid.vertices if p[2] <= low + EXACT]
    return scale(
        (sum([p[0] for p in lowest]), sum([p[1] for p in lowest]), sum([p[2] for p in lowest])),
        1.0 / len(lowest),
    )


# --- one plane ------------------------------------------------------------------------------------------


def _above_plane(feet: Sequence[Part], parts: Sequence[Part]) -> list[float]:
    """How far each foot is above the plane through the three that carry the piece.

    The three hold the centre of gravity between them and have no foot below them; of two such planes the leveller
    one, so that the leg is named that the plan draws short. Two feet or three always find a plane.
    """
    points = [_point(foot) for foot in feet]
    level = points[0][2]
    if len(points) < 4 or all(abs(point[2] - level) <= EXACT for point in points):
        return [0.0] * len(points)
    centre = _centre_of_gravity(parts)
    best: list[float] | None = None
    least = (math.inf, math.inf)
    for a, b, c in combinations(points, 3):
        heights = _heights(a, b, c, points)
        if heights is None or min(heights) < -EXACT or not _between(a, b, c, centre):
            continue
        off = round(max(heights), 3), round(max(a[2], b[2], c[2]) - min(a[2], b[2], c[2]), 3)
        if off < least:
            best, least = heights, off
    if best is None:  # it tips over as drawn: judge it by its lowest foot
        low = min([point[2] for point in points])
        return [point[2] - low for point in points]
    return [max(0.0, height) for height in best]


def _heights(a: Vec, b: Vec, c: Vec, points: Sequence[Vec]) -> list[float] | None:
    """How far points are above the plane through three, straight up; None where these stand in one line."""
    normal = cross(sub(b, a), sub(c, a))
    if abs(normal[2]) < 1.0:
        return None
    return [dot(sub(point, a), normal) / normal[2] for point in points]


def _between(a: Vec, b: Vec, c: Vec, centre: Vec) -> bool:
    """Whether a point is over the triangle of three, with an inch to spare: feet are not points."""
    turn = 1.0 if cross(sub(b, a), sub(c, a))[2] > 0.0 else -1.0
    for p, q in ((a, b), (b, c), (c, a)):
        run = math.hypot(q[0] - p[0], q[1] - p[1])
        if turn * cross(sub(q, p), sub(centre, p))[2] < -_NEAR_FLOOR * run:
            return False
    return True


def _centre_of_gravity(parts: Sequence[Part]) -> Vec:
    x = y = z = volume = 0.0
    for part in parts:
        own = part.solid.volume
        cx, cy, cz = part.solid.centroid
        x, y, z, volume = x + cx * own, y + cy * own, z + cz * own, volume + own
    return scale((x, y, z), 1.0 / volume) if volume > 0.0 else (0.0, 0.0, 0.0)


# --- flat on the floor ----------------------------------------------------------------------------------


def _wedge(foot: Part) -> float:
    """How much the mitre that would let a leaning foot stand flat takes off: width x tan of its lean."""
    if not foot.leaning or abs(foot.along[2]) < _LYING:
        return 0.0
    down = foot.along if foot.along[2] < 0.0 else scale(foot.along, -1.0)
    end = max(foot.solid.faces, key=lambda face: dot(face.plane.normal, down))
    heights = [corner[2] for corner in end.outline]
    return (max(heights) - min(heights)) / abs(foot.along[2])
