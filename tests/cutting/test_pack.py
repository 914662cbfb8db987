"""The search against trying every place for every piece."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.cutting.pack import Filled, Lengths, Search, first_fit


@st.composite
def lengths(draw: st.DrawFn) -> Lengths:
    """Bins sawn up and mixed, a piece or two then made longer: mostly a close call."""
    chance = draw(st.randoms(use_true_random=False))
    caps = [chance.randint(20, 40) for _ in range(chance.randint(1, 2))]
    bins = [chance.randint(1, 3) for _ in caps]
    sawn: list[tuple[int, tuple[bool, ...]]] = []
    for kind, cap in enumerate(caps):
        for _ in range(bins[kind]):
            room = cap - chance.choice([0, 0, 1, 3])
            while room > 4 and len(sawn) < 11:
                size = min(room, chance.randint(5, 22))
                may = tuple(other == kind or chance.random() < 0.7 for other in range(len(caps)))
                sawn.append((size, may))
                room -= size
    for _ in range(chance.choice([0, 1, 1, 2])):
        index = chance.randrange(len(sawn))
        sawn[index] = (sawn[index][0] + chance.randint(1, 2), sawn[index][1])
    kinds = sorted(set(sawn), reverse=True)
    return Lengths(
        tuple(size for size, _ in kinds),
        tuple(sawn.count(kind) for kind in kinds),
        tuple(caps),
        tuple(bins),
        tuple(may for _, may in kinds),
    )


def _some_way(task: Lengths) -> bool:
    """Every piece in turn into every bin that has room for it."""
    pieces = [piece for piece, number in enumerate(task.numbers) for _ in range(number)]
    bins = [kind for kind, number in enumerate(task.bins) for _ in range(number)]

    def place(index: int, room: list[int]) -> bool:
        if index == len(pieces):
            return True
        piece, tried = pieces[index], set()
        for number, kind in enumerate(bins):
            left = room[number] - task.sizes[piece]
            if task.allowed[piece][kind] and left >= 0 and (kind, left) not in tried:
                tried.add((kind, left))
                if place(index + 1, [*room[:number], left, *room[number + 1 :]]):
                    return True
        return False

    return place(0, [task.caps[kind] for kind in bins])


def _right(task: Lengths, filled: list[Filled]) -> bool:
    placed = [sum(one.times * one.content[piece] for one in filled) for piece in range(len(task.sizes))]
    used = [sum(one.times for one in filled if one.kind == kind) for kind in range(len(task.caps))]
    return (
        placed == list(task.numbers)
        and all(number <= have for number, have in zip(used, task.bins, strict=True))
        and all(
            sum(n * size for n, size in zip(one.content, task.sizes, strict=True)) <= task.caps[one.kind]
            and all(may[one.kind] for n, may in zip(one.content, task.allowed, strict=True) if n)
            for one in filled
        )
    )


@settings(max_examples=600, deadline=None)
@given(lengths())
def test_the_search_finds_a_packing_exactly_where_there_is_one(task: Lengths) -> None:
    search = Search(task, 100_000)
    filled = search.run()
    assert search.budget > 0
    assert (filled is not None) == _some_way(task)
    assert filled is None or _right(task, filled)


@settings(max_examples=200, deadline=None)
@given(lengths())
def test_first_fit_never_overfills_and_never_leaves_a_piece_out(task: Lengths) -> None:
    filled = first_fit(task, range(len(task.caps)))
    assert filled is None or _right(task, filled)
