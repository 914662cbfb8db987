"""The steps: what each takes, counted as the audit counts it, and the tools for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_text
from planlint.drawing.marks import numbered
from planlint.observe.used import uses
from planlint.read.plan import Step
from planlint.sheet.steps import StepCard, steps
from planlint.trade import screws
from planlint.trade.tables import rows
from planlint.trade.tools import for_fastener, for_joint, hint, hints
from tests.drawing.plans import ROOT, audited
from tests.drawing.plans import SAMPLES as PLANS

BOARDS = """plan "Boards"
  units {units}
  wood {wood}
parts
  upper: 1 of {thick} @ {length}
  lower: 1 of {thick} @ {length}
place
  lower: runs left-right, face top, left at 0, front at 0, bottom at 0
  upper: runs left-right, face top, left at 0, front at 0, bottom at top of lower
step "Together"
  upper to lower: {how}
"""


def boards(how: str, units: str = "in", wood: str = "pine") -> Audit:
    sizes = ("3/4 x 3 1/2", "24") if units == "in" else ("20 x 90", "600")
    return audit_text(BOARDS.format(units=units, wood=wood, thick=sizes[0], length=sizes[1], how=how))


def only(audit: Audit) -> StepCard:
    (card,) = steps(audit)
    return card


def tool(card: StepCard, name: str) -> str:
    """The size of the one tool of this name."""
    (found,) = [each for each in card.tools if each.name == name]
    return found.size


@pytest.mark.parametrize("noun", [*rows("screws", "kinds"), *rows("screws", "fittings")])
def test_every_kind_of_fastener_has_a_tool(noun: str) -> None:
    """A step without its tool is found out when the glue is on."""
    assert for_fastener(noun, screws.kind(noun))
    size = " 3/8 x 2 in" if noun.endswith("bolts") else " #8 x 1 1/4 in"
    assert only(boards(f"2 {noun}{size}")).tools


@pytest.mark.parametrize("way", ["glue", "housed", "notched", "half-lap", "mortise-and-tenon"])
def test_every_joint_that_is_cut_or_glued_has_a_tool(way: str) -> None:
    assert for_joint(way)


def test_a_comma_in_a_tool_s_name_does_not_cut_it_off() -> None:
    """In YAML's short writing an unquoted comma ends the name."""
    for row in rows("tools", "tools").values():
        assert set(row) <= {"name", "size", "purpose"}
    assert for_joint("housed")[0].name == "router, or saw and chisel"


def test_no_row_of_the_tools_is_left_unused() -> None:
    """A tool nobody asks for is a word that nobody checks."""
    asked = {
        key
        for group in ("fastenings", "joints")
        for row in rows("tools", group).values()
        for key in row["tools"]
    }
    assert asked == set(rows("tools", "tools"))


@pytest.mark.parametrize(
    ("how", "units", "wood", "size"),
    [
        # No. 8: root 0.131 in (NDS 2018 Table L3, from memory); 70 % in softwood, 90 % in hardwood: 0.092, 0.118 in.
        ("4 wood-screws #8 x 1 1/4 in", "in", "pine", "3/32 in"),
        ("4 wood-screws #8 x 1 1/4 in", "in", "red-oak", "1/8 in"),
        # 4 mm: root 63 %, 2.52 mm (from memory); 70 % is 1.76 mm.
        ("4 wood-screws 4 x 35", "mm", "pine", "2 mm"),
        # What the plan says goes before what the table would.
        ("4 wood-screws #8 x 1 1/4 in piloted 7/64", "in", "pine", "7/64 in"),
    ],
)
def test_the_pilot_drill_goes_by_gauge_and_wood(how: str, units: str, wood: str, size: str) -> None:
    """Too small a drill splits oak, too large a one lets the screw turn in pine."""
    assert tool(only(boards(how, units, wood)), "twist drill") == size


def test_of_an_unknown_wood_the_drill_has_no_size_and_says_why() -> None:
    card = only(boards("4 wood-screws #8 x 1 1/4 in", wood="greenheart"))
    (drill,) = [each for each in card.tools if each.name == "twist drill"]
    assert drill.size == ""
    assert "not known" in drill.purpose


def test_bits_have_the_sizes_of_their_holes() -> None:
    card = only(boards("4 wood-screws #8 x 1 in counterbored 3/8 x 1/4 in plugged"))
    assert tool(card, "spade or Forstner bit") == "3/8 in"
    assert [each.purpose for each in card.tools if "counterbores" in each.purpose] == [
        "counterbores 1/4 in deep in upper"
    ]
    assert {"flush-cut saw", "mallet", "long driver bit"} <= {each.name for each in card.tools}
    assert "driver bit" not in {each.name for each in card.tools}
    assert tool(only(boards("2 dowels 3/8 x 1 in and glue")), "brad-point bit") == "3/8 in"
    assert tool(only(boards("2 hex-bolts 1/4 x 2 in")), "drill bit") == "1/4 in"


