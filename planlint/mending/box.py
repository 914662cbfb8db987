"""What else is taken from the same box: a length or a finish changed on the shopping list concerns every join that
buys there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from planlint.auditing import Audit
from planlint.judge.finding import Edit, Value
from planlint.mending.mended import Made
from planlint.observe.buying import could_be, hardware_of
from planlint.read.plan import FastenerSize, Fastening, Join, Plan, Purchase, Quantity, Word
from planlint.source import Span


def without_list(edits: Iterable[Edit], plan: Plan) -> list[Edit]:
    """The edits that leave the shopping list as it is."""
    listed = [one.span for one in plan.purchases]
    return [edit for edit in edits if not any(_within(edit.span, span) for span in listed)]


def whole_box(edits: list[Edit], plan: Plan) -> list[Edit]:
    """The edits, and what they do to a line of the shopping list done to all joins that buy by that line."""
    spans = {edit.span for edit in edits}
    more = [
        edit._replace(span=span)
        for purchase in hardware_of(plan)
        for edit in edits
        for span in _alike(edit, purchase, plan)
        if span not in spans
    ]
    return [*edits, *{edit.span: edit for edit in more}.values()]


def went_along(made: Made, before: Audit) -> list[Join]:
    """The joins of the plan as it was that a mend changed though no finding of its rule was about them."""
    alike = [one for one in before.verdict.findings if one.rule == made.finding.rule]
    at_fault = [span for one in (made.finding, *alike) for span in (one.span, *one.spans)]
    joins = [join for step in before.plan.steps for join in step.joins]
    return [
        join
        for join in joins
        if any(_within(change.span, join.span) for change in made.changes)
        and not any(_within(span, join.span) for span in at_fault)
    ]


def as_listed(edits: list[Edit], plan: Plan) -> list[Edit]:
    """The edits, with a new length made the nearest in which the shopping list has that screw."""
    lengths = {
        size.span: found
        for fastening in _fastenings(plan)
        if (size := _length_of(fastening.size)) and (found := _listed_lengths(fastening, plan))
    }
    return [
        edit._replace(value=_nearest(edit.value, lengths[edit.span]))
        if edit.value is not None and edit.span in lengths
        else edit
        for edit in edits
    ]


def _listed_lengths(fastening: Fastening, plan: Plan) -> list[float]:
    own = fastening.size
    assert own is not None
    return [
        long.value
        for purchase in hardware_of(plan)
        if (long := _length_of(purchase.size))
        and could_be(fastening._replace(size=own._replace(length=long)), purchase)
    ]


def _nearest(wanted: Value, lengths: list[float]) -> Value:
    wish = wanted.value
    assert isinstance(wish, (int, float))
    return wanted._replace(value=min(lengths, key=lambda one: (abs(one - wish), one)))


def _length_of(size: FastenerSize | None) -> Quantity | None:
    return None if size is None else size.length


def _alike(edit: Edit, purchase: Purchase, plan: Plan) -> Iterator[Span]:
    """The words of the joins that say what the edited words of this line say."""
    for fastening in _fastenings(plan):
        if could_be(fastening, purchase):
            for of_line, of_join in (
                (_length(purchase.size), _length(fastening.size)),
                (_finish(purchase.finish), _finish(fastening.finish)),
            ):
                if of_line == edit.span and of_join is not None:
                    yield of_join


def _fastenings(plan: Plan) -> Iterator[Fastening]:
    for step in plan.steps:
        for join in step.joins:
            yield from (one for one in join.fastenings if one.noun is not None)


def _length(size: FastenerSize | None) -> Span | None:
    return None if size is None or size.length is None else size.length.span


def _finish(finish: Word | None) -> Span | None:
    return None if finish is None else finish.span


def _within(one: Span, other: Span) -> bool:
    return other.start <= one.start and one.end <= other.end
