"""A part as a beam: the places that hold it, how loads bend it between them, and what it passes on to them.

Between two places it lies free; beyond the last it stands out from there. Masses in kg, lengths in mm; moments
(kg mm) and sags (kg mm3, to be divided by the stiffness E I) are for masses, so that the wood comes in last.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from planlint.build.piece import Part
from planlint.geometry.vector import EXACT
from planlint.observe.frame import Held
from planlint.trade.beams import Load, most_moment, root_moment, sag, tip_sag


class Stretch(NamedTuple):
    """A length of a beam that bends: between two places, or beyond one (`sign` -1: below its low end).

    `reach` is its length; of what stands out, as far as the wood goes.
    """

    start: float
    reach: float
    sign: float
    stands_out: bool
    first: str
    second: str

    @property
    def span(self) -> float:
        """The length that a sag is held against: of what stands out, twice as long."""
        return 2.0 * self.reach if self.stands_out else self.reach


class Bend(NamedTuple):
    """How loads bend a stretch: the mass on it, the sag times the stiffness, the largest moment."""

    stretch: Stretch
    mass: float
    sag: float
    moment: float


class Beam:
    """A part, the stretches of it that bend, and the worst that was met on it."""

    __slots__ = ("_middles", "_together", "most_moment", "most_sag", "part", "stretches")

    def __init__(self, part: Part, places: Sequence[Held], low: float, high: float) -> None:
        self.part = part
        self.most_sag = 0.0  # of the worst: sag x stiffness / span
        self.most_moment = 0.0
        held = _places(places)
        self._middles = [(start + end) / 2.0 for start, end, _ in held]
        self._together = [together for _, _, together in held]
        thick = part.size.diameter or part.size.thickness
        self.stretches = list(_stretches(held, thick, low, high)) if held else []

    def bend(self, loads: Sequence[Load]) -> Iterator[Bend]:
        """Every stretch that these bend more than any before did: for its span, or nearer to breaking."""
        for stretch in self.stretches:
            here = _within(loads, stretch)
            mass = sum([force for _, _, force in here])
            reach, span, quarter = stretch.reach, stretch.span, 1.0 if stretch.stands_out else 0.25
            # no way of lying bends more than all in the middle, or all at the tip
            if mass * reach * quarter <= self.most_moment and (
                mass * reach**3 * (0.33334 if stretch.stands_out else 0.020834) <= self.most_sag * span
            ):
                continue
            if stretch.stands_out:
                bend = Bend(stretch, mass, tip_sag(reach, here, 1.0), root_moment(here))
            else:
                bend = Bend(stretch, mass, sag(reach, here, 1.0), most_moment(reach, here))
            if bend.sag > self.most_sag * span * _MORE or bend.moment > self.most_moment * _MORE:
                yield bend

    def passed(self, loads: Iterable[Load]) -> Iterator[tuple[Held, float]]:
        """What each part that holds it takes, by the lever rule between the two places next to a load."""
        middles = self._middles
        last = len(middles) - 1
        if last < 0:
            return
        takes = [0.0] * len(middles)
        for start, end, mass in loads:
            at = (start + end) / 2.0
            i = 1
            while i < last and middles[i] < at:
                i += 1
            if last < 1:
                i, share = 0, 1.0
            else:
                share = (at - middles[i - 1]) / (middles[i] - middles[i - 1])
                share = min(1.0, max(0.0, share))
                takes[i - 1] += mass * (1.0 - share)
            takes[i] += mass * share
        for together, mass in zip(self._together, takes, strict=True):
            if mass > 0.0:
                for held in together:
                    yield held, mass / len(together)


_MORE = 1.0 + 1e-9  # parts alike should show the same case, whatever floats say


def _places(places: Sequence[Held]) -> list[tuple[float, float, list[Held]]]:
    """From where to where it is held, in order; what overlaps is one place."""
    found: list[tuple[float, float, list[Held]]] = []
    for held in places:
        if found and held.start <= found[-1][1] + EXACT:
            start, end, together = found[-1]
            found[-1] = (start, max(end, held.end), [*together, held])
        else:
            found.append((held.start, held.end, [held]))
    return found


def _stretches(
    held: Sequence[tuple[float, float, list[Held]]], thickness: float, low: float, high: float
) -> Iterator[Stretch]:
    """Each clear span with half of each bearing, no more of it than the part is thick; then what stands out."""
    names = [together[0].by.name for _, _, together in held]
    for i in range(len(held) - 1):
        (start, end, _), (next_start, next_end, _) = held[i], held[i + 1]
        left = end - min(end - start, thickness) / 2.0
        reach = next_start + min(next_end - next_start, thickness) / 2.0 - left
        if reach > EXACT:
            yield Stretch(left, reach, 1.0, False, names[i], names[i + 1])
    if held[0][0] - low > EXACT:
        yield Stretch(-held[0][0], held[0][0] - low, -1.0, True, names[0], names[0])
    if high - held[-1][1] > EXACT:
        yield Stretch(held[-1][1], high - held[-1][1], 1.0, True, names[-1], names[-1])


def _within(loads: Sequence[Load], stretch: Stretch) -> list[Load]:
    """What of the loads lies on a stretch, measured from its start."""
    left, reach, sign = stretch[:3]
    found: list[Load] = []
    for start, end, mass in loads:
        low, high = (start - left, end - left) if sign > 0.0 else (-end - left, -start - left)
        if high <= 0.0 or low >= reach:
            continue
        if low >= 0.0 and high <= reach:
            found.append(Load(low, high, mass))
        else:
            share = (min(high, reach) - max(low, 0.0)) / (high - low)
            found.append(Load(max(low, 0.0), min(high, reach), mass * share))
    return found
