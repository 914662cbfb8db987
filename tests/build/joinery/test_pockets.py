"""Pocket screws: the trigonometry of a pocket 15 deg to its face, out of the end at half the thickness."""

from __future__ import annotations

import math

import pytest

from planlint.build.piece import Driven, Part
from planlint.geometry.vector import WORLD, dot, turn
from tests.build.joinery.workshop import INCH, at, board, carried, join, joined, near, screws


def onto_a_face(thickness: float, receiver: float) -> list[Part]:
    """A board 12 long whose end stands on the wide face of another."""
    return [
        board("rail", (0, -thickness, 0), (12, 0, 3), "x", "y"),
        board("stile", (12, -4, -6), (12 + receiver, 4, 6), "z", "x"),
    ]


def pocketed(parts: list[Part], length: float, from_: str = "front", number: int = 1) -> list[Driven]:
    return joined(parts, join("rail", "stile", screws(number, "pocket-screws", length, 8, from_))).driven


# Inches: thickness, length, p, depth, cover onto a face as thick, side cover in a flush edge joint.
# Worked from axis 15 deg, exit t/2, seat 0.9 t (common practice, no source).
ROWS = [
    (1 / 2, 3 / 4, 0.300, 0.290, 0.210, 0.172),
    (1 / 2, 1, 0.550, 0.531, -0.031, 0.108),
    (3 / 4, 1, 0.325, 0.314, 0.436, 0.291),
    (3 / 4, 1 + 1 / 4, 0.575, 0.555, 0.195, 0.226),
    (3 / 4, 1 + 1 / 2, 0.825, 0.797, -0.047, 0.161),
    (3 / 4, 2, 1.325, 1.280, -0.530, 0.032),
    (7 / 8, 1 + 1 / 2, 0.713, 0.688, 0.187, 0.253),
    (1, 1 + 1 / 2, 0.600, 0.580, 0.420, 0.345),
    (1 + 1 / 8, 2, 0.988, 0.954, 0.171, 0.307),
    (1 + 1 / 4, 2, 0.875, 0.845, 0.405, 0.399),
    (1 + 1 / 2, 2, 0.650, 0.628, 0.872, 0.582),
    (1 + 1 / 2, 2 + 1 / 2, 1.150, 1.111, 0.389, 0.452),
]


@pytest.mark.parametrize(("thickness", "length", "p", "depth", "cover", "side"), ROWS)
def test_the_pocket_table(
    thickness: float, length: float, p: float, depth: float, cover: float, side: float
) -> None:
    # Guards: axis, seat or exit off; the length counted from the face instead of from the seat.
    (one,) = pocketed(onto_a_face(thickness, thickness), length)
    assert one.tip is not None
    rail = one.passages[0]
    tip = [e + a * one.tip for e, a in zip(one.entry, one.axis, strict=True)]
    rounding = 0.0006 * INCH
    assert one.tip - rail.leave == pytest.approx(p * INCH, abs=rounding)
    assert tip[0] - 12 * INCH == pytest.approx(depth * INCH, abs=rounding)
    assert (12 + thickness) * INCH - tip[0] == pytest.approx(cover * INCH, abs=rounding)
    assert -tip[1] == pytest.approx(side * INCH, abs=rounding)


def test_a_pocket_screw_in_3_and_a_half_in_stock_never_reaches() -> None:
    (one,) = pocketed(onto_a_face(3.5, 1.5), 2.5)
    assert one.tip is not None
    assert one.tip - one.passages[0].leave == pytest.approx(-0.65 * INCH, abs=0.01)


def test_the_mouth_lies_in_the_named_face_1_87_thicknesses_back() -> None:
    # Guards: pocket in the wrong face; entry put at the seat.
    (one,) = pocketed(onto_a_face(0.75, 0.75), 1.25, "back")
    assert one.pocket_side == "back" and near(one.mouth, (0, 1, 0))
    assert one.entry[1] == pytest.approx(0)
    assert (12 * INCH - one.entry[0]) / (0.75 * INCH) == pytest.approx(0.5 / math.tan(math.radians(15)))
    assert dot(one.axis, (1, 0, 0)) == pytest.approx(math.cos(math.radians(15)))


def test_pockets_lie_side_by_side_across_their_face() -> None:
    # Guards: two pockets one behind the other along the board.
    driven = pocketed(onto_a_face(0.75, 0.75), 1.25, number=2)
    assert sorted(d.spot[2] / INCH for d in driven) == pytest.approx([0.75, 2.25])
    assert [d.spot[1] / INCH for d in driven] == pytest.approx([-0.375, -0.375])


def test_places_of_pockets_counted_from_a_side() -> None:
    fastening = screws(2, "pocket-screws", 1.25, 8, "front", spots=at("top", 0.5, 2))
    driven = joined(onto_a_face(0.75, 0.75), join("rail", "stile", fastening)).driven
    assert [d.spot[2] / INCH for d in driven] == pytest.approx([2.5, 1.0])


def test_no_pocket_in_the_mating_end_or_against_it() -> None:
    # Guards: a pocket cut into the end that meets the other part.
    for side in ("left", "right"):
        parts = onto_a_face(0.75, 0.75)
        piece = joined(parts, join("rail", "stile", screws(1, "pocket-screws", 1.25, 8, side)))
        assert piece.driven == []
        assert piece.wrong_sides[0].sides == ("back", "front", "top", "bottom")


def test_inside_is_the_wide_face_that_looks_to_the_middle() -> None:
    # Guards: holes put on the outside, where people see them.
    far = board("far", (0, 20, 0), (12, 21, 3))
    assert pocketed([*onto_a_face(0.75, 0.75), far], 1.25, "inside")[0].pocket_side == "back"
    assert pocketed([*onto_a_face(0.75, 0.75), far], 1.25, "outside")[0].pocket_side == "front"


@pytest.mark.parametrize("axis", WORLD)
def test_a_leaning_board_has_the_same_pocket_in_its_own_face(axis: tuple[float, float, float]) -> None:
    # Guards: the slope taken from the world's side instead of from the face as it leans.
    (flat,) = pocketed(onto_a_face(0.75, 0.75), 1.25)
    x, y, z = (turn(way, axis, 12) for way in WORLD)
    parts = [carried(part, (5.0, 6.0, 7.0), (x, y, z)) for part in onto_a_face(0.75, 0.75)]
    (leaning,) = pocketed(parts, 1.25)
    assert near(leaning.mouth, (-y[0], -y[1], -y[2]))
    assert leaning.pocket_side == "front"
    assert leaning.tip == pytest.approx(flat.tip)
    assert [p.leave for p in leaning.passages] == pytest.approx([p.leave for p in flat.passages])
