"""The lines of `place`: where each part goes."""

from __future__ import annotations

from planlint.read.amounts import angle, size
from planlint.read.buying import line_span
from planlint.read.expressions import Children, Rules, direction, over, side, word
from planlint.read.plan import (
    At,
    Between,
    EndCut,
    Expression,
    Faces,
    Like,
    MiddleAt,
    MiddleOf,
    Mirror,
    PartFace,
    Placement,
    Ref,
    Row,
    Runs,
    Tapered,
    Term,
    Turned,
    Word,
)
from planlint.source import Span


def _placement(subject: Ref, names: list[Word], clauses: Children, span: Span) -> Placement:
    mirrors: list[Mirror] = []
    others = []
    for clause in clauses:
        if type(clause) is list:
            mirrors += clause
        else:
            others.append(clause)
    return Placement(subject, tuple(names), tuple(others), tuple(mirrors), None, span)


def _placed(children: Children) -> Placement:
    subject, colon, clauses = children
    return _placement(subject, [], clauses, line_span(colon))


def _placed_as(children: Children) -> Placement:
    subject, as_, names, _, clauses = children
    return _placement(subject, names, clauses, line_span(as_))


def _middle_at(children: Children) -> MiddleAt:
    _, along, _, held, _, where = children
    return MiddleAt(direction(along), held, where, over(children))


def _centred(children: Children) -> MiddleAt:
    """`centred D on NAME`, as `middle D at middle D of NAME`."""
    along = direction(children[1])
    on: Ref = children[3]
    where = Expression((Term(1, MiddleOf(along, on, on.span)),), on.span)
    return MiddleAt(along, None, where, over(children))


def _turned(children: Children) -> Turned:
    how, amount, _, toward = children
    return Turned(how.text, angle(amount), side(toward), over(children))


def _cut_aslant(children: Children) -> EndCut:
    which, _, amount, _, _, long_at = children
    longer = None if long_at is None else side(long_at)
    return EndCut(which.text, "angle", angle(amount), longer, over(children))


def _tapered(children: Children) -> Tapered:
    which, _, amount, _, at, _, start, _, below = children
    begins = None if start is None else size(start)
    return Tapered(
        side(which), size(amount), side(at), begins, None if below is None else side(below), over(children)
    )


def _row(children: Children) -> Row:
    _, _, count, along, how, first, _, last = children
    span = Span(count.start, count.end)
    return Row(int(count.text), span, direction(along), how.text, first, last, None, over(children))


def _row_gap(children: Children) -> Row:
    _, _, count, along, _, gap = children
    span = Span(count.start, count.end)
    return Row(int(count.text), span, direction(along), "gap", None, None, size(gap), over(children))


RULES: Rules = {
    "placed": _placed,
    "placed_as": _placed_as,
    "word": lambda c: word(c[0]),
    "runs": lambda c: Runs(direction(c[1]), over(c)),
    "faces": lambda c: Faces(side(c[1]), over(c)),
    "at": lambda c: At(side(c[0]), None, c[2], over(c)),
    "held_at": lambda c: At(side(c[0]), c[2], c[4], over(c)),
    "middle_at": _middle_at,
    "centred": _centred,
    "between": lambda c: Between(c[1], c[3], over(c)),
    "turned": _turned,
    "cut_flat": lambda c: EndCut(c[0].text, c[2].text, None, None, over(c)),
    "cut_aslant": _cut_aslant,
    "tapered": _tapered,
    "part_face": lambda c: PartFace(c[0], c[0].span),
    "row": _row,
    "row_gap": _row_gap,
    "mirrored": lambda c: c[1],
    "mirror": lambda c: Mirror(direction(c[0]), c[2], over(c)),
    "like": lambda c: Like(c[1], over(c)),
}
