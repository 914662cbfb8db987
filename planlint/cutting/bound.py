"""Proofs that boards are too few, true for every layout that straight cuts can make.

A piece and the kerf beside it take (length + kerf) x (width + kerf) of (Length + kerf) x (Width + kerf),
because the last off-cut needs no kerf. Give every length x a weight f(x) with f(a) + f(b) <= f(a + b): then
no board holds pieces of more weight than its own. The same holds across the width and through the thickness,
and for the product of the three. So boards that weigh less than the pieces are too few, whatever the layout.

Source: dual feasible functions, G. S. Lueker 1983; S. P. Fekete and J. Schepers, 'New classes of fast lower
bounds for bin packing problems', Math. Program. 91 (2001); J. Carlier, F. Clautiaux, A. Moukrim, Comput.
Oper. Res. 34 (2007). From memory, not looked up; tests/cutting/test_bound.py checks every weight used.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

Weight = Callable[[int], int]
_LENGTHS, _WIDTHS = 24, 8  # sizes that weights are made from: a proof missed is only 'not decided'
_SIZES = 64  # of pieces of more sizes than this, fewer are made into weights: the work is their product


class Way(NamedTuple):
    """How a piece may lie on a board: kerf-inclusive `length` x `width`, and the `layers` it fills."""

    length: int
    width: int
    layers: int
    turned: bool


class Room(NamedTuple):
    """`number` boards of one size, kerf-inclusive; `layers` of the thinnest piece go through it."""

    number: int
    length: int
    width: int
    layers: int


Ways = Sequence[
    Sequence[Sequence[Way]]
]  # by piece, by board: the ways it may lie there, none if it does not fit


def itself(size: int) -> int:
    """The plain measure: lengths, areas."""
    return size


def steps(step: int) -> Weight:
    """How often `step` goes into a size: counts pieces at least that long."""
    return lambda size: size // step


def whole(most: int, least: int) -> Weight:
    """Sizes under `least` (<= most / 2) weigh nothing; what leaves less than that of `most` takes it all."""
    return lambda size: 0 if size < least else most if size > most - least else size


def balanced(most: int, step: int) -> Weight:
    """As `steps` (1 <= step <= most / 2), but a size over half of `most` is weighed by what it leaves."""
    full = most // step

    def weigh(size: int) -> int:
        if 2 * size > most:
            return 2 * (full - (most - size) // step)
        return full if 2 * size == most else 2 * (size // step)

    return weigh


def weights(sizes: Sequence[int], most: int) -> Iterator[Weight]:
    """The weights worth trying for these sizes in room `most`; others weigh these sizes no better."""
    yield itself
    for size in sizes:
        yield steps(size)
    for size in sizes:
        if 2 * size > most:
            if most > size:
                least = most - size + 1
                if 2 * least <= most:
                    yield whole(most, least)
                    yield balanced(most, least)
        else:
            yield balanced(most, size)
            if size > 3:
                yield balanced(most, size // 2)
                yield balanced(most, size // 3)


def _spread(sizes: Sequence[int], most: int) -> Sequence[int]:
    """At most so many of the sizes, evenly taken."""
    return sizes if len(sizes) <= most else [sizes[index * len(sizes) // most] for index in range(most)]


def _families(numbers: Sequence[int], ways: Ways) -> list[tuple[list[int], list[int]]]:
    """Pieces with the only boards that can hold them: (pieces, boards), the whole list first."""
    on = [tuple(board for board, ways_there in enumerate(row) if ways_there) for row in ways]
    boards = sorted({board for held in on for board in held})
    families = [(list(range(len(numbers))), boards)]
    for held in sorted(set(on)):
        members = [piece for piece, places in enumerate(on) if set(places) <= set(held)]
        if len(members) < len(numbers):
            families.append((members, list(held)))
    return families


def _scales(
    numbers: Sequence[int], ways: Ways, rooms: Sequence[Room]
) -> Iterator[tuple[list[int], list[int], list[int], list[int]]]:
    """Every (pieces, their weights, boards, their weights) worth comparing."""
    for members, boards in _families(numbers, ways):
        there = [[way for board in boards for way in ways[piece][board]] for piece in members]
        lengths = sorted({way.length for row in there for way in row}, reverse=True)
        widths = sorted({way.width for row in there for way in row}, reverse=True)
        few = max(1.0, len(members) / _SIZES)
        across = list(
            weights(_spread(widths, math.ceil(_WIDTHS / few)), max(rooms[board].width for board in boards))
        )
        if len(widths) == 1:  # one width: counting strips is all there is to say
            across = [steps(widths[0])]
        across_tables = [
            ({width: weigh(width) for width in widths}, [weigh(rooms[board].width) for board in boards])
            for weigh in across
        ]
        for weigh in weights(
            _spread(lengths, math.ceil(_LENGTHS / few)), max(rooms[board].length for board in boards)
        ):
            along = {length: weigh(length) for length in lengths}
            full = [weigh(rooms[board].length) * rooms[board].layers for board in boards]
            for table, full_across in across_tables:
                light = [
                    min(along[way.length] * table[way.width] * way.layers for way in row) for row in there
                ]
                yield members, light, boards, [f * g for f, g in zip(full, full_across, strict=True)]


def too_few(numbers: Sequence[int], ways: Ways, rooms: Sequence[Room]) -> bool:
    """Whether the rooms provably cannot hold `numbers` of each piece. Every piece has a way on some board."""
    for members, light, boards, heavy in _scales(numbers, ways, rooms):
        wanted = sum(numbers[piece] * weight for piece, weight in zip(members, light, strict=True))
        if wanted > sum(rooms[board].number * weight for board, weight in zip(boards, heavy, strict=True)):
            return True
    return False


def by_area(numbers: Sequence[int], ways: Ways, rooms: Sequence[Room]) -> int:
    """How many boards are needed at the very least by area alone, were all as large as the largest."""
    wanted = 0
    for number, row in zip(numbers, ways, strict=True):
        wanted += number * min([way.length * way.width * way.layers for there in row for way in there])
    largest = max([room.length * room.width * room.layers for room in rooms])
    return -(-wanted // largest)


def least(numbers: Sequence[int], ways: Ways, room: Room) -> int:
    """How many boards of this one size are needed at the very least."""
    asked = tuple([tuple([tuple(there) for there in row]) for row in ways])
    return _least(tuple(numbers), asked, room._replace(number=1))


@lru_cache(maxsize=64)  # asked again for every number of boards that is tried
def _least(numbers: Sequence[int], ways: Ways, room: Room) -> int:
    most = 0
    for members, light, _, (heavy,) in _scales(numbers, ways, (room,)):
        wanted = sum(numbers[piece] * weight for piece, weight in zip(members, light, strict=True))
        if heavy and wanted:
            most = max(most, -(-wanted // heavy))
    return most
