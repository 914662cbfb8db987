"""What the plan builds: the output of the build step. Lengths mm, world axes x right, y back, z up.

A part is one convex solid (its box, its ends cut, perhaps leaning). Where joints let two parts cut
into each other, both solids stay whole and the space they share is kept beside them, with the part
that keeps it. Whatever could not be built is missing with its reason: nothing is guessed.
"""

from typing import NamedTuple

# The parts belong to the piece: who asks for one asks for both.
from planlint.build.part import Part as Part
from planlint.build.part import Size as Size
from planlint.build.part import Stock as Stock
from planlint.geometry.meeting import Patch
from planlint.geometry.solid import Solid
from planlint.geometry.vector import Vec
from planlint.read.plan import Cover, CutEntry, Dimension, Fastening, Join, Plan, StatedDimension, Trouble
from planlint.source import Span


class Share(NamedTuple):
    """Space that two parts both fill and a joint explains: `keeper` has the wood there, the other is cut.

    A pair may have several, and a later one goes over an earlier: of a tenoned end, the whole space in the
    mortised part is that part's, and then the tenon's block is the tenoned part's. `first` and `second` are
    as joined.
    """

    first: Part
    second: Part
    solid: Solid
    keeper: Part
    join: Join
    fastening: Fastening


class Overlap(NamedTuple):
    """Space that two parts both fill, explained by a joint or not.

    `depth` is how deep one is in the other: the least push that would part them, along `push` (unit, moves
    `second`); of a tenon, its length. `allowed` is the depth that `fastening` states: 0 without a joint,
    None where the joint states no depth and whatever is drawn is meant. A joint whose parts only touch has
    depth 0 and no solid. `square_end_of_leaning`: the part whose square end only digs in with an edge,
    because it stands aslant.
    """

    first: Part
    second: Part
    solid: Solid | None
    depth: float
    push: Vec
    join: Join | None
    fastening: Fastening | None
    allowed: float | None
    square_end_of_leaning: Part | None


class Meeting:
    """Two pieces that a join line names and that meet: over what areas, and what space they share.

    `patches` look from `first` into `second`. Where the two share space they are the faces along which one
    is cut round the other (of a tenon, its shoulder too: that patch's area leaves out the tenon, its
    outline does not).
    """

    __slots__ = ("first", "gap", "join", "patches", "second", "share")

    def __init__(
        self, join: Join, first: Part, second: Part, patches: list[Patch], share: Solid | None, gap: float
    ) -> None:
        self.join = join
        self.first = first
        self.second = second
        self.patches = patches
        self.share = share  # the space both fill, where that is more than the fit tolerance deep
        self.gap = gap  # least distance between the two over the largest patch, 0 when they touch


class Unmet(NamedTuple):
    """A piece of a join's first name that meets none of the second: the nearest one and the gap to it."""

    join: Join
    part: Part
    nearest: Part | None
    gap: float
    line_only: bool


class Passage(NamedTuple):
    """A fastener's way through one part: from `enter` to `leave`, mm along the axis from where it enters
    the wood.
    """

    part: Part
    enter: float
    leave: float


class Driven:
    """One fastener as a line in space.

    `entry` is where its axis enters the wood's surface, `axis` the unit direction it is driven, `into` the
    part that it holds in. `seat` is how far past `entry` the length is measured from: a counterbore's
    depth; along a pocket, to its seat; for a fitting's screw less than 0, since the fitting lies under its
    head. `tip` is the distance of the tip from `entry` along the axis; both `length` and `tip` are None
    when the plan gives no length. `spot` is where the axis crosses the area in which the two parts meet,
    `mouth` the way the surface at `entry` looks. `passages` are the parts the axis meets from `entry` on,
    in order, up to the tip and as far beyond it as there is wood without a gap; shared space is counted
    once (for its keeper). Pins without `from` sit half in each part: `entry` is then inside the first part,
    at the pin's hidden end.
    """

    __slots__ = (
        "axis", "entry", "fastening", "first", "into", "join", "known_spot", "length", "meeting", "mouth",
        "number", "passages", "patch", "pocket_side", "seat", "second", "spot", "tip",
    )  # fmt: skip

    def __init__(
        self,
        meeting: Meeting,
        fastening: Fastening,
        patch: Patch,
        into: Part,
        number: int,
        known_spot: bool,
        spot: Vec,
        entry: Vec,
        axis: Vec,
        mouth: Vec,
        seat: float,
        length: float | None,
        passages: tuple[Passage, ...],
        pocket_side: str | None,
    ) -> None:
        self.join = meeting.join
        self.fastening = fastening
        self.meeting = meeting
        self.first = meeting.first
        self.second = meeting.second
        self.patch = patch
        self.into = into  # `second`, but for a fitting's screw into the first
        self.number = number  # 1 … n of the count, for this pair
        self.known_spot = known_spot  # the plan states the place; else spread evenly
        self.spot = spot
        self.entry = entry
        self.axis = axis
        self.mouth = mouth
        self.seat = seat
        self.length = length
        self.tip = None if length is None else seat + length
        self.passages = passages
        self.pocket_side = pocket_side  # the side of the piece the pocket's face looks to


