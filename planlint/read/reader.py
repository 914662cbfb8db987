"""The read step: a plan's text becomes what it says, and what in it cannot be read.

One bad line never hides the rest. An entry with a trouble is left out whole: half of it would be built into
something the plan does not mean. Its names are kept in `Plan.unread_names`, so that nobody complains of their
echo.
"""

from __future__ import annotations

from typing import Any

from planlint.read import heading, stating
from planlint.read.heading import Head, Said
from planlint.read.lines import Line, logical_lines
from planlint.read.parser import Misfit, parse, reads
from planlint.read.plan import CutEntry, Join, Plan, Step, Trouble
from planlint.read.sections import Section, sections
from planlint.read.unread import Unread
from planlint.source import Source, Span

# Sections whose entries have a colon: a line without one goes on from the line above.
_WITH_COLON = ("parts", "place", "step", "cover")

# Where the reader goes on after a bad clause.
_REST = {"place": "clauses", "parts": "details"}


def read(source: Source) -> tuple[Plan, list[Trouble]]:
    """What a plan says, and its troubles in the order of the text. Takes any text; raises nothing."""
    reading = _Reading(source)
    zero = source.text.find("\0")
    if zero >= 0:
        reading.unread.misfit(Span(zero, zero + 1), "", "plain_text", "", "")
    else:
        reading.run()
    return reading.plan, sorted(reading.unread.troubles, key=lambda trouble: trouble.span.start)


class _Reading:
    """One reading of one text."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.plan = Plan()
        self.unread = Unread()
        self.plan.unread_names = self.unread.names
        self.first_said: dict[str, Span] = {}  # settings of `plan` and parts, to find one said twice

    def run(self) -> None:
        found = sections(logical_lines(self.source), self.unread)
        self._heading([section for section in found if section.head and section.head.section == "plan"])
        for section in found:
            if section.head is None:
                for line in section.entries:
                    self.unread.keep_names(line)
            else:
                self.plan.sections.setdefault(section.head.section, section.head.span)
                if section.head.section != "plan":
                    self._section(section.head, section.entries)
        if "plan" not in self.plan.sections:
            self._no_plan()
        if self._units_unread:
            self._measure_nothing()

    def _heading(self, plans: list[Section]) -> None:
        """The `plan` section comes first, and in it `units`: they say what a bare number means."""
        for section in plans:
            if section.head and section.head.title and not self.plan.heading.title:
                self.plan.heading.title, self.plan.heading.title_span = (
                    section.head.title,
                    section.head.title_span,
                )
        lines = [line for section in plans for line in section.entries]
        said = [
            self._entry(line, "plan") for line in sorted(lines, key=lambda line: line.text[:5] != "units")
        ]
        self._units_unread = None in said and self.plan.heading.units_span is None

    def _section(self, head: Head, lines: list[Line]) -> None:
        whole = self._without_slips(lines, head.section) if head.section in _WITH_COLON else lines
        found = [entry for line in whole if (entry := self._entry(line, head.section)) is not None]
        plan = self.plan
        match head.section:
            case "buy":
                plan.purchases += found
            case "parts":
                plan.parts += found
            case "place":
                plan.placements += [entry._replace(assembly=head.assembly) for entry in found]
            case "step":
                self._step(head, found)
            case "cover":
                plan.covers += found
            case "dimensions":
                plan.dimensions += found
            case "load":
                plan.loads += found
            case "carry":
                for said in found:
                    stating.put(plan.carry, said)
            case "accept":
                plan.accepts += found

    def _without_slips(self, lines: list[Line], section: str) -> list[Line]:
        """The lines but for those where the comma before the next line was forgotten: these are told here.

        Told of the first half, with its mend. The second half alone would be called nonsense, and the first
        would be built without it.
        """
        found: list[Line] = []
        for line in lines:
            if not found or ":" in line.text or not self._goes_on(found[-1], line, section):
                found.append(line)
                continue
            first = found.pop()
            self.unread.keep_names(first)
            self.unread.keep_names(line)
            self.unread.forgotten_comma(first, section)
        return found

    def _goes_on(self, line: Line, second: Line, section: str) -> bool:
        line.units = self.plan.heading.units
        return reads(line.going_on(second), section + "_line")

    def _step(self, head: Head, joins: list[Join]) -> None:
        number = len(self.plan.steps) + 1
        numbered = tuple(join._replace(step=number) for join in joins)
        self.plan.steps.append(Step(head.title, number, head.assembly, numbered, head.span))

    def _entry(self, line: Line, section: str) -> Any:
        """What an entry says; None where it has a trouble."""
        line.units = self.plan.heading.units
        start = section + "_line"
        try:
            found = parse(line, start)
        except Misfit as error:
            self._refuse(line, section, start, error)
            return None
        if line.troubles:
            self._refuse(line, section, start, None)
            return None
        if isinstance(found, Said):
            if self._first(found.field, found.span, section):
                heading.put(self.plan.heading, found)
        elif isinstance(found, CutEntry) and not self._first(f"part {found.name}", found.name_span, section):
            return None
        return found

    def _first(self, name: str, span: Span, section: str) -> bool:
        """Whether this is said for the first time; if not, it is a trouble."""
        first = self.first_said.setdefault(name, span)
        if first is span:
            return True
        words = self.source.text[slice(*span)]
        values: dict[str, object] = {
            "name": words,
            "parts": (words,),
            "line": section == "plan",
            "first": first,
            "first_line": self.source.line_of(first.start),
        }
        self.unread.troubles.append(Trouble("name-twice", span, values))
        return False

    def _refuse(self, line: Line, section: str, start: str, error: Misfit | None) -> None:
        """Report a bad entry; in `place` and `parts` its other clauses are looked at too."""
        self.unread.keep_names(line)
        troubles = self.unread.refuse(line, section, start, error)
        rest = _REST.get(section)
        while error is not None and rest is not None:
            line = _after(line, troubles[-1].span.end, section)
            if not line.text:
                break
            error = None
            try:
                parse(line, rest)
            except Misfit as next_error:
                error = next_error
            more = self.unread.refuse(line, section, rest, error)
            for trouble in [*troubles, *more] if more else []:
                trouble.values.pop("corrected", None)  # one correction of several is no sound line
                trouble.values.pop("edit", None)
            troubles = more

    def _no_plan(self) -> None:
        word = self.source.text.lstrip("\ufeff \t\r\n").partition("\n")[0].partition(" ")[0].strip()
        start = max(self.source.text.find(word), 0)
        self.unread.misfit(Span(start, start + len(word)), word, "plan", "", 'plan "Garden bench"')

    def _measure_nothing(self) -> None:
        """Nobody knows what a bare number means: keep the heading only, so that none is taken for another."""
        heads = self.plan.sections
        self.plan = Plan(self.plan.heading)
        self.plan.sections = heads
        self.plan.unread_names = self.unread.names


def _after(line: Line, end: int, section: str) -> Line:
    """The clauses of a line that follow the one with a misfit, whose end is an offset in the text."""
    text, at = line.text, end - line.base
    colon = text.find(":", at)
    if colon >= 0:  # in front of it a comma parts names, not clauses
        at = colon + 1
        if section == "place":
            return line.rest(at)
    return line.rest(at + len(text[at:].partition(",")[0]) + 1)
