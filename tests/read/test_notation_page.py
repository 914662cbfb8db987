"""The page that teaches the notation: every example on it reads, and says what the page says it does."""

from __future__ import annotations

import pytest

from planlint.read.plan import At, Between, EndCut, Floor, MiddleOf, PartFace, SideOf
from planlint.read.reader import read
from planlint.source import Source
from tests.read.texts import HEADING, PAGE, entry, examples, plan_of, samples

IN = 25.4


@pytest.mark.parametrize("text", samples(), ids=lambda text: text.splitlines()[-1].strip()[:30])
def test_no_example_on_the_page_and_no_sample_fails_to_read(text: str) -> None:
    assert read(Source(text))[1] == []


def test_the_page_has_an_example_of_every_section() -> None:
    seen = {section for text in examples() for section in plan_of(text).sections}
    assert seen == {
        "plan", "buy", "parts", "place", "step", "cover", "dimensions", "load", "carry", "accept",
    }  # fmt: skip


def test_the_heading_keeps_every_setting() -> None:
    text = next(text for text in examples() if 'plan "Allotment bench"' in text)
    heading = plan_of(text).heading
    assert (heading.title, heading.units) == ("Allotment bench", "in")
    assert heading.piece and heading.piece.text == "bench"
    assert heading.setting and heading.setting.text == "outdoors"
    assert heading.wood and (heading.wood.text, heading.treated) == ("douglas-fir", True)
    assert heading.seen and [side.text for side in heading.seen] == ["front", "left", "right", "top"]
    assert [user.text for user in heading.users] == ["children", "accessible"]
    assert heading.moisture and [value.value for value in heading.moisture] == [9.0, 14.0]
    assert heading.kerf and heading.kerf.value == pytest.approx(IN / 8)
    assert heading.centres["left-right"].terms[0].of.value == pytest.approx(24 * IN)  # type: ignore[union-attr]
    assert heading.pilots_everywhere and heading.fixed_to_wall


def test_a_sheet_is_thickness_by_width_by_length() -> None:
    sheet = entry("buy", "1 of sheet 3/4 x 48 x 96 birch-plywood")
    assert (sheet.kind, sheet.stock.thickness.value, sheet.stock.width.value, sheet.length.value) == (
        "sheet", pytest.approx(0.75 * IN), pytest.approx(48 * IN), pytest.approx(96 * IN),
    )  # fmt: skip
    assert sheet.wood.text == "birch-plywood"


@pytest.mark.parametrize(
    ("line", "kind", "noun", "count", "wood", "price"),
    [
        ("2 of 2x4 @ 96 douglas-fir treated costing 6.40 each", "board", "board", 2, "douglas-fir", 6.4),
        ("3 of rough 1x6 @ 96 western-redcedar", "rough", "rough", 3, "western-redcedar", None),
        ("1 of panel 3/4 x 24 x 72 pine", "panel", "panel", 1, "pine", None),
        ("1 of dowel-rod 1 in @ 36 oak", "rod", "dowel-rod", 1, "oak", None),
        ("12 carriage-bolts M10 x 110 galvanised", "fastener", "carriage-bolts", 12, None, None),
        ("1 dowel 3/8 x 2 in", "fastener", "dowels", 1, None, None),
        ("2 hinges 2 in", "hardware", "hinges", 2, None, None),
        ("1 glue waterproof", "glue", "glue", 1, None, None),
    ],
)
def test_what_is_bought_is_told_apart(
    line: str, kind: str, noun: str, count: int, wood: str | None, price: float | None
) -> None:
    found = entry("buy", line)
    assert (found.kind, found.noun.text, found.number) == (kind, noun, count)
    assert (found.wood.text if found.wood else None, found.price) == (wood, price)
    assert found.treated == ("treated" in line)


@pytest.mark.parametrize("line", ["50 2 in nails", "50 nails 2 in", '50 nails 2"'])
def test_count_length_and_noun_are_not_one_number(line: str) -> None:
    found = entry("buy", line)
    assert (found.number, found.noun.text, found.size.length.value) == (50, "nails", 2 * IN)


