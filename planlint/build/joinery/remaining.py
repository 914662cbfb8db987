"""What is left of the area where two parts meet, once a third part's joint has taken wood away there.

A rail that is tenoned into a leg has no top above the tenon, though it is drawn into the leg: a slat lies on
the leg there. Areas stay convex: of what is left beside the joint the largest piece counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planlint.build.piece import Part, Share
from planlint.geometry.meeting import Patch
from planlint.geometry.outline import area, cut_below, project
from planlint.geometry.solid import Plane, Solid
from planlint.geometry.vector import EXACT, Vec, dot, scale

_FLAT = 0.999  # cos of 2.5 deg: planes nearer to parallel than that do not divide an area
_LEAST = 1.0  # mm²

Taken = dict[int, list[Share]]  # by the order of the part that has no wood there


def taken_away(kept: Iterable[Sequence[Share]]) -> Taken:
    """The shares by the part that loses its wood there."""
    found: Taken = {}
    for shares in kept:
        for share in shares:
            loser = share.second if share.keeper is share.first else share.first
            found.setdefault(loser.order, []).append(share)
    return found


def remaining(patches: list[Patch], first: Part, second: Part, taken: Taken) -> list[Patch]:
    """The areas less what joints with other parts take; one of which nothing would be left stays whole."""
    for part, other in ((first, second), (second, first)):
        for share in taken.get(part.order, ()):
            if other is not share.first and other is not share.second:
                patches = [_beside(patch, share.solid) for patch in patches]
    return patches


def _beside(patch: Patch, solid: Solid) -> Patch:
    inside: Sequence[Vec] = patch.outline
    outside: list[Sequence[Vec]] = []
    for plane in solid.planes:
        if abs(dot(plane.normal, patch.normal)) > _FLAT:
            if dot(plane.normal, patch.outline[0]) > plane.offset + EXACT + patch.gap:
                return patch
            continue
        outside.append(cut_below(patch.outline, Plane(scale(plane.normal, -1.0), -plane.offset)))
        inside = cut_below(inside, plane)
    if _area(inside, patch) < _LEAST:
        return patch
    best = max(outside, key=lambda outline: _area(outline, patch), default=())
    left = _area(best, patch)
    return patch if left < _LEAST else Patch(patch.normal, left, tuple(best), patch.gap)


def _area(outline: Sequence[Vec], patch: Patch) -> float:
    return area(project(outline, patch.normal)) if len(outline) > 2 else 0.0
