"""Sections of faulty fastenings: their numbers are the findings', and nothing lies on anything else."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import pytest

from planlint.auditing import Audit, audit_text, rules
from planlint.drawing.cutaway import Scene
from planlint.drawing.drawing import Drawing
from planlint.drawing.fastenings import faulty, sections
from planlint.drawing.faulty import TABLES, case_of
from planlint.drawing.ink import standalone
from planlint.drawing.marks import Numbered, numbered
from planlint.drawing.measures import lengths
from planlint.drawing.mended_screw import versions
from planlint.drawing.panel import panel
from planlint.drawing.plane import plane_of
from planlint.drawing.scene import joint_of, need_of, scenes
from planlint.drawing.section import is_inside
from planlint.drawing.section_sheet import apart
from planlint.geometry.vector import dot, length, sub
from planlint.observe.picture import ScrewPicture
from planlint.show.quantities import word
from tests.drawing.plans import audited
from tests.rules.files import PATHS, book, lesson

ROOT = Path(__file__).parents[2]
FAULTY = sorted((ROOT / "samples" / "faulty").glob("*.plan"))
SOUND = sorted(
    [*(ROOT / "samples" / "sound").glob("*.plan"), *(ROOT / "tests" / "plans" / "sound").glob("*.plan")]
)


def flagged() -> list[tuple[str, str]]:
    """Every example of a rule about fasteners that the rule must flag."""
    found = []
    for path in PATHS:
        rule = book().rules.get(path.stem)
        if rule is not None and rule.about in TABLES:
            found += [(path.stem, one.plan) for one in lesson(path).excerpts if one.flagged]
    return found


EXAMPLES = flagged()
AUDITS = [
    *[audited(path) for path in FAULTY],
    *[audit_text(plan, name) for name, plan in EXAMPLES],
]


def drawn_findings() -> list[tuple[Audit, Numbered, str]]:
    found = []
    for audit in AUDITS:
        for one in numbered(audit):
            about = rules().rules[one.finding.rule].about
            if about in TABLES and case_of(one, about, audit) is not None:
                found.append((audit, one, about))
    return found


FINDINGS = drawn_findings()


def text_of(drawing: Drawing) -> list[str]:
    root = ElementTree.fromstring(standalone(drawing).split("?>", 1)[1])
    return [each.text or "" for each in root.iter("{http://www.w3.org/2000/svg}text")]


def test_there_is_enough_to_test() -> None:
    assert len(EXAMPLES) > 50
    assert len(FINDINGS) > 60


@pytest.mark.parametrize(("name", "plan"), EXAMPLES)
def test_every_flagged_example_is_drawn_or_has_no_fastener_to_draw(name: str, plan: str) -> None:
    audit = audit_text(plan, name)
    drawn = {drawing.name for drawing in sections(audit)}
    for one in numbered(audit):
        if one.finding.rule == name and f"fastening-{one.number}" not in drawn:
            # Nothing is placed and no numbers are known of its way.
            assert not audit.piece.driven
            assert one.finding.picture is None


def test_the_lengths_drawn_are_those_the_finding_tells() -> None:
    """A section that tells another embedment than its finding: one of the two is cut by."""
    seen = 0
    for audit, one, about in FINDINGS:
        case = case_of(one, about, audit)
        assert case is not None
        shown = versions(audit, one, rules().rules[one.finding.rule], case)
        if not shown or shown[0].change:
            continue
        told = {
            each.name: each.end - each.start
            for each in lengths(
                shown[0].fastener,
                joint_of(case.driven, audit.piece),
                need_of(shown[0], one.finding),
                False,
            )
        }
        for column, name in (
            ("embedment", "embedment"),
            ("length", "length"),
            ("counterbore_depth", "counterbore"),
        ):
            value = one.finding.values.get(column)
            if value is not None and name in told and isinstance(one.finding.picture, ScrewPicture):
                assert told[name] == pytest.approx(value.value), (one.finding.rule, column)
                seen += 1
        if "needed" in told:
            asked = one.finding.values.get("in_all") or one.finding.values["needed"]
            needed = asked.value
            assert told["needed"] == pytest.approx(needed)
            seen += 1
    assert seen > 40


def test_the_picture_of_a_finding_is_the_fastener_that_is_cut() -> None:
    """Of eight alike the worst is told; another's section would show other numbers."""
    for audit, one, about in FINDINGS:
        picture, case = one.finding.picture, case_of(one, about, audit)
        if isinstance(picture, ScrewPicture) and case is not None:
            assert case.driven.length == picture.length
            assert [way.part.name for way in case.driven.passages] == [
                name for name, _, _ in picture.passages
            ]


