"""The order in which positions can be worked out, and the rings that have none; linear in their number."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence


def in_order(needs: Mapping[int, Sequence[int]]) -> tuple[list[int], list[list[int]]]:
    """Every node after all that it needs, and every ring that was met (its nodes from the first to the last).

    A node that is needed but not in `needs` is left out. The nodes of a ring stand in the order too.
    """
    done: dict[int, bool] = {}  # False while a node waits for what it needs
    order: list[int] = []
    rings: list[list[int]] = []
    for start in needs:
        if start not in done:
            _visit(start, needs, done, order, rings)
    return order, rings


def _visit(
    start: int,
    needs: Mapping[int, Sequence[int]],
    done: dict[int, bool],
    order: list[int],
    rings: list[list[int]],
) -> None:
    # A stack of its own: a chain of a thousand parts is deeper than Python's.
    done[start] = False
    path = [start]
    waiting: list[Iterator[int]] = [iter(needs[start])]
    while path:
        for node in waiting[-1]:
            state = done.get(node)
            if state is None and node in needs:
                done[node] = False
                path.append(node)
                waiting.append(iter(needs[node]))
                break
            if state is False:
                rings.append(path[path.index(node) :])
        else:
            done[path[-1]] = True
            order.append(path.pop())
            waiting.pop()
