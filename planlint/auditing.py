"""The audit of one plan: the steps in order, each a function of what the one before gave.

text -> read -> Plan -> build -> Piece -> observe -> Facts -> judge -> Verdict
"""

import gc
from typing import NamedTuple

import planlint.trade.for_rules  # noqa: F401 (registers what rules may call, before the rulebook is read)
from planlint.build.build import build
from planlint.build.naming import naming_of
from planlint.build.piece import Piece
from planlint.judge.accepting import Acceptance
from planlint.judge.engine import Fault, judge, judged
from planlint.judge.finding import Verdict
from planlint.judge.rulebook import Rulebook, load_rulebook
from planlint.observe.circumstances import is_metric
from planlint.observe.facts import Facts
from planlint.observe.observe import TABLES, observe
from planlint.read.plan import Accept, Plan
from planlint.read.reader import read
from planlint.source import Source


class Audit(NamedTuple):
    """What one plan's audit found, with what each step made on the way."""

    source: Source
    plan: Plan
    piece: Piece
    facts: Facts
    verdict: Verdict


def audit_source(source: Source, rulebook: Rulebook | None = None) -> Audit:
    """Audit a plan that has been read from a file or from anywhere else. Never raises on a user's mistake."""
    book = rulebook or rules()
    # All that an audit makes is in use until it ends: looking for garbage meanwhile takes a sixth of the time.
    collecting = gc.isenabled()
    gc.disable()
    try:
        return _audit(source, book)
    finally:
        if collecting:
            gc.enable()


def _audit(source: Source, book: Rulebook) -> Audit:
    plan, unread = read(source)
    piece = build(plan)
    facts = observe(piece, unread)
    verdict = judge(facts, book, _acceptances(plan, piece), metric=is_metric(plan))
    return Audit(source, plan, piece, facts, verdict)


def faults_of(audit: Audit, rulebook: Rulebook | None = None) -> list[Fault]:
    """Every single fault behind an audit's findings, with those that are accepted or silenced."""
    accepts = _acceptances(audit.plan, audit.piece)
    faults, _ = judged(audit.facts, rulebook or rules(), accepts, metric=is_metric(audit.plan))
    return faults


def audit_text(text: str, path: str = "<text>") -> Audit:
    """Audit the text of a plan."""
    return audit_source(Source(text, path))


def rules() -> Rulebook:
    """The rulebook, read and checked once a process."""
    if not _books:
        _books.append(load_rulebook(TABLES))
    return _books[0]


_books: list[Rulebook] = []


def _acceptances(plan: Plan, piece: Piece) -> list[Acceptance]:
    return [_acceptance(accept, piece) for accept in plan.accepts]


def _acceptance(accept: Accept, piece: Piece) -> Acceptance:
    """An `accept` entry with every piece its name stands for, so that it covers findings about any of them."""
    if accept.on is None:
        return Acceptance(accept.rule.text, "", frozenset(), accept.reason, accept.span)
    on = str(accept.on)
    named = [part.name for part in naming_of(piece).parts_named(accept.on)]
    return Acceptance(accept.rule.text, on, frozenset((on, *named)), accept.reason, accept.span)
