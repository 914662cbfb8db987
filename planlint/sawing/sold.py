"""Wood for parts of which the plan's list has none: of the sizes that are sold, what takes least wood. Lengths mm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from planlint.cutting import Board
from planlint.cutting import Piece as Sawn
from planlint.cutting.choose import Chosen
from planlint.judge.finding import Value
from planlint.observe.board_match import Lack
from planlint.observe.board_supply import Saw, sawn
from planlint.observe.bought import kind_of
from planlint.observe.wanted import Wanted
from planlint.read.plan import Measured, Nominal
from planlint.sawing.layout import Boards
from planlint.sawing.own import Unheld, bare, chosen
from planlint.show.quantities import bare as bare_number
from planlint.show.quantities import scale_of, word
from planlint.trade import lengths, lumber

_HAIR = 0.01  # mm


class _Stuff(NamedTuple):
    """What is sold that these parts can be cut from: a section, or a thickness of sheet."""

    kind: str  # as Purchase.kind
    section: str  # as a list writes it: "2x4", "sheet 3/4", "dowel-rod 1"
    thickness: float
    width: float
    wood: str | None
    treated: bool
    note: str


def from_yard(
    wants: Sequence[Wanted], lacks: dict[str, Lack], saw: Saw, units: str, metric: bool
) -> tuple[list[Boards], Unheld]:
    """Boards to buy for these entries, and those for which no size is known, each with the reason."""
    shared: dict[_Stuff, list[Wanted]] = {}
    unheld: Unheld = []
    for want in wants:
        if want.unknown is not None:
            unheld.append((want.name, f"{want.unknown.reason}; the plan needs {want.unknown.add}"))
            continue
        stuff = _stuff(want, saw, units, metric)
        if isinstance(stuff, str):
            unheld.append((want.name, stuff))
        else:
            shared.setdefault(stuff, []).append(want)
    found = []
    for stuff, own in shared.items():
        boards = _cheapest(stuff, own, lacks, saw, units, metric)
        if boards is None:
            longest = word(Value(max(want.longest for want in own), "length"), units)
            unheld += [(want.name, f"no {stuff.section} is sold that yields {longest}") for want in own]
        else:
            found.append(boards)
    return found, unheld


def _stuff(want: Wanted, saw: Saw, units: str, metric: bool) -> _Stuff | str:
    """The section to ask for; else why it is not known."""
    size = _size(want.thickness, want.width, units)
    if want.diameter is not None:
        return _rod(want, want.diameter, saw, units, metric)
    if want.sheet_wood:
        named = f"sheet {_length(want.thickness, units)}"
        return _Stuff("sheet", named, want.thickness, 0.0, want.wood, want.treated, "")
    source = want.entry.ripped_from or want.entry.stock
    hardwood = kind_of(want.wood) == "hardwood"
    if hardwood:
        return _hardwood(want, f"{size} {_unit(units)}")
    if isinstance(source, Nominal):
        dressed = lumber.dressed(source.name)
        if dressed is not None:
            return _Stuff("board", source.name, min(dressed), max(dressed), want.wood, want.treated, "")
    if metric:
        thickness, width = want.thickness, want.width
        if isinstance(source, Measured):
            thickness, width = sorted((source.thickness.value, source.width.value))
        if width > (lumber.widest_board("softwood") or width) + _HAIR:
            return f"no single board is sold as wide as {_length(width, units)} {_unit(units)}: it has to be glued up"
        note = "its section is as the part measures: ask what your yard has"
        return _Stuff(
            "board", _size(thickness, width, units), thickness, width, want.wood, want.treated, note
        )
    name = lumber.next_size(want.thickness, want.width)
    dressed = None if name is None else lumber.dressed(name)
    if name is None or dressed is None:
        return f"nothing is sold that {size} {_unit(units)} can be cut from: it has to be glued up"
    return _Stuff("board", name, min(dressed), max(dressed), want.wood, want.treated, "")


def _hardwood(want: Wanted, size: str) -> str:
    name = lumber.next_size(want.thickness, want.width, hardwood=True)
    if name is None:
        return f"no hardwood is sold that {size} can be cut from: it has to be glued up"
    return (
        f"hardwood comes in random widths and lengths: pick {name} boards at the yard, "
        "then write what you found into the buy section"
    )


def _rod(want: Wanted, diameter: float, saw: Saw, units: str, metric: bool) -> _Stuff | str:
    words = _length(diameter, units)
    if not any(abs(diameter - one) <= saw.snug + _HAIR for one in lengths.rod_diameters(metric)):
        return f"no rod of {words} {_unit(units)} is sold: it has to be turned from square stock"
    return _Stuff("rod", f"dowel-rod {words}", diameter, diameter, want.wood, want.treated, "")


def _cheapest(
    stuff: _Stuff, wants: list[Wanted], lacks: dict[str, Lack], saw: Saw, units: str, metric: bool
) -> Boards | None:
    """The size that takes the least wood, of as much the fewest boards."""
    sheets = stuff.kind == "sheet"
    pieces = [_within(piece, stuff, saw) for piece in sawn(wants, (), saw.snug)]
    best: tuple[float, int, Board, Chosen] | None = None
    for size in _sizes(stuff, metric):
        ample = size._replace(number=max(1, sum(piece.number for piece in pieces)))
        found = chosen([ample], pieces, bare(pieces, wants), saw, unlimited=True, sheets=sheets)
        if found is not None:
            number = len(found.layout)
            wood = round(number * size.length * size.width)
            if best is None or (wood, number) < best[:2]:
                best = (wood, number, size, found)
    if best is None:
        return None
    _, number, size, found = best
    return _boards(stuff, size, found, _why(wants, lacks, stuff), units)


def _within(piece: Sawn, stuff: _Stuff, saw: Saw) -> Sawn:
    """A piece that is only a hair larger than what is sold is as large."""
    slack = saw.snug + _HAIR
    thickness = stuff.thickness if 0 < piece.thickness - stuff.thickness <= slack else piece.thickness
    width = stuff.width if 0 < piece.width - stuff.width <= slack else piece.width
    return piece._replace(thickness=thickness, width=width)


def _sizes(stuff: _Stuff, metric: bool) -> Iterator[Board]:
    if stuff.kind == "sheet":
        for width, length in lengths.sheets_of(metric):
            yield Board("", stuff.thickness, min(width, length), max(width, length), 0)
        return
    sold: Iterable[float] = (
        lengths.rod_lengths(metric) if stuff.kind == "rod" else lengths.without_studs(metric)
    )
    for length in sold:
        yield Board("", stuff.thickness, stuff.width, length, 0)


def _boards(stuff: _Stuff, size: Board, found: Chosen, why: str, units: str) -> Boards:
    length = _length(size.length, units)
    words = f"{stuff.section} @ {length}"
    if stuff.kind == "sheet":
        words = f"{stuff.section} x {_length(size.width, units)} x {length}"
    return Boards(
        words=words,
        kind=stuff.kind,
        purchase=None,
        thickness=size.thickness,
        width=size.width,
        length=size.length,
        rough=None,
        wood=stuff.wood,
        treated=stuff.treated,
        own=0,
        number=len(found.layout),
        least=found.least,
        proved=found.proved,
        cut=found.layout,
        why=why if not stuff.note else f"{why}; {stuff.note}",
    )


def _why(wants: Sequence[Wanted], lacks: dict[str, Lack], stuff: _Stuff) -> str:
    """Why this is bought besides what the list has."""
    lack = lacks.get(wants[0].name)
    name = wants[0].name
    if lack is None:
        return "the plan's list has no wood that can be read"
    if lack.nearest is not None and lack.what in ("length", "width", "thickness"):
        how = {"length": "long", "width": "wide", "thickness": "thick"}[lack.what]
        return f"the list has nothing {how} enough for {name}; nearest is {lack.nearest.words}"
    if lack.what == "treated":
        return f"the list has nothing treated for {name}"
    return f"the list has nothing that {name} can be cut from"


def _size(thickness: float, width: float, units: str) -> str:
    return f"{_length(thickness, units)} x {_length(width, units)}"


def _length(length: float, units: str) -> str:
    return bare_number(length, scale_of("length", units))


def _unit(units: str) -> str:
    return scale_of("length", units).unit.strip()
