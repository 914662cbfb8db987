"""One piece of wood where it stands: its size, its stock, its solid."""

from typing import NamedTuple

from planlint.geometry.solid import Solid
from planlint.geometry.vector import Vec
from planlint.read.plan import CutEntry
from planlint.source import Span


class Size(NamedTuple):
    """A part as it is sawn: `length` with the grain unless `grain_across`; `diameter` for round stock."""

    length: float
    width: float
    thickness: float
    diameter: float | None = None


class Stock:
    """What a cut-list entry is made of, its words looked up in the trade tables."""

    __slots__ = (
        "diameter",
        "nominal",
        "panel",
        "sheet",
        "thickness",
        "treated",
        "width",
        "wood",
        "wood_known",
    )

    def __init__(
        self,
        thickness: float,
        width: float,
        diameter: float | None,
        nominal: str | None,
        wood: str | None,
        wood_known: bool,
        treated: bool,
        sheet: bool,
        panel: bool,
    ) -> None:
        self.thickness = thickness
        self.width = width
        self.diameter = diameter
        self.nominal = nominal  # "2x4" where it was written so
        self.wood = wood  # the wood's slug, known to the tables or not
        self.wood_known = wood_known
        self.treated = treated
        self.sheet = sheet  # plywood and the like: no grain movement, no end grain, but edges
        self.panel = panel  # glued up of boards


class Part:
    """One piece of wood where it stands.

    `along`, `across`, `through` are the unit axes of its length, width and thickness in the finished piece;
    `box` is the solid before its ends were cut, `solid` after. `grain` is the axis of the grain.
    """

    __slots__ = (
        "across", "along", "assembly", "box", "copy_of", "entry", "grain", "leaning", "name", "order",
        "size", "solid", "span", "step", "stock", "through",
    )  # fmt: skip

    def __init__(
        self,
        name: str,
        copy_of: str,
        entry: CutEntry,
        stock: Stock,
        size: Size,
        solid: Solid,
        box: Solid,
        axes: tuple[Vec, Vec, Vec],
        assembly: str | None,
        span: Span,
        order: int,
        leaning: bool,
    ) -> None:
        self.name = name  # in the plan's words: "leg-fl", "slat.2", "leg-f of left-end"
        self.copy_of = copy_of  # the cut-list name
        self.entry = entry
        self.stock = stock
        self.size = size
        self.solid = solid
        self.box = box
        self.along, self.across, self.through = axes
        self.grain = self.across if entry.grain_across else self.along
        self.assembly = assembly
        self.span = span
        self.order = order  # index in Piece.parts
        self.leaning = leaning