def test_the_distance_to_an_edge_is_true_in_the_plane() -> None:
    seen = 0
    for audit, one, about in FINDINGS:
        case = case_of(one, about, audit)
        if case is not None and case.face is not None:
            value = one.finding.values["distance"].value
            assert case.face.distance == pytest.approx(value)
            assert abs(dot(case.face.normal, case.driven.axis)) < 0.2
            seen += 1
    assert seen >= 3


def test_two_that_meet_are_both_drawn_and_ringed_where_they_meet() -> None:
    plan = next(plan for name, plan in EXAMPLES if name == "fasteners-collide")
    audit = audit_text(plan)
    one = next(each for each in numbered(audit) if each.finding.rule == "fasteners-collide")
    rule = rules().rules["fasteners-collide"]
    case = case_of(one, rule.about, audit)
    assert case is not None and case.other is not None
    scene = scenes(versions(audit, one, rule, case), one.finding, "in")[0]
    (spot,) = scene.spots
    assert len(scene.others) == 1
    # The ring lies on both axes, inside the leg.
    assert spot.place[1] == pytest.approx(0.0)
    leg = next(region for region in scene.wood.regions if region.name == "leg")
    assert is_inside(spot.place, leg.polygon)
    clear = word(one.finding.values["clear"], "in")
    assert any(clear in text for drawing in sections(audit) for text in text_of(drawing))


@pytest.mark.parametrize("index", range(len(FINDINGS)))
def test_no_text_lies_on_another(index: int) -> None:
    """Two texts over each other cannot be read on paper."""
    audit, one, about = FINDINGS[index]
    rule = rules().rules[one.finding.rule]
    for scene in scenes_of(audit, one, about):
        if scene.way[
            1
        ]:  # the boxes of slanted texts are larger than the texts; test_chains holds these apart
            continue
        found = panel(scene)
        for first, second in combinations(found.texts, 2):
            assert not first.over(second), (rule.id, first, second)


def scenes_of(audit: Audit, one: Numbered, about: str) -> list[Scene]:
    shown = versions(audit, one, rules().rules[one.finding.rule], case_of(one, about, audit))
    return scenes(shown, one.finding, audit.plan.heading.units) if shown else []


def test_of_very_many_alike_only_those_the_report_prints_are_drawn() -> None:
    """Two hundred sections of one mistake are no help, and take seconds."""
    plan = next(plan for name, plan in EXAMPLES if name == "counterbore-too-narrow")
    line = next(text for text in plan.splitlines() if "upper to lower" in text)
    audit = audit_text(plan.replace(line, "\n".join([line.split("--!")[0]] * 30)))
    alike = [one for one in numbered(audit) if one.finding.rule == "counterbore-too-narrow"]
    drawn = {drawing.name for drawing in sections(audit)}
    assert len(alike) == 30
    assert [one.number for one in alike if f"fastening-{one.number}" in drawn] == [
        one.number for one in alike[:3]
    ]


def test_as_mended_is_drawn_with_the_mended_length() -> None:
    audit = audited(ROOT / "samples" / "faulty" / "balcony-bench.plan")
    one = next(each for each in numbered(audit) if each.finding.rule == "screw-embedment")
    assert one.finding.mend is not None
    written, mended = scenes_of(audit, one, "fastener")
    assert mended.fastener.length == pytest.approx(one.finding.mend.to.value)
    assert written.fastener.length < mended.fastener.length
    assert mended.wanted is not None
    assert written.fastener.tip < mended.wanted <= mended.fastener.tip
    assert (written.scale, written.window) == (mended.scale, mended.window)


def test_a_fastener_from_the_wrong_side_is_drawn_as_mended() -> None:
    plan = next(plan for name, plan in EXAMPLES if name == "wrong-side")
    (drawing,) = [one for one in sections(audit_text(plan)) if "wrong side" in one.title]
    texts = text_of(drawing)
    assert any(text.startswith("As mended: driven from ") for text in texts)
    assert "As written" not in texts


def test_unplaced_parts_are_drawn_by_their_numbers_and_say_so() -> None:
    audit = audited(ROOT / "samples" / "faulty" / "pantry-list.plan")
    drawing = next(one for one in sections(audit))
    assert any("does not place" in text for text in text_of(drawing))
    (one,) = [each for each in numbered(audit) if f"fastening-{each.number}" == drawing.name]
    value = one.finding.values["needed"]
    assert any(text == f"needed {word(value, 'in')}" for text in text_of(drawing))


