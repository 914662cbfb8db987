"""The computed mends made in the plan's text, each kept only if auditing again shows that it holds.

A mend holds when the faults of its finding are gone, those of every mend kept before stay gone, and nothing is told
at stop or check that was not so in the plan as it was. All mends are tried together; if that does not hold, in
halves, down to one by one. What one mend changes, the next is computed anew for, until none is left to try.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from planlint.auditing import Audit, audit_source
from planlint.judge.finding import Edit, Finding
from planlint.mending.box import as_listed, whole_box, without_list
from planlint.mending.changes import Draft, Replacement
from planlint.mending.mended import Change, Left, Made, Mended
from planlint.mending.reasons import not_gone, says_so_already, why_left, would_add
from planlint.mending.standing import SEVERITIES, Key, Standing
from planlint.show.rewriting import edited
from planlint.source import Source, Span

TRIALS = 150  # a plan of 500 parts takes a second each
IN_A_ROW = 3  # a mend, what it brings to light, and once more
ROUNDS = 20  # mends that become possible by others are few; this only ends what would go round for ever

Target = tuple[str, frozenset[Key]]  # a finding, however the text has moved since: its rule and its faults


def mend(audit: Audit) -> Mended:
    """The plan with every mend made that holds, and what stays. The audit's own text is not touched."""
    work = _Work(audit)
    for _ in range(ROUNDS):
        targets = work.worth_trying()
        if not targets:
            break
        work.attempt(targets)
    return work.result()


class _State(NamedTuple):
    """The plan so far."""

    draft: Draft
    audit: Audit
    standing: Standing


class _Kept(NamedTuple):
    """A mend that holds: its finding as it stood in the plan as it was, and the old words that it changed."""

    finding: Finding
    spans: tuple[Span, ...]


class _Held(NamedTuple):
    """Mends that hold: the plan with them, and of each fault that was mended, how many may be left."""

    state: _State
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
        self.state: _State | None = None  # made when a mend is first to be tried
        self.first: _State | None = None
        self.kept: list[_Kept] = []
        self.most: dict[Key, int] = {}  # of each fault that was mended: how many may be left
        self.trials = 0
        self.refused: dict[Target, tuple[int, str]] = {}  # with how many mends had been kept, and why

    @property
    def audit(self) -> Audit:
        return self.before if self.state is None else self.state.audit

    def worth_trying(self) -> list[Target]:
        """The findings with a mend that was not refused since anything changed, the gravest first."""
        found = [one for one in self.audit.verdict.findings if _edits(one)]
        if not found:
            return []
        if self.state is None:
            self.first = self.state = _state(Draft(self.before.source.text), self.before)
        found.sort(key=lambda one: (SEVERITIES.index(one.severity), one.span.start, one.rule))
        targets = dict.fromkeys(_target(self.state, one) for one in found)
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
            self.refused[_target(self.state, findings[0])] = (len(self.kept), no.why)
            return
        doubted = [_target(self.state, one) for one in findings if _at_fault(one, self.state, no.keys)]
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
        found = {_target(self.state, one): one for one in self.state.audit.verdict.findings if _edits(one)}
        return [found[target] for target in wanted if target in found]

    def _made(
        self, state: _State, findings: list[Finding], steps: int, most: Mapping[Key, int], *, alone: bool
    ) -> tuple[_Held | None, _No]:
        """Make these findings' mends, in the first way that mends them and harms nothing; else None, and why not.

        What they bring to light may have a mend of its own: with `steps` left, it is made along with them. Of one
        target `alone`, other ways are tried too, and the best that is found is taken.
        """
        first_no, second_best = _No(says_so_already()), None
        for edits in _ways(findings, state, only_one=not alone):
            trial = self._tried(state, edits)
            if trial is None:
                continue
            left = _lowered(most, state, findings)
            held = _Held(
                trial, [_kept(one, state, edits, alone=len(findings) == 1) for one in findings], left
            )
            worse = self._worse(trial)
            no = _No(would_add(worse[0], self.before.source), worse) if worse else self._not_gone(trial, left)
            if worse and steps > 1 and (further := _with_edits(worse, trial)):
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

    def _worse(self, trial: _State) -> list[Key]:
        """What is told at stop or check, and was not there in the plan as it was."""
        assert self.first is not None
        return trial.standing.worse_than(self.first.standing.by_severity, _renamed(trial))

    def _uncovered(self, trial: _State) -> list[Key]:
        """What was there, and was not told because of what is mended now: better if the mend takes it along."""
        assert self.state is not None
        return trial.standing.worse_than(self.state.standing.shown, _renamed(trial))

    def _not_gone(self, trial: _State, most: dict[Key, int]) -> _No | None:
        """What should be gone and is not, or cannot be judged any more."""
        assert self.state is not None
        still = [key for key, count in most.items() if trial.standing.all[key] > count]
        if still or trial.standing.left_open(self.state.standing, {key.rule for key in most}):
            return _No(not_gone(), still)
        return None

    def _tried(self, state: _State, edits: list[Edit]) -> _State | None:
        """The plan with these edits; None if they change nothing, or too much was tried already."""
        self.trials += 1
        return None if self.trials > TRIALS else _tried(state, edits)

    def result(self) -> Mended:
        made = [Made(one.finding, self._changes_of(one)) for one in self.kept]
        return Mended(self.before, self.audit, tuple(made), tuple(self._left()))

    def _changes_of(self, kept: _Kept) -> tuple[Change, ...]:
        """What became of the words that a mend changed, in the end."""
        assert self.state is not None
        return tuple(
            change
            for change in self.state.draft.changes
            if any(_overlap(span, change.span) for span in kept.spans)
        )

    def _left(self) -> Iterator[Left]:
        for finding in self.audit.verdict.findings:
            if finding.accepted is None:
                refused = self.state and self.refused.get(_target(self.state, finding))
                yield Left(finding, why_left(finding, refused[1] if refused else ""))


