"""Which boards a plan takes and what is cut from each: what the list to buy and the cutting layout both show."""

from __future__ import annotations

from typing import NamedTuple

from planlint.cutting import CutBoard
from planlint.read.plan import Purchase


class Boards(NamedTuple):
    """Boards (sheets, panels, rods) of one size and wood, and what is cut from each. Lengths mm.

    `own` is how many the plan's list has of this line (0: the plan does not buy it, `purchase` is None then).
    `number` is how many to buy, and the length of `cut`. `proved` means that no way of cutting these pieces from
    boards of this size takes fewer (of the boards on the list; where that has too few, however many there were);
    where several lengths of one section are bought together it is said of all of them, and `least` is None.
    `why` says, where there is no layout, why not (a size nobody knows, a piece no board holds); of boards that the
    plan does not buy, why they are needed.
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
    uncounted: bool = False  # there are pieces of unknown length that it may take more for


class End(NamedTuple):
    """How an end is cut: degrees off square on the wide face (`mitre`), and how far the blade tilts (`bevel`)."""

    mitre: float
    bevel: float


class Entry(NamedTuple):
    """What the saw has to know of a cut-list entry besides its place on a board. Lengths mm.

    `ends`: its two ends where they are not square, else None; `parallel`: the two run the same way. `built`: the
    ends were measured on the part as it stands; else they are as the cut list has them.
    """

    name: str
    thickness: float
    width: float
    diameter: float | None
    shaped: bool
    ends: tuple[End, End] | None
    parallel: bool
    built: bool
    others: bool  # its copies do not all have these ends
    thinned: float | None = None  # the thickness to plane or resaw it to, where its board is thicker
    stubby: bool = False  # that must be done while it is longer: it is too short for a planer by itself
    listed: tuple[
        float, ...
    ] = ()  # degrees off square that the cut list has, where it has others than `ends`


class Panel(NamedTuple):
    """A panel made up of pieces when they are cut: `number` of them, each of so many boards. Lengths mm.

    `width` and `length` are what it is then cut to, where the cut list says so.
    """

    name: str
    number: int
    boards: int
    board: str
    glued: bool
    width: float | None
    length: float | None


class Layout(NamedTuple):
    """All the wood of a plan: its boards, with the kerf they are cut with (mm).

    `unheld` are cut-list entries that none of the boards can yield, each with the reason. `entries` are those that
    are cut, by name. `assumed`: the plan does not say the kerf; it is the usual one.
    """

    boards: tuple[Boards, ...]
    kerf: float
    unheld: tuple[tuple[str, str], ...]
    entries: tuple[Entry, ...] = ()
    assumed: bool = False
    panels: tuple[Panel, ...] = ()
