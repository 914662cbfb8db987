"""Drawings to scale. Guards against: labels that overlap, drawings too wide, marks in the wrong place."""

from __future__ import annotations

import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from planlint.auditing import audit_text, rules
from planlint.observe.picture import Picture, ScrewPicture, SlatPicture
from planlint.show.bars import drawn
from planlint.show.labels import merged, stacked
from planlint.show.strokes import LINES, PLAIN, Strokes, strokes_for
from planlint.show.wording import word_finding
from tests.rules.files import PATHS, lesson
from tests.show.stored import check, orphans

IN = 25.4


def screw(
    seat: float, length: float, *passages: tuple[str, float, float], receiver: int | None = 1
) -> ScrewPicture:
    """A screw picture in inches."""
    mm = tuple((name, enter * IN, leave * IN) for name, enter, leave in passages)
    return ScrewPicture(seat * IN, length * IN, mm, receiver)


def slats(span: float, pitch: float, width: float, number: int, marked: int | None) -> SlatPicture:
    """A row of equal slats in inches, the first at the start of the span."""
    each = tuple((i * pitch * IN, (i * pitch + width) * IN) for i in range(number))
    return SlatPicture(0.0, span * IN, each, marked)


SHELF = (("shelf", 0.0, 0.75), ("side", 0.75, 1.5))
DRAWINGS: dict[str, tuple[Picture, float | None, str]] = {
    "short-in-a-counterbore": (screw(1, 3, ("leg-fl", 0, 3.5), ("front-rail", 3.5, 44.5)), 0.76 * IN, "in"),
    "long-enough": (screw(0, 1.25, *SHELF), 0.375 * IN, "in"),
    "tip-flush-with-the-face": (screw(0, 1.5, *SHELF), None, "in"),
    "tip-out-in-the-air": (screw(0, 2, *SHELF), None, "in"),
    "through-a-thin-plate": (screw(0, 0.75, ("figure-8", 0, 0.125), ("apron", 0.125, 2.6)), None, "in"),
    "never-reaches": (screw(1, 2, ("leg", 0, 3.5), ("rail", 3.5, 5)), 0.5 * IN, "in"),
    "metric": (
        ScrewPicture(25.4, 76.2, (("leg", 0.0, 89.0), ("front-rail of left-end", 89.0, 1000.0)), 1),
        19.0,
        "mm",
    ),
    "air-between-the-parts": (
        ScrewPicture(0.0, 60.0, (("a", 0.0, 18.0), ("b", 20.0, 38.0), ("c", 38.0, 70.0)), 1),
        10.0,
        "mm",
    ),
    "one-slat-short": (slats(15.5, 4, 3.5, 3, 3), None, "in"),
    "even-slats": (slats(15.5, 4, 3.5, 4, 2), None, "in"),
    "many-slats": (slats(48, 1.25, 1, 38, 3), None, "in"),
    "metric-slats": (
        SlatPicture(0.0, 1200.0, tuple((k * 100.0 + 10, k * 100.0 + 95) for k in range(12)), 3),
        None,
        "mm",
    ),
    "slats-that-hang-over": (
        SlatPicture(
            0.0, 16 * IN, tuple((a * IN, b * IN) for a, b in ((-1, 2.5), (3, 6.5), (9, 12.5), (13, 17))), 2
        ),
        None,
        "in",
    ),
    "no-slats-at-all": (SlatPicture(0.0, 400.0, (), 0), None, "mm"),
}


@pytest.mark.parametrize("name", DRAWINGS)
def test_the_drawing_is_the_stored_one(name: str) -> None:
    picture, needed, units = DRAWINGS[name]
    both = [drawn(picture, needed, units, 72, strokes) for strokes in (LINES, PLAIN)]
    check("drawings", name, "\n\n".join("\n".join(lines) for lines in both))


def test_no_stored_drawing_is_forgotten() -> None:
    assert orphans("drawings", set(DRAWINGS)) == set()


def column_of(lines: list[str], label: str) -> int:
    return next(line.index(label) for line in lines if label in line)


