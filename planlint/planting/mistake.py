"""A kind of mistake, and one place where it can be made in a plan.

A kind decides by its own plain sums, from what the plan says and what was built of it, that the plan would be wrong
there. It never asks the rule that must answer: a table made of the rule's own opinion would prove nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from planlint.planting.sound import Sound
from planlint.source import Source, Span


class Change(NamedTuple):
    """These words of the plan become `text`. An empty span puts it in between."""

    span: Span
    text: str


class Edit(NamedTuple):
    """One planted mistake: all its changes, made at once.

    `answers` are the entries of the sound plan of which one must be flagged, in its lines as they are then.
    """

    changes: tuple[Change, ...]
    answers: tuple[Span, ...]


class Kind(NamedTuple):
    """One mistake by its name. The first of `rules` must answer, or one of the others where the plan decides which.

    `also` are rules that may speak besides, because what they find follows from this mistake.
    """

    title: str
    rules: tuple[str, ...]
    also: tuple[str, ...]
    places: Callable[[Sound], Iterator[Edit]]

    @property
    def rule(self) -> str:
        """The rule under which it is counted."""
        return self.rules[0]


KINDS: list[Kind] = []

Places = Callable[[Sound], Iterator[Edit]]


def mistake(title: str, *rules: str, also: tuple[str, ...] = ()) -> Callable[[Places], Places]:
    """Registers a function that yields every place of this mistake in a plan."""

    def register(places: Places) -> Places:
        KINDS.append(Kind(title, rules, also, places))
        return places

    return register


def planted(text: str, edit: Edit) -> str:
    """The plan with the mistake."""
    for change in sorted(edit.changes, reverse=True):
        text = text[: change.span.start] + change.text + text[change.span.end :]
    return text


def lines_to_answer(source: Source, edit: Edit) -> frozenset[int]:
    """The lines, from 1, of the planted text in which the answer must stand."""
    after = Source(planted(source.text, edit))
    lines: set[int] = set()
    for span in edit.answers:
        # what is put in right before an entry moves it; what is put in right behind belongs to it
        start = span.start + _grown([c for c in edit.changes if c.span.end <= span.start > c.span.start])
        end = span.end + _grown([c for c in edit.changes if c.span.start <= span.end])
        place = after.place(Span(start, max(end, start + 1)))
        lines.update(range(place.line, place.end_line + 1))
    return frozenset(lines)


def _grown(changes: list[Change]) -> int:
    """By how much these changes make the text longer."""
    return sum(len(change.text) - (change.span.end - change.span.start) for change in changes)
