"""The boards of the plan's own list: of those that yield its parts the fewest, and what has to be added."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from planlint import cutting
from planlint.cutting import FITS, Board, CutBoard
from planlint.cutting import Piece as Sawn
from planlint.cutting.answer import decide
from planlint.cutting.choose import Chosen, choose
from planlint.cutting.rip import Shop
from planlint.observe.board_match import Group, Match
from planlint.observe.board_supply import Saw, as_board, name_of, sawn, supplies
from planlint.observe.bought import Bought, kind_of
from planlint.observe.wanted import Wanted
from planlint.read.plan import Measured, Nominal
from planlint.sawing.layout import Boards
from planlint.show.quantities import listed
from planlint.trade import lumber

_NAMES = 4  # entries that are named
Unheld = list[tuple[str, str]]


class _Laid(NamedTuple):
    """What is cut from some lines of the list. `least` None: not known."""

    lines: Sequence[Bought]
    cut: Sequence[CutBoard]
    least: int | None
    proved: bool
    why: str = ""
    uncounted: bool = False


def from_list(match: Match, saw: Saw) -> tuple[list[Boards], Unheld]:
    """Every line of wood with what is cut from it, and entries that were not laid out, each with the reason.

    Rods that no part needs are left out: they are for plugs and dowels.
    """
    found: list[Boards] = []
    unheld: Unheld = []
    for group in match.groups():
        if group.wants:
            laid, left = _group(group, match, saw)
            unheld += left
        else:
            laid = [] if group.boards[0].purchase.kind == "rod" else [_Laid(group.boards, (), 0, True)]
        found += [_boards(line, one) for one in laid for line in one.lines]
    order = {line.key: place for place, line in enumerate(match.boards)}
    places = {id(line.purchase): order[line.key] for line in match.boards}
    found.sort(key=lambda one: places[id(one.purchase)])
    return found, unheld


def bare(pieces: Sequence[Sawn], wants: Sequence[Wanted]) -> list[Sawn]:
    """The pieces that a proof may count: slanted ends granted to nest, shaped parts (they nest too) left out."""
    shaped = {want.name for want in wants if want.entry.shaped}
    return [
        piece._replace(length=piece.length - piece.nests, nests=0.0)
        for piece in pieces
        if name_of(piece.key) not in shaped
    ]


def chosen(
    stock: Sequence[Board],
    pieces: Sequence[Sawn],
    granted: Sequence[Sawn],
    saw: Saw,
    *,
    unlimited: bool,
    sheets: bool,
) -> Chosen | None:
    """The fewest of these boards. On sheets a piece lies across the grain only where that saves a sheet."""
    if not sheets:
        return choose(stock, pieces, saw.kerf, granted=granted, unlimited=unlimited)
    turned, straight = [
        choose(
            stock, pieces, saw.kerf,
            granted=granted, unlimited=unlimited, sheets=True, may_turn=may_turn, two_stage=True,
        )
        for may_turn in (True, False)
    ]  # fmt: skip
    if turned is None or straight is None or len(straight.layout) > len(turned.layout):
        return turned
    # A proof must hold for pieces that may be turned, too.
    return Chosen(straight.layout, turned.least, turned.least == len(straight.layout))


def _group(group: Group, match: Match, saw: Saw) -> tuple[list[_Laid], Unheld]:
    """What is cut from the lines of one group, section by section where that does it."""
    open_ended = [want for want in group.wants if want.unknown is not None]
    unheld = [(want.name, _reason(want)) for want in open_ended]
    also = _not_counted(open_ended)
    lawful = _Lawful(group, match)
    sections = list(_sections(group, match, saw))
    laid = [_own(one, group.wants, saw) for one in sections]
    if not all(one is not None and lawful.layout(one.cut) for one in laid):
        whole = _whole(group, saw, lawful)
        if whole is not None:
            return [_with(whole, also)], unheld
        pairs = zip(laid, sections, strict=True)
        laid = [own or _added(one, group.wants, saw) for own, one in pairs]
    found = [one for one in laid if one is not None and lawful.layout(one.cut)]
    if len(found) == len(laid):
        return [_with(one, also) for one in found], unheld
    reason = "no way of cutting it from the boards of the list was found"
    unheld += [(want.name, reason) for want in group.wants if want.unknown is None]
    return [_Laid(group.boards, (), None, False, reason)], unheld


def _not_counted(wants: Sequence[Wanted]) -> str:
    """Why it may take more boards than are laid out; empty where every length is known."""
    if not wants:
        return ""
    names = listed([want.name for want in wants], _NAMES)
    return f"{names} {'is' if len(wants) == 1 else 'are'} not counted: {_reason(wants[0])}"


def _with(laid: _Laid, also: str) -> _Laid:
    """With what is not counted: then nobody knows that these boards do."""
    if not also:
        return laid
    why = "; ".join(filter(None, (laid.why, also)))
    return laid._replace(why=why, least=None, proved=False, uncounted=True)


def _reason(want: Wanted) -> str:
    assert want.unknown is not None, "asked of entries of unknown length"
    return f"{want.unknown.reason}; the plan needs {want.unknown.add}"


class _Lawful:
    """Which boards' wood would do for which entry."""

    def __init__(self, group: Group, match: Match) -> None:
        self.allowed = {want.name: match.allowed(want) for want in group.wants}

    def layout(self, layout: Sequence[CutBoard]) -> bool:
        return all(board.key in self.allowed[name_of(cut.key)] for board in layout for cut in board.pieces)