def _state(draft: Draft, audit: Audit) -> _State:
    return _State(draft, audit, Standing(audit, draft.back))


def _renamed(state: _State) -> dict[str, str]:
    return {change.was.lower(): change.now.lower() for change in state.draft.changes}


def _lowered(most: Mapping[Key, int], state: _State, findings: list[Finding]) -> dict[Key, int]:
    """Of each fault that these findings stand for, so many fewer may be left."""
    left, there = dict(most), state.standing.all
    for finding in findings:
        for key, count in state.standing.keys_of(finding).items():
            left[key] = min(left.get(key, there[key]), there[key]) - count
    return left


def _with_edits(worse: list[Key], trial: _State) -> list[Finding]:
    """The findings of what a trial brought to light, if every one has a mend that planlint can make."""
    found: dict[Key, Finding] = {}
    for finding in trial.audit.verdict.findings:
        if _edits(finding):
            found.update(dict.fromkeys(trial.standing.keys_of(finding), finding))
    if not all(key in found for key in worse):
        return []
    return list({id(found[key]): found[key] for key in worse}.values())


def _at_fault(finding: Finding, state: _State, keys: Sequence[Key]) -> bool:
    """Whether a finding's mend may be why these faults are there: its own, or on a line that it changes."""
    line_of = state.audit.source.line_of  # mends add no lines: they are the same as at first
    lines = {line_of(edit.span.start) for edit in _edits(finding)}
    own = state.standing.keys_of(finding)
    first = Source(state.draft.original)
    return any(key in own or first.line_of(key.start) in lines for key in keys)


def _edits(finding: Finding) -> tuple[Edit, ...]:
    """What planlint may change for a finding: nothing where the plan accepts it."""
    return () if finding.mend is None or finding.accepted is not None else finding.mend.edits


def _target(state: _State, finding: Finding) -> Target:
    return finding.rule, frozenset(state.standing.keys_of(finding))


def _ways(findings: list[Finding], state: _State, *, only_one: bool) -> Iterator[list[Edit]]:
    """What to try: all the edits; else, of screws, other ways to come to terms with the shopping list."""
    edits = [edit for finding in findings for edit in _edits(finding)]
    yield edits
    plan = state.audit.plan
    for other in () if only_one else (as_listed, without_list, whole_box):
        if (changed := other(edits, plan)) and changed != edits:
            yield changed


def _tried(state: _State, edits: list[Edit]) -> _State | None:
    """The plan with these edits; None if they change nothing. Where two want the same words, the first has them."""
    replacements = _apart(_replacements(state, edits))
    draft = state.draft.with_replaced(replacements)
    if draft.text == state.draft.text:
        return None
    return _state(draft, audit_source(Source(draft.text, state.audit.source.path)))


def _replacements(state: _State, edits: Iterable[Edit]) -> Iterator[Replacement]:
    source, units = state.audit.source, state.audit.plan.heading.units
    for edit in edits:
        yield edit.span, edited(edit, source, units)


def _apart(replacements: Iterable[Replacement]) -> list[Replacement]:
    taken: list[Replacement] = []
    for span, text in replacements:
        if not any(_overlap(span, other) for other, _ in taken):
            taken.append((span, text))
    return taken


def _overlap(one: Span, other: Span) -> bool:
    return one == other or (one.start < other.end and other.start < one.end)


def _kept(finding: Finding, state: _State, edits: list[Edit], *, alone: bool) -> _Kept:
    """The finding with its spans as they were in the plan at first; made `alone`, all the edits are for it."""
    back = state.draft.span_back
    assert finding.mend is not None
    own = [edit for edit in edits if alone or edit in finding.mend.edits]
    at_first = finding._replace(
        span=back(finding.span),
        spans=tuple(back(span) for span in finding.spans),
        related=tuple((name, back(span)) for name, span in finding.related),
        mend=finding.mend._replace(edits=tuple(edit._replace(span=back(edit.span)) for edit in own)),
    )
    return _Kept(at_first, tuple(back(edit.span) for edit in own))
