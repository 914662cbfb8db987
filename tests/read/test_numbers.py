"""Numbers and units: what is written is what is meant, in base units, from rules/tables/units.txt."""

from __future__ import annotations

import pytest

from planlint.read.plan import Quantity
from planlint.units import simple_units
from tests.read.texts import bare, entry, plan_of, trouble_of, troubles_of

IN, FT = 25.4, 304.8


def length_of(written: str, units: str = "in") -> Quantity:
    """A length as it stands in a position."""
    plan = plan_of(f'plan "x"\n  units {units}\nplace\n  a: left at {written}\n')
    (term,) = plan.placements[0].clauses[0].where.terms  # type: ignore[union-attr]
    assert isinstance(term.of, Quantity)
    return term.of


@pytest.mark.parametrize(
    ("written", "millimetres"),
    [
        ("41", 41 * IN),
        ("3.5", 3.5 * IN),
        (".75", 0.75 * IN),
        ("3/4", 0.75 * IN),
        ("3 1/2", 3.5 * IN),
        ("3  1/2", 3.5 * IN),
        ("3-1/2", 3.5 * IN),
        ("3½", 3.5 * IN),
        ("3 ½", 3.5 * IN),
        ("3-½", 3.5 * IN),
        ("⅝", 0.625 * IN),
        ("17/32", 17 / 32 * IN),
        ("3 1/2 in", 3.5 * IN),
        ('3 1/2"', 3.5 * IN),
        ("3½″", 3.5 * IN),
        ("3 1/2''", 3.5 * IN),
        ("3 inches", 3 * IN),
        ("3 ft", 3 * FT),
        ("3'", 3 * FT),
        ("3′", 3 * FT),
        ("1 1/2 feet", 1.5 * FT),
        ("3' 6 1/2\"", 42.5 * IN),
        ("3'-6\"", 42 * IN),
        ("3’ 6½”", 42.5 * IN),
        ("3 ft 6 in", 42 * IN),
        ("89 mm", 89),
        ("8.9 cm", 89),
        ("1.2 m", 1200),
        ("16MM", 16),
    ],
)
def test_every_way_to_write_a_length(written: str, millimetres: float) -> None:
    assert length_of(written).value == pytest.approx(millimetres, abs=1e-9)


@pytest.mark.parametrize(("units", "factor"), [("in", IN), ("ft", FT), ("mm", 1), ("cm", 10), ("m", 1000)])
def test_a_bare_number_is_in_the_plans_units_wherever_the_plan_section_stands(
    units: str, factor: float
) -> None:
    found = length_of("2", units)
    assert (found.value, found.unit) == (pytest.approx(2 * factor), units)
    late = plan_of(f'plan "x"\nplace\n  a: left at 2\nplan\n  kerf 1\n  units {units}\n')
    assert late.placements[0].clauses[0].where.terms[0].of.value == pytest.approx(2 * factor)  # type: ignore[union-attr]
    assert late.heading.kerf and late.heading.kerf.value == pytest.approx(factor)


def test_a_unit_after_the_last_number_covers_those_before_it() -> None:
    plan = plan_of('plan "x"\n  units mm\ncover\n  a: b from floor to floor, gap 1/8 to 3/4 in\n')
    assert (plan.covers[0].least.value, plan.covers[0].most.value) == pytest.approx((IN / 8, 0.75 * IN))  # type: ignore[union-attr]
    plan = plan_of('plan "x"\n  units mm\ncarry\n  load-space 38 x 2 ft x 32 in\n')
    assert plan.carry.load_space
    assert [size.value for size in plan.carry.load_space] == pytest.approx([38 * IN, 2 * FT, 32 * IN])


def test_a_unit_does_not_reach_across_a_plus() -> None:
    plan = plan_of('plan "x"\n  units mm\nplace\n  a: left at 10 + 2 in\n')
    first, second = plan.placements[0].clauses[0].where.terms  # type: ignore[union-attr]
    assert (first.of.value, second.of.value) == (10, pytest.approx(2 * IN))  # type: ignore[union-attr]


@pytest.mark.parametrize("written", ["12", "12 deg", "12°", "12 degrees"])
def test_an_angle_needs_no_unit_where_only_an_angle_fits(written: str) -> None:
    (clause,) = entry("place", f"a: leans {written} toward back").clauses
    assert (clause.angle.value, clause.angle.dimension) == (12, "angle")


