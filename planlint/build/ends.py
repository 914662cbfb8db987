"""The end angles that the cut list prints beside the built ones: degrees off square, as the saw shows."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.build.body import Body
from planlint.build.piece import EndAngles, Part


def end_angles(bodies: Sequence[Body], parts: Sequence[Part]) -> list[EndAngles]:
    """One for each placed part whose entry says `ends mitred`; bodies and parts in the same order."""
    found: list[EndAngles] = []
    for body, part in zip(bodies, parts, strict=True):
        mitred = part.entry.mitred
        if mitred is not None and mitred.angles:
            stated = (mitred.angles[0].value, mitred.angles[-1].value)
            found.append(EndAngles(part, stated, built_angles(body), mitred.span))
    return found


def built_angles(body: Body) -> tuple[float, float]:
    """How far off square the two ends are cut, degrees, the low end of its length first."""
    return _off_square(body, -1), _off_square(body, 1)


def _off_square(body: Body, sign: int) -> float:
    cosine = body.end_normal(sign)[0] * sign
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
