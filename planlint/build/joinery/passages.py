"""What a fastener's axis passes: the parts in order, shared space counted once, for its keeper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from planlint.build.joinery.touching import Touching
from planlint.build.piece import Part, Passage, Share
from planlint.geometry.path import cross_line
from planlint.geometry.vector import EXACT, NOISE, Vec, add, scale

Way = tuple[float, float]
Shares = Mapping[tuple[int, int], Sequence[Share]]


class Line(NamedTuple):
    """A fastener's axis from where it enters the wood; `tip` is None when its length is not known."""

    entry: Vec
    axis: Vec
    tip: float | None


def passages(
    lines: Sequence[Line], first: Part, second: Part, touching: Touching, shares: Shares
) -> list[tuple[Passage, ...]]:
    """For each line of one join, through `first` into `second`, the parts it passes.

    Parts are met up to the tip, and beyond it as far as there is wood without a gap.
    """
    ways: list[dict[int, Way]] = []
    for line in lines:
        ways.append({})
        _cross(line, (first, second), ways[-1])
    near = _near(lines, ways, first, second, touching)
    return [
        _passed(line, found, near, {first.order, second.order}, touching, shares)
        for line, found in zip(lines, ways, strict=True)
    ]


def _near(
    lines: Sequence[Line], ways: Sequence[dict[int, Way]], first: Part, second: Part, touching: Touching
) -> list[Part]:
    """The neighbours of both parts that a box round the lines' way through both touches."""
    ends: list[Vec] = []
    for line, found in zip(lines, ways, strict=True):
        far = max([way[1] for way in found.values()], default=0.0)
        ends += [line.entry, add(line.entry, scale(line.axis, max(far, line.tip or 0.0)))]
    xs, ys, zs = [end[0] for end in ends], [end[1] for end in ends], [end[2] for end in ends]
    fit = touching.fit
    x0, y0, z0 = min(xs) - fit, min(ys) - fit, min(zs) - fit
    x1, y1, z1 = max(xs) + fit, max(ys) + fit, max(zs) + fit
    near: list[Part] = []
    for order in {*touching.near[first.order], *touching.near[second.order]} - {first.order, second.order}:
        part = touching.parts[order]
        (u0, v0, w0), (u1, v1, w1) = part.solid.low, part.solid.high
        if u0 <= x1 and x0 <= u1 and v0 <= y1 and y0 <= v1 and w0 <= z1 and z0 <= w1:
            near.append(part)
    return near


def _passed(
    line: Line,
    ways: dict[int, Way],
    near: Sequence[Part],
    looked: set[int],
    touching: Touching,
    shares: Shares,
) -> tuple[Passage, ...]:
    """`ways` holds the parts of the join, `near` the neighbours of those in `looked`."""
    _cross(line, near, ways)
    while ways:
        last, end = _wood_end(ways, touching.fit)
        if line.tip is not None and end < line.tip - EXACT:
            _cross(
                line, touching.parts, ways
            )  # the tip comes out into the open: whatever stands there counts
            break
        if last in looked:
            break
        looked.add(last)
        _cross(line, [touching.parts[i] for i in touching.near[last] if i not in ways], ways)
    return _in_order(ways, line, touching, shares)


def _cross(line: Line, parts: Iterable[Part], ways: dict[int, Way]) -> None:
    for part in parts:
        way = cross_line(part.solid, line.entry, line.axis)
        if way is not None and way[1] > EXACT:
            ways[part.order] = (max(0.0, way[0]), way[1])


def _wood_end(ways: Mapping[int, Way], fit: float) -> tuple[int, float]:
    """The part in which the wood that begins at the entry ends, and where."""
    last, end = -1, 0.0
    for order, (enter, leave) in sorted(ways.items(), key=lambda item: item[1]):
        if enter > end + fit:
            break
        if leave > end:
            last, end = order, leave
    return last, end


def _in_order(ways: dict[int, Way], line: Line, touching: Touching, shares: Shares) -> tuple[Passage, ...]:
    kept = {order: [way] for order, way in ways.items()}
    if shares and len(ways) > 1:
        _give_to_keepers(kept, line, shares)
    _, end = _wood_end(ways, touching.fit)
    reach = max(end, line.tip or 0.0)
    pieces = sorted([(enter, leave, order) for order, parts in kept.items() for enter, leave in parts])
    found: list[Passage] = []
    done = 0.0
    for enter, leave, order in pieces:
        enter = max(enter, done)  # two that share space unexplained: the one met first has it
        if leave - enter > NOISE and enter < reach:
            found.append(Passage(touching.parts[order], enter, leave))
            done = leave
    return tuple(found)


def _give_to_keepers(kept: dict[int, list[Way]], line: Line, shares: Shares) -> None:
    orders = sorted(kept)
    for n, i in enumerate(orders):
        for j in orders[n + 1 :]:
            for share in shares.get((i, j), ()):
                way = cross_line(share.solid, line.entry, line.axis)
                if way is None or way[1] < EXACT:
                    continue
                keeper = share.keeper.order
                loser = j if keeper == i else i
                kept[loser] = _without(kept[loser], way)
                kept[keeper] = _with(kept[keeper], way)


def _without(ways: list[Way], cut: Way) -> list[Way]:
    left: list[Way] = []
    for enter, leave in ways:
        for start, stop in ((enter, min(leave, cut[0])), (max(enter, cut[1]), leave)):
            if stop - start > EXACT:
                left.append((start, stop))
    return left


def _with(ways: list[Way], more: Way) -> list[Way]:
    """These stretches and one more, those that touch made one."""
    joined: list[Way] = []
    for enter, leave in sorted([*ways, (max(0.0, more[0]), more[1])]):
        if joined and enter <= joined[-1][1] + EXACT:
            joined[-1] = (joined[-1][0], max(joined[-1][1], leave))
        else:
            joined.append((enter, leave))
    return joined
