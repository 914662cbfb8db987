"""What a saw can do: checks a layout piece by piece, by other means than the packing that made it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from planlint.cutting import Board, Cut, CutBoard, Piece

INCH = 25.4
KERF = INCH / 8
HAIR = 0.001 + 1e-9  # mm: what the module allows
ROUNDED = 2e-6  # mm: positions are whole nanometres


def inches(key: str, number: int, length: float, width: float = 3.5, thickness: float = 1.5) -> Board:
    """Boards in inches; 2x4 unless said."""
    return Board(key, thickness * INCH, width * INCH, length * INCH, number)


def wanted(key: str, number: int, length: float, width: float = 3.5, thickness: float = 1.5) -> Piece:
    """Pieces in inches; of 2x4 unless said."""
    return Piece(key, width * INCH, length * INCH, number, thickness * INCH)


def check(layout: Sequence[CutBoard], boards: Sequence[Board], pieces: Sequence[Piece], kerf: float) -> None:
    """Every piece cut once, in its size, from a board that was bought, by edge-to-edge cuts a kerf wide."""
    bought = Counter({board.key: 0 for board in boards})
    for board in boards:
        bought[board.key] += board.number
    assert not Counter(board.key for board in layout) - bought, "a board was used that nobody bought"
    asked = Counter({piece.key: 0 for piece in pieces})
    for piece in pieces:
        asked[piece.key] += piece.number
    assert Counter(cut.key for board in layout for cut in board.pieces) == asked
    for board in layout:
        sizes = {(other.thickness, other.width, other.length) for other in boards if other.key == board.key}
        assert (board.thickness, board.width, board.length) in sizes
        for strip in board.strips:
            for cut in strip.pieces:
                assert cut.across == strip.across and cut.width <= strip.width + ROUNDED
                assert strip.along - ROUNDED <= cut.along
                assert cut.along + cut.length <= strip.along + strip.length + ROUNDED
        for cut in board.pieces:
            assert cut.along >= -ROUNDED and cut.along + cut.length <= board.length + HAIR, (
                "longer than the board"
            )
            assert cut.across >= -ROUNDED and cut.across + cut.width <= board.width + HAIR, (
                "wider than the board"
            )
        assert comes_apart(board.pieces, kerf), "no edge-to-edge cut sets these free"


def right_size(board: CutBoard, cut: Cut, pieces: Sequence[Piece]) -> bool:
    """Whether the cut is one of its key's pieces, flat or on edge, and the board is thick enough."""
    for piece in pieces:
        across, through = (piece.thickness, piece.width) if cut.turned else (piece.width, piece.thickness)
        if (
            piece.key == cut.key
            and abs(cut.length - piece.length) < ROUNDED
            and abs(cut.width - across) < ROUNDED
            and through <= board.thickness + HAIR
        ):
            return True
    return False


def comes_apart(cuts: Sequence[Cut], kerf: float) -> bool:
    """Whether straight cuts from edge to edge, `kerf` wide, set every piece free."""
    if len(cuts) < 2:
        return True
    for begin, end in (
        (lambda cut: cut.along, lambda cut: cut.along + cut.length),
        (lambda cut: cut.across, lambda cut: cut.across + cut.width),
    ):
        ordered = sorted(cuts, key=begin)
        reach = end(ordered[0])
        for index, cut in enumerate(ordered[1:], start=1):
            if begin(cut) >= reach + kerf - ROUNDED:
                return comes_apart(ordered[:index], kerf) and comes_apart(ordered[index:], kerf)
            reach = max(reach, end(cut))
    return False
