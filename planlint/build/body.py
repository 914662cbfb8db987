"""A piece of wood as a box with cuts, before it becomes a `Part`: cheap to move, turn and mirror.

A body stands in some frame: round its own centre while it has no place, on the bench of a sub-assembly, or
in the finished piece. Its solid is made once, when it has arrived.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.build.piece import Listed, Size
from planlint.geometry.body import Axes, Plane, Solid
from planlint.geometry.solid import block, clip, moved, prism
from planlint.geometry.vector import WORLD, Vec, add, dot, scale, world_axis
from planlint.source import Span

HomeAxis = tuple[int, int]  # the world axis (0, 1, 2) and the way (+1, -1) a body's axis had before it leaned
Home = tuple[HomeAxis, HomeAxis, HomeAxis]


class Cut(NamedTuple):
    """A plane that took wood off the side `axis` (0 length, 1 width, 2 thickness), `sign` of the box.

    The plane is in the box's own frame (x along its length, y its width, z its thickness, from its centre),
    so it goes along with the body. `whole`: all of that side lies in it now (an end cut, a full taper).
    """

    axis: int
    sign: int
    plane: Plane
    whole: bool


class Form:
    """What a body is, wherever it stands: its box and its cuts. Copies and mirror images share it."""

    __slots__ = ("_solid", "cuts", "halves", "listed", "round", "span")

    def __init__(self, listed: Listed, span: Span, halves: Vec, cuts: tuple[Cut, ...] = ()) -> None:
        self.listed = listed
        self.span = span
        self.halves = halves
        self.cuts = cuts
        self.round = listed.stock is not None and listed.stock.diameter is not None
        self._solid: Solid | None = None

    def box(self) -> Solid:
        """The uncut solid in its own frame."""
        if self.round:
            return prism((0.0, 0.0, 0.0), WORLD[0], 2.0 * self.halves[2], 2.0 * self.halves[0])
        return block(scale(self.halves, -1.0), self.halves)

    def solid(self) -> Solid:
        """The solid as sawn, in its own frame. A cut that leaves nothing is left out."""
        if self._solid is None:
            left = self.box()
            for cut in self.cuts:
                left = clip(left, cut.plane) or left
            self._solid = left
        return self._solid


class Level(NamedTuple):
    """The names a body answers to in one scope: the finished piece (None) or a sub-assembly's bench."""

    scope: str | None
    names: tuple[str, ...]


