"""What a plan says, as it was written: the output of the read step.

Every object carries the `Span` of its words. Lengths are mm, angles degrees, masses kg, forces N,
moisture percent; the unit in which a value was written stays beside it. Names are still words here:
the build step finds what they stand for.

Records are NamedTuples: forty dataclasses would cost 50 ms at every start (measured), these cost 7
(with real annotations: quoted ones are compiled one by one). What is filled line by line is a plain class.
"""

from typing import Literal, NamedTuple, Union

from planlint.source import Span

Side = Literal["left", "right", "front", "back", "bottom", "top"]
Direction = Literal["left-right", "front-back", "up"]
Dimension = Literal["length", "angle", "mass", "force", "moisture", "number"]


class Quantity(NamedTuple):
    """A value and the unit it is written in, by its name in units.txt (`in`, `deg`, `points`; "" for none).

    A bare length has the plan's unit, or that of the last number of its list.
    """

    value: float
    unit: str
    dimension: Dimension
    span: Span


class Word(NamedTuple):
    """A name or keyword as it stands in the text."""

    text: str
    span: Span


class Ref(NamedTuple):
    """`leg`, `slat.2`, `leg-f of left-end`: `of` is the sub-assembly that holds it."""

    name: str
    number: int | None
    of: Union["Ref", None]
    span: Span

    def __str__(self) -> str:
        name, number, of, _ = self
        own = name if number is None else f"{name}.{number}"
        return own if of is None else f"{own} of {of}"


# --- expressions: sums of lengths, sides and middles ---------------------------------------------


class SideOf(NamedTuple):
    """`front of leg-fl`; in an entry about an assembly, `SIDE` alone has no ref."""

    side: Side
    ref: Ref
    span: Span


class MiddleOf(NamedTuple):
    """`middle left-right of post`."""

    direction: Direction
    ref: Ref
    span: Span


class Floor(NamedTuple):
    """`floor`: the level 0."""

    span: Span


class Term(NamedTuple):
    """One signed term of an expression; `sign` is +1 or -1."""

    sign: int
    of: Union[Quantity, SideOf, MiddleOf, Floor]


class Expression(NamedTuple):
    """A sum of terms, in mm along the direction of the clause it stands in."""

    terms: tuple[Term, ...]
    span: Span


# --- plan ----------------------------------------------------------------------------------------


class Heading:
    """The `plan` section. A value that it does not state is None (the defaults are trade, not notation)."""

    __slots__ = (
        "centres", "fixed_to_wall", "kerf", "moisture", "piece", "pilots_everywhere", "seen", "setting", "title",
        "title_span", "treated", "units", "units_span", "users", "wood",
    )  # fmt: skip

    def __init__(self, units: str = "in") -> None:
        self.title = ""
        self.title_span = Span(0, 0)
        self.units = units
        self.units_span: Span | None = None
        self.piece: Word | None = None
        self.setting: Word | None = None
        self.wood: Word | None = None
        self.treated = False
        self.seen: tuple[Word, ...] | None = None
        self.users: tuple[Word, ...] = ()
        self.moisture: tuple[Quantity, Quantity] | None = None
        self.kerf: Quantity | None = None
        self.centres: dict[str, Expression] = {}  # direction -> where `mirrored` turns about
        self.pilots_everywhere: Span | None = None
        self.fixed_to_wall: Span | None = None


# --- stock: what wood is -------------------------------------------------------------------------


class Nominal(NamedTuple):
    """`2x4`, `5/4x6` as written: the trade tables know its dressed size."""

    name: str
    span: Span


class Measured(NamedTuple):
    """`3/4 x 11 1/4`: thickness x width as the plan measures them."""

    thickness: Quantity
    width: Quantity
    span: Span


class Round(NamedTuple):
    """`1 in round`."""

    diameter: Quantity
    span: Span


class PanelOf(NamedTuple):
    """`panel [28 x 39 1/2] from 4 top-board edge-glued`: width x length when trimmed."""

    boards: int
    board: Ref
    edge_glued: bool
    width: Quantity | None
    length: Quantity | None
    span: Span


Stock = Union[Nominal, Measured, Round, PanelOf]


# --- buy -----------------------------------------------------------------------------------------


class FastenerSize(NamedTuple):
    """`#10 x 4 in` (gauge, length), `M10 x 110`, `5 x 70`, `1/4 x 3 in` (diameter, length), `2 in` (length).

    A bare `5 x 70` is mm in every plan; a diameter below 1 is in the plan's units.
    """

    gauge: int | None
    diameter: Quantity | None
    length: Quantity | None
    span: Span


