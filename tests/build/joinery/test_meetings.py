"""Which pieces a join line means, which of them meet, and what is said of those that don't."""

from __future__ import annotations

import pytest

from planlint.build.naming import Naming
from planlint.build.piece import Part, Piece
from planlint.read.plan import Fastening, Heading, Placement, Plan, Ref, Word
from tests.build.joinery.workshop import (
    INCH,
    NOWHERE,
    board,
    cut,
    entry,
    inches,
    join,
    joined,
    ref,
    screws,
    word,
)


def met(piece: Piece) -> list[tuple[str, str]]:
    return [(m.first.name, m.second.name) for m in piece.meetings]


def slats_and_rails(gap: float = 0) -> list[Part]:
    slats = [board(f"slat.{i}", (4 * i, 0, gap), (4 * i + 3.5, 15, gap + 0.75), "y") for i in (1, 2)]
    rails = [board(f"rail.{i}", (0, 14 * (i - 1), -3.5), (12, 14 * i - 13, 0)) for i in (1, 2)]
    return [*slats, *rails]


def test_a_name_with_several_pieces_means_each_of_them() -> None:
    # Guards: only the first piece of a name joined.
    piece = joined(slats_and_rails(), join("slat", "rail", screws(1, length=2)))
    assert met(piece) == [(f"slat.{i}", f"rail.{j}") for i in (1, 2) for j in (1, 2)]
    assert met(joined(slats_and_rails(), join("slat.2", "rail.1", cut("glue")))) == [("slat.2", "rail.1")]


def test_every_touching_pair_is_a_contact_joined_or_not() -> None:
    piece = joined(slats_and_rails())
    assert [(a.name, b.name, len(p)) for a, b, p in piece.contacts] == [
        (f"slat.{i}", f"rail.{j}", 1) for i in (1, 2) for j in (1, 2)
    ]
    assert piece.meetings == []


def test_a_gap_is_measured_to_the_nearest_piece() -> None:
    # Guards: the gap to some other piece of the second name, or to its middle.
    first, second = joined(slats_and_rails(0.5), join("slat", "rail", cut("glue"))).unmet
    assert first.gap == second.gap == pytest.approx(0.5 * INCH)
    assert first.nearest is not None and first.nearest.name == "rail.1"
    assert not first.line_only


def test_within_the_fit_tolerance_parts_meet() -> None:
    # Guards: 0.02 in of rounding called a missing contact; 1/16 in let pass.
    piece = joined(slats_and_rails(0.02), join("slat", "rail", cut("glue")))
    assert piece.unmet == [] and piece.meetings[0].gap == pytest.approx(0.02 * INCH)
    assert len(joined(slats_and_rails(0.0625), join("slat", "rail", cut("glue"))).unmet) == 2


def test_touching_along_an_edge_is_no_meeting() -> None:
    # Guards: a corner contact that screws are then 'driven' through.
    one, two = board("one", (0, 0, 0), (10, 1, 1)), board("two", (0, 1, 1), (10, 2, 2))
    (unmet,) = joined([one, two], join("one", "two", cut("glue"))).unmet
    assert unmet.line_only and unmet.gap == pytest.approx(0)


def test_boards_glued_edge_to_edge_meet_once_a_joint() -> None:
    # Guards: `top-board to top-board` counted twice, or a board joined to itself.
    boards = [board(f"b.{i}", (0, 4 * i, 0), (30, 4 * i + 4, 1)) for i in range(3)]
    piece = joined(boards, join("b", "b", cut("glue")))
    assert met(piece) == [("b.0", "b.1"), ("b.1", "b.2")]
    assert piece.unmet == []


def test_a_drawer_with_its_stated_play_meets_its_side() -> None:
    # Guards: `loose gap 1/32 to 3/32` called a missing contact.
    loose = Fastening("loose", word("loose"), gap=(inches(1 / 32), inches(3 / 32)))
    parts = [board("drawer", (0, 0, 0), (10, 10, 4)), board("side", (10.09, 0, 0), (11, 10, 4), "y", "x")]
    assert joined(parts, join("drawer", "side", loose)).meetings[0].gap == pytest.approx(0.09 * INCH)
    far = [parts[0], board("side", (10.2, 0, 0), (11, 10, 4), "y", "x")]
    assert len(joined(far, join("drawer", "side", loose)).unmet) == 1


# --- names ------------------------------------------------------------------------------------


