"""What the fit chapter says of whole plans: how grave each mistake is, and that what follows is silent.

The rules' own excerpts hold that a line is flagged; these hold the severity and the counts beside it.
"""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text
from planlint.judge.finding import Finding
from tests.observe.test_fits import frame
from tests.observe.test_holding import OVER, stand, trestles
from tests.observe.test_joint_cuts import case
from tests.observe.test_overlaps import stack

FIT = {
    "span-mismatch", "dimension-mismatch", "overlap", "no-contact", "loose-part", "separate-pieces",
    "uneven-feet", "foot-on-its-edge", "cannot-go-in", "joint-cut-wrong-size",
}  # fmt: skip


def fit(text: str) -> list[Finding]:
    return [finding for finding in audit_text(text).verdict.findings if finding.rule in FIT]


def said(text: str) -> list[tuple[str, str]]:
    return [(finding.rule, finding.severity) for finding in fit(text)]


@pytest.mark.parametrize(
    ("stated", "severities"),
    [
        ("48 x 3 1/2 x 16 1/2", []),
        ("48 1/16 x 3 1/2 x 16 1/2", []),
        ("48 5/64 x 3 1/2 x 16 1/2", ["check"]),
        ("48 1/4 x 3 1/2 x 16 1/2", ["check"]),
        ("48 17/64 x 3 1/2 x 16 1/2", ["stop"]),
        ("47 x 3 1/2 x 18", ["stop", "stop"]),
    ],
)
def test_overall_sizes_may_be_rounded(stated: str, severities: list[str]) -> None:
    found = said(frame(more=f"dimensions\n  overall: {stated}"))
    assert found == [("dimension-mismatch", severity) for severity in severities]


def test_two_dimensions_out_by_the_same_are_one_finding() -> None:
    """The cause is one: whoever mends it mends both."""
    text = frame(
        more="""dimensions
  left of post-l to right of post-r = 47 1/2
  left of post-l to left of post-r = 44
  bottom of post-l to top of post-l = 16 1/2"""
    )
    found = fit(text)
    assert [(finding.rule, finding.severity, finding.rows) for finding in found] == [
        ("dimension-mismatch", "stop", 2)
    ]


@pytest.mark.parametrize("rail", ["41 1/2", "40 1/2", "43"])
def test_a_rail_of_the_wrong_length_is_one_finding(rail: str) -> None:
    """Not one for the length, one for the overlap or gap, and one for the loose post behind it."""
    found = fit(frame(rail))
    assert [(finding.rule, finding.severity) for finding in found] == [("span-mismatch", "stop")]
    assert found[0].consequences > 0


def test_a_dimension_that_a_wrong_length_explains_is_silent() -> None:
    text = frame("41 1/2", "dimensions\n  left of rail to right of rail = 41")
    assert said(text) == [("span-mismatch", "stop")]


def test_another_overlap_of_the_same_parts_is_not_silenced() -> None:
    """From 2 3/4 to 44 1/2 are 41 3/4: the gap of 1/4 at the right follows, the 3/4 in the left doesn't."""
    places = "left at left of post-l + 2 3/4, right at left of post-r,"
    text = frame("41 1/2").replace("between post-l and post-r,", places)
    assert sorted(said(text)) == [("overlap", "stop"), ("span-mismatch", "stop")]


def test_an_overlap_silences_the_screws_between_the_two() -> None:
    text = stack("15", "2 wood-screws #10 x 2 in")
    assert {finding.rule for finding in audit_text(text).verdict.findings} == {"overlap"}


def test_a_gap_is_a_stop_and_an_edge_of_a_leaning_part_a_check() -> None:
    assert said(stack("16 1/2")) == [("no-contact", "stop")]
    beside = stack("16").replace(
        "left at 0, front at 0, bottom at 16", "left at 3 1/2, front at 0, bottom at 16"
    )
    assert said(beside) == [("no-contact", "stop")]
    prop = """\
plan "Prop"
  units in
parts
  base: 1 of 2x6 @ 24
  prop: 1 of 2x4 @ 16
place
  base: runs left-right, face top, left at 0, front at 0, bottom at 0
  prop: runs up, face front, leans 12 toward back, left at 10, front at 2, bottom at top of base + 0.312
step
  base to prop: 2 wood-screws #10 x 4 in
"""
    assert said(prop) == [("no-contact", "check")]
    assert said(prop.replace(" + 0.312", "")) == [("overlap", "check")]


@pytest.mark.parametrize(
    ("tray", "more", "severity"),
    [
        ("left at 0, front at 0, bottom at 10", "", "stop"),  # in the air
        (OVER, "", "hint"),
        (OVER, "cover\n  seat: tray from 0 to 9 1/4", "check"),
        ("left at 40, front at 0, bottom at 0", "", "check"),  # on the floor beside it
    ],
)
def test_how_grave_a_loose_part_is(tray: str, more: str, severity: str) -> None:
    assert said(stand(tray, "", more)) == [("loose-part", severity)]


def test_pieces_that_stand_are_a_check_and_one_that_hangs_is_a_stop() -> None:
    assert said(trestles("top to beam: loose")) == []
    assert ("separate-pieces", "check") in said(trestles(""))
    lip = stand(OVER, "tray to lip: 2 wood-screws #8 x 2 in").replace(
        "place\n",
        "  lip: 1 of 2x4 @ 24\nplace\n"
        "  lip: runs left-right, face top, left at 0, front at 0, bottom at top of tray\n",
    )
    assert said(lip) == [("separate-pieces", "stop")]


def test_a_shelf_that_cannot_go_in_is_a_stop_and_one_that_slides_with_glue_a_hint() -> None:
    def of(text: str) -> list[str]:
        return [severity for rule, severity in said(text) if rule == "cannot-go-in"]

    assert of(case("10 5/8", "Shelf")) == ["stop"]
    assert of(case("11.25 0", "Shelf")) == ["hint"]
    assert of(case("11.25 0", "Shelf", joint="housed 3/8 deep")) == []


def test_a_part_without_a_place_silences_what_hangs_on_it() -> None:
    """Whatever else is said then would be about a piece that nobody has drawn."""
    text = stand(OVER, "tray to board: 2 wood-screws #8 x 2 in").replace(
        "front at 5, bottom at 0", "bottom at 0"
    )
    assert said(text) == []


def test_a_finding_names_its_pieces_once_for_an_entry() -> None:
    """Four slats with one mistake are one finding with four names."""
    text = """\
plan "Seat"
  units in
parts
  rail: 2 of 2x4 @ 15
  board: 1 of 2x4 @ 21
  slat: 4 of 1x4 @ 24
place
  rail as rail-l, rail-r: runs front-back, face left, left at 0, front at 0, bottom at 0,
    mirrored left-right about 12
  board: runs left-right, face front, left at right of rail-l, front at 5, bottom at 0
  slat: row of 4 front-back from 0 to 15, runs left-right, face top, left at 0, bottom at 3 1/4
step
  rail to board: 2 wood-screws #10 x 4 in
  slat to rail: 2 wood-screws #8 x 2 in
"""
    found = fit(text)
    by_entry = {(finding.rule, finding.severity, finding.rows) for finding in found}
    # The second slat lies over the board too.
    assert by_entry == {("overlap", "stop", 8), ("overlap", "stop", 1)}
