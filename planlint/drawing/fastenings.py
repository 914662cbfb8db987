"""Sections through the fastenings that findings are about: to scale, with the numbers, as written and mended."""

from __future__ import annotations

from collections import Counter

from planlint.auditing import Audit, rules
from planlint.build.joinery.sides import side_of
from planlint.drawing.cutaway import Scene
from planlint.drawing.drawing import Drawing
from planlint.drawing.faulty import TABLES, case_of
from planlint.drawing.marks import Numbered, numbered
from planlint.drawing.mended_screw import Version, versions
from planlint.drawing.plane import plane_of
from planlint.drawing.scene import scenes
from planlint.drawing.schematic import schematic
from planlint.drawing.section_sheet import Shown, Told, composed
from planlint.judge.rule import Rule
from planlint.read.plan import Join
from planlint.show.wording import MANY, SHOWN, word_finding

_BY_NUMBERS = "Drawn by its numbers: the plan does not place these parts."


def sections(audit: Audit) -> tuple[Drawing, ...]:
    """A sheet for each of the `faulty`: "fastening-3" is of finding 3."""
    return tuple([composed(section) for section in faulty(audit)])


def faulty(audit: Audit) -> tuple[Shown, ...]:
    """What to draw of each open finding about a fastener, in the report's order.

    A finding whose fastener has no length, or neither a place nor a known way, has none: its text tells what is
    missing. Of a rule with more findings than the report prints in full, only those that it prints are drawn.
    """
    known = rules().rules
    findings = numbered(audit)
    count = Counter(one.finding.rule for one in findings)
    told: Counter[str] = Counter()
    found: list[Shown] = []
    for one in findings:
        rule = one.finding.rule
        told[rule] += 1
        if count[rule] <= MANY or told[rule] <= SHOWN:
            section = _section(audit, one, known[rule])
            if section is not None:
                found.append(section)
    return tuple(found)


def _section(audit: Audit, one: Numbered, rule: Rule) -> Shown | None:
    if rule.about not in TABLES:
        return None
    units = audit.plan.heading.units
    worded = word_finding(one.finding, rule, audit.source, units)
    shown = versions(audit, one, rule, case_of(one, rule.about, audit))
    if shown:
        drawn = scenes(shown, one.finding, units)
        told = _told(shown[0], drawn[0], audit)
        changes = [version.change for version in shown]
        return Shown(one, worded, told, tuple(zip(changes, drawn, strict=True)))
    by_numbers = schematic(audit, one)
    join = next((each for each in _joins(audit) if _holds(each, one)), None)
    if not by_numbers or join is None:
        return None
    line = _line(audit.source.text, join)
    told = Told(line, str(join.first), str(join.second), _BY_NUMBERS)
    return Shown(one, worded, told, tuple(by_numbers))


def _joins(audit: Audit) -> list[Join]:
    return [join for step in audit.plan.steps for join in step.joins]


def _holds(join: Join, one: Numbered) -> bool:
    return join.span.start <= one.finding.span.start and one.finding.span.end <= join.span.end


def _told(first: Version, scene: Scene, audit: Audit) -> Told:
    driven = first.case.driven
    outer = driven.first if driven.into is driven.second else driven.second
    cut, _ = plane_of(first.case)
    ratio = scene.scale
    size = f"{ratio:.0f}:1" if ratio >= 1.0 else f"1:{1 / ratio:.0f}"
    seen = (
        f"Cut along the axis and seen from the {side_of(cut.normal)}: up is the piece's {side_of(cut.up)}, "
        f"right is its {side_of(cut.right)}. Scale {size} on paper."
    )
    text = audit.source.text if first.text is None else first.text
    return Told(_line(text, driven.join), outer.name, driven.into.name, seen)


def _line(text: str, join: Join) -> str:
    """The join in the plan's words, without the notes at the ends of its lines."""
    own = text[join.span.start : join.span.end]
    return " ".join(" ".join(part.split("--")[0] for part in own.splitlines()).split())
