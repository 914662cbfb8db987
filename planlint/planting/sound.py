"""A sound plan to plant mistakes in: its audit, and the few questions that every kind of mistake asks of it."""

from __future__ import annotations

from collections.abc import Iterator

from planlint.auditing import Audit
from planlint.build.piece import Driven, Meeting, Part, Piece
from planlint.geometry.vector import Vec, dot
from planlint.judge.finding import Value
from planlint.observe.circumstances import is_metric
from planlint.read.plan import CutEntry, Fastening, Join, Placement, Plan, Quantity
from planlint.show.rewriting import rewritten
from planlint.source import Source, Span
from planlint.trade.screws import diameter

SIDES = {0: ("left", "right"), 1: ("front", "back"), 2: ("bottom", "top")}
"""The two sides of each axis, lower first."""

WAY: dict[str, Vec] = {
    side: tuple(sign * (axis == i) for i in range(3))  # type: ignore[misc]
    for axis, pair in SIDES.items()
    for side, sign in zip(pair, (-1.0, 1.0), strict=True)
}
"""Where each side looks to."""


class Sound:
    """A plan without stops and checks, read and built."""

    def __init__(self, audit: Audit) -> None:
        self.audit = audit
        self.source: Source = audit.source
        self.text: str = audit.source.text
        self.plan: Plan = audit.plan
        self.piece: Piece = audit.piece
        self.metric = is_metric(audit.plan)
        self.outdoors = (
            audit.plan.heading.setting is not None and audit.plan.heading.setting.text == "outdoors"
        )

    # --- words ---------------------------------------------------------------------------------------

    def words(self, span: Span) -> str:
        return self.text[span.start : span.end]

    def amount(self, value: float, old: Quantity) -> str:
        """A length or angle written as the old one was."""
        text = self.words(old.span)
        return rewritten(text, Value(value, old.dimension), old.unit, self.plan.heading.units)

    def length(self, value: float) -> str:
        """A bare length in the plan's units."""
        return rewritten("1", Value(value, "length"), "", self.plan.heading.units)

    def whole_lines(self, span: Span) -> Span:
        """All lines of these words, with the last line's end."""
        place = self.source.place(span)
        start = self.source.starts[place.line - 1]
        after = place.end_line
        end = self.source.starts[after] if after < len(self.source.starts) else len(self.text)
        return Span(start, end)

    # --- entries --------------------------------------------------------------------------------------

    def joins(self) -> Iterator[Join]:
        for step in self.plan.steps:
            yield from step.joins

    def fastenings(self) -> Iterator[tuple[Join, Fastening]]:
        for join in self.joins():
            for fastening in join.fastenings:
                yield join, fastening

    def entry(self, name: str) -> CutEntry | None:
        return next((entry for entry in self.plan.parts if entry.name == name), None)

    def entries_placed(self) -> Iterator[tuple[Placement, CutEntry]]:
        """The placements of parts, each with its cut-list entry."""
        for placement in self.plan.placements:
            entry = self.entry(placement.subject.name)
            if entry is not None:
                yield placement, entry

    # --- what is built --------------------------------------------------------------------------------

    def driven(self, fastening: Fastening) -> list[Driven]:
        return [each for each in self.piece.driven if each.fastening.span == fastening.span]

    def meetings(self, join: Join) -> list[Meeting]:
        return [each for each in self.piece.meetings if each.join.span == join.span]

    def parts_of(self, placement: Placement) -> list[Part]:
        return [part for part in self.piece.parts if part.span == placement.span]

    def parts_of_entry(self, name: str) -> list[Part]:
        return [part for part in self.piece.parts if part.copy_of == name]


def side_of(way: Vec) -> str:
    """The side that a direction looks to most."""
    return max(WAY, key=lambda side: dot(WAY[side], way))


def across(fastening: Fastening) -> float | None:
    """A fastener's diameter, mm; None where the plan gives none."""
    if fastening.size is None:
        return None
    if fastening.size.gauge is not None:
        return diameter(fastening.size.gauge)
    return fastening.size.diameter.value if fastening.size.diameter else None
