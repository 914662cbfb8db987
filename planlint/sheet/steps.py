"""The order of work: one card a step, with what it joins, what holds it, and the tools on the bench."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from typing import NamedTuple

from planlint.auditing import Audit
from planlint.buying.articles import used as to_ask_for
from planlint.drawing.marks import numbered
from planlint.observe.used import Use, uses
from planlint.read.plan import Join, Plan, Ref, Step
from planlint.sheet.bench import Pilots, Tool, pilots_of, tools_of
from planlint.show.quantities import listed
from planlint.trade import screws
from planlint.trade.tools import hint

__all__ = ["Fixing", "Joint", "StepCard", "Tool", "steps"]


class Joint(NamedTuple):
    """One join line: both names in the plan's words, how they are fastened as the plan says it, and its line.

    `times` is how often it is made: for every copy and both halves of what is mirrored.
    """

    first: str
    second: str
    how: str
    line: int
    times: int


class Fixing(NamedTuple):
    """Fasteners of one kind, size and finish that the step takes, every copy counted.

    `words` is what to ask for ("wood-screws #8 x 2 1/2 in, stainless"); `number` is None where nobody can know
    it, and then `at_least` tells what is certain.
    """

    words: str
    number: int | None
    at_least: int


class StepCard(NamedTuple):
    """One step of the plan, in the order of work.

    `assembly` is the sub-assembly made in it, or None. `parts` are the names that take part, in the order of
    the step. `glue` is "" or what glue. `before` are short sentences: what has to be done first. `findings` are
    the numbers of the open findings about it, as in the drawings.
    """

    number: int
    title: str
    assembly: str | None
    parts: tuple[str, ...]
    joints: tuple[Joint, ...]
    fixings: tuple[Fixing, ...]
    glue: str
    tools: tuple[Tool, ...]
    before: tuple[str, ...]
    findings: tuple[int, ...]


def steps(audit: Audit) -> tuple[StepCard, ...]:
    """A card for each step of the plan; empty where it has none."""
    used: dict[int, list[Use]] = {}
    for use in uses(audit.piece):
        used.setdefault(use.join.step, []).append(use)
    times = _times(audit)
    marks = _marks(audit)
    made = _assemblies(audit.plan)
    drilled = pilots_of(audit)
    return tuple(
        [
            _card(step, audit, used.get(step.number, []), times, marks.get(step.number, {}), made, drilled)
            for step in audit.plan.steps
        ]
    )


def _card(
    step: Step,
    audit: Audit,
    used: list[Use],
    times: dict[int, int],
    marks: dict[int, None],
    made: dict[str, tuple[str, int]],
    drilled: Pilots,
) -> StepCard:
    names = [str(ref) for join in step.joins for ref in (join.first, join.second)]
    return StepCard(
        step.number,
        step.title,
        None if step.assembly is None else step.assembly.text,
        tuple(dict.fromkeys(names)),
        tuple([_joint(join, audit, times.get(id(join), 1)) for join in step.joins]),
        tuple(_fixings(used, audit.plan.heading.units)),
        _glue(step),
        tools_of(step, audit, drilled),
        (*_assemblies_first(step, audit, made), *_first(step)),
        tuple(marks),
    )


def _marks(audit: Audit) -> dict[int, dict[int, None]]:
    """By step, the numbers of the findings that flag its words or those of its joins, and of stops about its parts."""
    places = [(join.span, step.number) for step in audit.plan.steps for join in step.joins]
    places += [(step.span, step.number) for step in audit.plan.steps]
    places.sort(key=lambda place: (place[0].start, -place[0].end))
    starts = [span.start for span, _ in places]
    found: dict[int, dict[int, None]] = {}
    for one in numbered(audit):
        for span in (one.finding.span, *one.finding.spans):
            outer, number = places[at - 1] if (at := bisect_right(starts, span.start)) else (None, 0)
            if outer is not None and span.end <= outer.end:
                found.setdefault(number, {})[one.number] = None
    _mark_parts(audit, found)
    return found


def _mark_parts(audit: Audit, found: dict[int, dict[int, None]]) -> None:
    """A stop that flags no step, such as a rail that is cut too short, goes to the first that takes up its part.

    What is wrong with the shopping list has no spot in the piece: it is told where it is bought.
    """
    flagged = {number for numbers in found.values() for number in numbers}
    first: dict[str, int] = {}
    for meeting in audit.piece.meetings:
        for part in (meeting.first, meeting.second):
            first[part.name] = min(meeting.join.step, first.get(part.name, meeting.join.step))
    for one in numbered(audit):
        steps_of = [first[name] for name in one.parts if name in first]
        is_new = one.number not in flagged and one.spot is not None
        if steps_of and is_new and one.finding.severity == "stop":
            found.setdefault(min(steps_of), {})[one.number] = None


def _times(audit: Audit) -> dict[int, int]:
    """How often each join is made: every two pieces that meet, and every piece that yet meets nothing."""
    found: dict[int, int] = {}
    for meeting in audit.piece.meetings:
        found[id(meeting.join)] = found.get(id(meeting.join), 0) + 1
    for unmet in audit.piece.unmet:
        found[id(unmet.join)] = found.get(id(unmet.join), 0) + 1
    for use in uses(audit.piece):
        if use.unsure is not None and use.fastening.number:
            found[id(use.join)] = max(found.get(id(use.join), 0), use.least // use.fastening.number)
    return found


def _joint(join: Join, audit: Audit, times: int) -> Joint:
    """The join as the plan says it, without the notes at the ends of its lines."""
    last = max([one.span.end for one in join.fastenings], default=join.span.end)
    first = min([one.span.start for one in join.fastenings], default=join.span.end)
    own = audit.source.text[first:last]
    how = " ".join(" ".join([part.split("--")[0] for part in own.splitlines()]).split())
    return Joint(str(join.first), str(join.second), how, audit.source.place(join.span).line, times)


def _fixings(used: Iterable[Use], units: str) -> list[Fixing]:
    """Equal fasteners together, in the order of the step."""
    found: dict[str, Fixing] = {}
    for use in used:
        words = to_ask_for(use.fastening, units)
        before = found.get(words, Fixing(words, 0, 0))
        known = None if use.unsure is not None or before.number is None else before.number + use.least
        found[words] = Fixing(words, known, before.at_least + use.least)
    return list(found.values())


def _glue(step: Step) -> str:
    glued = [one for join in step.joins for one in join.fastenings if one.kind == "glue"]
    if not glued:
        return ""
    return "waterproof glue" if any(one.waterproof for one in glued) else "glue"


# --- what is done first ------------------------------------------------------------------------------


def _first(step: Step) -> list[str]:
    """The hints that fit, in the table's order."""
    all_of = [one for join in step.joins for one in join.fastenings]
    counted = [one for one in all_of if one.kind == "counted"]
    kinds = [kind for one in counted if (kind := screws.kind(one.noun.text)) is not None]
    fits = {
        "joints": any(one.kind in ("housed", "notched", "half-lap", "mortise-and-tenon") for one in all_of),
        "pockets": any(kind.pocketed for kind in kinds),
        "pins": any(kind.what == "pin" for kind in kinds),
        "counterbores": any(one.counterbore is not None for one in counted),
        "pilots": any(kind.pilot and kind.what == "screw" for kind in kinds),
        "slots": any(one.slotted is not None for one in counted),
        "bolts": any(kind.what == "bolt" for kind in kinds),
        "glue": any(one.kind == "glue" for one in all_of),
        "plugs": any(one.plugged is not None for one in counted),
    }
    return [hint(name) for name, fit in fits.items() if fit]


