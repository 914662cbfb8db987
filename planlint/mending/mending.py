"""The computed mends made in the plan's text, each kept only if auditing again shows that it holds.

A mend holds when the faults of its finding are gone, those of every mend kept before stay gone, and nothing is told
at stop or check that was not so in the plan as it was. All mends are tried together; if that does not hold, in
halves, down to one by one. What one mend changes, the next is computed anew for, until none is left to try.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.judge.finding import SEVERITIES, Edit, Finding
from planlint.mending.changes import Draft
from planlint.mending.mended import Change, Left, Made, Mended
from planlint.mending.reasons import not_gone, not_tried, says_so_already, why_left, would_add
from planlint.mending.standing import Key
from planlint.mending.state import (
    State,
    Target,
    at_fault,
    edits_of,
    lowered,
    renamed,
    state_of,
    target_of,
    with_edits,
)
from planlint.mending.ways import overlap, ways, with_made
from planlint.source import Span

TRIALS = 150  # a plan of 500 parts takes a second each
IN_A_ROW = 3  # a mend, what it brings to light, and once more
ROUNDS = 20  # mends that become possible by others are few; this only ends what would go round for ever


def mend(audit: Audit) -> Mended:
    """The plan with every mend made that holds, and what stays. The audit's own text is not touched."""
    work = _Work(audit)
    for _ in range(ROUNDS):
        targets = work.worth_trying()
        if not targets:
            break
        work.attempt(targets)
    return work.result()


class _Kept(NamedTuple):
    """A mend that holds: its finding as it stood in the plan as it was, and the old words that it changed."""

    finding: Finding
    spans: tuple[Span, ...]


class _Held(NamedTuple):
    """Mends that hold: the plan with them, and of each fault that was mended, how many may be left."""

    state: State
    kept: list[_Kept]
    most: dict[Key, int]


class _No(NamedTuple):
    """Why mends do not hold, and the faults that show it."""

    why: str
    keys: Sequence[Key] = ()