def test_glue_brings_clamps_and_no_time_that_has_no_source() -> None:
    card = only(boards("4 wood-screws #8 x 1 1/4 in and glue waterproof"))
    assert card.glue == "waterproof glue"
    assert any(each.name == "clamps" for each in card.tools)
    assert not any(char.isdigit() for each in card.tools if each.name == "clamps" for char in each.purpose)


def test_what_comes_first_is_said_first() -> None:
    """A plug glued in before the screw is home has to be drilled out again."""
    card = only(boards("4 wood-screws #8 x 1 in counterbored 3/8 x 1/4 in plugged and glue"))
    assert card.before == (hint("counterbores"), hint("pilots"), hint("glue"), hint("plugs"))
    assert only(boards("2 pocket-screws #8 x 1 1/4 in from left")).before == (hint("pockets"),)


def test_every_hint_of_the_table_is_told_by_some_plan() -> None:
    told = " ".join(text for path in PLANS for card in steps(audited(path)) for text in card.before)
    for name in hints():
        assert hint(name).split("{")[0].strip() in told, name


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_fasteners_are_counted_as_the_audit_counts_them(path: Path) -> None:
    """Copies and mirrored halves left out would send somebody back to the shop."""
    audit = audited(path)
    cards = steps(audit)
    assert [card.number for card in cards] == [step.number for step in audit.plan.steps]
    least = sum(use.least for use in uses(audit.piece))
    assert sum(fixing.at_least for card in cards for fixing in card.fixings) == least
    for card in cards:
        for fixing in card.fixings:
            assert fixing.number in (None, fixing.at_least)


def _lines(step: Step, audit: Audit) -> range:
    """The lines of a step and its joins."""
    first = audit.source.place(step.span).line
    return range(
        first, 1 + max([audit.source.place(join.span).end_line for join in step.joins], default=first)
    )


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_findings_stand_at_the_step_whose_words_they_flag_or_whose_part_they_stop(path: Path) -> None:
    audit = audited(path)
    known = {one.number: one for one in numbered(audit)}
    flagged: dict[int, set[int]] = {
        number: set() for number in known
    }  # the steps whose lines a finding flags
    for step in audit.plan.steps:
        for number, one in known.items():
            at = {audit.source.place(span).line for span in (one.finding.span, *one.finding.spans)}
            if at & set(_lines(step, audit)):
                flagged[number].add(step.number)
    for card in steps(audit):
        for number in card.findings:
            if card.number in flagged[number]:
                continue
            own = [one for one in audit.piece.meetings if one.join.step == card.number]
            taken = {part.name for meeting in own for part in (meeting.first, meeting.second)}
            assert known[number].finding.severity == "stop" and taken & set(known[number].parts)


def test_a_part_cut_too_short_is_told_before_it_is_fastened() -> None:
    """Its finding flags the cut list: at the bench, nobody has that page open."""
    audit = audited(ROOT / "samples" / "faulty" / "balcony-bench.plan")
    (short,) = [one.number for one in numbered(audit) if one.finding.rule == "span-mismatch"]
    assert [short in card.findings for card in steps(audit)] == [True, False, False]


def test_what_is_wrong_with_the_shopping_list_is_no_fault_of_a_step() -> None:
    audit = audited(ROOT / "samples" / "faulty" / "shoe-rack.plan")
    (few,) = [one.number for one in numbered(audit) if one.finding.rule == "not-enough-boards"]
    assert not any(few in card.findings for card in steps(audit))


def test_slotted_holes_have_a_tool_and_a_hint() -> None:
    """A slot is no round hole: with the twist drill alone the wide board would be held fast, and split."""
    audit = audited(ROOT / "samples" / "sound" / "blanket-chest.plan")
    lid = steps(audit)[1]
    assert any(tool.purpose == "slots 3/8 in long in batten" for tool in lid.tools)
    assert any("slotted screw" in told for told in lid.before)


def test_what_the_glue_takes_comes_last() -> None:
    """The list is in the order of the work; the clamps are put on when everything is drilled."""
    audit = audited(ROOT / "samples" / "sound" / "hall-bookcase.plan")
    assert "glued joints" in steps(audit)[0].tools[-1].purpose


def test_a_step_that_takes_up_a_sub_assembly_says_which_step_makes_it() -> None:
    audit = audited(ROOT / "samples" / "faulty" / "porch-chair.plan")
    made = {card.assembly: card.number for card in steps(audit) if card.assembly}
    assert made
    for name, number in made.items():
        assert any(f"step {number}" in text for card in steps(audit) for text in card.before), name


def test_a_plan_without_steps_has_no_cards() -> None:
    assert steps(audit_text('plan "Bare"\n  units in\nparts\n  a: 1 of 2x4 @ 20\n')) == ()
    assert steps(audit_text("")) == ()
