"""What must hold however a piece stands: mirrored, moved or turned, its fasteners pass the same wood."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.build.piece import Driven, Part, Piece
from planlint.geometry.vector import WORLD, Vec, add, dot, turn, unit
from planlint.read.plan import Join
from tests.build.joinery.workshop import board, carried, cut, join, joined, near, screws

few = settings(max_examples=25, deadline=None)
eighths = st.integers(4, 32).map(lambda n: n / 8)


@st.composite
def frames(draw: st.DrawFn) -> list[Part]:
    """A frame of two legs and two rails about the middle, a slat on the rails, a shelf housed in the legs."""
    wide, deep = draw(eighths), draw(eighths)
    rail, slat, long = draw(eighths), draw(st.integers(3, 12)) / 8, draw(st.integers(10, 30)) / 1.0
    out = long / 2
    legs = [
        board("leg.1", (-out - wide, -deep, -10), (-out, deep, 10), "z", "y"),
        board("leg.2", (out, -deep, -10), (out + wide, deep, 10), "z", "y"),
    ]
    rails = [
        board("rail.1", (-out, -deep, 10 - 2 * rail), (out, 0, 10), "x", "y"),
        board("rail.2", (-out, 0, -10), (out, deep, 2 * rail - 10), "x", "y"),
    ]
    shelf = board("shelf", (-out - 0.25, -deep / 2, -0.375), (out + 0.25, deep / 2, 0.375))
    slats = [
        board("slat.1", (-1, -deep - 1, 10), (1, deep + 1, 10 + slat), "y"),
        board("slat.2", (-1, -deep - 1, -10 - slat), (1, deep + 1, -10), "y"),
    ]
    return [*legs, *rails, shelf, *slats]


def lines() -> list[Join]:
    return [
        join("leg", "rail", screws(2, length=4, bore=0.25)),
        join("rail", "leg", screws(2, "pocket-screws", length=2, from_="inside")),
        join("shelf", "leg", cut("housed", 0.25)),
        join("leg", "shelf", screws(1, length=3, from_="outside")),
        join("slat", "rail", screws(3, "figure-8", length=0.75)),
        join("slat", "rail", screws(2, "dowels", length=2, gauge=None)),
    ]


def same_way(a: Driven, b: Driven) -> bool:
    """Whether two fasteners pass the same parts over the same stretches."""
    return [p.part.name for p in a.passages] == [p.part.name for p in b.passages] and all(
        abs(p.enter - q.enter) < 0.01 and abs(p.leave - q.leave) < 0.01
        for p, q in zip(a.passages, b.passages, strict=True)
    )


def image(v: Vec, origin: Vec, axes: tuple[Vec, Vec, Vec]) -> Vec:
    x, y, z = (sum(v[k] * axes[k][i] for k in (0, 1, 2)) for i in (0, 1, 2))
    return add(origin, (x, y, z))


def assert_carried(parts: list[Part], origin: Vec, axes: tuple[Vec, Vec, Vec]) -> None:
    """Every fastener of the piece stands, carried along, in the piece whose parts were carried."""
    here = joined(parts, *lines())
    there = joined([carried(part, origin, axes) for part in parts], *lines())
    assert len(here.driven) == len(there.driven) > 0
    assert counts(here) == counts(there)
    for one in here.driven:
        entry, axis = image(one.entry, origin, axes), image(one.axis, (0.0, 0.0, 0.0), axes)
        alike = [d for d in there.driven if near(d.entry, entry) and near(d.axis, axis, 1e-6)]
        assert any(same_way(one, other) and other.tip == pytest.approx(one.tip) for other in alike)


def counts(piece: Piece) -> list[int]:
    return [
        len(piece.contacts),
        len(piece.overlaps),
        len(piece.meetings),
        len(piece.unmet),
        len(piece.wrong_sides),
    ]


@few
@given(frames(), st.sampled_from((0, 1, 2)))
def test_a_mirrored_piece_has_mirrored_fasteners(parts: list[Part], axis: int) -> None:
    x, y, z = (tuple(-v if i == axis else v for v in way) for i, way in enumerate(WORLD))
    assert_carried(parts, (0.0, 0.0, 0.0), (x, y, z))  # type: ignore[arg-type]


@few
@given(frames(), st.tuples(*[st.integers(-2000, 2000).map(float)] * 3))
def test_a_moved_piece_passes_the_same_wood(parts: list[Part], way: Vec) -> None:
    assert_carried(parts, way, WORLD)


@few
@given(
    frames(),
    st.tuples(*[st.floats(-1, 1, width=32)] * 3).filter(lambda v: dot(v, v) > 0.1),
    st.floats(1, 359),
)
def test_the_general_way_finds_what_the_aligned_way_finds(
    parts: list[Part], about: Vec, angle: float
) -> None:
    x, y, z = (turn(way, unit(about), angle) for way in WORLD)
    assert_carried(parts, (7.0, 8.0, 9.0), (x, y, z))
