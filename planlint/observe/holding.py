"""What holds what: the parts and joins of a piece as a graph, and what hangs on nothing."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.build.joinery.unplaced import listed
from planlint.build.naming import naming_of
from planlint.build.piece import Part, Piece
from planlint.observe.facts import Column, Facts, Gap, Missing, Row, Table
from planlint.observe.ground import at_wall
from planlint.observe.resting import Underneath
from planlint.observe.unplaced import add_gaps
from planlint.read.plan import Join, Ref

HELD = Table(
    "held_part",
    "a placed part, and what holds it",
    {
        "part": Column("word", "the part"),
        "entry": Column("word", "its name in the cut list"),
        "held": Column("flag", "a join other than `loose` holds it to a part that it meets"),
        "loose": Column("flag", "the plan says that it lies or slides there, held by nothing"),
        "rests": Column("flag", "it lies on other parts with its weight over them"),
        "supports": Column("words", "the parts it lies on"),
        "on_floor": Column("flag", "it reaches the floor"),
        "slat": Column("flag", "a cover is made of it"),
        "wall": Column("flag", "it is at the back of a piece that is fixed to a wall: the wall may hold it"),
        "touches": Column("word", "a part it touches, that it could be joined to"),
    },
)
SEPARATE = Table(
    "separate_piece",
    "joined parts that no join connects to the largest piece",
    {
        "part": Column("word", "the first of these parts"),
        "parts": Column("words", "all of them"),
        "alone": Column("flag", "it is one part only"),
        "rest": Column("word", "a part of the largest piece"),
        "stand": Column("flag", "both this and the largest piece stand on the floor by themselves"),
        "wall": Column("flag", "one of them is at the back of a piece that is fixed to a wall"),
        "touching": Column("word", "one of these parts that touches another piece"),
        "touched": Column("word", "the part that it touches there"),
    },
)

TABLES = (HELD, SEPARATE)

_NO_JOINS = "the plan does not say how the parts are fastened"
_ADD_JOINS = "a step section: what is joined to what, and with what"
_TOUCHES_NOTHING = Missing("it touches no other part", "")


def observe(piece: Piece, facts: Facts) -> None:
    """A row for every part, and one for every piece beside the largest."""
    if not add_gaps(piece, facts, TABLES) or len(piece.parts) < 2:
        return
    if not any(step.joins for step in piece.plan.steps):
        span = piece.plan.heading.title_span
        facts.gaps += [Gap(table.name, _NO_JOINS, _ADD_JOINS, span) for table in TABLES]
        return
    under, touching, lost, wall = Underneath(piece), _touching(piece), _Lost(piece), at_wall(piece)
    facts.add(HELD, _held(piece, under, touching, lost, wall))
    facts.add(SEPARATE, _separate(piece, under, touching, lost, wall))


def _touching(piece: Piece) -> dict[int, list[Part]]:
    found: dict[int, list[Part]] = {}
    for first, second, _ in piece.contacts:
        found.setdefault(first.order, []).append(second)
        found.setdefault(second.order, []).append(first)
    return found


# --- joins that lead to nothing in space ----------------------------------------------------------------


class _Lost:
    """Parts with a join to something that has no place or no known name: nobody knows what holds them.

    `ties` are such joins: the entries of the parts on one side, and the name on the other.
    """

    __slots__ = ("_entries", "_naming", "reasons", "ties")

    def __init__(self, piece: Piece) -> None:
        self.reasons: dict[str, Missing] = {}
        self.ties: list[tuple[str, str]] = []
        self._entries: dict[str, str] = {}
        for name in piece.plan.unread_names:
            self._lose(name, Missing(f"a line that names {name} could not be read", "the line, corrected"))
            self.ties.append((name, "a line that could not be read"))
        for trouble in piece.troubles:
            near = trouble.values.get("nearest")
            if (
                trouble.kind == "unknown-name"
                and trouble.values.get("what") == "part"
                and isinstance(near, str)
            ):
                said = trouble.values["name"]
                self._lose(near, Missing(f"the plan has no part called {said}", f"{near}, if that is meant"))
        self._naming = naming_of(piece) if piece.unplaced_names else None
        placed = {part.copy_of for part in piece.parts}
        for step in piece.plan.steps:
            for join in step.joins:
                self._follow(piece, join, placed)

    def _follow(self, piece: Piece, join: Join, placed: set[str]) -> None:
        first, second = self._entry(piece, join.first), self._entry(piece, join.second)
        for entry, own, other, ref in (
            (first, join.first, second, join.second),
            (second, join.second, first, join.first),
        ):
            if other not in placed or self._is_lost(ref):
                add = f"a place for {ref}, in every direction"
                self._lose(entry, Missing(f"{own} is joined to {ref}, which has no place", add))
                self.ties.append((entry, other))

    def _is_lost(self, ref: Ref) -> bool:
        return self._naming is not None and self._naming.why_lost(ref) is not None

    def _entry(self, piece: Piece, ref: Ref) -> str:
        if ref.name not in self._entries:
            found = listed(piece.plan, ref)
            self._entries[ref.name] = ref.name if found is None else found.name
        return self._entries[ref.name]

    def _lose(self, name: str, reason: Missing) -> None:
        self.reasons.setdefault(name, reason)

    def reason(self, part: Part) -> Missing | None:
        """Why nobody knows what holds this part; None where it is known."""
        own = part.name.partition(" of ")[0]
        for name in (part.copy_of, own, own.partition(".")[0]):
            if name in self.reasons:
                return self.reasons[name]
        return None


# --- each part by itself ----------------------------------------------------------------------------------


def _held(
    piece: Piece, under: Underneath, touching: dict[int, list[Part]], lost: _Lost, wall: set[int]
) -> list[Row]:
    held: set[int] = set()
    loose: set[int] = set()
    for meeting in piece.meetings:
        if {one.kind for one in meeting.join.fastenings} - {"loose"}:
            held |= {meeting.first.order, meeting.second.order}
        else:
            loose.add(meeting.first.order)
            if under.on_floor(meeting.second):
                loose.add(meeting.second.order)
    slats = {slat.order for row in piece.covers for slat in row.slats}
    covering = {cover.slat.name for cover in piece.plan.covers}
    rows: list[Row] = []
    for part in piece.parts:
        order = part.order
        if order in held:
            supports: tuple[Part, ...] = ()
        else:
            supports = under.supports(part)
        beside = touching.get(order, ())
        values: dict[str, object] = {
            "part": part.name,
            "entry": part.copy_of,
            "held": True if order in held else lost.reason(part) or False,
            "loose": order in loose,
            "rests": bool(supports),
            "supports": tuple([below.name for below in supports]),
            "on_floor": under.on_floor(part),
            "slat": order in slats or part.copy_of in covering,
            "wall": order in wall,
            "touches": beside[0].name if beside else _TOUCHES_NOTHING,
        }
        rows.append(Row(values, part.span))
    return rows


# --- pieces that nothing connects --------------------------------------------------------------------------


def _separate(
    piece: Piece, under: Underneath, touching: dict[int, list[Part]], lost: _Lost, wall: set[int]
) -> list[Row]:
    pieces = _connected(piece, lost)
    if len(pieces) < 2:
        return []
    largest = max(pieces, key=lambda parts: (len(parts), round(sum([part.solid.volume for part in parts]))))
    stands = under.stands(largest)
    rows: list[Row] = []
    for parts in pieces:
        if parts is largest:
            continue
        own = {part.order for part in parts}
        pair = next(
            (
                (part, other)
                for part in parts
                for other in touching.get(part.order, ())
                if other.order not in own
            ),
            None,
        )
        values: dict[str, object] = {
            "part": parts[0].name,
            "parts": tuple([part.name for part in parts]),
            "alone": len(parts) == 1,
            "rest": largest[0].name,
            "stand": stands and under.stands(parts),
            "wall": bool(own & wall) and any(part.order in wall for part in largest),
            "touching": _TOUCHES_NOTHING if pair is None else pair[0].name,
            "touched": _TOUCHES_NOTHING if pair is None else pair[1].name,
        }
        rows.append(Row(values, parts[0].span))
    return rows


def _connected(piece: Piece, lost: _Lost) -> list[list[Part]]:
    """The parts, grouped by what joins connect; `loose` ones too: the plan has thought of them."""
    groups = Groups()
    for meeting in piece.meetings:
        groups.join(meeting.first.order, meeting.second.order)
    for name, other in lost.ties:
        for part in piece.parts:
            if name in (part.copy_of, part.name.partition(" of ")[0].partition(".")[0]):
                groups.join(part.order, other)
    found: dict[object, list[Part]] = {}
    for part in piece.parts:
        found.setdefault(groups.of(part.order), []).append(part)
    return list(found.values())


class Groups:
    """Things that are joined, directly or through others, are in one group."""

    __slots__ = ("_under",)

    def __init__(self, joined: Iterable[tuple[object, object]] = ()) -> None:
        self._under: dict[object, object] = {}
        for first, second in joined:
            self.join(first, second)

    def join(self, first: object, second: object) -> None:
        """Make one group of two."""
        self._under[self.of(first)] = self.of(second)

    def of(self, thing: object) -> object:
        """What stands for the group of a thing."""
        under = self._under
        while (above := under.get(thing, thing)) != thing:
            thing = above
        return thing