class Purchase(NamedTuple):
    """One entry of `buy`.

    `kind` says what it is: "board", "rough", "sheet", "panel" (wood: `stock` and, for sheets, `length`
    x `width`), "fastener" (noun and size), "rod" (dowel-rod: diameter in `stock` as Round, `length`),
    "glue", or "hardware" (any other noun, with the numbers as written in `size`).
    """

    kind: Literal["board", "rough", "sheet", "panel", "fastener", "rod", "glue", "hardware"]
    number: int
    number_span: Span
    noun: Word
    stock: Stock | None
    length: Quantity | None
    size: FastenerSize | None
    wood: Word | None
    treated: bool
    finish: Word | None
    waterproof: bool
    price: float | None
    span: Span


# --- parts: the cut list -------------------------------------------------------------------------


class MitredEnds(NamedTuple):
    """`ends mitred 12 parallel`, `ends mitred 35 and 55`: degrees off square as the cut list prints them."""

    angles: tuple[Quantity, ...]
    parallel: bool
    span: Span


class CutEntry(NamedTuple):
    """One entry of `parts`. `length` None with `fit` True means cut to the space that `between` leaves."""

    name: str
    name_span: Span
    pieces: int
    pieces_span: Span
    stock: Stock
    length: Quantity | None
    fit: bool
    length_measure: Literal["over all", "long to short", "short to short"]
    wood: Word | None
    treated: bool
    ripped_from: Stock | None
    runs: Word | None
    face: Word | None
    mitred: MitredEnds | None
    shaped: bool
    grain_across: bool
    span: Span


# --- place ---------------------------------------------------------------------------------------


class Runs(NamedTuple):
    direction: Direction
    span: Span


class Faces(NamedTuple):
    side: Side
    span: Span


class At(NamedTuple):
    """`top at 17`; `front of post-l at 17`: `held` is the part of the sub-assembly that holds it."""

    side: Side
    held: Ref | None
    where: Expression
    span: Span


class MiddleAt(NamedTuple):
    """`middle up at 9`; `centred up on rail` reads as the middle of rail."""

    direction: Direction
    held: Ref | None
    where: Expression
    span: Span


class PartFace(NamedTuple):
    """In `between F and G`: a part alone means its face that looks at this one."""

    ref: Ref
    span: Span


Face = Union[PartFace, SideOf, Floor]


class Between(NamedTuple):
    first: Face
    second: Face
    span: Span


class Turned(NamedTuple):
    """`leans 12 toward back`, `rises 45 toward back`, `turns 10 toward left`."""

    how: Literal["leans", "rises", "turns"]
    angle: Quantity
    toward: Side
    span: Span


class EndCut(NamedTuple):
    """`bottom cut level`, `ends cut plumb`, `left cut 15 long at top`."""

    which: Literal["left", "right", "front", "back", "bottom", "top", "ends"]
    how: Literal["level", "plumb", "angle"]
    angle: Quantity | None
    long_at: Side | None
    span: Span


class Tapered(NamedTuple):
    """`left tapered 3/4 at bottom [from 4 below top]`: that side planed to a line."""

    side: Side
    amount: Quantity
    at: Side
    start: Quantity | None
    start_below: Side | None
    span: Span


class Row(NamedTuple):
    """`row of N D from E to E` (expressions) / `between F and G` (faces) / `gap L`."""

    number: int
    number_span: Span
    direction: Direction
    how: Literal["from", "between", "gap"]
    first: Union[Expression, Face, None]
    last: Union[Expression, Face, None]
    gap: Quantity | None
    span: Span


class Mirror(NamedTuple):
    """`mirrored left-right about 24`; without `about`, the plan's centre."""

    direction: Direction
    about: Expression | None
    span: Span


class Like(NamedTuple):
    ref: Ref
    span: Span


Clause = Union[Runs, Faces, At, MiddleAt, Between, Turned, EndCut, Tapered, Row, Like]


class Placement(NamedTuple):
    """One entry of `place`: the part or sub-assembly, the names its copies take, and the clauses in order."""

    subject: Ref
    names: tuple[Word, ...]
    clauses: tuple[Clause, ...]
    mirrors: tuple[Mirror, ...]
    assembly: Word | None  # the sub-assembly whose bench this is on (`place in NAME`)
    span: Span


# --- steps ---------------------------------------------------------------------------------------


class Hole(NamedTuple):
    """`counterbored 1 x 1 in`: diameter x depth."""

    diameter: Quantity
    depth: Quantity
    span: Span


class Spots(NamedTuple):
    """`at 1 and 3 from top`, `at 3/4 from each end`: `side` is a Side or "each end"."""

    distances: tuple[Quantity, ...]
    side: str
    span: Span


