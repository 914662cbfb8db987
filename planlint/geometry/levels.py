"""Things in a line behind each other: a level for each, such that what comes before another stands lower."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import TypeVar

N = TypeVar("N", bound=Hashable)


def levels(before: Sequence[tuple[N, N]]) -> dict[N, float]:
    """For pairs (first, second): levels with second at least 1 over first, as near to 0 as may be on both sides.

    Where pairs go round in a ring, those that close it are passed over. Takes time in proportion to the pairs.
    """
    after: dict[N, list[N]] = {}
    count: dict[N, int] = {}
    for first, second in dict.fromkeys(before):
        after.setdefault(first, []).append(second)
        after.setdefault(second, [])
        count[second] = count.get(second, 0) + 1
        count.setdefault(first, 0)
    order = _ordered(after, count)
    place = {node: i for i, node in enumerate(order)}
    up = dict.fromkeys(order, 0)
    down = dict.fromkeys(order, 0)
    for node in order:
        for other in after[node]:
            if place[other] > place[node]:
                up[other] = max(up[other], up[node] + 1)
    for node in reversed(order):
        for other in after[node]:
            if place[other] > place[node]:
                down[node] = max(down[node], down[other] + 1)
    return {node: (up[node] - down[node]) / 2.0 for node in order}


def _ordered(after: dict[N, list[N]], count: dict[N, int]) -> list[N]:
    """Firsts before seconds; in a ring, the node that was named first opens it."""
    left = dict(count)
    ready = [node for node, number in left.items() if not number]
    waiting = iter(list(left))
    order: list[N] = []
    done: set[N] = set()
    while len(order) < len(left):
        if not ready:
            ready.append(next(node for node in waiting if node not in done))
        node = ready.pop()
        if node in done:
            continue
        done.add(node)
        order.append(node)
        for other in after[node]:
            left[other] -= 1
            if not left[other]:
                ready.append(other)
    return order
