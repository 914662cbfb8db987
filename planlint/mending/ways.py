"""What to try for a finding, and the plan with it made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planlint.auditing import audit_source
from planlint.judge.finding import Edit, Finding
from planlint.mending.box import as_listed, whole_box, without_list
from planlint.mending.changes import Replacement
from planlint.mending.state import State, edits_of, state_of
from planlint.show.rewriting import edited
from planlint.source import Source, Span


def ways(findings: list[Finding], state: State, *, only_one: bool) -> Iterator[list[Edit]]:
    """What to try: all the edits; else, of screws, other ways to come to terms with the shopping list."""
    edits = [edit for finding in findings for edit in edits_of(finding)]
    yield edits
    plan = state.audit.plan
    for other in () if only_one else (as_listed, without_list, whole_box):
        if (changed := other(edits, plan)) and changed != edits:
            yield changed


def with_made(state: State, edits: list[Edit]) -> State | None:
    """The plan with these edits; None if they change nothing. Where two want the same words, the first has them."""
    replacements = _apart(_replacements(state, edits))
    draft = state.draft.with_replaced(replacements)
    if draft.text == state.draft.text:
        return None
    return state_of(draft, audit_source(Source(draft.text, state.audit.source.path)))


def _replacements(state: State, edits: Iterable[Edit]) -> Iterator[Replacement]:
    source, units = state.audit.source, state.audit.plan.heading.units
    for edit in edits:
        yield edit.span, edited(edit, source, units)


def _apart(replacements: Iterable[Replacement]) -> list[Replacement]:
    taken: list[Replacement] = []
    for span, text in replacements:
        if not any(overlap(span, other) for other, _ in taken):
            taken.append((span, text))
    return taken


def overlap(one: Span, other: Span) -> bool:
    return one == other or (one.start < other.end and other.start < one.end)
