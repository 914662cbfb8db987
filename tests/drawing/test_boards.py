"""The cutting layout as SVG: labels stay in their pieces, nothing lies over anything else, everything is drawn."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.auditing import audit_text
from planlint.drawing.board_bar import Scale, bar
from planlint.drawing.board_labels import SIZE, Box, label
from planlint.drawing.board_page import one_page
from planlint.drawing.boards import HIGHEST, WIDE, pictures
from planlint.drawing.drawing import Drawing
from planlint.drawing.ink import INK, standalone
from planlint.drawing.letters import ASCENT, DESCENT, width
from planlint.sawing.alike import alike
from planlint.sawing.sawing import layout
from tests.drawing.plans import audited
from tests.sawing.plans import ALL, laid, one

Rectangle = tuple[float, float, float, float]  # left, top, right, bottom
HAIR = 0.02


def _root(drawing: Drawing) -> ElementTree.Element:
    """The drawing as a file, without its namespace."""
    return ElementTree.fromstring(standalone(drawing).replace(' xmlns="http://www.w3.org/2000/svg"', ""))


def _text_box(text: ElementTree.Element) -> Rectangle:
    size, wide = float(text.get("font-size", 0)), width(text.text or "", float(text.get("font-size", 0)))
    x, y = float(text.get("x", 0)), float(text.get("y", 0))
    left = {"middle": x - wide / 2, "end": x - wide}.get(text.get("text-anchor", "start"), x)
    below = 0.0 if (text.text or "").isdecimal() else DESCENT  # digits stand on the line
    return left, y - ASCENT * size, left + wide, y + below * size


def _rectangle(rect: ElementTree.Element) -> Rectangle:
    x, y, wide, high = [float(rect.get(name, 0)) for name in ("x", "y", "width", "height")]
    return x, y, x + wide, y + high


def _inside(one: Rectangle, other: Rectangle) -> bool:
    return (
        one[0] >= other[0] - HAIR
        and one[1] >= other[1] - HAIR
        and one[2] <= other[2] + HAIR
        and one[3] <= other[3] + HAIR
    )


def _meet(one: Rectangle, other: Rectangle) -> bool:
    return (
        min(one[2], other[2]) - max(one[0], other[0]) > HAIR
        and min(one[3], other[3]) - max(one[1], other[1]) > HAIR
    )


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_no_text_leaves_its_piece_or_the_paper_or_lies_over_another(path) -> None:  # type: ignore[no-untyped-def]
    audit = audited(path)
    found, units = layout(audit), audit.plan.heading.units
    for drawing in pictures(found, units):
        root = _root(drawing)
        paper = (0.0, 0.0, drawing.width, drawing.height)
        boxes = [_text_box(text) for text in root.iter("text") if text.text]
        upright = [box for box in boxes if _inside(box, paper)]
        assert len(upright) == len(boxes)
        turned = {
            id(text)
            for group in root.iter("g")
            if "rotate" in group.get("transform", "")
            for text in group.iter("text")
        }
        lying = [_text_box(text) for text in root.iter("text") if text.text and id(text) not in turned]
        for index, box in enumerate(lying):
            assert not any(_meet(box, other) for other in lying[index + 1 :])
        for piece in [group for group in root.iter("g") if group.get("data-entry")]:
            (edge,) = piece.findall("rect")
            for text in piece.iter("text"):
                if id(text) not in turned:
                    assert _inside(_text_box(text), _rectangle(edge))


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_every_board_piece_kerf_and_off_cut_is_drawn(path) -> None:  # type: ignore[no-untyped-def]
    audit = audited(path)
    found, units = layout(audit), audit.plan.heading.units
    told = [one.sawn for boards in found.boards for one in alike(boards, found.kerf)]
    roots = [_root(drawing) for drawing in pictures(found, units)]
    pieces = [group for root in roots for group in root.iter("g") if group.get("data-entry")]
    kerfs = [rect for root in roots for rect in root.iter("rect") if rect.get("class") == "kerf"]
    left = [group for root in roots for group in root.iter("g") if group.get("class") == "left-over"]
    assert len(pieces) == sum(len(one.pieces) for one in told)
    assert len(kerfs) == sum(len(one.cuts) for one in told)
    assert len(left) == sum(len(one.offcuts) for one in told)


def test_lengths_on_paper_are_in_the_boards_scale() -> None:
    boards = one("rail: 1 of 2x4 @ 48; post: 1 of 2x4 @ 24", "1 of 2x4 @ 96")
    (told,) = alike(boards, 3.175)
    drawn = bar(told.sawn, (10.0, 20.0), Scale(0.05, 0.1), str)
    root = ElementTree.fromstring(f"<svg>{''.join(drawn.content)}</svg>")
    rail, post = [_rectangle(group.find("rect")) for group in root if group.get("data-entry")]  # type: ignore[arg-type]
    assert rail == pytest.approx((10.0, 20.0, 10 + 48 * 25.4 * 0.05, 20 + 88.9 * 0.1), abs=0.01)
    assert post[0] - rail[2] == pytest.approx(3.175 * 0.05, abs=0.011)
    assert post[2] - post[0] == pytest.approx(24 * 25.4 * 0.05, abs=0.02)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    st.integers(0, 1200),
    st.text(st.characters(blacklist_categories=("Cs", "Cc")), min_size=1, max_size=30),
    st.floats(0.5, 60.0),
    st.floats(0.5, 60.0),
)
def test_a_label_fits_its_piece_whatever_it_is_called_or_is_left_out(
    number: int, name: str, wide: float, high: float
) -> None:
    drawn = label(number, name, "12 1/2", Box(5.0, 5.0, wide, high))
    if drawn is None:
        return
    root = ElementTree.fromstring(f"<svg>{drawn}</svg>")
    turned = root.find("g") is not None
    box = (5.0, 5.0, 5.0 + wide, 5.0 + high)
    if turned:  # about its middle: as wide as the piece is high
        x, y = 5.0 + wide / 2, 5.0 + high / 2
        box = (x - high / 2, y - wide / 2, x + high / 2, y + wide / 2)
    for text in root.iter("text"):
        if text.text and text.text.strip():
            assert _inside(_text_box(text), box)
    for ring in root.iter("circle"):
        x, y, r = [float(ring.get(key, 0)) for key in ("cx", "cy", "r")]
        assert _inside((x - r, y - r, x + r, y + r), box)


def test_pieces_too_small_for_a_number_have_it_beneath_the_board_in_order() -> None:
    _, found = laid("chip: 60 of 1/4 x 2 @ 1/2, ripped from 1x4; rail: 1 of 1x4 @ 30", "1 of 1x4 @ 96")
    (drawing, *_) = pictures(found, "in")
    root = _root(drawing)
    rings = [circle for circle in root.iter("circle") if circle.get("class") == "cut-ring"]
    places = sorted((float(ring.get("cy", 0)), float(ring.get("cx", 0))) for ring in rings)
    assert len(places) == len(set(places))


def test_sixty_boards_are_parted_so_that_each_picture_prints_on_a_page() -> None:
    parts = ";".join(f"p{index}: 1 of 2x4 @ {60 + index / 4:g}" for index in range(60))
    _, found = laid(parts, "60 of 2x4 @ 96")
    drawings = pictures(found, "in")
    assert len(drawings) > 1 and all(drawing.height <= HIGHEST + 30 for drawing in drawings)
    assert all(drawing.width == WIDE for drawing in drawings)
    assert len({drawing.name for drawing in drawings}) == len(drawings)
    page = one_page(found, "Sixty", "in")
    assert page.width > 2 * WIDE  # in columns
    pieces = [group for group in _root(page).iter("g") if group.get("data-entry")]
    assert len(pieces) == 60


def test_a_name_is_text_and_never_an_element() -> None:
    # A part may not be called so in a plan; what a later notation allows must not become markup.
    drawn = label(1, "<script>", "3", Box(0.0, 0.0, 60.0, 20.0))
    assert drawn is not None and "<script" not in drawn and "&lt;script&gt;" in drawn
    found = layout(
        audit_text('plan "<script>alert(1)</script>"\n  units in\n  wood pine\nparts\n  a: 1 of 2x4 @ 30\n')
    )
    assert "<script" not in standalone(one_page(found, "<script>alert(1)</script>", "in"))


@pytest.mark.parametrize("text", ["", 'plan "x"\n  units in\nparts\n  a: 1 of 2x44 @ 3\n'])
def test_nothing_to_cut_is_a_page_all_the_same(text: str) -> None:
    found = layout(audit_text(text))
    assert pictures(found, "in") == ()
    said = "".join(_root(one_page(found, "", "in")).itertext())
    assert "nothing to cut" in said or "Missing: a" in said


def test_every_class_that_is_drawn_has_a_pen() -> None:
    _, found = laid(
        "rail: 3 of 2x4 @ 30; lath: 2 of 3/4 x 3/4 @ 20, ripped from 1x4", "2 of 2x4 @ 96; 1 of 1x4 @ 96"
    )
    used = {
        name
        for element in _root(one_page(found, "Pens", "in")).iter()
        for name in element.get("class", "").split()
    }
    known = set(re.findall(r"\.([a-z-]+)", INK))
    assert used - known <= {"left-over"}
    assert SIZE >= 2.1  # 6 points, the smallest print that is read at arm's length
