"""How pieces may lie on boards: flat or on edge, one or several across the width.

Sizes become whole nanometres here, with the kerf added, so that sums are exact and floats decide nothing.
A piece may come from a thicker board (planed) or a wider one (ripped), never from a thinner one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from planlint.cutting.bound import Room, Way, Ways
from planlint.cutting.stock import Board, Piece

NANOMETRES = 1_000_000  # in one mm: 1/64 in is a whole number of them
HAIR = 1_000  # 1/1000 mm: exactly at the limit is allowed


class Task(NamedTuple):
    """Boards and pieces of equal size taken together, in an order that does not depend on the input's.

    `boards`, `pieces`: one of each size with its total number. `board_keys`, `piece_keys`: a key for each
    single board or piece of that size. `rooms`, `ways`: the same in kerf-inclusive nanometres.
    """

    boards: list[Board]
    board_keys: list[list[str]]
    pieces: list[Piece]
    piece_keys: list[list[str]]
    kerf: int
    rooms: list[Room]
    ways: Ways

    @property
    def wanted(self) -> list[int]:
        """How many of each size of piece."""
        return [piece.number for piece in self.pieces]


@lru_cache(maxsize=4096)  # a size is asked for many times: of each board for each piece
def exact(size: float) -> int:
    """Whole nanometres, at least one; nothing on earth is longer than the cap."""
    return round(min(max(size, 1 / NANOMETRES), 1e9) * NANOMETRES)


class Shop(NamedTuple):
    """How it is cut: the saw's `kerf` (mm), sheets instead of boards, pieces turned across their grain.

    `budget`: ways of filling a board that a search may look at.
    """

    kerf: float
    budget: int
    sheets: bool = False
    may_turn: bool = False
    any_layout: bool = False  # the first layout found will do, and no proof is asked for
    two_stage: bool = False  # of layouts that are packed by rule of thumb, only those cut in two stages


def task(boards: Sequence[Board], pieces: Sequence[Piece], shop: Shop) -> Task:
    """Gather equal sizes and find every way each piece may lie on each board."""
    board_sizes = _gather_boards(boards)
    piece_sizes = _gather_pieces(pieces)
    cut = round(max(shop.kerf, 0.0) * NANOMETRES)
    thinnest = min((min(exact(piece.thickness), exact(piece.width)) for piece, _ in piece_sizes), default=1)
    unit = 0 if shop.sheets else thinnest + cut
    rooms = [_room(board, cut, unit) for board, _ in board_sizes]
    pairs = [(board, room) for (board, _), room in zip(board_sizes, rooms, strict=True)]
    if shop.sheets:
        ways = [[_on_sheet(piece, room, cut, shop.may_turn) for _, room in pairs] for piece, _ in piece_sizes]
    else:
        ways = [
            [_on_board(piece, board, room, cut, unit) for board, room in pairs] for piece, _ in piece_sizes
        ]
    return Task(
        [board for board, _ in board_sizes],
        [keys for _, keys in board_sizes],
        [piece for piece, _ in piece_sizes],
        [keys for _, keys in piece_sizes],
        cut,
        rooms,
        ways,
    )


def holds(board: Board, piece: Piece, shop: Shop) -> bool:
    """Whether the piece can be cut from such a board, were it the only one."""
    cut = round(max(shop.kerf, 0.0) * NANOMETRES)
    room = _room(board, cut, 0)
    return bool(
        _on_sheet(piece, room, cut, shop.may_turn) if shop.sheets else _on_board(piece, board, room, cut, 1)
    )


def _gather_boards(boards: Sequence[Board]) -> list[tuple[Board, list[str]]]:
    keys: dict[tuple[int, int, int], list[str]] = {}
    first: dict[tuple[int, int, int], Board] = {}
    for board in sorted(boards):
        size = (exact(board.length), exact(board.width), exact(board.thickness))
        keys.setdefault(size, []).extend([board.key] * board.number)
        first.setdefault(size, board)
    order = sorted(keys, key=lambda size: (size[1] * size[2], size[1], size[0]))  # smallest section, shortest
    return [(first[size]._replace(number=len(keys[size])), keys[size]) for size in order]


def _gather_pieces(pieces: Sequence[Piece]) -> list[tuple[Piece, list[str]]]:
    keys: dict[tuple[int, int, int, int], list[str]] = {}
    first: dict[tuple[int, int, int, int], Piece] = {}
    for piece in sorted(pieces):
        if piece.number > 0:
            size = (exact(piece.length), exact(piece.width), exact(piece.thickness), exact(piece.nests))
            keys.setdefault(size, []).extend([piece.key] * piece.number)
            first.setdefault(size, piece)
    order = sorted(keys, reverse=True)  # longest first
    return [(first[size]._replace(number=len(keys[size])), keys[size]) for size in order]


def _room(board: Board, cut: int, unit: int) -> Room:
    layers = max(1, (exact(board.thickness) + cut + HAIR) // unit) if unit else 1
    room = cut + HAIR
    return Room(board.number, exact(board.length) + room, exact(board.width) + room, layers)


def _on_board(piece: Piece, board: Board, room: Room, cut: int, unit: int) -> list[Way]:
    """Flat or on edge; the narrower first."""
    length = exact(piece.length) + cut
    if length > room.length:
        return []
    thick, wide, deep = exact(piece.thickness), exact(piece.width), exact(board.thickness) + HAIR
    lies = ((thick, wide, False),) if thick == wide else ((thick, wide, False), (wide, thick, True))
    ways = [
        Way(length, across + cut, min(room.layers, max(1, (up + cut) // unit)), turned)
        for up, across, turned in lies
        if up <= deep and across + cut <= room.width
    ]
    if len(ways) == 2 and ways[1].width < ways[0].width:
        ways.reverse()
    return ways


def _on_sheet(piece: Piece, room: Room, cut: int, may_turn: bool) -> list[Way]:
    """Grain along the sheet; across it too where it may be turned. The thickness is not looked at."""
    length, width = exact(piece.length) + cut, exact(piece.width) + cut
    ways = [Way(length, width, 1, False)]
    if may_turn and length != width:
        ways.append(Way(width, length, 1, True))
    return [way for way in ways if way.length <= room.length and way.width <= room.width]


def tracks(work: Task, board: int) -> int | None:
    """How many strips of this board's whole length stand for every way of cutting it, if a number does.

    When any `n` of its pieces fit side by side and no `n + 1` do, every layout can be sorted into `n` strips:
    packing the board is packing `n` lengths. None: widths too unlike for that.
    """
    room = work.rooms[board]
    there = [row[board] for row in work.ways if row[board]]
    if not there:
        return 0
    if any(way.length != row[0].length for row in there for way in row):
        return None
    strips = room.width // max(row[0].width for row in there)
    narrowest = min(way.width for row in there for way in row)
    for step in (narrowest, 1):
        lightest = min(way.layers * (way.width // step) for row in there for way in row)
        if room.layers * (room.width // step) // lightest == strips:
            return strips
    return None