class Body:
    """A form with its centre and axes (length, width, thickness) in some frame.

    `home` is how its axes lay before it leaned: a leaning post's front is the face that looked to the front.
    """

    __slots__ = ("assembly", "axes", "centre", "form", "high", "home", "levels", "low", "straight")

    def __init__(
        self,
        form: Form,
        centre: Vec,
        axes: Axes,
        home: Home,
        levels: tuple[Level, ...] = (),
        assembly: str | None = None,
        bounds: tuple[Vec, Vec] | None = None,
        straight: bool | None = None,
    ) -> None:
        self.form = form
        self.centre = centre
        self.axes = axes
        self.home = home
        self.levels = levels
        self.assembly = assembly  # the copy of a sub-assembly that holds it
        if straight is None:
            straight = world_axis(axes[0]) is not None and world_axis(axes[1]) is not None
        self.straight = straight
        self.low, self.high = bounds if bounds is not None else self._bounds()

    @property
    def name(self) -> str:
        """Its full name in the scope it stands in."""
        return self.levels[-1].names[0]

    @property
    def size(self) -> Size:
        """Over-all length, width and thickness, mm."""
        length, width, thickness = scale(self.form.halves, 2.0)
        return Size(length, width, thickness, thickness if self.form.round else None)

    def box(self) -> Solid:
        """The solid before anything was cut off."""
        return moved(self.form.box(), self.centre, self.axes)

    def solid(self) -> Solid:
        """The solid as sawn."""
        if self.straight and not self.form.cuts and not self.form.round:
            return Solid(self.low, self.high)
        return moved(self.form.solid(), self.centre, self.axes)

    def side_plane(self, axis: int, sign: int) -> Plane:
        """The plane of the side that looked (axis, sign) before the body leaned, as it is cut now."""
        k, s = self.own_side(axis, sign)
        for cut in self.form.cuts:
            if cut.axis == k and cut.sign == s and cut.whole:
                return self._placed(cut.plane)
        return self._box_plane(k, s)

    def side_planes(self, axis: int, sign: int) -> list[Plane]:
        """All planes of that side: the box's own, and those of cuts and tapers."""
        k, s = self.own_side(axis, sign)
        cuts = [self._placed(cut.plane) for cut in self.form.cuts if cut.axis == k and cut.sign == s]
        return [self._box_plane(k, s), *cuts]

    def mid_plane(self, axis: int) -> Plane:
        """The plane half way between the two sides of that home axis."""
        k, _ = self.own_side(axis, 1)
        return Plane(self.axes[k], dot(self.axes[k], self.centre))

    def own_side(self, axis: int, sign: int) -> tuple[int, int]:
        """Which of its own sides looked that way before it leaned: (0 length, 1 width, 2 thickness; sign)."""
        for k, (home, way) in enumerate(self.home):
            if home == axis:
                return k, sign * way
        raise ValueError("a body's home axes are the three world axes")

    def is_flat(self, axis: int) -> bool:
        """Whether its two sides on that axis are square to it, so that they lie at its bounds."""
        k, _ = self.own_side(axis, 1)
        return world_axis(self.axes[k]) == axis and all(cut.axis != k for cut in self.form.cuts)

    def end_normal(self, sign: int) -> Vec:
        """The outward normal of an end (-1 low, 1 high along its length) as it is cut, in its own frame."""
        for cut in self.form.cuts:
            if cut.axis == 0 and cut.sign == sign:
                return cut.plane.normal
        return scale(WORLD[0], float(sign))

    def with_cuts(self, cuts: Sequence[Cut]) -> Body:
        """The body with more cuts."""
        form = Form(self.form.listed, self.form.span, self.form.halves, (*self.form.cuts, *cuts))
        return Body(form, self.centre, self.axes, self.home, self.levels, self.assembly)

    def moved(self, way: Vec) -> Body:
        """The body moved by a vector."""
        bounds = (add(self.low, way), add(self.high, way))
        centre = add(self.centre, way)
        return Body(
            self.form, centre, self.axes, self.home, self.levels, self.assembly, bounds, self.straight
        )

    def turned(self, axes: Axes, home: Axes) -> Body:
        """The body carried into a frame with these axes about the origin; `home` turns its side names."""
        a, b, c = self.axes
        turned_axes = (turn_into(axes, a), turn_into(axes, b), turn_into(axes, c))
        p, q, r = self.home
        homes = (_home(home, p), _home(home, q), _home(home, r))
        centre = turn_into(axes, self.centre)
        return Body(self.form, centre, turned_axes, homes, self.levels, self.assembly)

    def mirrored(self, axis: int, about: float) -> Body:
        """The mirror image in the plane where that coordinate is `about`."""
        a, b, c = self.axes
        p, q, r = self.home
        low, high = _flip(self.high, axis, about), _flip(self.low, axis, about)
        return Body(
            self.form,
            _flip(self.centre, axis, about),
            (_flip(a, axis), _flip(b, axis), _flip(c, axis)),
            (_home_flipped(p, axis), _home_flipped(q, axis), _home_flipped(r, axis)),
            self.levels,
            self.assembly,
            (_with(self.low, axis, low[axis]), _with(self.high, axis, high[axis])),
            self.straight,
        )

    def named(self, levels: tuple[Level, ...], assembly: str | None) -> Body:
        """The same body under other names: nothing else changes."""
        bounds = (self.low, self.high)
        return Body(self.form, self.centre, self.axes, self.home, levels, assembly, bounds, self.straight)

    def to_own_frame(self, plane: Plane) -> Plane:
        """A plane of the frame outside in the box's own frame."""
        return Plane(turn_back(self.axes, plane.normal), plane.offset - dot(plane.normal, self.centre))

    def _placed(self, plane: Plane) -> Plane:
        normal = turn_into(self.axes, plane.normal)
        return Plane(normal, plane.offset + dot(normal, self.centre))

    def _box_plane(self, k: int, sign: int) -> Plane:
        normal = scale(self.axes[k], float(sign))
        return Plane(normal, dot(normal, self.centre) + self.form.halves[k])

    def _bounds(self) -> tuple[Vec, Vec]:
        (a, b, c), (ha, hb, hc), (x, y, z) = self.axes, self.form.halves, self.centre
        if self.form.cuts or (self.form.round and not self.straight):
            points = [turn_into(self.axes, p) for p in self.form.solid().vertices]
            xs, ys, zs = [p[0] for p in points], [p[1] for p in points], [p[2] for p in points]
            return (x + min(xs), y + min(ys), z + min(zs)), (x + max(xs), y + max(ys), z + max(zs))
        rx = abs(a[0]) * ha + abs(b[0]) * hb + abs(c[0]) * hc
        ry = abs(a[1]) * ha + abs(b[1]) * hb + abs(c[1]) * hc
        rz = abs(a[2]) * ha + abs(b[2]) * hb + abs(c[2]) * hc
        return (x - rx, y - ry, z - rz), (x + rx, y + ry, z + rz)


def turn_into(axes: Axes, v: Vec) -> Vec:
    """The vector carried into a frame with these axes: x goes to axes[0], y to axes[1], z to axes[2]."""
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = axes
    x, y, z = v
    return (x * ax + y * bx + z * cx, x * ay + y * by + z * cy, x * az + y * bz + z * cz)


def turn_back(axes: Axes, v: Vec) -> Vec:
    """A vector of the frame outside as the frame with these axes sees it: `turn_into` undone."""
    return (dot(axes[0], v), dot(axes[1], v), dot(axes[2], v))


def bounds_of(bodies: list[Body]) -> tuple[Vec, Vec]:
    """The corners of the box round several bodies (at least one)."""
    lows, highs = [b.low for b in bodies], [b.high for b in bodies]
    low = (min(p[0] for p in lows), min(p[1] for p in lows), min(p[2] for p in lows))
    return low, (max(p[0] for p in highs), max(p[1] for p in highs), max(p[2] for p in highs))


def _home(turned: Axes, home: HomeAxis) -> HomeAxis:
    axis, way = home
    image = turned[axis]
    to = max((0, 1, 2), key=lambda i: abs(image[i]))
    return to, way if image[to] > 0 else -way


def _home_flipped(home: HomeAxis, axis: int) -> HomeAxis:
    own, way = home
    return (own, -way) if own == axis else home


def _flip(v: Vec, axis: int, about: float = 0.0) -> Vec:
    return _with(v, axis, 2.0 * about - v[axis])


def _with(v: Vec, axis: int, value: float) -> Vec:
    if axis == 0:
        return (value, v[1], v[2])
    return (v[0], value, v[2]) if axis == 1 else (v[0], v[1], value)
