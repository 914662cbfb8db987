"""Lengths that the plan fixes twice: collected while placing, made into `Fit`s when the parts stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planlint.build.piece import Fit, Part
from planlint.build.scope import Item
from planlint.build.sides import DIRECTIONS
from planlint.source import Span


class FixedTwice(NamedTuple):
    """A length the plan fixes twice, before its part has been made (see `Fit`); axis None: its length."""

    item: Item
    axis: int | None
    size: float
    opening: float
    sunk: float
    first_span: Span
    second_span: Span
    neighbours: tuple[str, ...]


def make_fits(found: Iterable[FixedTwice], parts: Sequence[Part]) -> list[Fit]:
    """One `Fit` for each two places of the plan, about the entry's first piece."""
    first: dict[Span, Part] = {}
    for part in parts:
        first.setdefault(part.span, part)
    fits: dict[tuple[Span, Span], Fit] = {}
    for fixed in found:
        about = first.get(fixed.item.placement.span) or _part_of_assembly(fixed.item, parts)
        if about is None:
            continue
        direction = "length" if fixed.axis is None else DIRECTIONS[fixed.axis]
        fits.setdefault(
            (fixed.first_span, fixed.second_span),
            Fit(
                about, direction, fixed.size, fixed.opening, fixed.sunk, fixed.first_span, fixed.second_span,
                fixed.neighbours,
            ),
        )  # fmt: skip
    return list(fits.values())


def _part_of_assembly(item: Item, parts: Sequence[Part]) -> Part | None:
    if item.listed is not None:
        return None
    names = {copy.name for copy in item.copies}
    return next((p for p in parts if p.assembly is not None and p.assembly.split(" of ")[0] in names), None)