def test_a_fraction_after_a_count_is_not_part_of_it() -> None:
    found = entry("buy", "24 1 1/2 in nails")
    assert (found.number, found.size.length.value) == (24, pytest.approx(1.5 * IN))
    assert entry("buy", "24 1/2 in nails").size.length.value == pytest.approx(IN / 2)


@pytest.mark.parametrize(
    ("size", "diameter", "length"),
    [
        ("M10 x 110", 10, 110),
        ("M10x110", 10, 110),
        ("5 x 70", 5, 70),
        ("5x70", 5, 70),
        ("1/4 x 3 in", IN / 4, 3 * IN),
        ("3/8 x 4", 0.375 * IN, 4 * IN),
        (".25 x 3", IN / 4, 3 * IN),
    ],
)
def test_metric_screws_are_in_mm_in_an_inch_plan_and_inch_bolts_in_inches(
    size: str, diameter: float, length: float
) -> None:
    found = entry("buy", f"4 lag-screws {size}").size
    assert (found.diameter.value, found.length.value) == (pytest.approx(diameter), pytest.approx(length))


def test_a_gauge_is_no_length() -> None:
    found = entry("buy", '50 wood-screws #8x2-1/2" zinc')
    assert (found.size.gauge, found.size.diameter, found.size.length.value) == (
        8,
        None,
        pytest.approx(2.5 * IN),
    )
    assert found.finish.text == "zinc"


def test_the_cut_list_keeps_every_clause() -> None:
    text = next(text for text in examples() if "lid:" in text)
    parts = {part.name: part for part in plan_of(text).parts}
    assert parts["glide"].ripped_from.name == "1x6"  # type: ignore[union-attr]
    assert (parts["side"].runs.text, parts["side"].face.text) == ("up", "left")  # type: ignore[union-attr]
    assert parts["rung"].stock.diameter.value == IN  # type: ignore[union-attr]
    assert (parts["shelf"].fit, parts["shelf"].length) == (True, None)
    assert parts["post"].mitred and parts["post"].mitred.parallel
    assert parts["brace"].mitred and [a.value for a in parts["brace"].mitred.angles] == [35, 55]
    assert parts["rail"].length_measure == "long to short"
    assert parts["frame"].length_measure == "short to short"
    assert parts["door"].grain_across and parts["arm"].shaped
    top, lid = parts["top"].stock, parts["lid"].stock
    assert (top.boards, top.board.name, top.edge_glued, top.width) == (4, "top-board", True, None)  # type: ignore[union-attr]
    assert (lid.width.value, lid.length.value) == pytest.approx((28 * IN, 39.5 * IN))  # type: ignore[union-attr]


def test_spaces_tell_a_lumber_name_from_a_measured_size() -> None:
    plan = plan_of(
        'plan "x"\n  units mm\nparts\n  a: 1 of 45x45 @ 400\n  b: 1 of 45 x 95 @ 400\n  c: 1 of 5/4x6 @ 9\n'
    )
    named, measured, rough = (part.stock for part in plan.parts)
    assert (named.name, rough.name) == ("45x45", "5/4x6")  # type: ignore[union-attr]
    assert (measured.thickness.value, measured.width.value) == (45, 95)  # type: ignore[union-attr]


def test_names_clauses_and_mirrors_of_a_placement() -> None:
    found = entry(
        "place",
        "leg as leg-fl, leg-fr, leg-bl, leg-br: runs up, left at 0, top at top of seat - 3/4 + 1, "
        "mirrored left-right about 24 and front-back about middle front-back of seat",
    )
    assert [name.text for name in found.names] == ["leg-fl", "leg-fr", "leg-bl", "leg-br"]
    top = found.clauses[2]
    assert isinstance(top, At)
    assert [term.sign for term in top.where.terms] == [1, -1, 1]
    assert isinstance(top.where.terms[0].of, SideOf)
    assert top.where.terms[1].of.value == pytest.approx(0.75 * IN)  # type: ignore[union-attr]
    assert [mirror.direction for mirror in found.mirrors] == ["left-right", "front-back"]
    about = found.mirrors[1].about
    assert about is not None and isinstance(about.terms[0].of, MiddleOf)