def test_head_part_and_tip_stand_where_the_numbers_say() -> None:
    # 1 in to the head, 3 1/2 to the joint, 4 to the tip: the columns must be in the same proportion
    picture, needed, units = DRAWINGS["short-in-a-counterbore"]
    lines = drawn(picture, needed, units, 72, LINES)
    axis = next(line for line in lines if LINES.tip in line)
    inch = axis.index(LINES.crossing) / 3.5
    assert axis.index(LINES.head) == pytest.approx(inch, abs=0.8)
    assert axis.index(LINES.tip) == pytest.approx(4 * inch, abs=0.8)
    assert column_of(lines, "tip 4") == axis.index(LINES.tip)
    assert column_of(lines, "needed 4 1/4") == axis.index(LINES.wanted)


def test_without_a_needed_depth_nothing_is_marked() -> None:
    assert not any(
        LINES.wanted in line or "needed" in line for line in drawn(screw(0, 2, *SHELF), None, "in", 72, LINES)
    )


def test_the_marked_gap_is_the_one_with_the_arrows() -> None:
    lines = drawn(slats(15.5, 4, 3.5, 3, 3), None, "in", 72, LINES)
    arrows = next(line for line in lines if LINES.to_left in line)
    assert arrows.index(LINES.to_left) == column_of(lines, "gap 4") + 1


@given(
    st.lists(st.floats(1, 200), min_size=1, max_size=4),
    st.floats(0, 60),
    st.floats(5, 300),
    st.none() | st.floats(0, 100),
    st.sampled_from(["in", "mm"]),
    st.integers(32, 92),
    st.sampled_from([LINES, PLAIN]),
)
@example([191.0, 1.0, 1.0], 0.0, 5.0, 0.0, "in", 32, LINES)  # three numbers on one column
@settings(max_examples=150, deadline=None)
def test_any_screw_fits_the_width_and_every_label_is_whole(
    depths: list[float],
    seat: float,
    length: float,
    needed: float | None,
    units: str,
    width: int,
    strokes: Strokes,
) -> None:
    places = [sum(depths[:i]) for i in range(len(depths) + 1)]
    passages = tuple((f"part-{i}", places[i], places[i + 1]) for i in range(len(depths)))
    picture = ScrewPicture(seat, length, passages, len(depths) - 1)
    lines = drawn(picture, needed, units, width, strokes)
    assert all(len(line) <= width for line in lines)
    text = "\n".join(lines)
    assert re.search(r"tip \d", text)
    assert needed is None or re.search(r"needed \d", text)
    assert "part-0" in text


def test_a_name_longer_than_the_page_does_not_hang_or_overflow() -> None:
    picture = screw(0, 2, ("shelf-of-" * 20, 0, 0.75), ("side", 0.75, 3))
    assert all(len(line) <= 40 for line in drawn(picture, None, "in", 40, LINES))


@given(st.lists(st.tuples(st.integers(0, 60), st.text("abc", min_size=1, max_size=9)), max_size=9))
def test_stacked_labels_never_overlap(labels: list[tuple[int, str]]) -> None:
    wanted = merged(labels)
    rows = stacked(wanted, "|")
    for column, text in wanted:
        heights = [h for h, row in enumerate(rows) if row[column : column + len(text)] == text]
        assert heights, f"{text} was written over"
        assert all(
            row[column : column + 1] == "|"
            for row in rows[: heights[0]]
            if row[column : column + 1] != text[0]
        )


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp1252", None, "no-such-encoding"])
def test_plain_strokes_where_the_output_cannot_take_lines(encoding: str | None) -> None:
    assert strokes_for(encoding) is PLAIN


def test_line_strokes_in_utf_8() -> None:
    assert strokes_for("utf-8") is LINES
    assert all(ord(c) < 128 for stroke in PLAIN for c in stroke)


def test_what_a_bolt_needs_in_all_is_not_drawn_as_what_its_receiver_must_hold() -> None:
    """The picture counts `needed` from where the last part begins: 3 3/8 in of bolt became a mark at 4 7/8."""
    rule = rules().rules["bolt-too-short"]
    example = next(
        one for one in lesson(next(path for path in PATHS if path.stem == rule.id)).excerpts if one.flagged
    )
    audit = audit_text(example.plan)
    (finding,) = [one for one in audit.verdict.findings if one.rule == rule.id]
    told = word_finding(finding, rule, audit.source, "in")
    assert "3 3/8 in" in told.says
    assert told.needed is None