class WrongSide(NamedTuple):
    """A fastener driven from a side from which it never goes through the first part into the second.

    `side` is what the plan says. `sides` are those it could be driven from. `ends` are the two sides that
    the line square to the largest area looks to, the first part's end first.
    """

    meeting: Meeting
    fastening: Fastening
    side: str
    sides: tuple[str, ...]
    ends: tuple[str, str]


class UnplacedFastener(NamedTuple):
    """A counted fastening that cannot be drawn, or not for all pieces of its join: its own numbers are known.

    `reason` is "not placed", or why one of the pieces has no place (others of the join may be in `driven`).
    """

    join: Join
    fastening: Fastening
    first: CutEntry | None
    second: CutEntry | None
    reason: str


class CutShort(NamedTuple):
    """Something of which there is too much to work out all of it: the first `most` are, the rest is not.

    `what` is a row of the caps: "row" (also for the longest), "benches", "overlaps", "fasteners" or
    "overlapping joints"; `name` is what the plan calls it.
    """

    what: str
    name: str
    most: int
    span: Span


class Fit(NamedTuple):
    """A length the plan fixes twice: the part's own size against the space its positions leave.

    `opening` is the space, joints' depth (`sunk`) not counted; sound when size = opening + sunk.
    """

    part: Part
    direction: str
    size: float
    opening: float
    sunk: float
    first_span: Span
    second_span: Span
    neighbours: tuple[str, ...]


class Measured(NamedTuple):
    """A stated dimension or angle and what was built (None with the reason when it cannot be measured)."""

    entry: StatedDimension
    label: str
    dimension: Dimension
    stated: float
    built: float | None
    reason: str
    parts: tuple[str, ...]
    span: Span


class EndAngles(NamedTuple):
    """The cut list's end angles (degrees off square) beside the built ones."""

    part: Part
    stated: tuple[float, float]
    built: tuple[float, float]
    span: Span


class SlatRow(NamedTuple):
    """A cover, placed: the slats in order, the span they must fill, and every gap (start, between…, end)."""

    cover: Cover
    slats: tuple[Part, ...]
    direction: str
    start: float
    end: float


class Listed(NamedTuple):
    """A cut-list entry with its stock looked up and how many of it are placed (0 when nothing is)."""

    entry: CutEntry
    stock: Stock | None
    size: Size | None
    placed: int
    used_in_panel: bool


class Piece:
    """The whole: parts in space and all that was measured on the way."""

    __slots__ = (
        "contacts", "covers", "cut_short", "driven", "end_angles", "fits", "known", "listed", "measured", "meetings",
        "overlaps", "parts", "plan", "shares", "troubles", "unmet", "unplaced_fasteners", "unplaced_names",
        "wrong_sides",
    )  # fmt: skip

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.parts: list[Part] = []
        self.listed: list[Listed] = []
        self.contacts: list[tuple[Part, Part, list[Patch]]] = []  # every two parts that touch, joined or not
        self.overlaps: list[Overlap] = []
        self.shares: list[Share] = []
        self.meetings: list[Meeting] = []
        self.unmet: list[Unmet] = []
        self.driven: list[Driven] = []
        self.wrong_sides: list[WrongSide] = []
        self.unplaced_fasteners: list[UnplacedFastener] = []
        self.cut_short: list[CutShort] = []
        self.fits: list[Fit] = []
        self.measured: list[Measured] = []
        self.end_angles: list[EndAngles] = []
        self.covers: list[SlatRow] = []
        # Names that have no place, with the reason ("its position up is not fixed"): rules say 'not checked'.
        self.unplaced_names: dict[str, str] = {}
        self.troubles: list[Trouble] = []
        self.known: dict[object, object] = {}  # what was worked out of the finished piece (see once.py)
