"""Loads that break a board, bend it too far, or are more than the screws carry that they hang on."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator

from planlint.build.piece import Driven, Part
from planlint.geometry.vector import dot
from planlint.planting.mistake import Change, Edit, mistake
from planlint.planting.sound import Sound, across
from planlint.read.plan import Fastening, Join, Load
from planlint.source import Span
from planlint.trade.screws import kind
from planlint.trade.woods import wood

LOADED = ("joint-overloaded", "sags", "overstressed", "screw-light-for-load", "end-grain-only", "tips-over")
_SHORT = ("screw-a-little-short", "hardware-short", *LOADED)
_GRAVITY = 9.81
_STIFF, _STRONG = 10000.0, 90.0  # N/mm2: what a good furniture wood has


@mistake("a load that breaks the wood", "overstressed", also=LOADED)
def breaks(sound: Sound) -> Iterator[Edit]:
    """Spread over all that carries it between its ends, it would strain the best wood past breaking."""
    yield from _raised(sound, lambda part, span: 2 * _breaking(part, span), "mor")


@mistake("a load under which the wood sags", "sags", "overstressed", also=LOADED)
def bends(sound: Sound) -> Iterator[Edit]:
    """It bends twice as far as a hundred and twentieth of the span; slats that share it break no sooner for that."""
    yield from _raised(sound, lambda part, span: _bending(part, span, span / 60), "moe")


@mistake("a load that the screws cannot carry", "joint-overloaded", also=LOADED)
def screws_overloaded(sound: Sound) -> Iterator[Edit]:
    """What carries the load hangs on screws alone; a ton and more comes to each."""
    for load, join, fastening in _hung(sound):
        needed = 1500.0 * fastening.number * max(1, len(sound.meetings(join)))
        change = _heavier(sound, load, needed)
        if change is not None:
            answers = tuple(other.span for other in sound.joins() if other.step == join.step)
            yield Edit((change,), answers)


@mistake(
    "a screw a little short where a load hangs on it", "screw-light-for-load", "screw-embedment", also=_SHORT
)
def short_for_its_load(sound: Sound) -> Iterator[Edit]:
    """Four and a half diameters of it hold, where the strength tables begin at six."""
    for _, join, fastening in _hung(sound):
        size, thick = fastening.size, across(fastening)
        one = sound.driven(fastening)[0]
        into = next((passage for passage in one.passages if passage.part is one.into), None)
        if size is None or size.length is None or thick is None or into is None or into.part.stock.sheet:
            continue
        if into.leave - into.enter > 12 * thick and into.enter - one.seat > 4 * thick:
            length = into.enter - one.seat + 4.5 * thick
            yield Edit((Change(size.length.span, sound.amount(length, size.length)),), (join.span,))


def _raised(sound: Sound, heavy: Callable[[Part, float], float], figure: str) -> Iterator[Edit]:
    """Loads on parts that lie free between two supports, raised to what `heavy(part, span)` says, kg.

    Woods of which no table has that figure are left out: nobody can say what they bear.
    """
    for load in sound.plan.loads:
        parts = [part for part in sound.piece.parts if load.on.name in (part.copy_of, part.name, *_rows_of(sound, load))
                 or part.copy_of in _rows_of(sound, load)]  # fmt: skip
        spans = [(part, _free_span(sound, part)) for part in parts if abs(part.along[2]) < 0.05]
        bearing = [(part, span) for part, span in spans if span > 200 and _is_known(part, figure)]
        if not bearing:
            continue
        part, span = max(bearing, key=lambda each: each[1])
        needed = heavy(part, span) * len(parts)
        change = _heavier(sound, load, needed)
        if change is not None:
            yield Edit((change,), tuple({one.entry.span for one, _ in bearing}))


def _hung(sound: Sound) -> Iterator[tuple[Load, Join, Fastening]]:
    """Joins by level screws alone of what carries a load, with nothing beneath it to rest on."""
    for load in sound.plan.loads:
        carrying = _carrying(sound, load)
        if any(
            {m.first.order, m.second.order} & carrying for m in sound.piece.meetings if m.share is not None
        ):
            continue
        for join, fastening in sound.fastenings():
            found, driven = kind(fastening.noun.text), sound.driven(fastening)
            plain = (
                found is not None
                and found.what == "screw"
                and not found.pocketed
                and len(join.fastenings) == 1
            )
            if plain and driven and all(abs(one.axis[2]) < 0.3 for one in driven):
                held = {p.order: p for one in driven for p in (one.first, one.second) if p.order in carrying}
                deep = all(_published(one) for one in driven)
                if held and deep and all(_hangs(sound, part, join, carrying) for part in held.values()):
                    yield load, join, fastening


def _carrying(sound: Sound, load: Load) -> set[int]:
    """The parts a load is stated for, and those that they lie on, by their order."""
    names = {load.on.name, *_rows_of(sound, load)}
    found = {part.order for part in sound.piece.parts if names & {part.copy_of, part.name}}
    for _ in range(3):
        for first, second, patches in sound.piece.contacts:
            for above, below, sign in ((first, second, 1.0), (second, first, -1.0)):
                if above.order in found and any(sign * patch.normal[2] < -0.5 for patch in patches):
                    found.add(below.order)
    return found


def _hangs(sound: Sound, part: Part, join: Join, carrying: set[int]) -> bool:
    """Whether these screws are all that holds a level part up: it rests on nothing, and no other joint goes further."""
    if part.leaning or abs(part.along[2]) > 0.1:
        return False
    for m in sound.piece.meetings:
        if part in (m.first, m.second):
            other = m.second if m.first is part else m.first
            if m.share is not None or (m.join.span != join.span and other.order not in carrying):
                return False
    return not _rests(sound, part)


def _published(driven: Driven) -> bool:
    """Whether tables give a strength for it: six diameters deep, in a wood of known design weight."""
    thick = across(driven.fastening)
    into = next((passage for passage in driven.passages if passage.part is driven.into), None)
    if (
        thick is None
        or into is None
        or driven.tip is None
        or min(driven.tip, into.leave) - into.enter < 6.3 * thick
    ):
        return False
    woods = [wood(part.stock.wood) if part.stock.wood else None for part in (driven.first, driven.second)]
    return all(known is not None and known.g_design is not None for known in woods)


def _rests(sound: Sound, part: Part) -> bool:
    for first, second, patches in sound.piece.contacts:
        down = 1.0 if part is first else -1.0
        if part in (first, second) and any(down * patch.normal[2] < -0.5 for patch in patches):
            return True
    return part.solid.low[2] < 0.1


def _is_known(part: Part, figure: str) -> bool:
    known = wood(part.stock.wood) if part.stock.wood else None
    return known is not None and getattr(known, figure) is not None


def _rows_of(sound: Sound, load: Load) -> tuple[str, ...]:
    """What a cover of that name is laid with."""
    return tuple(cover.slat.name for cover in sound.plan.covers if cover.name.text == load.on.name)


def _heavier(sound: Sound, load: Load, needed: float) -> Change | None:
    if load.people is not None:
        number = math.ceil(needed / 60.0)
        at = re.search(r"\d+", sound.words(load.span)[len(load.on.name) :])
        if at is None or number <= load.people:
            return None
        start = load.span.start + len(load.on.name) + at.start()
        return Change(Span(start, start + len(at[0])), str(min(number, 9999)))
    if load.amount is None or needed <= load.amount.value:
        return None
    return Change(load.amount.span, sound.amount(math.ceil(needed), load.amount))


def _free_span(sound: Sound, part: Part) -> float:
    """The widest room between the parts that carry it from below or hold its ends."""
    edges: list[tuple[float, float]] = []
    for first, second, patches in sound.piece.contacts:
        if part in (first, second) and any(
            abs(dot(patch.normal, part.along)) > 0.9 or abs(patch.normal[2]) > 0.9 for patch in patches
        ):
            other = second if part is first else first
            if other.solid.low[2] < part.solid.high[2] - 1:
                reaches = [dot(corner, part.along) for corner in other.solid.vertices]
                edges.append((min(reaches), max(reaches)))
    widest, end = 0.0, math.inf
    for low, high in sorted(edges):
        widest = max(widest, low - end)
        end = high if end == math.inf else max(end, high)
    return widest


def _deep(part: Part) -> tuple[float, float]:
    """Breadth and depth of a level part."""
    if abs(part.through[2]) > 0.7:
        return part.size.width, part.size.thickness
    return part.size.thickness, part.size.width


def _breaking(part: Part, span: float) -> float:
    """The spread load, kg, that breaks the strongest furniture wood: s = M / Z, M = W L / 8."""
    breadth, depth = _deep(part)
    return _STRONG * breadth * depth**2 / 6 * 8 / span / _GRAVITY


def _bending(part: Part, span: float, by: float) -> float:
    """The spread load, kg, that bends a stiff wood so far: d = 5 W L^3 / (384 E I)."""
    breadth, depth = _deep(part)
    return by * 384 * _STIFF * breadth * depth**3 / 12 / (5 * span**3) / _GRAVITY
