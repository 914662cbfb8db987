"""Finish and glue: by area, with the source of the rate; chosen by where the piece stands."""

from __future__ import annotations

import pytest

from planlint.auditing import Audit, audit_text
from planlint.buying.measures import shown
from planlint.buying.surfaces import exposed, glued

from .lists import INCH, bench, group, line, listed, total

GALLON = 231.0  # cubic inches
SQUARE_FOOT = 144.0
GLUED = "2 wood-screws #8 x 2 in stainless and glue waterproof"


def indoors(audit: Audit) -> Audit:
    return audit_text(audit.source.text.replace("setting outdoors", "setting indoors"))


def test_outdoors_an_oil_stain_at_its_published_rate() -> None:
    audit = bench()
    found = line(listed(audit), "oil stain")
    area = exposed(audit.piece) / INCH**2 / SQUARE_FOOT
    assert found.needed is not None
    assert found.needed.low / INCH**3 == pytest.approx(area / 400 * GALLON)
    assert found.needed.high / INCH**3 == pytest.approx(area / 300 * GALLON)
    assert "300 to 400 sq ft a gallon" in found.notes[0]
    assert "one source" in found.notes[0]


def test_the_can_holds_what_the_worse_rate_takes() -> None:
    audit = bench()
    found = line(listed(audit), "oil stain")
    assert found.needed is not None
    assert found.what.endswith("half-pint can")
    assert found.needed.high / INCH**3 <= GALLON / 16


def test_film_varnish_and_paint_are_told_as_alternatives_outdoors_with_rags_in_mind() -> None:
    notes = " ".join(group(listed(bench()), "finish").notes)
    assert "names no finish" in notes
    assert "film varnish, three coats" in notes
    assert "paint, primer and two coats" in notes
    assert "Rags" in notes


def test_indoors_film_varnish_in_three_coats() -> None:
    audit = indoors(bench())
    found = line(listed(audit), "film varnish")
    area = exposed(audit.piece) / INCH**2 / SQUARE_FOOT
    assert found.needed is not None
    assert found.needed.high / INCH**3 == pytest.approx(3 * area / 400 * GALLON)
    assert "Rags" not in " ".join(group(listed(audit), "finish").notes)


def test_where_nobody_says_where_it_stands_no_finish_is_guessed() -> None:
    audit = audit_text(bench().source.text.replace("  setting outdoors\n", ""))
    found = listed(audit)
    assert all(one.key != "finish" for one in found.groups)
    assert any("finish" in one.what for one in found.not_known)


def test_a_finish_on_the_plans_list_is_not_told_again() -> None:
    found = listed(bench("1 exterior-paint"))
    assert [one.what for one in group(found, "finish").lines] == ["exterior paint"]
    assert group(found, "finish").lines[0].needed is not None
    assert not group(found, "finish").notes
    assert all(
        one.key != "hardware" or all("paint" not in each.what for each in one.lines) for one in found.groups
    )


def test_a_finish_of_no_known_rate_has_no_amount() -> None:
    found = line(listed(bench("1 outdoor-oil")), "outdoor oil")
    assert found.needed is None
    assert "no rate is known" in found.why


def test_without_places_the_area_is_not_known_but_bounded() -> None:
    text = bench().source.text
    without = text.partition("place")[0] + "step" + text.partition("step")[2]
    found = listed(audit_text(without))
    area = total(found, "area")
    assert area.amount is None
    most = 2 * 2 * (40 * 3.5 + 40 * 1.5 + 5.25) + 4 * 2 * (16 * 3.5 + 16 * 0.75 + 2.625)
    assert area.notes[1].startswith(f"no more than {most / 144:.1f} sq ft")
    assert line(found, "oil stain").buy is None
    assert any("place section" in one.add for one in found.not_known)


def test_a_part_without_a_place_leaves_the_area_open() -> None:
    """Its faces would be missing from the sum."""
    audit = audit_text(bench().source.text.replace("face top, front at 0, bottom", "face top, bottom"))
    assert audit.piece.unplaced_names
    assert total(listed(audit), "area").amount is None


def test_glue_by_the_glued_area_as_a_rule_of_thumb() -> None:
    audit = bench("1 glue waterproof", GLUED)
    found = line(listed(audit), "glue")
    square_metres = glued(audit.piece) / 1e6
    assert found.needed is not None
    assert found.needed.low * 1000 == pytest.approx(170 * square_metres)
    assert found.needed.high * 1000 == pytest.approx(245 * square_metres)
    assert found.what == "waterproof glue, a bottle of 4 oz or more"
    assert found.difference == "same"
    assert found.notes[0].startswith("rule of thumb (from memory)")


def test_outdoors_a_glue_that_is_not_waterproof_is_not_the_same() -> None:
    found = line(listed(bench("1 glue", GLUED)), "glue")
    assert found.what.startswith("waterproof glue")
    assert found.difference == "changed"


def test_glue_that_the_list_forgot_is_missing() -> None:
    assert line(listed(bench(fastening=GLUED)), "glue").difference == "missing"


def test_glue_that_no_join_uses_is_not_reckoned() -> None:
    found = line(listed(bench("1 glue waterproof")), "glue")
    assert (found.needed, found.difference, found.why) == (None, "not checked", "no join line glues")


def test_glue_without_places_is_a_bottle_of_no_known_size() -> None:
    text = bench("1 glue waterproof", GLUED).source.text
    without = text.partition("place")[0] + "step" + text.partition("step")[2]
    found = line(listed(audit_text(without)), "glue")
    assert (found.what, found.needed, found.buy) == ("waterproof glue", None, 1)


def test_glue_of_parts_without_a_place_may_be_more_than_is_known() -> None:
    text = bench("1 glue waterproof", GLUED).source.text
    text = text.replace("  slat: 4 of 1x4 @ 16\n", "  slat: 4 of 1x4 @ 16\n  cap: 1 of 1x4 @ 40\n")
    text = text.replace(
        "step\n",
        "  cap: runs left-right, face top, left at 0, bottom at 9\nstep\n  cap to slat: glue waterproof\n",
    )
    found = line(listed(audit_text(text)), "glue")
    assert found.needed is not None
    assert found.needed.at_least
    certain = line(listed(bench("1 glue waterproof", GLUED)), "glue").needed
    assert certain is not None
    assert not certain.at_least


def test_amounts_read_in_the_units_of_the_plan() -> None:
    audit = audit_text(bench().source.text.replace("units in", "units mm").replace("#8 x 2 in", "4 x 50"))
    found = line(listed(audit), "oil stain")
    assert found.needed is not None
    assert shown(found.needed, "mm").endswith(" ml")
    assert "sq m a litre" in found.notes[0]
