"""Whether the boards of a group yield its entries: proved enough, proved too few, or not decided. Lengths mm.

A proof of too few must hold for every way of cutting. So a group of several woods is asked as if they were
one (a proof then holds all the more), shaped parts are left out of a proof (they can be laid into one
another), and an entry whose length is not known can only make matters worse.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint import cutting
from planlint.cutting import FITS, NOT_DECIDED, TOO_FEW, Board, CutBoard, Outcome
from planlint.cutting import Piece as Sawn
from planlint.observe.board_match import Group, Match, fitted
from planlint.observe.bought import Bought
from planlint.observe.facts import Missing
from planlint.observe.wanted import Wanted
from planlint.trade.lumber import run_over

_UNDECIDED = Missing(
    "it could not be shown whether the boards do", "one more board, or the same parts cut from fewer sizes"
)
_MIXED = Missing(
    "boards of several kinds share these parts, and it could not be shown that they do",
    "the wood of each part and each board",
)


class Supply(NamedTuple):
    """Boards of one section with the pieces nearest to it in size, and what cutting makes of them.

    `unknown` says why `outcome` does not tell whether the boards do; None where it does. `add`: boards to buy
    besides, by key and number, where they are too few. `spare`: boards left over, None where not known.
    """

    boards: list[Bought]
    pieces: list[Sawn]
    outcome: Outcome
    unknown: Missing | None
    add: tuple[Board, ...]
    spare: int | None


class Saw(NamedTuple):
    """The kerf, and what counts as the same size."""

    kerf: float
    snug: float


def name_of(key: str) -> str:
    """The cut-list entry of a piece's key."""
    return key.partition("#")[0]


def supplies(group: Group, match: Match, saw: Saw) -> list[Supply]:
    """The group's sections, each with its verdict."""
    if not group.wants:
        return []
    pieces = sawn(group.wants, group.boards, saw.snug)
    kinds = {board.purchase.kind == "sheet" for board in group.boards}
    keys = {board.key for board in group.boards}
    allowed = {want.name: match.allowed(want) & keys for want in group.wants}
    mixed = len(kinds) > 1 or any(keys - may for may in allowed.values())
    if mixed:
        return _mixed(group, pieces, allowed, saw, sheets=len(kinds) > 1)
    return _plain(group.wants, group.boards, pieces, saw)


def sawn(wants: Sequence[Wanted], boards: Sequence[Bought], snug: float) -> list[Sawn]:
    """The pieces of the entries whose length is known, as cutting takes them."""
    found = []
    for want in wants:
        thickness, width = fitted(want, boards, snug)
        for number, one in enumerate(want.lengths):
            key = want.name if number == 0 else f"{want.name}#{number}"
            found.append(Sawn(key, width, one.length, one.number, thickness, one.nests))
    return found


def as_board(bought: Bought) -> Board:
    """A line of wood as cutting takes it."""
    return Board(bought.key, bought.thickness, bought.width, bought.length, bought.purchase.number)


def _plain(wants: Sequence[Wanted], boards: Sequence[Bought], pieces: list[Sawn], saw: Saw) -> list[Supply]:
    """A group in which every board's wood would do for every entry."""
    stock = [as_board(board) for board in boards]
    of_key = {board.key: board for board in boards}
    if boards[0].purchase.kind == "sheet":
        whole = cutting.yields(stock, pieces, saw.kerf, allowance=run_over(), sheets=True, may_turn=True)
        answers = [(stock, pieces, whole)]
    else:
        answers = cutting.by_section(stock, pieces, saw.kerf, allowance=run_over())
    return [
        _supply([of_key[board.key] for board in own], its_pieces, outcome, wants, saw)
        for own, its_pieces, outcome in answers
    ]


def _supply(
    boards: list[Bought], pieces: list[Sawn], outcome: Outcome, wants: Sequence[Wanted], saw: Saw
) -> Supply:
    unknown = next((want.unknown for want in wants if want.unknown is not None), None)
    spare = outcome.spare if outcome.verdict == FITS and unknown is None else None
    if not pieces and unknown is None:
        spare = outcome.bought
    add: tuple[Board, ...] = ()
    sheets = boards[0].purchase.kind == "sheet"
    if outcome.too_big:
        unknown = unknown or _UNDECIDED
    elif outcome.verdict == TOO_FEW:
        unknown = _shaped(boards, pieces, wants, saw, sheets)
        if unknown is None:
            stock = [as_board(board) for board in boards]
            add = cutting.to_add(stock, pieces, saw.kerf, sheets=sheets, may_turn=sheets)
    elif outcome.verdict == NOT_DECIDED:
        unknown = unknown or _UNDECIDED
    return Supply(boards, pieces, outcome, unknown, add, spare)