class _Work:
    """What is kept so far, what was refused and why."""

    def __init__(self, audit: Audit) -> None:
        self.before = audit
        self.state: State | None = None  # made when a mend is first to be tried
        self.first: State | None = None
        self.kept: list[_Kept] = []
        self.most: dict[Key, int] = {}  # of each fault that was mended: how many may be left
        self.trials = 0
        self.refused: dict[Target, tuple[int, str]] = {}  # with how many mends had been kept, and why

    @property
    def audit(self) -> Audit:
        return self.before if self.state is None else self.state.audit

    def worth_trying(self) -> list[Target]:
        """The findings with a mend that was not refused since anything changed, the gravest first."""
        found = [one for one in self.audit.verdict.findings if edits_of(one)]
        if not found:
            return []
        if self.state is None:
            self.first = self.state = state_of(Draft(self.before.source.text), self.before)
        found.sort(key=lambda one: (SEVERITIES.index(one.severity), one.span.start, one.rule))
        targets = dict.fromkeys(target_of(self.state, one) for one in found)
        return [one for one in targets if self.refused.get(one, (-1, ""))[0] < len(self.kept)]

    def attempt(self, targets: list[Target]) -> None:
        """Make these mends: together if that holds; else without those that seem to be at fault, then in halves."""
        assert self.state is not None
        findings = self._standing_now(targets)
        if not findings:
            return
        held, no = self._made(self.state, findings, IN_A_ROW, self.most, alone=len(findings) == 1)
        if held is not None:
            self.state, self.most = held.state, held.most
            self.kept += held.kept
            return
        if len(findings) == 1:
            why = not_tried() if self.trials > TRIALS else no.why
            self.refused[target_of(self.state, findings[0])] = (len(self.kept), why)
            return
        doubted = [target_of(self.state, one) for one in findings if at_fault(one, self.state, no.keys)]
        sure = [target for target in targets if target not in set(doubted)]
        half = len(doubted) // 2 if sure and doubted else len(targets) // 2
        for part in (
            (sure, doubted[:half], doubted[half:]) if sure and doubted else (targets[:half], targets[half:])
        ):
            self.attempt(part)

    def _standing_now(self, targets: list[Target]) -> list[Finding]:
        """The findings of the plan as it is now; a target that is gone, or that changed, is left out."""
        assert self.state is not None
        wanted = dict.fromkeys(targets)
        found = {
            target_of(self.state, one): one for one in self.state.audit.verdict.findings if edits_of(one)
        }
        return [found[target] for target in wanted if target in found]

    def _made(
        self, state: State, findings: list[Finding], steps: int, most: Mapping[Key, int], *, alone: bool
    ) -> tuple[_Held | None, _No]:
        """Make these findings' mends, in the first way that mends them and harms nothing; else None, and why not.

        What they bring to light may have a mend of its own: with `steps` left, it is made along with them. Of one
        target `alone`, other ways are tried too, and the best that is found is taken.
        """
        first_no, second_best = _No(says_so_already()), None
        for edits in ways(findings, state, only_one=not alone):
            trial = self._tried(state, edits)
            if trial is None:
                continue
            left = lowered(most, state, findings)
            held = _Held(trial, _kept(findings, state, edits), left)
            worse = self._worse(trial)
            no = _No(would_add(worse[0], self.before.source), worse) if worse else self._not_gone(trial, left)
            if worse and steps > 1 and (further := with_edits(worse, trial)):
                more, _ = self._made(trial, further, steps - 1, left, alone=alone)
                if more is not None:
                    held, no = more._replace(kept=held.kept + more.kept), None
            uncovered = [] if no else self._uncovered(held.state)
            if no is None and not uncovered:
                return held, _No("")
            if no is None and alone:
                second_best = second_best or held
            if first_no.why == says_so_already():
                first_no = no or _No("", uncovered)
        return second_best, first_no

    def _worse(self, trial: State) -> list[Key]:
        """What is told at stop or check, and was not there in the plan as it was."""
        assert self.first is not None
        return trial.standing.worse_than(self.first.standing.by_severity, renamed(trial))

    def _uncovered(self, trial: State) -> list[Key]:
        """What was there, and was not told because of what is mended now: better if the mend takes it along."""
        assert self.state is not None
        return trial.standing.worse_than(self.state.standing.shown, renamed(trial))

    def _not_gone(self, trial: State, most: dict[Key, int]) -> _No | None:
        """What should be gone and is not."""
        still = [key for key, count in most.items() if trial.standing.all[key] > count]
        if still:
            return _No(not_gone(), still)
        return None

    def _tried(self, state: State, edits: list[Edit]) -> State | None:
        """The plan with these edits; None if they change nothing, or too much was tried already."""
        self.trials += 1
        return None if self.trials > TRIALS else with_made(state, edits)

    def result(self) -> Mended:
        made = [Made(one.finding, self._changes_of(one)) for one in self.kept]
        return Mended(self.before, self.audit, tuple(made), tuple(self._left()))

    def _changes_of(self, kept: _Kept) -> tuple[Change, ...]:
        """What became of the words that a mend changed, in the end."""
        assert self.state is not None
        return tuple(
            change
            for change in self.state.draft.changes
            if any(overlap(span, change.span) for span in kept.spans)
        )

    def _left(self) -> Iterator[Left]:
        for finding in self.audit.verdict.findings:
            if finding.accepted is None:
                refused = self.state and self.refused.get(target_of(self.state, finding))
                yield Left(finding, why_left(finding, refused[1] if refused else ""))


def _kept(findings: list[Finding], state: State, edits: list[Edit]) -> list[_Kept]:
    """The findings with their spans as they were in the plan at first, each with what is changed for it.

    What is changed besides, because it comes from the same box, goes with the edits that are alike.
    """
    back = state.draft.span_back
    owned = {edit.span for finding in findings for edit in edits_of(finding)}
    kept = []
    for finding in findings:
        spans = {edit.span for edit in edits_of(finding)}
        alike = {(edit.value, edit.text) for edit in edits if edit.span in spans}
        own = [
            edit._replace(span=back(edit.span))
            for edit in edits
            if edit.span in spans or (edit.span not in owned and (edit.value, edit.text) in alike)
        ]
        assert finding.mend is not None
        at_first = finding._replace(
            span=back(finding.span),
            spans=tuple(back(span) for span in finding.spans),
            related=tuple((name, back(span)) for name, span in finding.related),
            mend=finding.mend._replace(edits=tuple(own)),
        )
        kept.append(_Kept(at_first, tuple(edit.span for edit in own)))
    return kept
