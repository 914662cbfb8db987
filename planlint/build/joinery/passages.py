"""What a fastener's axis passes: the parts in order, shared space counted once, for its keeper."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import itemgetter

from planlint.build.joinery.touching import Touching
from planlint.build.piece import Part, Passage, Share
from planlint.geometry.path import cross_line
from planlint.geometry.vector import EXACT, NOISE, Vec

# A fastener's axis: where it enters the wood, its direction, and where its tip is, None when no length is known.
Line = tuple[Vec, Vec, "float | None"]
Way = tuple[float, float]
Shares = Mapping[tuple[int, int], Sequence[Share]]

_BY_WAY = itemgetter(1)


def passages(
    lines: Sequence[Line], first: Part, second: Part, touching: Touching, shares: Shares
) -> list[tuple[Passage, ...]]:
    """For each line of one join, through `first` into `second`, the parts it passes.

    Parts are met up to the tip, and beyond it as far as there is wood without a gap.
    """
    crossed = [_cross(line, (first, second)) for line in lines]
    near = _near(lines, crossed, first, second, touching)
    found: list[tuple[Passage, ...]] = []
    before: tuple[float | None, dict[int, Way]] | None = None
    for line, ways in zip(lines, crossed, strict=True):
        _, _, tip = line
        if near:
            ways.update(_cross(line, near))
        if before == (tip, ways):
            found.append(found[-1])  # most of a row pass the same
            continue
        end, looked_on = _follow(line, ways, {first.order, second.order}, touching)
        reach = end if tip is None or tip < end else tip
        found.append(_in_order(ways, reach, line, touching, shares))
        # What else a line meets, and whose the shared space is there, depends on where it is.
        before = None if looked_on or shares else (tip, ways)
    return found


def _near(
    lines: Sequence[Line], crossed: Sequence[dict[int, Way]], first: Part, second: Part, touching: Touching
) -> list[Part]:
    """The neighbours of both parts that a box round the lines' way through both touches."""
    ends: list[Vec] = []
    for (entry, axis, tip), ways in zip(lines, crossed, strict=True):
        far = tip or 0.0
        for _, leave in ways.values():
            far = leave if leave > far else far
        (x, y, z), (u, v, w) = entry, axis
        ends += [entry, (x + u * far, y + v * far, z + w * far)]
    xs, ys, zs = zip(*ends, strict=True)
    fit = touching.fit
    x0, y0, z0 = min(xs) - fit, min(ys) - fit, min(zs) - fit
    x1, y1, z1 = max(xs) + fit, max(ys) + fit, max(zs) + fit
    near: list[Part] = []
    parts = touching.parts
    low, high = (x0, y0, z0), (x1, y1, z1)
    for order in {*touching.near_box(first.order, low, high), *touching.near_box(second.order, low, high)}:
        part = parts[order]
        if part is first or part is second:
            continue
        (u0, v0, w0), (u1, v1, w1) = part.solid.low, part.solid.high
        if u0 <= x1 and x0 <= u1 and v0 <= y1 and y0 <= v1 and w0 <= z1 and z0 <= w1:
            near.append(part)
    return near


def _follow(line: Line, ways: dict[int, Way], looked: set[int], touching: Touching) -> tuple[float, bool]:
    """Add what the wood goes on in, past the neighbours of the parts in `looked`: these are in `ways` already.

    Where the wood ends, and whether other parts had to be looked at.
    """
    looked_on = False
    _, _, tip = line
    last, end = _wood_end(ways, touching.fit)
    while ways:
        if tip is not None and end < tip - EXACT:
            # The tip comes out into the open: whatever stands there counts.
            ways.update(_cross(line, touching.parts))
            return _wood_end(ways, touching.fit)[1], True
        if last in looked:
            break
        looked_on = True
        looked.add(last)
        ways.update(_cross(line, [touching.parts[i] for i in touching.near[last] if i not in ways]))
        last, end = _wood_end(ways, touching.fit)
    return end, looked_on


def _cross(line: Line, parts: Iterable[Part]) -> dict[int, Way]:
    """The ways through these parts, by their orders, as far as they lie ahead."""
    entry, axis, _ = line
    ways: dict[int, Way] = {}
    for part in parts:
        way = cross_line(part.solid, entry, axis)
        if way is not None and way[1] > EXACT:
            ways[part.order] = way if way[0] > 0.0 else (0.0, way[1])
    return ways


def _wood_end(ways: Mapping[int, Way], fit: float) -> tuple[int, float]:
    """The part in which the wood that begins at the entry ends, and where."""
    last, end = -1, 0.0
    for order, (enter, leave) in sorted(ways.items(), key=_BY_WAY):
        if enter > end + fit:
            break
        if leave > end:
            last, end = order, leave
    return last, end


def _in_order(
    ways: dict[int, Way], reach: float, line: Line, touching: Touching, shares: Shares
) -> tuple[Passage, ...]:
    """The parts passed, up to `reach`, each stretch of the line given to one."""
    if shares and len(ways) > 1:
        kept = {order: [way] for order, way in ways.items()}
        _give_to_keepers(kept, line, shares)
        pieces = sorted([(enter, leave, order) for order, parts in kept.items() for enter, leave in parts])
    else:
        pieces = sorted([(enter, leave, order) for order, (enter, leave) in ways.items()])
    found: list[Passage] = []
    done = 0.0
    for enter, leave, order in pieces:
        if done > enter:
            enter = done  # two that share space unexplained: the one met first has it
        if leave - enter > NOISE and enter < reach:
            found.append(Passage(touching.parts[order], enter, leave))
            done = leave
    return tuple(found)


def _give_to_keepers(kept: dict[int, list[Way]], line: Line, shares: Shares) -> None:
    entry, axis, _ = line
    orders = sorted(kept)
    for n, i in enumerate(orders):
        for j in orders[n + 1 :]:
            for share in shares.get((i, j), ()):
                way = cross_line(share.solid, entry, axis)
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