def _shaped(
    boards: Sequence[Bought], pieces: Sequence[Sawn], wants: Sequence[Wanted], saw: Saw, sheets: bool
) -> Missing | None:
    """Why a proof of too few does not hold: shaped parts, without which the boards are not too few."""
    shaped = [want.name for want in wants if want.entry.shaped]
    square = [piece for piece in pieces if name_of(piece.key) not in shaped]
    if len(square) == len(pieces):
        return None
    stock = [as_board(board) for board in boards]
    if cutting.yields(stock, square, saw.kerf, sheets=sheets, may_turn=sheets).verdict == TOO_FEW:
        return None
    return Missing(
        f"{shaped[0]} is shaped, and shaped parts can be laid into one another",
        "one more board, or lay the shaped parts out on paper first",
    )


def _mixed(
    group: Group, pieces: list[Sawn], allowed: dict[str, set[str]], saw: Saw, *, sheets: bool
) -> list[Supply]:
    """A group in which some boards would do for some entries only (treated ones; sheets beside boards)."""
    few = [] if sheets else _proved(group, pieces, allowed, saw)
    if few:
        return few + _beside(few, group, pieces, allowed, saw)
    found = _shown(group, pieces, allowed, saw, sheets=sheets)
    if found:
        return found
    return [_open(group, pieces, saw, _MIXED)]


def _proved(group: Group, pieces: list[Sawn], allowed: dict[str, set[str]], saw: Saw) -> list[Supply]:
    """The sections of which there are too few. The fewest boards first: a proof for a family is a proof, and
    a wider family that takes it in proves nothing more.
    """
    few: list[Supply] = []
    short: set[str] = set()
    for wants, boards in _families(group, allowed):
        names = {want.name for want in wants}
        if not names & short:
            own = [piece for piece in pieces if name_of(piece.key) in names]
            found = [one for one in _plain(wants, boards, own, saw) if one.outcome.verdict == TOO_FEW]
            few += found
            short |= names if found else set()
    return few


def _beside(
    few: list[Supply], group: Group, pieces: list[Sawn], allowed: dict[str, set[str]], saw: Saw
) -> list[Supply]:
    """The other entries of the group: shown to fit the boards that the `few` do not need, else not known.

    Never too few: they might have some of those boards after all.
    """
    told = {name_of(piece.key) for one in few for piece in one.pieces}
    wants = [want for want in group.wants if want.name not in told]
    own = [piece for piece in pieces if name_of(piece.key) not in told]
    if not own:
        return []
    needed = {board.key for one in few for board in one.boards}
    left = Group(wants, [board for board in group.boards if board.key not in needed])
    found = _shown(left, own, allowed, saw, sheets=False) if left.boards else []
    short = name_of(few[0].pieces[0].key)
    unknown = Missing(f"the boards for {short} do not do, and other parts share them", "the boards it lacks")
    return found or [_open(left if left.boards else group, own, saw, unknown)]


def _open(group: Group, pieces: list[Sawn], saw: Saw, why: Missing) -> Supply:
    """Entries of which it could not be shown whether the boards do."""
    whole = cutting.yields([as_board(board) for board in group.boards], pieces, saw.kerf)
    unknown = next((want.unknown for want in group.wants if want.unknown is not None), why)
    return Supply(group.boards, pieces, whole, unknown, (), None)


def _shown(
    group: Group, pieces: list[Sawn], allowed: dict[str, set[str]], saw: Saw, *, sheets: bool
) -> list[Supply]:
    """The group in one, or family by family, if either is shown to fit; else none."""
    whole = cutting.yields([as_board(board) for board in group.boards], pieces, saw.kerf)
    if whole.verdict == FITS and _lawful(whole.layout, allowed):
        return [_supply(group.boards, pieces, whole, group.wants, saw)]
    return [] if sheets else _apart(group, pieces, allowed, saw)


def _families(group: Group, allowed: dict[str, set[str]]) -> list[tuple[list[Wanted], list[Bought]]]:
    found = []
    for keys in sorted({frozenset(may) for may in allowed.values()}, key=lambda may: (len(may), sorted(may))):
        wants = [want for want in group.wants if allowed[want.name] <= keys]
        boards = [board for board in group.boards if board.key in keys]
        if boards:
            found.append((wants, boards))
    return found


def _lawful(layout: Sequence[CutBoard], allowed: dict[str, set[str]]) -> bool:
    return all(board.key in allowed[name_of(cut.key)] for board in layout for cut in board.pieces)


def _apart(group: Group, pieces: list[Sawn], allowed: dict[str, set[str]], saw: Saw) -> list[Supply]:
    """Every family from the boards that no smaller family may use; none unless all of them fit."""
    found: list[Supply] = []
    taken: set[str] = set()
    done: set[str] = set()
    for wants, boards in _families(group, allowed):
        own_wants = [want for want in wants if want.name not in done]
        own_boards = [board for board in boards if board.key not in taken]
        own = [piece for piece in pieces if name_of(piece.key) in {want.name for want in own_wants}]
        if own and cutting.too_big([as_board(board) for board in own_boards], own, saw.kerf):
            return []
        if own_boards:
            found += _plain(own_wants, own_boards, own, saw)
        taken.update([board.key for board in boards])
        done.update([want.name for want in wants])
    fits = all(one.outcome.verdict == FITS and one.unknown is None for one in found)
    return found if fits else []