def test_equal_faults_are_drawn_once_with_their_count() -> None:
    audit = audited(ROOT / "samples" / "faulty" / "balcony-bench.plan")
    one = next(each for each in numbered(audit) if each.finding.rule == "screw-embedment")
    drawing = next(each for each in sections(audit) if each.name == f"fastening-{one.number}")
    assert any(f"{one.finding.rows} such faults" in text for text in text_of(drawing))


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_drawing_is_sound_svg_with_everything_on_its_paper(path: Path) -> None:
    for drawing in sections(audited(path)):
        root = ElementTree.fromstring(standalone(drawing).split("?>", 1)[1])
        box = [float(side) for side in (root.get("viewBox") or "").split()]
        assert box == pytest.approx([0, 0, drawing.width, drawing.height], abs=0.01)
        assert 89.0 < drawing.width < 200.0
        assert not re.search(r"\bnan\b|\binf\b", "".join(drawing.content))
        names = {each.get("data-part") for each in root.iter() if each.get("data-part")}
        assert names
        marks = [each.get("data-finding") for each in root.iter() if each.get("data-finding")]
        assert marks == [drawing.name.removeprefix("fastening-")]


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_plan_s_hints_at_most_are_drawn(path: Path) -> None:
    audit = audited(path)
    numbers = {f"fastening-{one.number}" for one in numbered(audit)}
    assert {drawing.name for drawing in sections(audit)} <= numbers


def test_what_a_plan_calls_its_parts_is_text_and_no_markup() -> None:
    """A name or note out of a downloaded plan must not become a script on somebody's page."""
    plan = next(plan for name, plan in EXAMPLES if name == "screw-embedment")
    hostile = plan.replace("leg", "løg").replace('step "', 'step "<b onclick=x>&')
    hostile = hostile.replace("--! here", '-- <script>alert("1")</script>')
    found = sections(audit_text(hostile))
    assert found
    for drawing in found:
        whole = standalone(drawing)
        assert "<script" not in whole
        assert "<b" not in whole
        assert "løg" in whole
        ElementTree.fromstring(whole.split("?>", 1)[1])


def test_a_fastener_of_unknown_size_is_not_drawn() -> None:
    """Nothing may be guessed: no gauge or no length, no section."""
    plan = next(plan for name, plan in EXAMPLES if name == "counterbore-too-narrow")
    assert "#12 x 2 1/4 in" in plan
    assert sections(audit_text(plan))
    for size in ("2 1/4 in", ""):
        audit = audit_text(plan.replace("#12 x 2 1/4 in", size))
        assert audit.piece.driven
        assert sections(audit) == ()


def test_the_needed_line_is_as_far_into_the_part_as_the_finding_says() -> None:
    for audit, one, about in FINDINGS:
        needed = one.finding.values.get("needed")
        case = case_of(one, about, audit)
        if needed is None or case is None or about != "fastener":
            continue
        for scene in scenes_of(audit, one, about):
            if scene.fastener.kind.what != "bolt" and scene.wanted is not None:
                through = joint_of(case.driven, audit.piece).through
                assert scene.wanted - through == pytest.approx(needed.value)


def test_the_plane_holds_the_axis() -> None:
    """A plane beside the axis cuts other wood than the screw goes through."""
    for audit, one, about in FINDINGS:
        case = case_of(one, about, audit)
        assert case is not None
        cut, way = plane_of(case)
        assert abs(dot(cut.normal, case.driven.axis)) < 1e-9
        assert abs(dot(cut.normal, sub(cut.origin, case.driven.entry))) < 1e-6 or length(case.shift) > 0
        assert dot(case.driven.axis, cut.right) == pytest.approx(way[0])


@pytest.mark.parametrize("name", ["porch-bench", "sawhorse"])
def test_every_two_that_meet_are_ringed_however_they_lie(name: str) -> None:
    """End on, head on and aslant there was no ring, and a distance that was none."""
    audit = audited(ROOT / "tests" / "plans" / "sound" / f"{name}.plan")
    found = [one for one in numbered(audit) if one.finding.rule == "fasteners-collide"]
    assert found
    for one in found:
        (scene,) = scenes_of(audit, one, rules().rules[one.finding.rule].about)
        (spot,) = scene.spots
        apart = one.finding.values.get("distance")
        assert spot.text.startswith("they meet" if apart is None else f"{word(apart, 'mm')} apart")
        assert scene.window.left < spot.place[0] < scene.window.right
        assert not scene.asides


def test_for_a_page_each_state_is_a_drawing_of_its_own() -> None:
    """One over the other they made a card higher than a page, which the printer cut in two."""
    audit = audited(ROOT / "samples" / "faulty" / "console-table.plan")
    section = next(one for one in faulty(audit) if one.worded.finding.rule == "pocket-screw-length")
    written, mended = apart(section)
    assert ("As written" in text_of(written)) and any("As mended" in text for text in text_of(mended))
    assert written.width + mended.width < 178.0 and max(written.height, mended.height) < 110.0
    assert written.about and mended.about and written.title != mended.title
