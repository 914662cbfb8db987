"""Plans as text, placed: what the tests of the placing half share. Lengths in the tests are inches."""

from __future__ import annotations

from planlint.build.piece import Part, Piece
from planlint.build.place import place_parts
from planlint.read.plan import Trouble
from planlint.read.reader import read
from planlint.source import Source

INCH = 25.4


def place(text: str, head: str = 'plan "Test"\n  units in\n  wood pine\n') -> Piece:
    """The piece that a plan's sections make; the plan section may be left out. The text must be readable."""
    plan, unread = read(Source(head + text))
    assert not unread, unread
    piece = Piece(plan)
    place_parts(plan, piece)
    return piece


def part(piece: Piece, name: str) -> Part:
    """The placed part of that full name."""
    found = [p for p in piece.parts if p.name == name]
    assert len(found) == 1, [p.name for p in piece.parts]
    return found[0]


def box(piece: Piece, name: str) -> tuple[tuple[float, float], ...]:
    """Where a part begins and ends, inches: left-right, front-back, up."""
    solid = part(piece, name).solid
    return tuple(
        (round(low / INCH, 6) + 0.0, round(high / INCH, 6) + 0.0)
        for low, high in zip(solid.low, solid.high, strict=True)
    )


def troubles(piece: Piece, kind: str) -> list[Trouble]:
    """The troubles of one kind."""
    return [trouble for trouble in piece.troubles if trouble.kind == kind]