def test_between_takes_a_part_a_side_and_the_floor() -> None:
    (clause,) = entry("place", "a: between back and floor").clauses
    assert (
        isinstance(clause, Between)
        and isinstance(clause.first, PartFace)
        and isinstance(clause.second, Floor)
    )
    assert clause.first.ref.name == "back"
    (clause,) = entry("place", "a: between back of leg and top of leg-f of left-end").clauses
    assert (
        isinstance(clause, Between) and isinstance(clause.first, SideOf) and isinstance(clause.second, SideOf)
    )
    assert clause.second.ref.of is not None
    assert (clause.second.side, str(clause.second.ref)) == ("top", "leg-f of left-end")


def test_a_side_before_of_is_always_the_side() -> None:
    (clause,) = entry("place", "a: left at left of top").clauses
    (term,) = clause.where.terms
    assert (term.of.side, term.of.ref.name, term.of.ref.of) == ("left", "top", None)


def test_middle_of_is_a_place_and_centred_is_short_for_it() -> None:
    long, short = (
        entry("place", f"a: {clause}").clauses[0]
        for clause in ("middle up at middle up of rail", "centred up on rail")
    )
    assert (long.direction, long.where.terms[0].of.direction) == ("up", "up")
    assert long.where.terms[0].of.ref.name == short.where.terms[0].of.ref.name == "rail"


def test_the_three_kinds_of_row() -> None:
    flush, apart, block = (
        entry("place", f"slat: {row}").clauses[0]
        for row in (
            "row of 4 front-back from front of leg-fl to back of leg-bl",
            "row of 4 up between shelf and top of leg",
            "row of 3 left-right gap 1/4",
        )
    )
    assert (flush.how, flush.number, flush.first.terms[0].of.side) == ("from", 4, "front")
    assert (apart.how, apart.first.ref.name, apart.last.side) == ("between", "shelf", "top")
    assert (block.how, block.gap.value) == ("gap", pytest.approx(IN / 4))


def test_cuts_and_tapers() -> None:
    level, aslant, taper = entry(
        "place", "post: ends cut level, top cut 15 long at back, left tapered 3/4 at bottom from 4 below top"
    ).clauses
    assert isinstance(level, EndCut) and (level.which, level.how) == ("ends", "level")
    assert (aslant.which, aslant.angle.value, aslant.long_at) == ("top", 15, "back")
    assert (taper.side, taper.amount.value, taper.at) == ("left", pytest.approx(0.75 * IN), "bottom")
    assert (taper.start.value, taper.start_below) == (pytest.approx(4 * IN), "top")


def test_a_sub_assembly_is_placed_on_its_bench_and_held_by_a_part() -> None:
    plan = plan_of(
        "place in back\n  post: runs up\nplace\n  back: front of post at 17, leans 12 toward back\n"
    )
    inside, whole = plan.placements
    assert inside.assembly and inside.assembly.text == "back"
    assert whole.assembly is None and str(whole.subject) == "back"
    assert isinstance(whole.clauses[0], At) and str(whole.clauses[0].held) == "post"


def test_and_joins_fastenings_and_numbers() -> None:
    join = entry(
        "step", "a to b: 2 wood-screws #8 x 2 in at 1 and 3 from top and 1 glueblock and glue middle 3"
    )
    screws, block, glue = join.fastenings
    assert [d.value for d in screws.spots.distances] == pytest.approx(
        [IN, 3 * IN]
    ) and screws.spots.side == "top"
    assert (block.noun.text, glue.kind, glue.middle.value) == ("glueblock", "glue", pytest.approx(3 * IN))