def _assemblies(plan: Plan) -> dict[str, tuple[str, int]]:
    """The sub-assemblies by their names and their copies' names: what they are called, and their last step."""
    found = {step.assembly.text: (step.assembly.text, step.number) for step in plan.steps if step.assembly}
    for placement in plan.placements:
        own = found.get(placement.subject.name)
        for name in placement.names if own is not None else ():
            found[name.text] = (name.text, own[1] if own is not None else 0)
    return found


def _assemblies_first(step: Step, audit: Audit, made: dict[str, tuple[str, int]]) -> list[str]:
    """The sub-assemblies that this step takes up, which an earlier one makes."""
    named = [_whole(ref) for join in step.joins for ref in (join.first, join.second)]
    met = [
        part.assembly
        for meeting in audit.piece.meetings
        if meeting.join.step == step.number
        for part in (meeting.first, meeting.second)
        if part.assembly is not None
    ]
    by_step: dict[int, dict[str, None]] = {}
    for name in met or named:
        own = made.get(name)
        if own is not None and own[1] < step.number:
            by_step.setdefault(own[1], {})[own[0]] = None
    return [
        hint("assembly").replace("{name}", listed(list(names))).replace("{number}", str(number))
        for number, names in by_step.items()
    ]


def _whole(ref: Ref) -> str:
    """The sub-assembly that a name is in, or the name itself."""
    return ref.name if ref.of is None else _whole(ref.of)
