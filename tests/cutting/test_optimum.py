"""The number of boards against an integer program (scipy's milp), on random cut lists with kerf."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest

from planlint.cutting import FITS, TOO_FEW, Board, Piece, fewest, yields
from tests.cutting.sawn import INCH, KERF, check, inches

optimize = pytest.importorskip("scipy.optimize")
numpy = pytest.importorskip("numpy")

SIXTEENTHS = 16
CUT = 2  # the kerf in sixteenths


def _program(items: Sequence[tuple[int, int]], caps: Sequence[int], price: Sequence[int]) -> float | None:
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


def _cut_list(chance: random.Random, longest: int, kinds: int, most: int) -> list[tuple[int, int]]:
    share = chance.choice([0.35, 0.5, 0.7])
    lengths = {chance.randint(6 * SIXTEENTHS, int(longest * share)) for _ in range(kinds)}
    return [(length, chance.randint(1, most)) for length in sorted(lengths)]


def _pieces(items: Sequence[tuple[int, int]]) -> list[Piece]:
    return [
        Piece(f"p{length}", 3.5 * INCH, length / SIXTEENTHS * INCH, number, 1.5 * INCH)
        for length, number in items
    ]


@pytest.mark.parametrize("seed", range(210))
def test_as_few_boards_as_the_integer_program_and_one_less_is_proved_too_few(seed: int) -> None:
    chance = random.Random(seed)
    length = chance.choice([72, 96, 120]) * SIXTEENTHS
    items = _cut_list(chance, length, chance.randint(1, 6), 5)
    size, pieces = inches("b", 1, length / SIXTEENTHS), _pieces(items)
    ours = fewest(size, pieces, KERF)
    assert ours.number is not None and ours.proved
    check(ours.layout, [size._replace(number=ours.number)], pieces, KERF)
    assert _program(items, [length] * ours.number, [1] * ours.number) == ours.number
    assert yields([size._replace(number=ours.number)], pieces, KERF).verdict == FITS
    assert yields([size._replace(number=ours.number - 1)], pieces, KERF).verdict == TOO_FEW


@pytest.mark.parametrize("seed", range(60))
def test_boards_of_two_lengths_fit_when_the_integer_program_says_so(seed: int) -> None:
    chance = random.Random(1000 + seed)
    short, long = 72 * SIXTEENTHS, 96 * SIXTEENTHS
    items = _cut_list(chance, long, chance.randint(2, 5), 4)
    needed = sum((length + CUT) * number for length, number in items)
    numbers = (chance.randint(1, 3), max(1, round(chance.uniform(0.7, 1.0) * needed / long)))
    stock: list[Board] = [inches("short", numbers[0], 72), inches("long", numbers[1], 96)]
    caps = [short] * numbers[0] + [long] * numbers[1]
    cost = _program(items, caps, [1] * len(caps))
    outcome = yields(stock, _pieces(items), KERF)
    assert outcome.verdict == (TOO_FEW if cost is None else FITS)
    if cost is not None:
        check(outcome.layout, stock, _pieces(items), KERF)