class _Section(NamedTuple):
    """Lines of one thickness and width (all sheets of one thickness are one) with the pieces nearest to it in size.

    `add` is what the audit says has to be bought besides; `fits`: it says that they do as they are.
    """

    lines: list[Bought]
    pieces: list[Sawn]
    add: Sequence[Board]
    fits: bool

    @property
    def sheets(self) -> bool:
        return self.lines[0].purchase.kind == "sheet"


def _sections(group: Group, match: Match, saw: Saw) -> Iterator[_Section]:
    for supply in supplies(group, match, saw):
        sheets = {line.purchase.kind == "sheet" for line in supply.boards}
        if len(supply.pieces) == 0 or sheets == {True} or len(_sizes(supply.boards)) == 1:
            yield _Section(supply.boards, supply.pieces, supply.add, supply.outcome.verdict == FITS)
            continue
        of_key = {line.key: line for line in supply.boards}
        stock = [as_board(line) for line in supply.boards]
        for own, pieces in cutting.own_boards(stock, supply.pieces, saw.kerf):
            yield _Section([of_key[board.key] for board in own], pieces, (), False)


def _sizes(lines: Sequence[Bought]) -> set[tuple[float, float]]:
    return {(line.thickness, line.width) for line in lines}


def _own(one: _Section, wants: Sequence[Wanted], saw: Saw) -> _Laid | None:
    """From the lines as they are; None: no layout was found."""
    if not one.pieces:
        return _Laid(one.lines, (), 0, True)
    return _chosen(one, [as_board(line) for line in one.lines], wants, saw, added=False)


def _added(one: _Section, wants: Sequence[Wanted], saw: Saw) -> _Laid | None:
    """From the lines with what has to be added to them; None: no number of these sizes does."""
    stock, sheets = [as_board(line) for line in one.lines], one.sheets
    more = () if sheets else one.add
    more = more or cutting.to_add(
        stock, one.pieces, saw.kerf, sheets=sheets, may_turn=sheets, two_stage=sheets
    )
    laid = _chosen(one, [*stock, *more], wants, saw, added=True) if more else None
    if laid is None or not (sheets and one.fits):
        return laid
    return laid._replace(why="the sheets on the list do only if each is cut in more than two stages")


def _chosen(
    one: _Section, stock: Sequence[Board], wants: Sequence[Wanted], saw: Saw, *, added: bool
) -> _Laid | None:
    granted = bare(one.pieces, wants)
    found = chosen(stock, one.pieces, granted, saw, unlimited=added, sheets=one.sheets)
    return None if found is None else _Laid(one.lines, found.layout, found.least, found.proved)


def _whole(group: Group, saw: Saw, lawful: _Lawful) -> _Laid | None:
    """The group's boards together, where parts have to help themselves from larger boards than their own."""
    pieces = sawn(group.wants, group.boards, saw.snug)
    sheets = any(line.purchase.kind == "sheet" for line in group.boards)
    stock = [as_board(line) for line in group.boards]
    settled = decide(stock, pieces, Shop(saw.kerf, cutting.BUDGET, two_stage=sheets))
    if settled.verdict != FITS or not lawful.layout(settled.layout):
        return None
    return _Laid(group.boards, settled.layout, None, False)


def _boards(line: Bought, laid: _Laid) -> Boards:
    purchase = line.purchase
    cut = tuple(board for board in laid.cut if board.key == line.key)
    alone = len(laid.lines) == 1
    return Boards(
        words=line.words,
        kind=purchase.kind,
        purchase=purchase,
        thickness=line.thickness,
        width=line.width,
        length=line.length,
        rough=_rough(line),
        wood=line.wood,
        treated=line.treated,
        own=purchase.number,
        number=len(cut),
        least=laid.least if alone else None,
        proved=laid.proved,
        cut=cut,
        why=laid.why,
        uncounted=laid.uncounted,
    )


def _rough(line: Bought) -> tuple[float, float] | None:
    """Thickness and width as sawn, of boards bought rough."""
    if line.purchase.kind != "rough":
        return None
    if line.sawn is not None:
        return line.sawn
    stock = line.purchase.stock
    if isinstance(stock, Nominal):
        size = lumber.rough(stock.name, kind_of(line.wood) == "hardwood")
        return None if size is None else (min(size), max(size))
    assert isinstance(stock, Measured), "rough wood is bought by a size"
    sides = (stock.thickness.value, stock.width.value)
    return min(sides), max(sides)
