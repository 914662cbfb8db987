"""Fittings that lie where two parts meet, and pins that sit half in each."""

from __future__ import annotations

import pytest

from planlint.build.piece import Part
from tests.build.joinery.workshop import INCH, board, cut, join, joined, near, passed, screws


def top_and_apron(gap: float = 0.0) -> list[Part]:
    """A 3/4 top on the upper edge of a 3/4 apron."""
    return [
        board("top", (0, 0, 29 + gap), (40, 20, 29.75 + gap)),
        board("apron", (2, 2, 26), (38, 2.75, 29), "x", "y"),
    ]


def test_a_figure_8_has_one_screw_up_and_one_down_under_its_eighth() -> None:
    # Guards: its screw counted from the top's far face: 1 1/2 in of wood that is not there.
    piece = joined(top_and_apron(), join("top", "apron", screws(3, "figure-8", length=0.75, gauge=8)))
    assert [(d.into.name, d.number) for d in piece.driven] == [
        ("apron", 1), ("apron", 2), ("apron", 3), ("top", 1), ("top", 2), ("top", 3),
    ]  # fmt: skip
    down, up = piece.driven[0], piece.driven[3]
    assert near(down.axis, (0, 0, -1)) and near(up.axis, (0, 0, 1))
    assert down.tip == up.tip == pytest.approx(0.625 * INCH)  # p: 3/4 less the plate's 1/8
    assert passed(up) == [("top", 0, 0.75)]  # cover 1/8
    assert passed(down) == [("apron", 0, 3)]


def test_a_figure_8_spans_a_gap_of_an_eighth_but_a_screw_does_not() -> None:
    # Guards: the gap a figure-8 is made for called a missing contact.
    piece = joined(top_and_apron(0.125), join("top", "apron", screws(3, "figure-8", length=0.75, gauge=8)))
    assert piece.unmet == [] and piece.meetings[0].gap == pytest.approx(0.125 * INCH)
    assert {round(d.entry[2] / INCH, 4) for d in piece.driven} == {29.0, 29.125}
    (unmet,) = joined(top_and_apron(0.125), join("top", "apron", screws(3, length=2))).unmet
    assert unmet.gap == pytest.approx(0.125 * INCH) and not unmet.line_only


def test_a_button_is_screwed_to_the_part_it_lies_flat_on() -> None:
    # Guards: a screw drawn into the apron, where the button has only its tongue.
    for line in (("top", "apron"), ("apron", "top")):
        piece = joined(top_and_apron(), join(*line, screws(2, "buttons", length=1.25, gauge=8)))
        assert {d.into.name for d in piece.driven} == {"top"}
        assert piece.driven[0].tip == pytest.approx(0.5 * INCH)


def test_the_size_of_a_hinge_is_not_its_screws_length() -> None:
    # Guards: '2 hinges 2 in' read as 2 in screws that come out of every door.
    piece = joined(top_and_apron(), join("top", "apron", screws(2, "hinges", length=2, gauge=None)))
    assert len(piece.driven) == 4 and all(d.length is None for d in piece.driven)


def test_a_dowel_sits_half_in_each_part() -> None:
    # Guards: a blind dowel driven through the whole of the first part.
    piece = joined(top_and_apron(), join("top", "apron", screws(2, "dowels", length=1, gauge=None)))
    assert passed(piece.driven[0]) == [("top", 0, 0.5), ("apron", 0.5, 3.5)]
    assert piece.driven[0].tip == pytest.approx(INCH)


def test_a_peg_driven_from_a_side_goes_through_the_mortised_leg_into_the_tenon() -> None:
    # Guards: the tenon's wood and the leg's counted twice where they share space.
    leg = board("leg", (0, 0, 0), (3.5, 3.5, 16.5), "z", "y")
    rail = board("rail", (2, 1, 12), (30, 2.5, 15.5), "x", "y")
    tenon = cut("mortise-and-tenon", tenon=(0.5, 2.5, 1.5))
    peg = join("leg", "rail", screws(1, "dowels", length=3.5, gauge=None, from_="front"))
    (one,) = joined([leg, rail], join("rail", "leg", tenon), peg).driven
    assert passed(one) == [("leg", 0, 1.5), ("rail", 1.5, 2), ("leg", 2, 3.5)]
    assert one.entry[1] == pytest.approx(0) and one.entry[0] == pytest.approx(2.75 * INCH)


def test_a_bought_fitting_no_table_knows_is_not_drawn() -> None:
    # Guards: a made-up way through the wood for a thing nobody described.
    piece = joined(top_and_apron(), join("top", "apron", screws(2, "widgets", length=2)))
    assert piece.driven == [] and len(piece.meetings) == 1
    (trouble,) = piece.troubles
    assert (trouble.kind, trouble.values["name"], trouble.values["what"]) == (
        "unknown-name",
        "widgets",
        "fastening",
    )
