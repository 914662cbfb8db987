"""The audit of one plan: the steps in order, each a function of what the one before gave.

text -> read -> Plan -> build -> Piece -> observe -> Facts -> judge -> Verdict
"""

from typing import NamedTuple

import planlint.trade.for_rules  # noqa: F401 (registers what rules may call, before the rulebook is read)
from planlint.build.build import build
from planlint.build.piece import Piece
from planlint.judge.engine import judge
from planlint.judge.finding import Verdict
from planlint.judge.rulebook import Rulebook, load_rulebook
from planlint.observe.observe import TABLES, observe
from planlint.read.plan import Plan
from planlint.read.reader import read
from planlint.source import Source


class Audit(NamedTuple):
    """What one plan's audit found, with what each step made on the way."""

    source: Source
    plan: Plan
    piece: Piece
    verdict: Verdict
    rulebook: Rulebook


def audit_source(source: Source, rulebook: Rulebook | None = None) -> Audit:
    """Audit a plan that has been read from a file or from anywhere else. Never raises on a user's mistake."""
    book = load_rulebook(TABLES) if rulebook is None else rulebook
    plan, unread = read(source)
    piece = build(plan)
    facts = observe(piece, unread)
    return Audit(source, plan, piece, judge(facts, book, plan.accepts), book)


def audit_text(text: str, path: str = "<text>") -> Audit:
    """Audit the text of a plan."""
    return audit_source(Source(text, path))
