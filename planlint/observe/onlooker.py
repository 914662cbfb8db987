"""What can be seen of a spot on a part's surface from the sides of a piece that people look at.

Nine points of it are looked at from each side: straight on from far away, and by a standing person, straight
before it and to either hand; from above and below only straight on. A sight line that passes another part is cut.
A side counts for the faces that look to it, and where a person stands there for those that look up: who stands on the
right may see a little of a back that the plan calls unseen, but is not asked.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.build.sides import OF_SIDE, UP, toward
from planlint.geometry.body import Solid
from planlint.geometry.sight import what_hides
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, add, dot, length, onward, scale, sub, turn
from planlint.trade.eyes import standing

_EDGE_ON = 0.01  # cos of 89.4 deg: a face seen at less than this is not seen into
_TOWARD = 0.26  # cos of 75 deg: a face that looks less than this to a side does not look to it


class Spot(NamedTuple):
    """A spot on a surface: its middle, the way the surface looks, and nine points of it."""

    middle: Vec
    looks: Vec
    points: tuple[Vec, ...]


def spot(middle: Vec, looks: Vec, u: Vec, v: Vec, long: float, wide: float) -> Spot:
    """The spot `long` along u and `wide` along v, both in the surface. Its points are a third of that apart, so
    that they lie within its ellipse too.
    """
    steps = (0.0, -1.0, 1.0)
    points = [add(middle, onward(scale(u, a * long / 3.0), v, b * wide / 3.0)) for a in steps for b in steps]
    return Spot(middle, looks, tuple(points))


class Onlooker:
    """Someone who looks at a piece from the given sides."""

    __slots__ = ("_before", "_floor", "_solids", "_views")

    def __init__(self, parts: Iterable[Part], sides: Iterable[str]) -> None:
        self._solids = [part.solid for part in parts]
        self._floor = min([solid.low[2] for solid in self._solids], default=0.0)
        self._views = [(side, toward(side), _before(side)) for side in sides]
        self._before: dict[tuple[Vec, float], list[Solid]] = {}

    def shares(self, seen: Spot) -> dict[str, float]:
        """What share of the nine points is seen from each side, from where most of them are."""
        solids = self._that_can_hide(seen)
        return {side: self._share(seen, out, ways, solids) for side, out, ways in self._views}

    def _share(self, seen: Spot, out: Vec, ways: tuple[Vec, ...], solids: list[Solid]) -> float:
        best = 0
        if dot(out, seen.looks) > _TOWARD:
            best = _count(seen, out, None, solids)
        elif seen.looks[2] <= _TOWARD:
            return 0.0
        for way in ways:
            if best == len(seen.points):
                break
            x, y, _ = onward(seen.middle, way, standing().away)
            eye = (x, y, self._floor + standing().height)
            to_eye = sub(eye, seen.middle)
            if dot(to_eye, seen.looks) > _EDGE_ON * length(to_eye):
                best = max(best, _count(seen, to_eye, eye, solids))
        return best / len(seen.points)

    def _that_can_hide(self, seen: Spot) -> list[Solid]:
        """The solids that reach out before the surface; kept, since many spots lie in one face."""
        key = (seen.looks, round(dot(seen.looks, seen.middle), 2))
        found = self._before.get(key)
        if found is None:
            surface = key[1] + EXACT
            found = [solid for solid in self._solids if extent(solid, seen.looks)[1] > surface]
            self._before[key] = found
        return found


def _before(side: str) -> tuple[Vec, ...]:
    """The level ways from the piece to where a person stands on that side."""
    if OF_SIDE[side][0] == 2:
        return ()
    return tuple([turn(toward(side), UP, angle) for angle in standing().aside])


def _count(seen: Spot, way: Vec, eye: Vec | None, solids: list[Solid]) -> int:
    """How many points are seen, from an eye or from far away. What hid one point is put first for the next."""
    count = 0
    far = math.inf
    for point in seen.points:
        if eye is not None:
            way = sub(eye, point)
            far = length(way)
            way = scale(way, 1.0 / far)
        hider = what_hides(point, way, far, solids)
        if hider is None:
            count += 1
        elif hider is not solids[0]:
            solids.remove(hider)
            solids.insert(0, hider)
    return count
