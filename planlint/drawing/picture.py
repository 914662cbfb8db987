"""One view of the piece on paper: where its points lie, and its parts in ink."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.drawing.placing import Box
from planlint.geometry.outline import Flat, area
from planlint.geometry.seen import Seen, Surface
from planlint.geometry.shadow import Eye, looking_from
from planlint.geometry.vector import Vec, dot
from planlint.show.wrapping import printable
from planlint.svg import element, group, number

FRONT = Eye((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0))
RIGHT = Eye((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
TOP = Eye((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
TURNED = looking_from((0.55, -0.8, 0.42))  # from the front, the right and above

_ENDWISE = 0.7  # cosine from which a face is end grain


class Extent(NamedTuple):
    """The bounds of a view in mm of the piece: low u, low v, high u, high v."""

    low_u: float
    low_v: float
    high_u: float
    high_v: float

    @property
    def wide(self) -> float:
        """To the right."""
        return self.high_u - self.low_u

    @property
    def high(self) -> float:
        """Up."""
        return self.high_v - self.low_v


class Picture(NamedTuple):
    """A view with its place on paper: u, v (mm of the piece) lies at left + (u - low u)·scale, y down from `top`."""

    name: str  # "Front", "Right side", "Top", "Turned"
    eye: Eye
    seen: Seen
    extent: Extent
    scale: float  # mm on paper for a mm of the piece
    left: float
    top: float

    def at(self, flat: Flat) -> Flat:
        """A point of the view on paper."""
        return (
            self.left + (flat[0] - self.extent.low_u) * self.scale,
            self.top + (self.extent.high_v - flat[1]) * self.scale,
        )

    def spot(self, point: Vec) -> Flat:
        """A point of the piece on paper."""
        u, v, _ = self.eye.see(point)
        return self.at((u, v))

    @property
    def box(self) -> Box:
        """What the piece takes of the paper."""
        return Box(self.left, self.top, self.right, self.bottom)

    @property
    def right(self) -> float:
        """The paper's x where the piece ends."""
        return self.left + self.extent.wide * self.scale

    @property
    def bottom(self) -> float:
        """The paper's y where the piece ends."""
        return self.top + self.extent.high * self.scale


def extent_of(seen: Seen) -> Extent:
    """The bounds of all that is seen."""
    shadows = seen.grid.shadows
    return Extent(
        min([one.low_u for one in shadows], default=0.0),
        min([one.low_v for one in shadows], default=0.0),
        max([one.high_u for one in shadows], default=0.0),
        max([one.high_v for one in shadows], default=0.0),
    )


def inked(picture: Picture, parts: Sequence[Part], toned: bool = False) -> list[str]:
    """The parts as groups of fills, then of lines. `toned`: the top lighter, the right side darker than the front."""
    fills: dict[int, dict[str, list[str]]] = {}
    for surface in picture.seen.surfaces:
        tone = _tone(surface, parts[surface.of], toned)
        shapes = [_closed(picture, piece) for piece in surface.pieces]
        fills.setdefault(surface.of, {}).setdefault(tone, []).extend(shapes)
    lines: dict[int, dict[str, list[str]]] = {}
    for line in picture.seen.lines:
        pen = "outline" if line.heavy else "edge"
        drawn = _open(picture, line.start, line.end)
        lines.setdefault(line.of, {}).setdefault(pen, []).append(drawn)
    found = []
    for inks in (fills, lines):
        for of, by_pen in sorted(inks.items()):
            paths = [element("path", {"class": pen, "d": "".join(drawn)}) for pen, drawn in by_pen.items()]
            found.append(group({"class": "part", "data-part": printable(parts[of].name)}, paths))
    return found


def largest_piece(surfaces: Sequence[Surface]) -> tuple[Flat, ...]:
    """The largest visible piece of some surfaces."""
    return max([piece for surface in surfaces for piece in surface.pieces], key=area)


def middle(piece: Sequence[Flat]) -> Flat:
    """A point in the midst of a convex piece."""
    return sum([p[0] for p in piece]) / len(piece), sum([p[1] for p in piece]) / len(piece)


def _tone(surface: Surface, part: Part, toned: bool) -> str:
    if not part.stock.sheet and abs(dot(surface.normal, part.grain)) > _ENDWISE:
        return "end-grain"
    if not toned:
        return "wood"
    return "wood top" if surface.normal[2] > 0.5 else "wood side" if surface.normal[0] > 0.5 else "wood"


def _closed(picture: Picture, piece: Sequence[Flat]) -> str:
    points = [_pair(picture.at(point)) for point in piece]
    return f"M{'L'.join(points)}Z"


def _open(picture: Picture, start: Flat, end: Flat) -> str:
    return f"M{_pair(picture.at(start))}L{_pair(picture.at(end))}"


def _pair(point: Flat) -> str:
    return f"{number(point[0])},{number(point[1])}"
