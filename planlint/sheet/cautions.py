"""The cautions that fit one plan. What is so is worked out here; the words stand in rules/tables/cautions.yaml."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.judge.finding import Value
from planlint.observe.anchoring import STANDING_CASE
from planlint.observe.carrying import CARRIED
from planlint.observe.circumstances import for_children, outdoors
from planlint.read.plan import Fastening, Measured, Round
from planlint.sheet.boards_by_weight import heaviest_bought
from planlint.show.quantities import listed, scale_of, word
from planlint.trade import screws
from planlint.trade.cautions import caution_rows, is_dusty, limit
from planlint.trade.woods import wood

Words = dict[str, str]  # what fills the braces of a caution
Asked = Callable[[Audit], "Words | None"]

_SAME = 1.0  # mm: a width nearer to a board's than this is not ripped
_CUT = ("housed", "notched", "half-lap", "mortise-and-tenon")


class Caution(NamedTuple):
    """One caution: `name` is its row in the table ("lifting"), `title` a few words, `says` short sentences with
    the plan's own numbers in them. `source` and `confidence` are the table's.
    """

    name: str
    title: str
    says: tuple[str, ...]
    source: str
    confidence: str


def cautions(audit: Audit) -> tuple[Caution, ...]:
    """What to take care of with this plan, always in the same order; what does not fit it is left out."""
    found: list[Caution] = []
    for row in caution_rows():
        words = ASKED[row.name](audit)
        if words is not None:
            says = tuple([_filled(text, words) for text in row.says])
            found.append(Caution(row.name, _filled(row.title, words), says, row.source, row.confidence))
    return tuple(found)


def _filled(text: str, words: Words) -> str:
    """The sentence with its braces filled; what is filled in is not looked at again."""
    pieces = text.split("{")
    return pieces[0] + "".join(
        [words[name] + rest for name, _, rest in (piece.partition("}") for piece in pieces[1:])]
    )


def _length(x: float, audit: Audit) -> str:
    return word(Value(x, "length"), audit.plan.heading.units)


def _mass(x: float, audit: Audit) -> str:
    """In whole pounds or kg: nobody weighs a table to the tenth of a pound."""
    units = audit.plan.heading.units
    one = scale_of("mass", units).factor
    return word(Value(round(x / one) * one, "mass"), units)


def _fastenings(audit: Audit) -> list[Fastening]:
    return [one for step in audit.plan.steps for join in step.joins for one in join.fastenings]


def _when(fits: bool) -> Words | None:
    return {} if fits else None


# --- sawing, drilling, cutting -----------------------------------------------------------------------


def _narrow_cuts(audit: Audit) -> Words | None:
    bought = [one.stock.width.value for one in audit.plan.purchases if isinstance(one.stock, Measured)]
    narrow = [
        (one.stock.width, one.entry.name)
        for one in audit.piece.listed
        if one.stock is not None
        and not isinstance(one.entry.stock, Round)
        and (
            one.entry.ripped_from is not None
            or (
                isinstance(one.entry.stock, Measured)
                and all(abs(one.stock.width - each) > _SAME for each in bought)
            )
        )
    ]
    width, part = min(narrow, default=(math.inf, ""))
    if width >= limit("narrow-cuts", "narrow"):
        return None
    return {"narrow": _length(width, audit), "part": part}


def _short_cuts(audit: Audit) -> Words | None:
    lengths = [(one.size.length, one.entry.name) for one in audit.piece.listed if one.size is not None]
    length, part = min(lengths, default=(math.inf, ""))
    if length >= limit("short-cuts", "short"):
        return None
    return {"short": _length(length, audit), "part": part}


def _large_bits(audit: Audit) -> Words | None:
    bores = [one.counterbore.diameter.value for one in _fastenings(audit) if one.counterbore is not None]
    largest = max(bores, default=0.0)
    return {"bore": _length(largest, audit)} if largest >= limit("large-bits", "bore") else None


def _whats(audit: Audit) -> set[str]:
    kinds = [screws.kind(one.noun.text) for one in _fastenings(audit) if one.kind == "counted"]
    return {kind.what for kind in kinds if kind is not None}


def _driving(audit: Audit) -> Words | None:
    return _when(bool(_whats(audit) & {"screw", "bolt", "plate"}))


def _nailing(audit: Audit) -> Words | None:
    return _when("nail" in _whats(audit))


def _edge_tools(audit: Audit) -> Words | None:
    return _when(any(one.kind in _CUT for one in _fastenings(audit)))


# --- what the wood, the glue and the finish do to people ----------------------------------------------


def _woods(audit: Audit) -> list[str]:
    """The woods of the cut list, by the names the tables have for them."""
    named = [
        one.stock.wood for one in audit.piece.listed if one.stock is not None and one.stock.wood is not None
    ]
    known = [wood(name) for name in dict.fromkeys(named)]
    return list(dict.fromkeys([one.name for one in known if one is not None]))


def _dust(audit: Audit) -> Words | None:
    return _when(bool(audit.plan.parts))


def _dust_woods(audit: Audit) -> Words | None:
    dusty = [name.replace("-", " ") for name in _woods(audit) if is_dusty(name)]
    return {"woods": listed(dusty)} if dusty else None


def _treated(audit: Audit) -> Words | None:
    return _when(any(one.stock is not None and one.stock.treated for one in audit.piece.listed))


def _sheet_dust(audit: Audit) -> Words | None:
    return _when(any(one.stock is not None and one.stock.sheet for one in audit.piece.listed))


def _glue(audit: Audit) -> Words | None:
    glued = any(one.kind == "glue" for one in _fastenings(audit))
    return _when(glued or any(one.kind == "glue" for one in audit.plan.purchases))


def _oily_rags(audit: Audit) -> Words | None:
    oiled = any("oil" in one.noun.text.split("-") for one in audit.plan.purchases)
    return _when(oiled or (outdoors(audit.plan) is True and bool(audit.plan.parts)))


# --- the finished piece ------------------------------------------------------------------------------


def _lifting(audit: Audit) -> Words | None:
    most = limit("lifting", "most")
    carried = [
        (float(row.values["weight"]), str(row.values["name"]))
        for row in audit.facts.rows.get(CARRIED.name, ())
        if isinstance(row.values["weight"], (int, float))
    ]
    weight, name = max(carried, default=(0.0, ""))
    if weight <= most:
        return None
    return {
        "name": name[:1].upper() + name[1:],
        "weight": _mass(weight, audit),
        "most": _mass(most, audit),
        "needed": str(math.ceil(weight / most)),
    }


def _lifting_boards(audit: Audit) -> Words | None:
    weight, board = heaviest_bought(audit.plan)
    if weight <= limit("lifting", "most"):
        return None
    return {"weight": _mass(weight, audit), "board": board}


def _children(audit: Audit) -> Words | None:
    return _when(for_children(audit.plan))


def _tipping(audit: Audit) -> Words | None:
    return _tall(audit, fixed=False)


def _wall(audit: Audit) -> Words | None:
    return _tall(audit, fixed=True)


def _tall(audit: Audit, fixed: bool) -> Words | None:
    """The height and depth of a case that tips over if it is not fixed to the wall."""
    for row in audit.facts.rows.get(STANDING_CASE.name, ()):
        height, depth = row.values["height"], row.values["depth"]
        if (
            not isinstance(height, float)
            or not isinstance(depth, float)
            or bool(row.values["fixed"]) != fixed
        ):
            continue
        if height >= limit("tipping", "tall"):
            return {"height": _length(height, audit), "depth": _length(depth, audit)}
    return None


def _climbing(audit: Audit) -> Words | None:
    return _when(bool(audit.plan.loads))


ASKED: dict[str, Asked] = {
    "narrow-cuts": _narrow_cuts,
    "short-cuts": _short_cuts,
    "large-bits": _large_bits,
    "driving": _driving,
    "nailing": _nailing,
    "edge-tools": _edge_tools,
    "dust": _dust,
    "dust-woods": _dust_woods,
    "treated": _treated,
    "sheet-dust": _sheet_dust,
    "glue": _glue,
    "oily-rags": _oily_rags,
    "lifting": _lifting,
    "lifting-boards": _lifting_boards,
    "children": _children,
    "tipping": _tipping,
    "wall": _wall,
    "climbing": _climbing,
}
