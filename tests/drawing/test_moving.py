"""Parts moved apart in the exploded view."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.drawing.moving import moves, touches
from planlint.geometry.meeting import shared
from planlint.geometry.solid import moved
from planlint.geometry.vector import WORLD, length, sub

from .plans import SAMPLES, audited, shelf

PLACED = [path for path in SAMPLES if audited(path).piece.parts]
every_piece = pytest.mark.parametrize("path", PLACED, ids=lambda path: path.stem)


@every_piece
def test_no_part_moves_into_another(path: Path) -> None:
    """Two parts in one place, as no hand could hold them."""
    piece = audited(path).piece
    own = moves(piece, 250.0).of
    solids = [moved(part.solid, move, WORLD) for part, move in zip(piece.parts, own, strict=True)]
    for i, first in enumerate(piece.parts):
        for j in range(i):
            if shared(first.solid, piece.parts[j].solid) is None:
                assert shared(solids[i], solids[j]) is None, (first.name, piece.parts[j].name)


@every_piece
def test_most_joints_come_apart(path: Path) -> None:
    """An exploded view in which parts still sit on each other."""
    piece = audited(path).piece
    own = moves(piece, 250.0).of
    joints = [one for one in touches(piece) if one.joined]
    opened = [one for one in joints if length(sub(own[one.first], own[one.second])) > 100.0]
    assert len(opened) >= 0.9 * len(joints)


def test_a_single_part_stays() -> None:
    """One part has nothing to move from."""
    assert moves(shelf().piece, 100.0).of == ((0.0, 0.0, 0.0),)
