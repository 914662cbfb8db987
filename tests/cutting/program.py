"""The integer program (scipy's milp) that packs lengths into boards, and random cut lists for it."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest

from planlint.cutting import Piece
from tests.cutting.sawn import INCH

optimize = pytest.importorskip("scipy.optimize")
numpy = pytest.importorskip("numpy")

SIXTEENTHS = 16
CUT = 2  # the kerf in sixteenths


def program(items: Sequence[tuple[int, int]], caps: Sequence[int], price: Sequence[int]) -> float | None:
    """The least price of boards that hold `items` (length, number); None when these boards do not."""
    kinds, bins = len(items), len(caps)
    used = numpy.eye(bins)
    rows, low, high = [], [], []
    for index, (_, number) in enumerate(items):
        row = numpy.zeros((bins, kinds + 1))
        row[:, 1 + index] = 1
        rows.append(row.ravel())
        low.append(number)
        high.append(number)
    for index, cap in enumerate(caps):
        row = numpy.zeros((bins, kinds + 1))
        row[index, 0] = -(cap + CUT)
        row[index, 1:] = [length + CUT for length, _ in items]
        rows.append(row.ravel())
        low.append(-numpy.inf)
        high.append(0)
    for index in range(bins - 1):
        if caps[index] == caps[index + 1]:  # equal boards: used in order
            row = numpy.zeros((bins, kinds + 1))
            row[:, 0] = used[index] - used[index + 1]
            rows.append(row.ravel())
            low.append(0)
            high.append(numpy.inf)
    cost = numpy.zeros((bins, kinds + 1))
    cost[:, 0] = price
    most = numpy.ones((bins, kinds + 1))
    most[:, 1:] = [number for _, number in items]
    found = optimize.milp(
        cost.ravel(),
        constraints=optimize.LinearConstraint(numpy.array(rows), low, high),
        integrality=numpy.ones(bins * (kinds + 1)),
        bounds=optimize.Bounds(0, most.ravel()),
        options={"time_limit": 10},
    )
    if found.status == 2:
        return None
    if found.status != 0:
        pytest.skip("the integer program did not finish")
    return round(found.fun)


def cut_list(chance: random.Random, longest: int, kinds: int, most: int) -> list[tuple[int, int]]:
    share = chance.choice([0.35, 0.5, 0.7])
    lengths = {chance.randint(6 * SIXTEENTHS, int(longest * share)) for _ in range(kinds)}
    return [(length, chance.randint(1, most)) for length in sorted(lengths)]


def as_pieces(items: Sequence[tuple[int, int]]) -> list[Piece]:
    return [
        Piece(f"p{length}", 3.5 * INCH, length / SIXTEENTHS * INCH, number, 1.5 * INCH)
        for length, number in items
    ]
