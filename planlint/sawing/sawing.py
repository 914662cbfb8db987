"""The whole layout: which boards a plan takes, and which piece comes from which."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.observe.board_match import Match
from planlint.observe.board_supply import Saw
from planlint.observe.bought import bought_wood
from planlint.observe.circumstances import is_metric
from planlint.observe.wanted import wanted
from planlint.read.plan import CutEntry, Nominal, PanelOf, Plan
from planlint.sawing.ends import entries, thinned
from planlint.sawing.layout import Layout, Panel
from planlint.sawing.own import from_list
from planlint.sawing.sold import from_yard
from planlint.trade import lumber
from planlint.trade.joinery import reach


def layout(audit: Audit) -> Layout:
    """What is cut from the boards of the audited plan's list, and from boards bought besides.

    Of each section: the fewest of the plan's boards that yield its parts; where none of them do, what has to be
    added to them; where the list has nothing for a part, boards of a length that is sold. Nothing is guessed:
    entries of unknown size are `unheld`, with the reason. Never raises on a user's mistake.
    """
    piece, plan = audit.piece, audit.plan
    metric = is_metric(plan)
    kerf = plan.heading.kerf
    saw = Saw(kerf.value if kerf is not None else lumber.kerf(metric), reach(metric))
    bought, _ = bought_wood(piece)
    wants, unsized = wanted(piece)
    match = Match(wants, bought, saw.snug)
    boards, unheld = from_list(match, saw)
    lacking = [want for want, could in zip(wants, match.could, strict=True) if not could]
    lacks = match.lacks if bought else {}
    more, left = from_yard(lacking, lacks, saw, plan.heading.units, metric)
    sizeless = [(entry.name, _sizeless(entry)) for entry in unsized]
    reasons = (*unheld, *left, *sizeless)
    taken = (*boards, *more)
    return Layout(
        taken, saw.kerf, reasons, thinned(entries(piece, wants), taken), kerf is None, _panels(plan)
    )


def _panels(plan: Plan) -> tuple[Panel, ...]:
    """What is made up of the pieces that are cut."""
    return tuple(
        [
            Panel(
                entry.name,
                entry.pieces,
                entry.stock.boards,
                entry.stock.board.name,
                entry.stock.edge_glued,
                None if entry.stock.width is None else entry.stock.width.value,
                None if entry.stock.length is None else entry.stock.length.value,
            )
            for entry in plan.parts
            if isinstance(entry.stock, PanelOf)
        ]
    )


def _sizeless(entry: CutEntry) -> str:
    stock = entry.stock
    named = f"{stock.name} is in no table of sizes" if isinstance(stock, Nominal) else "its size is not known"
    return f"{named}; the plan needs a size that is sold, or its measures"
