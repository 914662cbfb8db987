"""Whether a box goes through a rectangular opening or into a box-shaped space. Lengths in mm.

A box carried straight through a thin opening, turned and tilted as one likes, goes through just when its
smallest side (its two shorter edges) fits into the rectangle, itself turned as one likes. Proof: it goes
through when two directions u, v square to each other have widths a|u1| + b|u2| + c|u3| <= w and likewise
for v <= h, with a >= b >= c. Putting b for a only narrows both. With s, t the parts of u, v along the shortest
edge, s = cos A, t = cos B, squareness asks A + B >= 90 deg, and the widths are at least b sin A + c cos A and
b sin B + c cos B. The second, as a function of B between 90 deg - A and 90 deg, is least at one of the two
ends: at 90 deg - A it is the smallest side turned by A in its own plane; at 90 deg it is b, and then the
smallest side goes in unturned, since the first width is never less than c.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from planlint.geometry.outline import Flat
from planlint.geometry.vector import EXACT, Vec


def fits_in_rectangle(sides: Flat, opening: Flat) -> bool:
    """Whether one rectangle lies in another, turned as it likes (exactly; after Carver, 1957)."""
    q, p = sorted(sides)
    h, w = sorted(opening)
    if p <= w + EXACT:
        return q <= h + EXACT
    if q > h + EXACT:
        return False
    diagonal = p * p + q * q
    return h + EXACT >= (2.0 * p * q * w + (p * p - q * q) * math.sqrt(max(0.0, diagonal - w * w))) / diagonal


def goes_through(box: Vec, opening: Flat) -> bool:
    """Whether a box, carried straight, goes through a rectangular opening in some turn or tilt (exactly)."""
    shortest, middle, _ = sorted(box)
    return fits_in_rectangle((shortest, middle), opening)


def never_goes_through(box: Vec, opening: Flat) -> bool:
    """Whether a closed box cannot pass an opening in any way, also turning on its way: a proof, not a guess.

    At some moment its middle lies in the opening's plane. The cut there is nowhere narrower than the shortest
    edge, and no smaller than the smallest side (Vaaler, 1979, for the sections of a box through its middle).
    """
    shortest, middle, _ = sorted(box)
    w, h = opening
    return shortest > min(w, h) + EXACT or shortest * middle > w * h + EXACT * (w + h)


def goes_into(box: Vec, space: Vec) -> bool:
    """Whether a box lies in a box-shaped space: square to it, or turned about one edge. A tilt about two edges
    is not tried, so that False is no proof.
    """
    for i in (0, 1, 2):
        for j in (0, 1, 2):
            rest, room = _without(box, i), _without(space, j)
            if box[i] <= space[j] + EXACT and fits_in_rectangle(rest, room):
                return True
    return False


def never_goes_into(box: Vec, space: Vec) -> bool:
    """Whether no turn or tilt lets a closed box lie in the space: by its least width, its diagonal, its volume
    or the sum of its edges. A proof, but not of every case.
    """
    return (
        min(box) > min(space) + EXACT
        or math.dist(box, (0.0, 0.0, 0.0)) > math.dist(space, (0.0, 0.0, 0.0)) + EXACT
        or math.prod(box) > math.prod(space) * (1.0 + 1e-9)
        or sum(box) > sum(space) + EXACT
    )


def turned_sizes(points: Sequence[Flat], steps: int) -> list[Flat]:
    """The width and height of a flat outline, turned by each of `steps` equal parts of a quarter turn."""
    found: list[Flat] = []
    for i in range(steps):
        c, s = math.cos(math.pi / 2.0 * i / steps), math.sin(math.pi / 2.0 * i / steps)
        xs = [c * x + s * y for x, y in points]
        ys = [c * y - s * x for x, y in points]
        found.append((max(xs) - min(xs), max(ys) - min(ys)))
    return found


def covered(rectangles: Sequence[tuple[float, float, float, float]]) -> float:
    """The area that rectangles (low x, low y, high x, high y) cover together, mm2."""
    edges = sorted({x for low, _, high, _ in rectangles for x in (low, high)})
    area = 0.0
    for left, right in pairwise(edges):
        spans = sorted([(r[1], r[3]) for r in rectangles if r[0] <= left and r[2] >= right])
        reached = -math.inf
        for low, high in spans:
            if high > reached:
                area += (right - left) * (high - max(low, reached))
                reached = high
    return area


def _without(three: Vec, index: int) -> Flat:
    one, other = [value for i, value in enumerate(three) if i != index]
    return one, other
