"""The number of boards against an integer program (scipy's milp), on random cut lists with kerf."""

from __future__ import annotations

import random

import pytest

from planlint.cutting import FITS, TOO_FEW, Board, fewest, yields
from tests.cutting.program import CUT, SIXTEENTHS, as_pieces, cut_list, program
from tests.cutting.sawn import KERF, check, inches


@pytest.mark.parametrize("seed", range(210))
def test_as_few_boards_as_the_integer_program_and_one_less_is_proved_too_few(seed: int) -> None:
    chance = random.Random(seed)
    length = chance.choice([72, 96, 120]) * SIXTEENTHS
    items = cut_list(chance, length, chance.randint(1, 6), 5)
    size, pieces = inches("b", 1, length / SIXTEENTHS), as_pieces(items)
    ours = fewest(size, pieces, KERF)
    assert ours.number is not None and ours.proved
    check(ours.layout, [size._replace(number=ours.number)], pieces, KERF)
    assert program(items, [length] * ours.number, [1] * ours.number) == ours.number
    assert yields([size._replace(number=ours.number)], pieces, KERF).verdict == FITS
    assert yields([size._replace(number=ours.number - 1)], pieces, KERF).verdict == TOO_FEW


@pytest.mark.parametrize("seed", range(60))
def test_boards_of_two_lengths_fit_when_the_integer_program_says_so(seed: int) -> None:
    chance = random.Random(1000 + seed)
    short, long = 72 * SIXTEENTHS, 96 * SIXTEENTHS
    items = cut_list(chance, long, chance.randint(2, 5), 4)
    needed = sum((length + CUT) * number for length, number in items)
    numbers = (chance.randint(1, 3), max(1, round(chance.uniform(0.7, 1.0) * needed / long)))
    stock: list[Board] = [inches("short", numbers[0], 72), inches("long", numbers[1], 96)]
    caps = [short] * numbers[0] + [long] * numbers[1]
    cost = program(items, caps, [1] * len(caps))
    outcome = yields(stock, as_pieces(items), KERF)
    assert outcome.verdict == (TOO_FEW if cost is None else FITS)
    if cost is not None:
        check(outcome.layout, stock, as_pieces(items), KERF)