def test_what_is_said_of_a_fastener() -> None:
    (screws,) = entry(
        "step",
        "a to b: 2 wood-screws #10 x 4 in stainless counterbored 1 x 1 in plugged piloted 1/8 slotted 1, "
        "from inside, at 3/4 from each end, through 1 1/2",
    ).fastenings
    assert (screws.number, screws.size.gauge, screws.finish.text, screws.from_.text) == (
        2,
        10,
        "stainless",
        "inside",
    )
    assert (screws.counterbore.diameter.value, screws.counterbore.depth.value) == (IN, IN)
    assert screws.plugged and screws.piloted.value == pytest.approx(IN / 8)
    assert (screws.slotted.value, screws.through.value) == (IN, pytest.approx(1.5 * IN))
    assert (screws.spots.side, screws.spots.distances[0].value) == ("each end", pytest.approx(0.75 * IN))


def test_joints_that_are_cut() -> None:
    housed, tenon, loose = entry(
        "step", "a to b: housed 3/8 deep and mortise-and-tenon 1/2 x 2 x 1 1/2 in and loose gap 1/32 to 3/32"
    ).fastenings
    assert housed.depth.value == pytest.approx(0.375 * IN)
    assert [size.value for size in tenon.tenon] == pytest.approx([IN / 2, 2 * IN, 1.5 * IN])
    assert [gap.value for gap in loose.gap] == pytest.approx([IN / 32, 3 * IN / 32])


def test_steps_are_numbered_in_the_order_written() -> None:
    plan = plan_of('step "One"\n  a to b: glue\nstep in back\n  c to d: unsaid\n')
    assert [(step.number, step.title, step.joins[0].step) for step in plan.steps] == [
        (1, "One", 1),
        (2, "", 2),
    ]
    assert plan.steps[1].assembly and plan.steps[1].assembly.text == "back"


def test_stated_dimensions() -> None:
    plan = plan_of(
        "dimensions\n  overall: 48 x 15 1/2 x 18\n  bottom of a to top of slat.1 = 18\n"
        "  front of a to front of b at top = 22 1/2\n  front of a to front of b at 24 up = 21\n"
        "  leans of a = 12\n"
    )
    overall, plain, at_top, at_height, leans = plan.dimensions
    assert [size.value for size in overall.sizes] == pytest.approx([48 * IN, 15.5 * IN, 18 * IN])  # type: ignore[union-attr]
    assert (plain.at, at_top.at) == (None, "top")  # type: ignore[union-attr]
    assert at_height.at.value == pytest.approx(24 * IN)  # type: ignore[union-attr]
    assert (leans.how, leans.stated.value) == ("leans", 12)  # type: ignore[union-attr]


def test_covers_loads_and_what_is_carried() -> None:
    text = next(text for text in examples() if "load-space" in text)
    plan = plan_of(text)
    people, spread, middle = plan.loads
    assert (people.people, spread.how, middle.how) == (2, "spread", "middle")
    assert spread.amount and (spread.amount.value, spread.amount.dimension) == (40, "mass")
    assert plan.carry.lift_by == 2
    assert plan.carry.load_space and plan.carry.load_space[2].value == pytest.approx(32 * IN)
    assert plan.accepts[0].reason == "stands against the shed"
    cover = entry("cover", "seat: 3 of slat across 15 1/2 in, gap 1/8 to 3/4 in")
    assert (cover.slats, cover.least.value, cover.most.value) == (
        3,
        pytest.approx(IN / 8),
        pytest.approx(0.75 * IN),
    )


def test_the_page_and_the_trade_tables_have_the_same_pieces_and_finishes() -> None:
    from planlint.trade.finishes import finishes
    from planlint.trade.pieces import kinds

    for word in kinds():
        assert word in PAGE
        plan_of(f'plan "x"\n  piece {word}\n')
    for word in finishes():
        assert entry("buy", f"1 nails 2 in {word}").finish.text == word
    assert HEADING