def two_ends() -> list[Part]:
    """A sub-assembly `end`, placed twice: each a leg on each side of a rail; the ends touch at the legs."""
    found = []
    for k, copy in enumerate(("left-end", "right-end")):
        x = 4 * k
        found += [
            board(f"leg-f of {copy}", (x, 0, 0), (x + 4, 4, 16), "z", "y", copy),
            board(f"leg-b of {copy}", (x, 14, 0), (x + 4, 18, 16), "z", "y", copy),
            board(f"rail of {copy}", (x, 4, 12), (x + 4, 14, 16), "y", "x", copy),
        ]
    for part in found:
        if part.name.startswith("leg"):
            part.copy_of = "leg"
    return found


def two_ends_plan() -> Plan:
    def placed(subject: str, *names: str, bench: Word | None = None) -> Placement:
        return Placement(
            Ref(subject, None, None, NOWHERE), tuple(word(n) for n in names), (), (), bench, NOWHERE
        )

    bench = word("end")
    plan = Plan(Heading(units="in"))
    plan.parts = [entry("leg"), entry("rail"), entry("brace")]
    plan.placements = [
        placed("leg", "leg-f", "leg-b", bench=bench),
        placed("rail", bench=bench),
        placed("end", "left-end", "right-end"),
    ]
    return plan


@pytest.mark.parametrize(
    ("name", "count"),
    [
        ("leg", 4), ("leg-f", 2), ("leg-f of left-end", 1), ("rail of right-end", 1), ("leg of left-end", 2),
        ("left-end", 3), ("end", 6), ("rail of end", 2), ("brace", 0),
    ],
)  # fmt: skip
def test_what_a_name_stands_for(name: str, count: int) -> None:
    piece = joined(two_ends(), plan=two_ends_plan())
    assert len(Naming(piece).parts_named(ref(name))) == count


def test_on_a_bench_a_name_means_this_copys_pieces() -> None:
    # Guards: the left rail joined to the right end's legs, which it also touches.
    lines = join("leg", "leg", cut("unsaid"))
    assert len(joined(two_ends(), lines, plan=two_ends_plan()).meetings) == 2
    piece = joined(two_ends(), join("rail", "leg", cut("glue")), assembly="end", plan=two_ends_plan())
    assert met(piece) == [
        ("rail of left-end", "leg-f of left-end"), ("rail of left-end", "leg-b of left-end"),
        ("rail of right-end", "leg-f of right-end"), ("rail of right-end", "leg-b of right-end"),
    ]  # fmt: skip


def test_a_listed_part_without_a_place_keeps_its_fasteners_numbers() -> None:
    # Guards: a plan that is not placed losing its screws, or being told that its own names are unknown.
    piece = joined(two_ends(), join("brace", "leg-f", screws(2, length=3)), plan=two_ends_plan())
    (fastener,) = piece.unplaced_fasteners
    assert fastener.first is not None and fastener.first.name == "brace"
    assert fastener.second is not None and fastener.second.name == "leg"
    assert fastener.reason == "brace has no place"
    assert piece.troubles == []


def test_a_piece_whose_position_is_not_known_makes_no_missing_contact() -> None:
    # Guards: 'slat.2 meets no rail', said because the rail it lies on could not be placed.
    parts = [part for part in slats_and_rails() if part.name != "rail.1"]
    far = board("slat.3", (20, 0, 0), (23.5, 10, 0.75), "y")
    line = join("slat", "rail", screws(1, length=2))
    assert [unmet.part.name for unmet in joined([*parts, far], line).unmet] == ["slat.3"]
    piece = joined([*parts, far], line, lost={"rail.1": "nothing fixes it up"})
    assert piece.unmet == []
    assert [one.reason for one in piece.unplaced_fasteners] == ["nothing fixes it up"]
    assert len(piece.driven) == 2


def test_an_unknown_name_is_told_once_with_the_nearest() -> None:
    lines = (join("brase", "leg", cut("glue")), join("brase", "rail", cut("glue")))
    piece = joined(two_ends(), *lines, plan=two_ends_plan())
    (trouble,) = piece.troubles
    assert trouble.values == {"name": "brase", "what": "part", "nearest": "brace"}


def test_a_number_that_the_row_has_not_is_unknown() -> None:
    piece = joined(slats_and_rails(), join("slat.5", "rail", cut("glue")))
    assert [t.values["name"] for t in piece.troubles] == ["slat.5"]


def test_a_name_on_an_unreadable_line_is_not_complained_about() -> None:
    plan = two_ends_plan()
    plan.unread_names = {"cleat"}
    assert joined(two_ends(), join("cleat", "leg", cut("glue")), plan=plan).troubles == []
