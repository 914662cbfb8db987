"""What the plan's text leaves open: troubles met while reading and placing, and counts that differ."""

from planlint.build.piece import Piece
from planlint.observe.facts import Column, Facts, Missing, Row, Table
from planlint.observe.wanted import boards_for_panels
from planlint.read.plan import Trouble

UNREADABLE = Table(
    "unreadable_line",
    "a line of the plan that could not be read",
    {
        "found": Column("word", "the first words that do not fit"),
        "too_long": Column("flag", "that is a number with more digits than any length needs"),
        "expected": Column("word", "what could stand there, in plain words"),
        "example": Column("word", "a line that would fit"),
        "section": Column("word", "the section the line stands in"),
        "corrected": Column("word", "the corrected line where one word away; else missing"),
    },
)
UNKNOWN_NAME = Table(
    "unknown_name",
    "a name that nothing in the plan or the trade tables answers to",
    {
        "name": Column("word", "the name as written"),
        "what": Column(
            "word", "what was looked for: part, wood, size, fastening, …; place: of a part that has none"
        ),
        "nearest": Column("word", "the nearest known name; missing where none is near"),
    },
    {"name": "the name as written"},
)
WRONG_UNIT = Table(
    "wrong_unit",
    "a value of another kind than the place needs",
    {
        "written": Column("word", "the value as written"),
        "found": Column("word", "what it is: a length, an angle, a weight, …"),
        "expected": Column("word", "what belongs there"),
    },
)
NAME_TWICE = Table(
    "name_twice",
    "a name given to two things of one scope",
    {
        "name": Column("word", "the name"),
        "line": Column("flag", "it is no name, but a line of the plan section that stands there twice"),
        "parts": Column("words", "the parts that nobody can tell apart by it, or place"),
    },
    {"first": "where the name was given first"},
)
POSITION_MISSING = Table(
    "position_missing",
    "a placed part with a direction that nothing fixes",
    {
        "part": Column("word", "the part"),
        "parts": Column("words", "the part and all that is measured from it"),
        "direction": Column("word", "left-right, front-back, up, or what else is open"),
        "proposal": Column("word", "a clause that would fix it"),
        "other_proposal": Column("word", "another clause that would fix it"),
    },
)
POSITION_RING = Table(
    "position_ring",
    "positions that depend on each other in a ring",
    {
        "ring": Column("word", "the parts of the ring, in order"),
        "parts": Column("words", "the parts of the ring"),
    },
)
LISTED = Table(
    "listed_part",
    "an entry of the cut list beside what is placed of it",
    {
        "part": Column("word", "the part"),
        "listed": Column("number", "how many the cut list has"),
        "placed": Column("number", "how many are placed"),
        "in_panels": Column("number", "how many go into glued-up panels"),
        "used": Column("flag", "placed, or used in a glued-up panel"),
        "bench": Column("word", "the sub-assembly it is placed in, while nothing places that; else empty"),
        "any_placed": Column("flag", "the plan places parts at all"),
    },
    {"listed": "the count in the cut list"},
)
UNSAID = Table(
    "unsaid_join",
    "a join that the plan leaves unsaid",
    {
        "first": Column("word", "the part that is joined"),
        "second": Column("word", "the part it is joined to"),
    },
)
END_ANGLE = Table(
    "end_angle",
    "the end angles the cut list prints beside the built ones",
    {
        "part": Column("word", "the part"),
        "stated": Column("angle", "the angle the cut list prints, off square"),
        "built": Column("angle", "the built angle that is nearest to it"),
        "difference": Column("angle", "how far they differ"),
        "aslant": Column("flag", "the part runs aslant: neither upright nor along or across the piece"),
    },
)

TABLES = (
    UNREADABLE, UNKNOWN_NAME, WRONG_UNIT, NAME_TWICE, POSITION_MISSING, POSITION_RING, LISTED, UNSAID, END_ANGLE,
)  # fmt: skip

_DIGITS = 6  # as in the grammar's WHOLE
_STRAIGHT = 0.99996  # cos of half a degree
_UNREAD = Missing("a line that names the part could not be read", "the line as planlint can read it")

