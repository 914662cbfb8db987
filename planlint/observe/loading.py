"""Where a stated load lies: on which boards, over what area of them.

The model: boards side by side on one level are one surface, and each surface under the load's name takes the
whole load. A spread load lies evenly on all of it. A load at the middle is at one point of its length and on
the boards within a person's width across it. People sit on a square each: over the middle of every span, as
many side by side as have room there; one over every support and at either end; all of them in the middle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint.build.naming import naming_of
from planlint.build.once import once_a_piece
from planlint.build.piece import Part, Piece
from planlint.geometry.solid import extent
from planlint.geometry.vector import EXACT, Vec, cross
from planlint.observe.frame import Frame, level, same_way
from planlint.read import plan as read
from planlint.trade.beams import Load
from planlint.trade.loads import GRAVITY, footprint, person

_APART = 100.0  # mm: boards further apart than this are not one surface (common practice, no source)
_ALIKE = 10.0  # mm: supports of several boards nearer than this are one


class Reach(NamedTuple):
    """How far a board reaches along and across its surface, mm."""

    part: Part
    start: float
    end: float
    near: float
    far: float


class Surface(NamedTuple):
    """Boards side by side that take a load together."""

    load: read.Load
    boards: tuple[Reach, ...]

    @property
    def start(self) -> float:
        return min([board.start for board in self.boards])

    @property
    def end(self) -> float:
        return max([board.end for board in self.boards])

    @property
    def near(self) -> float:
        return self.boards[0].near

    @property
    def far(self) -> float:
        return self.boards[-1].far


class Case(NamedTuple):
    """One way a load can lie: a mass (kg) spread over a rectangle of the surface.

    `how` is "spread", "middle" or "people", then so many of them.
    """

    how: str
    people: int
    mass: float
    start: float
    end: float
    near: float
    far: float


@once_a_piece
def surfaces(piece: Piece) -> list[Surface]:
    """The surfaces that the stated loads lie on; a load on posts has none."""
    naming = naming_of(piece)
    covers = {row.cover.name.text: row.slats for row in piece.covers}
    found: list[Surface] = []
    for load in piece.plan.loads:
        on = covers.get(str(load.on)) or naming.parts_named(load.on)
        found += [Surface(load, boards) for boards in _side_by_side(_on_top(on))]
    return found


def _on_top(parts: Sequence[Part]) -> list[Part]:
    """The parts that lie; of several entries of the cut list (a sub-assembly) only the highest."""
    lying = [part for part in parts if level(part)]
    if len({part.copy_of for part in lying}) > 1:
        top = max([part.solid.high[2] for part in lying])
        return [part for part in lying if part.solid.high[2] > top - _ALIKE]
    return lying


def _side_by_side(parts: Sequence[Part]) -> Iterator[tuple[Reach, ...]]:
    waiting = list(parts)
    while waiting:
        first = waiting[0]
        top, along = first.solid.high[2], first.along
        across = cross((0.0, 0.0, 1.0), along)
        beside = [
            part
            for part in waiting
            if abs(part.solid.high[2] - top) <= _ALIKE and same_way(part.along, along) != 0.0
        ]
        waiting = [part for part in waiting if part not in beside]
        boards = sorted([_reach(part, along, across) for part in beside], key=lambda board: board.near)
        begin = 0
        for i in range(1, len(boards) + 1):
            if i == len(boards) or boards[i].near - boards[i - 1].far > _APART:
                yield tuple(boards[begin:i])
                begin = i


def _reach(part: Part, along: Vec, across: Vec) -> Reach:
    return Reach(part, *extent(part.solid, along), *extent(part.solid, across))


# --- the ways a load can lie ----------------------------------------------------------------------------


def cases(surface: Surface, frame: Frame) -> Iterator[Case]:
    """Every way in which the load is tried."""
    start, end, near, far = surface.start, surface.end, surface.near, surface.far
    load = surface.load
    if load.amount is not None:
        mass = load.amount.value / (GRAVITY if load.amount.dimension == "force" else 1.0)
        if load.how == "middle":
            middle, across = (start + end) / 2.0, (near + far) / 2.0
            half = footprint() / 2.0
            yield Case("middle", 0, mass, middle, middle, across - half, across + half)
        else:
            yield Case("spread", 0, mass, start, end, near, far)
    else:
        yield from _seated(surface, frame, load.people or 1)


def _seated(surface: Surface, frame: Frame, people: int) -> Iterator[Case]:
    """Where people sit; the ways that bend most come first."""
    start, end, near, far = surface.start, surface.end, surface.near, surface.far
    middle, across = (start + end) / 2.0, (near + far) / 2.0
    half, mass = footprint() / 2.0, person() / GRAVITY
    wide = end - start >= far - near
    seats = [(people, middle)] if wide or people == 1 else []
    holds = _supports(surface, frame)
    for i in range(1, len(holds)):
        room = int((holds[i][0] - holds[i - 1][1]) / (2.0 * half))
        seats.append((min(people, max(1, room)), (holds[i - 1][1] + holds[i][0]) / 2.0))
    seats += [(1, start), (1, end), *[(1, (low + high) / 2.0) for low, high in holds]]
    inside: dict[tuple[int, float], None] = {}
    for here, at in seats:
        reach = half * here
        if end - start > 2.0 * reach:
            inside[here, round(min(max(at, start + reach), end - reach), 1)] = None
        else:
            inside[here, round(middle, 1)] = None
    for here, at in inside:
        yield Case(
            "people", here, here * mass, at - half * here, at + half * here, across - half, across + half
        )
    if not wide and people > 1:
        reach = half * people
        yield Case(
            "people", people, people * mass, middle - half, middle + half, across - reach, across + reach
        )


def _supports(surface: Surface, frame: Frame) -> list[tuple[float, float]]:
    """From where to where along the surface its boards are held, all boards together."""
    turn = surface.boards[0].part.along
    found: list[tuple[float, float]] = []
    for board in surface.boards:
        sign = same_way(board.part.along, turn)
        for held in frame.holders(board.part).places:
            low, high = sorted((sign * held.start, sign * held.end))
            if all(abs(low - old) > _ALIKE or abs(high - end) > _ALIKE for old, end in found):
                found.append((low, high))
    return sorted(found)


def shares(surface: Surface, case: Case) -> Iterator[tuple[Part, Load]]:
    """The part of a load that each board takes, by the wood it has under it: kg spread along the board."""
    _, _, mass, start, end, near, far = case
    under = [min(board.far, far) - max(board.near, near) for board in surface.boards]
    wood = sum([width for width in under if width > EXACT])
    turn = surface.boards[0].part.along
    for board, width in zip(surface.boards, under, strict=True):
        if width > EXACT:
            low, high = max(start, board.start), min(end, board.end)
            load = Load(min(low, high), max(low, high), mass * width / wood)
            yield board.part, turned(load, same_way(board.part.along, turn))


def turned(load: Load, sign: float) -> Load:
    """The load as a part that runs the other way (sign -1) has it."""
    return load if sign > 0.0 else Load(-load.end, -load.start, load.force)