@pytest.mark.parametrize(
    ("written", "value", "dimension"),
    [
        ("40 kg", 40, "mass"),
        ("100 lb", 45.359237, "mass"),
        ("100 lbs", 45.359237, "mass"),
        ("200 N", 200, "force"),
    ],
)
def test_a_load_is_a_weight_or_a_force(written: str, value: float, dimension: str) -> None:
    amount = entry("load", f"shelf: {written} spread").amount
    assert (amount.value, amount.dimension) == (pytest.approx(value), dimension)


@pytest.mark.parametrize(
    ("section", "line", "written", "found", "expected"),
    [
        ("place", "a: top at 12 deg", "12 deg", "an angle", "a length"),
        ("place", "a: leans 12 in toward back", "12 in", "a length", "an angle"),
        ("carry", "lift by 2 in", "2 in", "a length", "a plain number"),
        ("load", "seat: 3 ft", "3 ft", "a length", "a weight"),
        ("load", "seat: 40", "40", "a plain number", "a weight"),
        ("load", "seat: 2 kg people", "2 kg", "a weight", "a plain number"),
        ("plan", "kerf 3 lb", "3 lb", "a weight", "a length"),
        ("plan", "moisture 9 to 14 in", "14 in", "a length", "a percentage"),
        ("parts", "a: 1 of 2x4 @ 16 deg", "16 deg", "an angle", "a length"),
        ("parts", "a: 1 of 2x4 @ 16, ends mitred 12 in", "12 in", "a length", "an angle"),
        ("buy", "1 of 2x4 @ 16 costing 6 in", "6 in", "a length", "a plain number"),
    ],
)
def test_a_value_of_another_kind_is_said_with_both_kinds(
    section: str, line: str, written: str, found: str, expected: str
) -> None:
    trouble, words = trouble_of(section, line)
    assert (trouble.kind, words) == ("wrong-kind-of-unit", written)
    assert trouble.values == {"written": written, "found": found, "expected": expected}


def test_a_unit_nobody_knows_is_no_wood() -> None:
    trouble, words = trouble_of("parts", "a: 1 of 2x4 @ 16 yards")
    assert (trouble.kind, words) == ("unknown-name", "16 yards")
    assert (trouble.values["name"], trouble.values["what"]) == ("yards", "unit")


def test_when_the_units_are_unknown_no_number_is_taken_for_another() -> None:
    text = 'plan "x"\n  units furlongs\nparts\n  a: 1 of 2x4 @ 16\n'
    ((trouble, words),) = troubles_of(text)
    assert (trouble.kind, words, trouble.values["what"]) == ("unknown-name", "furlongs", "unit")
    from planlint.read.reader import read
    from planlint.source import Source

    assert read(Source(text))[0].parts == []


@pytest.mark.parametrize(
    "written", ["17 1/2 -3/4", "17 1/2- 3/4", "17 1/2-3/4", "3/0", "1/2/3", "1.2.3", "3'6", "1,5"]
)
def test_a_number_that_could_mean_two_things_is_refused(written: str) -> None:
    trouble, words = trouble_of("place", f"a: top at {written}")
    assert trouble.kind == "unreadable"
    assert words and words.strip() in written


@pytest.mark.parametrize(
    ("section", "line", "words"),
    [
        ("parts", "a: 1 of 2x4 @ 0", "0"),
        ("parts", "a: 1 of 0 x 4 @ 9", "0"),
        ("buy", "50 wood-screws 10 x 4 in", "10"),
        ("buy", "50 wood-screws 8 x 2 1/2", "8"),
        ("carry", "lift by 2.5", "2.5"),
        ("load", "seat: 0 people", "0"),
        ("buy", "0 of 2x4 @ 96", "0"),
        ("buy", "10000 of 2x4 @ 96", "10000"),
        ("parts", "a: 1.5 of 2x4 @ 96", "1.5"),
    ],
)
def test_a_measure_or_count_that_cannot_be_is_refused(section: str, line: str, words: str) -> None:
    trouble, found = trouble_of(section, line)
    assert (trouble.kind, found) == ("unreadable", words)


def test_two_ways_to_write_one_length_do_not_differ() -> None:
    same = ["3 1/2", "3.5", "3½ in", "88.9 mm", "8.89 cm"]
    assert len({length_of(written).value for written in same}) == 1
    assert bare(length_of("3.5")) == bare(length_of("3 1/2"))


def test_every_unit_of_phrases_yaml_is_in_the_units_table() -> None:
    from planlint.read.notation import notation

    assert set(notation().words["units"].values()) <= set(simple_units())