_BY_TROUBLE = {
    "unreadable": UNREADABLE,
    "unknown-name": UNKNOWN_NAME,
    "wrong-kind-of-unit": WRONG_UNIT,
    "name-twice": NAME_TWICE,
    "position-missing": POSITION_MISSING,
    "position-circular": POSITION_RING,
}


def observe(piece: Piece, facts: Facts) -> None:
    """Add the rows of all tables of this subject."""
    on_list = {entry.name for entry in piece.plan.parts}
    for trouble in piece.troubles:
        table = _BY_TROUBLE[trouble.kind]
        row = _trouble_row(table, trouble)
        if table is UNKNOWN_NAME and row.values["what"] == "part" and row.values["name"] in on_list:
            row.values["what"] = "place"
        facts.add(table, [row])
    _counts(piece, facts)
    _unsaid(piece, facts)
    _end_angles(piece, facts)


def _trouble_row(table: Table, trouble: Trouble) -> Row:
    """The trouble's own values; what it does not know is missing, and the rule says so in its own words."""
    values = {name: trouble.values.get(name, Missing(f"{name} is not known", "")) for name in table.columns}
    if table is UNREADABLE:
        values["too_long"] = _too_long(str(trouble.values["found"]))
    spans = {name: trouble.values[name] for name in table.spans if name in trouble.values}
    if table is UNKNOWN_NAME:
        spans["name"] = trouble.span
    return Row(values, trouble.span, spans)  # type: ignore[arg-type]


def _too_long(found: str) -> bool:
    """Whether it begins with a number of more digits than the notation reads."""
    whole = found[: len(found) - len(found.lstrip("0123456789"))]
    return len(whole) > _DIGITS


def _counts(piece: Piece, facts: Facts) -> None:
    any_placed = bool(piece.plan.placements)
    panels = boards_for_panels(piece)
    rows = []
    for listed in piece.listed:
        entry = listed.entry
        # A line that could not be read may have placed it.
        unread = _UNREAD if entry.name in piece.plan.unread_names else None
        values: dict[str, object] = {
            "part": entry.name,
            "listed": float(entry.pieces),
            "placed": unread or float(listed.placed),
            "in_panels": float(panels.get(entry.name, 0)),
            "used": unread or listed.placed > 0 or listed.used_in_panel,
            "bench": "" if listed.placed else _bench_of(entry.name, piece),
            "any_placed": any_placed,
        }
        rows.append(Row(values, entry.span, {"listed": entry.pieces_span}))
    facts.add(LISTED, rows)


def _bench_of(name: str, piece: Piece) -> str:
    """The sub-assembly that places a part."""
    benches = [
        one.assembly.text for one in piece.plan.placements if one.assembly and str(one.subject) == name
    ]
    return benches[0] if benches else ""


def _unsaid(piece: Piece, facts: Facts) -> None:
    rows = [
        Row({"first": str(join.first), "second": str(join.second)}, fastening.span)
        for step in piece.plan.steps
        for join in step.joins
        for fastening in join.fastenings
        if fastening.kind == "unsaid"
    ]
    facts.add(UNSAID, rows)


def _end_angles(piece: Piece, facts: Facts) -> None:
    rows = []
    for ends in piece.end_angles:
        for stated, built in _paired(ends.stated, ends.built):
            values: dict[str, object] = {
                "part": ends.part.name,
                "stated": stated,
                "built": built,
                "difference": abs(stated - built),
                "aslant": max([abs(way) for way in ends.part.along]) < _STRAIGHT,
            }
            rows.append(Row(values, ends.span))
    facts.add(END_ANGLE, rows)


def _paired(stated: tuple[float, float], built: tuple[float, float]) -> list[tuple[float, float]]:
    """A cut list does not say which end is which: pair them the way that differs least."""
    straight = list(zip(stated, built, strict=True))
    crossed = list(zip(stated, reversed(built), strict=True))
    return min(straight, crossed, key=lambda pairs: sum(abs(a - b) for a, b in pairs))