class Fastening(NamedTuple):
    """One fastening of a join.

    `kind`: "counted" (screws, nails, bolts, dowels, buttons, any noun of `buy`), "glue", "housed",
    "notched", "half-lap", "mortise-and-tenon", "loose" or "unsaid".
    """

    kind: Literal["counted", "glue", "housed", "notched", "half-lap", "mortise-and-tenon", "loose", "unsaid"]
    noun: Word
    number: int = 1
    number_span: Span | None = None
    size: FastenerSize | None = None
    from_: Word | None = None  # a Side, "inside" or "outside"
    counterbore: Hole | None = None
    plugged: Span | None = None
    piloted: Quantity | None = None
    slotted: Quantity | None = None
    finish: Word | None = None
    spots: Spots | None = None
    through: Quantity | None = None
    waterproof: bool = False
    middle: Quantity | None = None  # glue only on the middle L
    depth: Quantity | None = None  # housed L deep
    tenon: tuple[Quantity, Quantity, Quantity] | None = None  # thickness, width, length
    gap: tuple[Quantity, Quantity] | None = None  # loose gap L to L
    span: Span = Span(0, 0)


class Join(NamedTuple):
    """`A to B: FASTENING and FASTENING`; `step` is its place in the order of work, from 1."""

    first: Ref
    second: Ref
    fastenings: tuple[Fastening, ...]
    step: int
    span: Span


class Step(NamedTuple):
    title: str
    number: int
    assembly: Word | None
    joins: tuple[Join, ...]
    span: Span


# --- cover, dimensions, load, carry, accept -------------------------------------------------------


class Cover(NamedTuple):
    """What slats or boards must fill: placed (`first` to `last`) or by count (`slats` across `across`)."""

    name: Word
    slat: Ref
    first: Expression | None
    last: Expression | None
    slats: int | None
    across: Quantity | None
    least: Quantity | None
    most: Quantity | None
    span: Span


class Overall(NamedTuple):
    """`overall: 48 x 15 1/2 x 18`: left-right x front-back x up."""

    sizes: tuple[Quantity, Quantity, Quantity]
    span: Span


class Distance(NamedTuple):
    """`E to E [at SIDE | at L up] = L`."""

    first: Expression
    second: Expression
    at: Union[Side, Quantity, None]
    stated: Quantity
    span: Span


class AngleOf(NamedTuple):
    """`leans of post-l = 12`."""

    how: Literal["leans", "rises", "turns"]
    ref: Ref
    stated: Quantity
    span: Span


StatedDimension = Union[Overall, Distance, AngleOf]


class Load(NamedTuple):
    """`seat: 2 people`, `shelf: 40 kg spread`, `top: 100 lb at middle`: `people`, or a mass or force."""

    on: Ref
    people: int | None
    amount: Quantity | None
    how: Literal["spread", "middle", ""]
    span: Span


class Carry:
    """The `carry` section: how the piece will be moved."""

    __slots__ = ("doorway", "lift_by", "load_space", "spans")

    def __init__(self) -> None:
        self.lift_by: int | None = None
        self.doorway: tuple[Quantity, Quantity] | None = None
        self.load_space: tuple[Quantity, Quantity, Quantity] | None = None
        self.spans: dict[str, Span] = {}  # "lift", "doorway", "load-space"


class Accept(NamedTuple):
    """`hole-in-view on back-rail because "stands against the shed"`."""

    rule: Word
    on: Ref | None
    reason: str
    span: Span


# --- the whole ------------------------------------------------------------------------------------


class Trouble(NamedTuple):
    """Something the read or build step could not take as written.

    `kind` is the id of the reading or fit rule that words it (`unreadable`, `unknown-name`, …); `values` are
    the facts for its text (words, numbers in base units). It is data: the rule file has severity and wording.
    """

    kind: str
    span: Span
    values: dict[str, object]


class Plan:
    """All that a plan says."""

    __slots__ = (
        "accepts", "carry", "covers", "dimensions", "heading", "loads", "parts", "placements", "purchases",
        "sections", "steps", "unread_names",
    )  # fmt: skip

    def __init__(self, heading: Heading | None = None) -> None:
        self.heading = heading or Heading()
        self.purchases: list[Purchase] = []
        self.parts: list[CutEntry] = []
        self.placements: list[Placement] = []
        self.steps: list[Step] = []
        self.covers: list[Cover] = []
        self.dimensions: list[StatedDimension] = []
        self.loads: list[Load] = []
        self.carry = Carry()
        self.accepts: list[Accept] = []
        self.sections: dict[str, Span] = {}  # each section's first header
        # Names that stand on an unreadable line: a later complaint about one of them would only be its echo.
        self.unread_names: set[str] = set()
