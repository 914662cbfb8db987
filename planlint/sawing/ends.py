"""What is not square about a part: how its ends are cut, measured on its solid. Degrees."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planlint.build.piece import Part, Piece
from planlint.geometry.vector import Vec, dot, scale
from planlint.observe.board_supply import name_of
from planlint.observe.wanted import Wanted
from planlint.read.plan import MitredEnds
from planlint.sawing.layout import Boards, End, Entry
from planlint.trade.sawing import shortest_to_rip

_SQUARE = 0.05  # degrees: less than any saw is set to
_ALIKE = 0.2
_PLANED = 1.2  # mm: a board that is thicker by no more counts as of the part's thickness


def entries(piece: Piece, wants: Sequence[Wanted]) -> tuple[Entry, ...]:
    """What the saw has to know of each entry that is cut from bought wood."""
    placed: dict[str, list[Part]] = {}
    for part in piece.parts:
        placed.setdefault(part.copy_of, []).append(part)
    return tuple([_entry(want, placed.get(want.name, [])) for want in wants])


def thinned(found: Sequence[Entry], boards: Sequence[Boards]) -> tuple[Entry, ...]:
    """The entries with the thickness that each has to be brought to, where it is cut from a thicker board."""
    of_name = {entry.name: entry for entry in found}
    for line in boards:
        if line.kind != "sheet":
            for cut in [cut for board in line.cut for cut in board.pieces]:
                entry = of_name[name_of(cut.key)]
                # On its edge it is the piece's width that stands in the board's thickness.
                through = entry.width if cut.turned else entry.thickness
                if entry.diameter is None and line.thickness - through > _PLANED:
                    stubby = of_name[entry.name].stubby or cut.length < shortest_to_rip() - 0.01
                    of_name[entry.name] = entry._replace(thinned=through, stubby=stubby)
    return tuple(of_name.values())


def _entry(want: Wanted, parts: Sequence[Part]) -> Entry:
    kinds = [_ends(part) for part in parts]
    first = next((kind for kind in kinds if kind is not None), None)
    others = any(not _alike(kind, first) for kind in kinds)
    ends, parallel = (None, False) if first is None else first
    mitred = want.entry.mitred
    if not parts and mitred is not None and mitred.angles:
        ends = (End(mitred.angles[0].value, 0.0), End(mitred.angles[-1].value, 0.0))
        parallel = mitred.parallel
    return Entry(
        want.name,
        want.thickness,
        want.width,
        want.diameter,
        want.entry.shaped,
        ends,
        parallel,
        bool(parts),
        others,
        listed=_others_listed(ends, mitred),
    )


def _others_listed(ends: tuple[End, End] | None, mitred: MitredEnds | None) -> tuple[float, ...]:
    """The angles of the cut list, where the part as it stands has others."""
    if ends is None or mitred is None or not mitred.angles:
        return ()
    angles = tuple(angle.value for angle in mitred.angles)
    pair = (angles[0], angles[-1])
    built = [max(end.mitre, end.bevel) for end in ends]
    agree = any(
        all(abs(a - b) < _ALIKE for a, b in zip(built, way, strict=True)) for way in (pair, pair[::-1])
    )
    return () if agree or all(min(end) >= _SQUARE for end in ends) else angles


def _ends(part: Part) -> tuple[tuple[End, End], bool] | None:
    """Both ends, and whether they run the same way; None where both are square."""
    if part.solid is part.box:
        return None
    low, high = (_normal(part, sign) for sign in (-1.0, 1.0))
    ends = (_end(part, low), _end(part, high))
    if max([*ends[0], *ends[1]]) < _SQUARE:
        return None
    return ends, dot(low, high) < -math.cos(math.radians(_ALIKE))


def _normal(part: Part, sign: float) -> Vec:
    """Which way the end looks: the face that looks most along the part."""
    along = scale(part.along, sign)
    return max([plane.normal for plane in part.solid.planes], key=lambda normal: dot(normal, along))


def _end(part: Part, normal: Vec) -> End:
    """With the wide face on the saw's table: the angle of the fence, and the tilt of the blade."""
    along, across = abs(dot(normal, part.along)), abs(dot(normal, part.across))
    through = abs(dot(normal, part.through))
    return End(math.degrees(math.atan2(across, along)), math.degrees(math.asin(min(1.0, through))))


def _alike(one: tuple[tuple[End, End], bool] | None, other: tuple[tuple[End, End], bool] | None) -> bool:
    if one is None or other is None:
        return one is other
    if one[1] != other[1]:
        return False
    # A part may lie either way round, so its ends are compared as a pair.
    return any(
        all(
            abs(a.mitre - b.mitre) < _ALIKE and abs(a.bevel - b.bevel) < _ALIKE
            for a, b in zip(one[0], way, strict=True)
        )
        for way in (other[0], other[0][::-1])
    )
