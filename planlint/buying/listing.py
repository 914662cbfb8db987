"""What to buy for the plan as it should be, beside what its own list says."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.build.piece import Piece
from planlint.buying.fastenings import fastenings
from planlint.buying.finish import finish_group, finish_not_known, glue_group
from planlint.buying.own import OwnList
from planlint.buying.plugs import plugs, rods
from planlint.buying.shopping import Group, NotKnown, Shopping, Total
from planlint.buying.totals import board_feet, finished_area, load_weight, price, timber
from planlint.buying.wood import as_bought, wood
from planlint.observe.circumstances import is_metric
from planlint.observe.used import uses
from planlint.sawing.layout import Layout
from planlint.sawing.sawing import layout as laid_out
from planlint.trade.buying import caution


def shopping(audit: Audit, own: Audit) -> Shopping:
    """The list for `audit`, the plan as it should be; `own` is the plan as written, whose list stands beside it."""
    return shopping_for(audit, own, laid_out(audit))


def shopping_for(audit: Audit, own: Audit, layout: Layout) -> Shopping:
    """The same with a cutting layout that is there already."""
    piece, plan = audit.piece, audit.plan
    own_list = OwnList(audit, own)
    used = uses(piece)
    round_wood = rods(piece, used, own_list, layout)
    boards, unheld = wood(layout, plan, own_list, round_wood)
    fastened = fastenings(piece, used, own_list)
    pins = [one.line for one in fastened if one.what == "pin"]
    area = finished_area(piece)
    groups = [
        boards,
        Group(
            "hardware",
            "Screws and other hardware",
            tuple([one.line for one in fastened if one.what != "pin"]),
        ),
        Group("plugs", "Plugs and dowels", (*plugs(piece, used, own_list), *pins, *round_wood.lines)),
        glue_group(piece, own_list),
        finish_group(piece, area.amount, own_list),
    ]
    kept = tuple([group for group in groups if group.lines])
    return Shopping(
        path=own.source.path,
        title=plan.heading.title,
        units=plan.heading.units,
        groups=kept,
        totals=_totals(as_bought(layout, plan), area, kept, piece),
        not_known=(*_not_written(piece), *unheld, *finish_not_known(piece)),
    )


def _totals(layout: Layout, area: Total, groups: tuple[Group, ...], piece: Piece) -> tuple[Total, ...]:
    measured = timber(layout) if is_metric(piece.plan) else board_feet(layout)
    found = [measured, load_weight(layout, piece.plan.heading.units), area, price(groups)]
    return tuple([one for one in found if one is not None])


def _not_written(piece: Piece) -> list[NotKnown]:
    """Whole sections that the plan does not have, and what nobody can tell without them."""
    plan = piece.plan
    found = []
    if not plan.parts:
        found.append(
            NotKnown(
                "what wood it takes: the plan has no cut list that can be read",
                "a parts section: each part and its size",
            )
        )
    if not plan.steps:
        found.append(
            NotKnown(
                "what screws and glue it takes: the plan has no steps that can be read",
                "a step section: what joins what",
            )
        )
    if plan.heading.fixed_to_wall is not None:
        found.append(NotKnown(caution("wall"), ""))
    if plan.parts and not piece.parts:
        found.append(
            NotKnown(
                "what area is finished or glued: the plan does not place its parts",
                "a place section: where each part goes",
            )
        )
    return found
