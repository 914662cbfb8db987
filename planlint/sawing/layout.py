"""Which boards a plan takes and what is cut from each: what the list to buy and the cutting layout both show."""

from __future__ import annotations

from typing import NamedTuple

from planlint.cutting import CutBoard
from planlint.read.plan import Purchase


class Boards(NamedTuple):
    """Boards (sheets, panels, rods) of one size and wood, and what is cut from each. Lengths mm.

    `own` is how many the plan's list has of this line (0: the plan does not buy it, `purchase` is None then).
    `number` is how many to buy, and the length of `cut`. `proved` means no way of cutting takes fewer boards;
    where several lengths of one section are bought together it is said of all of them. `why` says, where there is no
    layout, why not (a size nobody knows, a piece no board holds).
    """

    words: str  # as the plan's list writes it: "2x4 @ 96", "sheet 3/4 x 48 x 96"
    kind: str  # as Purchase.kind
    purchase: Purchase | None
    thickness: float  # as it comes to the saw, planed
    width: float
    length: float
    rough: tuple[float, float] | None  # thickness and width before planing
    wood: str | None
    treated: bool
    own: int
    number: int
    least: int | None  # never fewer than this
    proved: bool
    cut: tuple[CutBoard, ...]
    why: str


class Layout(NamedTuple):
    """All the wood of a plan: its boards, with the kerf they are cut with (mm).

    `unheld` are cut-list entries that none of the boards can yield, each with the reason.
    """

    boards: tuple[Boards, ...]
    kerf: float
    unheld: tuple[tuple[str, str], ...]
