"""Lines of a drawing, each drawn once: where several lie on each other the heaviest is kept."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.geometry.outline import Flat

Span = tuple[float, float]

ANGLE, OFFSET = 2e-3, 0.05  # rad, mm: lines that differ by less lie on each other
SHORT = 0.02  # mm: shorter stretches are none


class Ruled(NamedTuple):
    """A straight line of body `of`; `heavy` where the depth jumps at it."""

    of: int
    heavy: bool
    start: Flat
    end: Flat


class _Laid(NamedTuple):
    """A line by its direction (a step of angle), its distance from the origin, and from where to where along it."""

    angle: int
    offset: float
    first: float
    last: float
    way: Flat
    of: int
    heavy: bool


def drawn_once(lines: Sequence[Ruled]) -> list[Ruled]:
    """The lines without what another covers, heavy ones first; of one weight the one that begins first wins."""
    laid = sorted([_laid(line) for line in lines if math.dist(line.start, line.end) >= SHORT])
    kept: list[Ruled] = []
    cluster: list[_Laid] = []
    for line in laid:
        if cluster and (line.angle != cluster[-1].angle or line.offset - cluster[-1].offset > OFFSET):
            kept += _once(cluster)
            cluster = []
        cluster.append(line)
    return [*kept, *_once(cluster)]


def gaps(whole: Span, taken: Sequence[Span], least: float = SHORT) -> list[Span]:
    """What is left of a stretch when others are taken away, as stretches longer than `least`."""
    return [span for span in parted([whole], merged(taken))[0] if span[1] - span[0] > least]


def merged(spans: Sequence[Span]) -> list[Span]:
    """The stretches in order, those that overlap or touch as one."""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            if high > found[-1][1]:
                found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return found


def parted(spans: Sequence[Span], others: Sequence[Span]) -> tuple[list[Span], list[Span]]:
    """Of stretches in order, what lies outside others (in order too, apart from each other) and what lies in them."""
    outside: list[Span] = []
    inside: list[Span] = []
    i = 0
    for low, high in spans:
        while i < len(others) and others[i][1] <= low:
            i += 1
        at, j = low, i
        while j < len(others) and others[j][0] < high:
            start, end = max(others[j][0], low), min(others[j][1], high)
            if start > at:
                outside.append((at, start))
            inside.append((start, end))
            at = end
            j += 1
        if at < high:
            outside.append((at, high))
    return outside, inside


def _laid(line: Ruled) -> _Laid:
    (x0, y0), (x1, y1) = line.start, line.end
    run = math.dist(line.start, line.end)
    dx, dy = (x1 - x0) / run, (y1 - y0) / run
    if dx < -1e-9 or (dx < 1e-9 and dy < 0.0):
        dx, dy = -dx, -dy
    first, last = sorted((dx * x0 + dy * y0, dx * x1 + dy * y1))
    angle = round(math.atan2(dy, dx) / ANGLE)
    return _Laid(angle, dx * y0 - dy * x0, first, last, (dx, dy), line.of, line.heavy)


def _once(cluster: Sequence[_Laid]) -> Iterator[Ruled]:
    """Lines that all lie on one line, each stretch of it once."""
    if len(cluster) == 1:
        yield _ruled(cluster[0], cluster[0].first, cluster[0].last)
        return
    taken: list[Span] = []
    for heavy in (True, False):
        reach = -math.inf
        for line in sorted([one for one in cluster if one.heavy is heavy], key=lambda one: one.first):
            start = max(line.first, reach)
            if line.last - start < SHORT:
                continue
            reach = line.last
            if heavy:
                taken.append((start, line.last))
                yield _ruled(line, start, line.last)
            else:
                for low, high in _left(start, line.last, taken):
                    yield _ruled(line, low, high)


def _left(start: float, end: float, taken: list[Span]) -> list[Span]:
    """What of a stretch is not taken yet; stretches come in order, so what is taken before it can go."""
    while taken and taken[0][1] <= start:
        taken.pop(0)
    ahead: list[Span] = []
    for span in taken:
        if span[0] >= end:
            break
        ahead.append(span)
    return [span for span in parted([(start, end)], ahead)[0] if span[1] - span[0] >= SHORT]


def _ruled(line: _Laid, start: float, end: float) -> Ruled:
    (dx, dy), offset = line.way, line.offset
    foot = (-dy * offset, dx * offset)
    return Ruled(
        line.of,
        line.heavy,
        (foot[0] + dx * start, foot[1] + dy * start),
        (foot[0] + dx * end, foot[1] + dy * end),
    )
