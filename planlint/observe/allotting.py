"""Sharing out what is bought among what needs it, so that as much as can be is met. Pure numbers."""

from __future__ import annotations

from collections.abc import Sequence


def allotted(
    needs: Sequence[float], stocks: Sequence[float], fits: Sequence[Sequence[int]]
) -> tuple[list[float], list[float]]:
    """How much each need gets at best, earlier needs first, and what is left of each stock.

    `fits` are the stocks each need can be met from. A stock that an earlier need holds is freed where that
    need can be met from another.
    """
    taken: list[dict[int, float]] = [{} for _ in needs]
    left = list(stocks)
    for i, need in enumerate(needs):
        missing = need
        while missing > 0:
            got = _get(i, missing, taken, left, fits, set())
            if got <= 0:
                break
            missing -= got
    return [sum(own.values()) for own in taken], left


def _get(
    i: int,
    wanted: float,
    taken: list[dict[int, float]],
    left: list[float],
    fits: Sequence[Sequence[int]],
    seen: set[int],
) -> float:
    """Give a need up to `wanted` more from one stock, moving another need to a different one if it must."""
    for stock in fits[i]:
        if stock in seen:
            continue
        seen.add(stock)
        got = min(wanted, left[stock])
        if got > 0:
            left[stock] -= got
        else:
            got = _free(i, stock, wanted, taken, left, fits, seen)
        if got > 0:
            taken[i][stock] = taken[i].get(stock, 0) + got
            return got
    return 0


def _free(
    i: int,
    stock: int,
    wanted: float,
    taken: list[dict[int, float]],
    left: list[float],
    fits: Sequence[Sequence[int]],
    seen: set[int],
) -> float:
    for other, own in enumerate(taken):
        held = own.get(stock, 0)
        if other != i and held > 0:
            got = _get(other, min(wanted, held), taken, left, fits, seen)
            if got > 0:
                own[stock] -= got
                return got
    return 0
