"""The plan as it is while it is mended, and what its findings are whatever the text has become."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.judge.finding import Edit, Finding
from planlint.mending.changes import Draft
from planlint.mending.standing import Key, Standing
from planlint.source import Source

Target = tuple[str, frozenset[Key]]  # a finding, however the text has moved since: its rule and its faults


class State(NamedTuple):
    """The plan so far."""

    draft: Draft
    audit: Audit
    standing: Standing


def state_of(draft: Draft, audit: Audit) -> State:
    return State(draft, audit, Standing(audit, draft.back))


def edits_of(finding: Finding) -> tuple[Edit, ...]:
    """What planlint may change for a finding: nothing where the plan accepts it."""
    return () if finding.mend is None or finding.accepted is not None else finding.mend.edits


def target_of(state: State, finding: Finding) -> Target:
    return finding.rule, frozenset(state.standing.keys_of(finding))


def renamed(state: State) -> dict[str, str]:
    return {change.was.lower(): change.now.lower() for change in state.draft.changes}


def lowered(most: Mapping[Key, int], state: State, findings: list[Finding]) -> dict[Key, int]:
    """Of each fault that these findings stand for, so many fewer may be left."""
    left, there = dict(most), state.standing.all
    for finding in findings:
        for key, count in state.standing.keys_of(finding).items():
            left[key] = min(left.get(key, there[key]), there[key]) - count
    return left


def with_edits(worse: list[Key], trial: State) -> list[Finding]:
    """The findings of what a trial brought to light, if every one has a mend that planlint can make."""
    found: dict[Key, Finding] = {}
    for finding in trial.audit.verdict.findings:
        if edits_of(finding):
            found.update(dict.fromkeys(trial.standing.keys_of(finding), finding))
    if not all(key in found for key in worse):
        return []
    return list({id(found[key]): found[key] for key in worse}.values())


def at_fault(finding: Finding, state: State, keys: Sequence[Key]) -> bool:
    """Whether a finding's mend may be why these faults are there: its own, or on a line that it changes."""
    line_of = state.audit.source.line_of  # mends add no lines: they are the same as at first
    lines = {line_of(edit.span.start) for edit in edits_of(finding)}
    own = state.standing.keys_of(finding)
    first = Source(state.draft.original)
    return any(key in own or first.line_of(key.start) in lines for key in keys)
