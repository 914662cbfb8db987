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
    sharing = _Sharing(stocks, fits)
    for i, need in enumerate(needs):
        missing = need
        while missing > 0:
            got = sharing.give(i, missing, set())
            if got <= 0:
                break
            missing -= got
    return [sum(own.values()) for own in sharing.taken], sharing.left


class _Sharing:
    """What each need has `taken` of each stock so far, and what is `left` of it."""

    __slots__ = ("fits", "left", "taken")

    def __init__(self, stocks: Sequence[float], fits: Sequence[Sequence[int]]) -> None:
        self.fits = fits
        self.left = list(stocks)
        self.taken: list[dict[int, float]] = [{} for _ in fits]

    def give(self, i: int, wanted: float, seen: set[int]) -> float:
        """Give a need up to `wanted` more from one stock, moving another need to a different one if it must.

        `seen`: the stocks that were tried for it.
        """
        for stock in self.fits[i]:
            if stock in seen:
                continue
            seen.add(stock)
            got = min(wanted, self.left[stock])
            if got > 0:
                self.left[stock] -= got
            else:
                got = self._free(i, stock, wanted, seen)
            if got > 0:
                self.taken[i][stock] = self.taken[i].get(stock, 0) + got
                return got
        return 0

    def _free(self, i: int, stock: int, wanted: float, seen: set[int]) -> float:
        """Free some of a stock for a need: how much another need could take from elsewhere instead."""
        for other, own in enumerate(self.taken):
            held = own.get(stock, 0)
            if other != i and held > 0:
                got = self.give(other, min(wanted, held), seen)
                if got > 0:
                    own[stock] -= got
                    return got
        return 0
