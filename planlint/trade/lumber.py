"""Lumber: what a nominal size measures, dressed or rough, and what planing takes. All lengths in mm."""

from functools import cache, lru_cache
from typing import NamedTuple

from planlint.trade.tables import amount, rows


class Size(NamedTuple):
    """A cross-section; `width` is what the name says where hardwood comes in random widths."""

    thickness: float
    width: float


class Quarter(NamedTuple):
    """A hardwood thickness sold by quarters of an inch: as sawn, and with both faces planed."""

    rough: float
    surfaced: float


@cache
def dressed(name: str, hardwood: bool = False) -> Size | None:
    """What `2x4` or `5/4x6` measures, dressed and dry; None for a size no table has.

    Hardwood by quarters, and quarters that softwood is not sold by (`8/4x6`), measure their surfaced
    thickness by the width as named; hardwood sold as `1x6` is dressed like softwood.
    Source: PS 20 and NHLA (rules/tables/lumber.yaml).
    """
    by_quarters = "/" in name
    if not (hardwood and by_quarters) and name in _softwood():
        return _softwood()[name]
    sawn = _sawn(name) if by_quarters else None
    return None if sawn is None else Size(sawn[0].surfaced, sawn[1])


@cache
def rough(name: str, hardwood: bool = False) -> Size | None:
    """What `rough 1x6` measures before planing: softwood 1/8 in over the dressed size (from memory).

    Hardwood has its full named thickness and width.
    """
    if not hardwood and name in _softwood():
        row = _softwood()[name]
        over: float = rows("lumber", "allowances")["rough-softwood"]["amount"]
        return Size(row.thickness + over, row.width + over)
    sawn = _sawn(name) if hardwood or "/" in name else None
    return None if sawn is None else Size(sawn[0].rough, sawn[1])


def planed(thickness: float, hardwood: bool = False) -> float:
    """What is left of a rough thickness once both faces are planed."""
    if hardwood:
        for quarter in quarters().values():
            if abs(quarter.rough - thickness) < 0.01:
                return quarter.surfaced
    taken: float = rows("lumber", "allowances")["rough-softwood"]["amount"]
    return thickness - taken


@cache
def nominal(name: str) -> Size | None:
    """The sizes that the name says, `5/4x6` as 1 1/4 x 6 in; None where it is not such a name."""
    thickness, times, width = name.partition("x")
    if not times or " " in name:
        return None
    try:
        return Size(amount(thickness, "in"), amount(width, "in"))
    except (ValueError, ZeroDivisionError):
        return None


@lru_cache(maxsize=256)
def nominal_like(thickness: float, width: float) -> str | None:
    """The nominal size with just these two measures: a plan that writes `2 x 4` where 2x4 is meant."""
    for name in _softwood():
        said = nominal(name)
        if said and abs(said.thickness - thickness) < 0.01 and abs(said.width - width) < 0.01:
            return name
    return None


def nearest(name: str, most: int = 3) -> tuple[str, ...]:
    """The sizes that are sold, nearest to a name no table has; none for what is no such name."""
    said = nominal(name)
    if said is None:
        return ()
    away = {known: _away(said, nominal(known)) for known in _softwood()}
    return tuple(sorted(away, key=away.__getitem__)[:most])


@cache
def quarters() -> dict[str, Quarter]:
    """The hardwood thicknesses by name, `4/4` to `16/4`."""
    return {name: Quarter(row["rough"], row["surfaced"]) for name, row in rows("lumber", "hardwood").items()}


def kerf(metric: bool) -> float:
    """The saw's cut where a plan does not say."""
    found: float = rows("lumber", "allowances")["kerf-metric" if metric else "kerf-inches"]["amount"]
    return found


@cache
def run_over() -> float:
    """Up to how much shorter each piece may be cut for boards to be said to nearly do."""
    found: float = rows("lumber", "allowances")["run-over"]["amount"]
    return found


@cache
def next_size(thickness: float, width: float, hardwood: bool = False) -> str | None:
    """The smallest nominal size that a piece of this thickness and width can be cut from, dressed.

    Softwood sizes of the looked-up table first; none that yards rarely have. Hardwood comes in random widths
    and is named by its quarters alone, `8/4`. None where nothing is sold that large.
    """
    if hardwood:
        fits = width <= (widest_board("hardwood") or 0.0) + 0.01
        thick = (name for name, one in quarters().items() if one.surfaced >= thickness - 0.01)
        return next(thick, None) if fits else None
    for group in ("softwood", "softwood_less_usual"):
        found = [
            (size.thickness * size.width, name)
            for name, size in (
                (name, _softwood()[name])
                for name, row in rows("lumber", group).items()
                if "scarce" not in row
            )
            if size.thickness >= thickness - 0.01 and size.width >= width - 0.01
        ]
        if found:
            return min(found)[1]
    return None


@cache
def widest_board(kind: str) -> float | None:
    """How wide single boards of `softwood` or `hardwood` are sold; None for sheets."""
    row = rows("lumber", "widest").get(kind)
    return None if row is None else row["width"]


@cache
def _softwood() -> dict[str, Size]:
    both = {**rows("lumber", "softwood"), **rows("lumber", "softwood_less_usual")}
    return {name: Size(row["thickness"], row["width"]) for name, row in both.items()}


def _sawn(name: str) -> tuple[Quarter, float] | None:
    """The hardwood thickness and the width that a name says, `1x6` as 4/4."""
    said = nominal(name)
    if said is None:
        return None
    for quarter in quarters().values():
        if abs(quarter.rough - said.thickness) < 0.01:
            return quarter, said.width
    return None


def _away(one: Size, other: Size | None) -> float:
    return 0.0 if other is None else abs(one.thickness - other.thickness) + abs(one.width - other.width)
