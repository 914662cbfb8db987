"""The weights behind every proof: pieces end to end never weigh more than the board they fill."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.cutting.bound import Room, Way, balanced, least, steps, too_few, weights, whole


@settings(max_examples=200, deadline=None)
@given(st.integers(4, 300), st.lists(st.integers(1, 300), min_size=1, max_size=6), st.data())
def test_two_sizes_weigh_no_more_than_their_sum(most: int, sizes: list[int], data: st.DataObject) -> None:
    first = data.draw(st.integers(0, most))
    second = data.draw(st.integers(0, most - first))
    for number, weigh in enumerate(weights([min(size, most) for size in sizes], most)):
        assert weigh(first) >= 0
        assert weigh(first) + weigh(second) <= weigh(first + second), number


def test_every_small_weight_is_fair_to_every_split() -> None:
    for most in range(4, 22):
        scales = [steps(step) for step in range(1, most)]
        for part in range(1, most // 2 + 1):
            scales += [whole(most, part), balanced(most, part)]
        for weigh in scales:
            heavy = [weigh(size) for size in range(most + 1)]
            for total in range(most + 1):
                assert all(heavy[size] + heavy[total - size] <= heavy[total] for size in range(total + 1))


def _ways(*sizes: tuple[int, int]) -> list[list[list[Way]]]:
    return [[[Way(length, width, 1, False)]] for length, width in sizes]


def test_pieces_over_half_the_board_need_one_each() -> None:
    # 51 + 51 > 100: plain length says 3 boards hold five of them.
    assert least([5], _ways((51, 10)), Room(1, 100, 10, 1)) == 5


def test_the_width_counts_too() -> None:
    # Three strips of 4 across 10: two fit; lengths alone or areas alone would say two boards for five.
    assert least([5], _ways((100, 4)), Room(1, 100, 10, 1)) == 3


def test_long_pieces_are_weighed_by_what_they_leave() -> None:
    # Each 60 leaves room for one 35; the fourth 35 and the fifth need another board: area alone says 4.
    assert least([3, 5], _ways((60, 10), (35, 10)), Room(1, 100, 10, 1)) == 4


def test_boards_that_hold_none_of_the_long_pieces_do_not_count_for_them() -> None:
    ways = [[[Way(80, 10, 1, False)], []]]
    assert too_few([2], ways, [Room(1, 100, 10, 1), Room(9, 70, 10, 1)])
    assert not too_few([1], ways, [Room(1, 100, 10, 1), Room(9, 70, 10, 1)])


def test_resawing_doubles_a_thick_board() -> None:
    ways = _ways((100, 10))
    assert too_few([2], ways, [Room(1, 100, 10, 1)])
    assert not too_few([2], ways, [Room(1, 100, 10, 2)])
