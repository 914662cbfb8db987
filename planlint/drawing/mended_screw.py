"""A fastening as the plan has it, and as its finding's mend would have it."""

from __future__ import annotations

from typing import NamedTuple

from planlint.auditing import Audit
from planlint.build.build import build
from planlint.build.naming import naming_of
from planlint.build.piece import Driven, Piece
from planlint.drawing.faulty import Case
from planlint.drawing.hardware import Fastener
from planlint.drawing.marks import Numbered
from planlint.judge.finding import Edit, Mend
from planlint.judge.rule import Rule, columns_of
from planlint.observe.fastener_depth import depth_of
from planlint.observe.fastener_kind import diameter_of
from planlint.observe.fastener_tables import WRONG_SIDE
from planlint.observe.pilots import PILOT
from planlint.observe.wood import wood_of
from planlint.read.plan import Fastening
from planlint.read.reader import read
from planlint.show.quantities import word
from planlint.show.rewriting import edited
from planlint.source import Source
from planlint.trade import screws
from planlint.trade.shapes import pocket_bore


class Version(NamedTuple):
    """One state of a fastening: its piece, its line in space (`case`), and its own sizes."""

    change: str  # what the mend changes, in words; "" as written
    piece: Piece
    case: Case
    fastener: Fastener
    text: str | None = None  # the plan's text where it is not the audit's own


def versions(audit: Audit, one: Numbered, rule: Rule, case: Case | None) -> list[Version]:
    """As written and, where the mend changes what a section shows, as mended. Empty where nothing can be drawn."""
    mend = one.finding.mend
    if rule.about == WRONG_SIDE.name and mend is not None and mend.edits:
        turned = _built_anew(audit, one, mend)
        return [] if turned is None else [turned]
    if case is None:
        return []
    own = fastener_of(case.driven, audit.piece)
    if own is None:
        return []
    as_written = Version("", audit.piece, case, own)
    if mend is None:
        return [as_written]
    if rule.about == PILOT.name:
        now = _drilled(own, mend)
    else:
        now = changed(own, case.driven.fastening, mend) or _advised(own, mend, rule)
    if now is None or now == own:
        return [as_written]
    return [as_written, Version(change_of(mend, audit), audit.piece, case, now)]


def fastener_of(driven: Driven, piece: Piece) -> Fastener | None:
    """A placed fastener's own sizes; None where its kind, length or diameter is not known."""
    fastening, length = driven.fastening, driven.length
    kind = screws.kind(fastening.noun.text)
    if kind is None or length is None:
        return None
    diameter = diameter_of(fastening, kind, length)
    if diameter is None or diameter <= 0.0 or length <= 0.0:
        return None
    depth = depth_of(driven, wood_of(piece))
    bore = fastening.counterbore
    return Fastener(
        kind,
        diameter,
        length,
        driven.seat,
        bore.diameter.value if bore is not None else pocket_bore() if kind.pocketed else 0.0,
        fastening.plugged is not None,
        0.0 if fastening.piloted is None else fastening.piloted.value,
        wood_of(piece).end(driven.passages)[1] if depth is None else depth.through + depth.ahead,
    )


def change_of(mend: Mend, audit: Audit) -> str:
    """What a mend changes, with its new value."""
    if mend.change == "side":
        return f"driven from {mend.to.value}"
    return f"{mend.change} {word(mend.to, audit.plan.heading.units)}"


def _drilled(own: Fastener, mend: Mend) -> Fastener | None:
    """With the pilot hole that the mend names."""
    to = mend.to.value
    return own._replace(pilot=float(to)) if isinstance(to, (int, float)) else None


def changed(own: Fastener, fastening: Fastening, mend: Mend) -> Fastener | None:
    """The sizes after the mend's edits of the fastening's own words; None where none of them is such a size."""
    found: Fastener | None = None
    size, bore = fastening.size, fastening.counterbore
    for edit in mend.edits:
        value = None if edit.value is None else edit.value.value
        if not isinstance(value, (int, float)):
            continue
        now = found or own
        if size is not None and size.length is not None and edit.span == size.length.span:
            found = now._replace(length=float(value))
        elif bore is not None and edit.span == bore.depth.span:
            found = now._replace(seat=float(value))
        elif bore is not None and edit.span == bore.diameter.span:
            found = now._replace(bore=float(value))
    return found


def _advised(own: Fastener, mend: Mend, rule: Rule) -> Fastener | None:
    """The sizes after a mend that is advice: the rule says which of the fastener's own it is about."""
    to = mend.to.value
    recipe = next((each for each in rule.mends if each.change == mend.change and each.was is not None), None)
    if recipe is None or recipe.was is None or not isinstance(to, (int, float)):
        return None
    columns = columns_of(recipe.was[0])
    if columns == ("length",):
        return own._replace(length=float(to))
    if columns == ("counterbore_depth",):
        return own._replace(seat=float(to))
    return own._replace(bore=float(to)) if columns == ("counterbore_width",) else None


def _replaced(text: str, edit: Edit, start: int, words: str) -> str:
    return text[: edit.span.start - start] + words + text[edit.span.end - start :]


def _built_anew(audit: Audit, one: Numbered, mend: Mend) -> Version | None:
    """The piece built from the mended words: from another side a fastener goes another way."""
    text, shift = audit.source.text, 0
    flagged = one.finding.span.start
    for edit in sorted(mend.edits, key=lambda each: -each.span.start):
        words = edited(edit, audit.source, audit.plan.heading.units)
        text = _replaced(text, edit, 0, words)
        if edit.span.end <= flagged:
            shift += len(words) - (edit.span.end - edit.span.start)
    source = Source(text, audit.source.path)
    plan, _ = read(source)
    piece = build(plan)
    naming_of(piece)
    driven = next((each for each in piece.driven if each.fastening.span.start == flagged + shift), None)
    own = None if driven is None else fastener_of(driven, piece)
    if driven is None or own is None:
        return None
    return Version(change_of(mend, audit), piece, Case(one.number, driven), own, text)
