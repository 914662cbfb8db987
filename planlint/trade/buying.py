"""How many to buy of what the steps use, board measure, and what one person lifts. Lengths mm, masses kg."""

from __future__ import annotations

import math

from planlint.trade.boards import board_feet
from planlint.trade.carrying import moisture_when_carried
from planlint.trade.lengths import CLOSE
from planlint.trade.lumber import dressed, next_size, nominal, quarters
from planlint.trade.movement import as_bought
from planlint.trade.tables import rows


def enough(used: int, what: str) -> int:
    """How many to buy where `used` are used: screws, nails, pins and plugs with a spare, else just as many.

    `what` as in `FastenerKind.what`, or "plug". Common practice, no source.
    """
    row = rows("buying", "spare").get(what)
    if row is None or not used:
        return used
    pack = int(row["pack"])
    return int(math.ceil(round(used * (1 + row["share"]) / pack, 9)) * pack)


def stands(number: int, used: int, what: str) -> bool:
    """Whether a list that buys `number` may stay as it is: no fewer than are used, and not far too many."""
    row = rows("buying", "spare").get(what)
    over = 0 if row is None else int(row["pack"] * row["packs_over"])
    return used <= number <= max(used, enough(used, what)) + over


def board_measure(thickness: float, width: float, length: float) -> float:
    """Board feet of a nominal size; what is thinner than 1 in counts as 1 in. Source: PS 20, from memory."""
    least: float = rows("buying", "board_measure")["board-foot"]["least"]
    return board_feet(max(thickness, least), width, length)


def sold_as(thickness: float, width: float, hardwood: bool) -> str | None:
    """The nominal size that a dressed board is sold by; hardwood by the quarter it is planed from. None: none."""
    name = next_size(thickness, width, hardwood)
    if name is None or hardwood:
        return name
    planed = dressed(name)
    exact = planed is not None and max(planed.thickness - thickness, planed.width - width) <= CLOSE
    return name if exact else None


def nominal_of(thickness: float, width: float, hardwood: bool) -> tuple[float, float]:
    """The nominal size that a dressed one is sold by: 3/4 x 5 1/2 in is 1 x 6, of hardwood 4/4 by its width.

    Softwood of no such size counts as it measures.
    """
    name = sold_as(thickness, width, hardwood)
    if name is not None and hardwood:
        return quarters()[name].rough, width
    size = None if name is None else nominal(name)
    return (thickness, width) if size is None else (size.thickness, size.width)


def planing() -> tuple[float, str]:
    """What planing takes off rough softwood, and how sure that is. Source: PS 20, rough-size clause."""
    row = rows("lumber", "allowances")["rough-softwood"]
    return float(row["amount"]), str(row["confidence"])


def moisture_when_bought(kind: str, treated: bool) -> float:
    """The moisture that wood is loaded at, percent: treated, softwood from the yard, else dry."""
    if treated or kind != "softwood":
        return moisture_when_carried(treated)
    return as_bought("construction-lumber")


def one_lifts() -> float:
    """The most for one person to lift (from memory)."""
    found: float = rows("buying", "lifting")["one-person"]["most"]
    return found


def caution(name: str) -> str:
    """A caution's words, with the names of what they are filled with in braces."""
    return str(rows("buying", "cautions")[name]["says"])
