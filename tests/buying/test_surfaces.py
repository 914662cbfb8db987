"""The area to finish and the area to glue, against counting cubes and against solids joined another way."""

from __future__ import annotations

from pathlib import Path

import manifold3d
import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.auditing import audit_source, audit_text
from planlint.build.piece import Piece
from planlint.buying.surfaces import all_faces, exposed, glued
from planlint.read.files import read_file
from planlint.source import Source

from .lists import INCH, bench

ROOT = Path(__file__).parents[2]
Box = tuple[tuple[int, int, int], tuple[int, int, int]]  # low corner and size, in 20 mm

CORNER = st.tuples(*[st.integers(0, 5)] * 3)
SIZE = st.tuples(*[st.integers(1, 5)] * 3)


def piece_of(boxes: list[Box]) -> Piece:
    """Blocks where they stand; most of them cut into each other, which no joint explains here."""
    parts, places = [], []
    for i, (low, size) in enumerate(boxes):
        x, y, z = (20 * each for each in low)
        wide, deep, high = (20 * each for each in size)
        parts.append(f"  p{i}: 1 of {min(deep, high)} x {max(deep, high)} @ {wide}")
        face = "top" if deep >= high else "front"
        places.append(f"  p{i}: runs left-right, face {face}, left at {x}, front at {y}, bottom at {z}")
    lines = ['plan "Blocks"', "  units mm", "  wood larch", "parts", *parts, "place", *places]
    return audit_text("\n".join(lines) + "\n").piece


def counted(boxes: list[Box]) -> int:
    """The surface of the union in faces of unit cubes: every cube's face with no cube behind it."""
    cubes = {
        (x, y, z)
        for (x0, y0, z0), (wide, deep, high) in boxes
        for x in range(x0, x0 + wide)
        for y in range(y0, y0 + deep)
        for z in range(z0, z0 + high)
    }
    ways = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]
    return sum((x + a, y + b, z + c) not in cubes for x, y, z in cubes for a, b, c in ways)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.tuples(CORNER, SIZE), min_size=1, max_size=5))
def test_no_contact_is_counted_twice_or_forgotten_however_blocks_touch_and_overlap(boxes: list[Box]) -> None:
    piece = piece_of(boxes)
    assert len(piece.parts) == len(boxes)
    assert exposed(piece) == pytest.approx(counted(boxes) * 400.0)


@pytest.mark.parametrize(
    "plan",
    ["samples/sound/potting-bench", "tests/plans/sound/lap-workbench", "tests/plans/sound/ladder-chair"],
)
def test_halved_tenoned_and_housed_parts_have_the_surface_of_the_solids_joined_into_one(plan: str) -> None:
    read = read_file(str(ROOT / f"{plan}.plan"))
    assert isinstance(read, Source)
    piece = audit_source(read).piece
    solids = [
        manifold3d.Manifold.hull_points(numpy.array(part.solid.vertices, dtype=numpy.float64))
        for part in piece.parts
    ]
    joined = manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add)
    assert any(overlap.solid is not None for overlap in piece.overlaps) or "potting" in plan
    assert exposed(piece) == pytest.approx(joined.surface_area(), rel=1e-3)


def test_leaning_boards_keep_the_faces_that_only_meet_along_an_edge() -> None:
    """A gap under the fit tolerance is a contact: a bevelled corner is not painted inside."""
    read = read_file(str(ROOT / "tests/plans/sound/plant-stand.plan"))
    assert isinstance(read, Source)
    piece = audit_source(read).piece
    whole = sum(
        manifold3d.Manifold.hull_points(numpy.array(part.solid.vertices, dtype=numpy.float64)).surface_area()
        for part in piece.parts
    )
    contacts = sum(2 * patch.area for _, _, patches in piece.contacts for patch in patches)
    assert any(part.leaning for part in piece.parts)
    assert exposed(piece) == pytest.approx(whole - contacts, rel=2e-3)


def test_slats_on_rails_by_hand() -> None:
    """Eight contacts of 1 1/2 x 3 1/2 in go off both parts' faces."""
    rails = 2 * 2 * (40 * 3.5 + 40 * 1.5 + 3.5 * 1.5)
    slats = 4 * 2 * (16 * 3.5 + 16 * 0.75 + 3.5 * 0.75)
    assert exposed(bench().piece) / INCH**2 == pytest.approx(rails + slats - 2 * 8 * 1.5 * 3.5)


def test_only_joins_with_glue_are_glued() -> None:
    assert glued(bench().piece) == 0.0
    with_glue = bench(fastening="2 wood-screws #8 x 2 in stainless and glue waterproof").piece
    assert glued(with_glue) / INCH**2 == pytest.approx(8 * 1.5 * 3.5)


def test_a_panel_of_four_boards_has_three_glued_edges() -> None:
    piece = audit_text(
        'plan "Top"\n  units in\n  wood pine\nparts\n  board: 8 of 1x8 @ 40\n'
        "  top: 2 of panel from 4 board edge-glued\n"
    ).piece
    assert glued(piece) / INCH**2 == pytest.approx(2 * 3 * 40 * 0.75)


def test_the_faces_of_a_cut_list_alone_count_a_panels_boards_once() -> None:
    piece = audit_text(
        'plan "Top"\n  units in\n  wood pine\nparts\n  board: 4 of 1x8 @ 40\n'
        "  top: 1 of panel from 4 board edge-glued\n"
    ).piece
    assert all_faces(piece) == pytest.approx(2 * (40 * 29 + 40 * 0.75 + 29 * 0.75) * INCH**2)
