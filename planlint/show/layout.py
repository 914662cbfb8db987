"""The marked-up plan: a report in lines, with notes in the margin as on a drawing.

    STOP    Line 31: A screw that stops short
            leg to rail: 2 wood-screws #10 x 3 in counterbored 1 x 1 in
                         ‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾ here
            The screw passes …
    Why     Threads hold only where they are.
    Mend    Use 4 in screws.

A line is pieces of (text, style); what a style looks like is the writer's matter. Nothing depends on colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from planlint.show.quantities import LINES, listed, numbered
from planlint.show.report import Quoted, Report, Unmade, Unusable, Worded
from planlint.show.strokes import Strokes
from planlint.show.wrapping import columns, fitting, printable, wrapped

Line = list[tuple[str, str]]

MARGIN = 8
MANY, SHOWN = 5, 3  # more titles in a row than this are cut down to …
NARROWEST, WIDEST = 40, 100


def laid_out(report: Report | Unusable, width: int, strokes: Strokes) -> list[Line]:
    """One plan's report in lines at most `width` columns wide (never under 40, never over 100)."""
    width = min(max(width, NARROWEST), WIDEST)
    if isinstance(report, Unusable):
        return [*head(report.path, "", width, strokes), *note("STOP", report.reason, width, "stop")]
    lines = head(report.title, report.path, width, strokes)
    for index, worded in enumerate(report.shown):
        lines += [*_finding(worded, report.units, width, strokes), []]
        if index in report.more:
            lines += [*note("", report.more[index], width), []]
    if report.accepted:
        lines += [*_notes("Accepted", report.accepted, width), []]
    for unmade in report.unmade:
        lines += [*_unmade(unmade, width), []]
    return lines + [[(text, "strong")] for text in wrapped(printable(report.tally), width)]


def summed_up(reports: Sequence[Report | Unusable], width: int, strokes: Strokes) -> list[Line]:
    """Several plans at a glance, for whoever keeps them: each file with its tally."""
    width = min(max(width, NARROWEST), WIDEST)
    lines = head(numbered(len(reports), "plan"), "", width, strokes)
    for report in reports:
        told = report.reason if isinstance(report, Unusable) else report.tally
        lines += [[(text, "strong")] for text in wrapped(printable(report.path), width)]
        lines += [_indented(text, "") for text in wrapped(printable(told), width - MARGIN)]
    return lines


def head(title: str, path: str, width: int, strokes: Strokes) -> list[Line]:
    title, path = printable(title), printable(path)
    room = width - columns(title) - columns(path)
    if room >= 2 and title:
        first: list[Line] = [[(title, "strong"), (" " * room + path, "quiet")]]
    else:
        first = [[(text, "strong")] for text in wrapped(title, width) if text]
        first += [[(text, "quiet")] for text in wrapped(path, width) if text]
    return [*first, [(strokes.rule * width, "quiet")], []]


def _finding(worded: Worded, units: str, width: int, strokes: Strokes) -> list[Line]:
    severity = worded.finding.severity
    lines = note(severity.upper(), f"Line {worded.place.line}: {worded.title}", width, severity, "strong")
    for _, of_line in groupby(worded.quoted, key=lambda quoted: quoted.line):
        lines += plan_line(list(of_line), worded.place.line, width, strokes)
    lines += note("", worded.says, width)
    if worded.others:
        lines += note("", worded.others, width)
    if worded.finding.picture is not None:
        from planlint.show.bars import drawn  # seldom needed: not worth its milliseconds at every start

        drawing = drawn(worded.finding.picture, worded.needed, units, width - MARGIN, strokes)
        lines += [[], *(_indented(text, "") for text in drawing), []]
    for label, text, style in (
        ("Why", worded.why, ""),
        ("Mend", worded.fix, "strong"),
        ("Care", worded.caution, "strong"),
        ("Then", worded.consequences, ""),
    ):
        if text:
            lines += note(label, text, width, "label", style)
    return [*lines, _indented(f"planlint lesson {worded.finding.rule}", "quiet")]


def note(label: str, text: str, width: int, label_style: str = "label", style: str = "") -> list[Line]:
    """A text with its label in the margin."""
    lines = [_indented(line, style) for line in wrapped(printable(text), width - MARGIN)]
    lines[0] = [(label.ljust(MARGIN - 1) + " ", label_style), *lines[0][1:]]
    return lines


def _notes(label: str, texts: tuple[str, ...], width: int) -> list[Line]:
    """Texts under one label; a label wider than the margin stands alone."""
    lines: list[Line] = [[(label, "label")]]
    for text in texts:
        lines += [_indented(line, "") for line in wrapped(printable(text), width - MARGIN)]
    return lines


def _unmade(unmade: Unmade, width: int) -> list[Line]:
    head = f"{numbered(len(unmade.titles), 'rule')} not checked in full: {unmade.reason}"
    if unmade.lines:
        where = listed([str(line) for line in unmade.lines], LINES)
        head += f" ({'line' if len(unmade.lines) == 1 else 'lines'} {where})"
    lines = [[(text, "label")] for text in wrapped(printable(head), width)]
    if unmade.add:
        lines += note("Add", unmade.add, width)
    return [*lines, *note("Rules", _few(unmade.titles) + ".", width)]


def _few(titles: Sequence[str]) -> str:
    """The titles, but of many only some: where nothing is placed, most rules wait. The JSON output names all."""
    if len(titles) <= MANY:
        return "; ".join(titles)
    return "; ".join([*titles[:SHOWN], f"and {len(titles) - SHOWN} more"])


def _indented(text: str, style: str) -> Line:
    return [(" " * MARGIN, ""), (text, style)]


def plan_line(quotes: Sequence[Quoted], line: int, width: int, strokes: Strokes) -> Iterator[Line]:
    """A line of the plan, broken where it is too long for the page, its marks beneath: one with a label in a row."""
    first = quotes[0]
    margin, indent = "" if first.line == line else f"{first.line:>{MARGIN - 2}}", ""
    text = printable(first.text)
    for begin, end in _pieces(text, width - MARGIN):
        yield [(margin.ljust(MARGIN), "quiet"), (indent + text[begin:end].rstrip(), "quoted")]
        plain = ""  # the marks without a label, all in one row
        for quoted in quotes:
            low, high = max(quoted.first - 1, begin), min(quoted.last - 1, end)
            if low < high:
                before = columns(indent + text[begin:low])
                under = strokes.under * (columns(text[low:high].rstrip()) or 1)
                label = quoted.label if high == quoted.last - 1 else ""
                if label:
                    yield [(" " * MARGIN + _mark(before, under, label, width - MARGIN), "mark")]
                else:
                    plain = plain.ljust(before) + under
        if plain:
            yield [(" " * MARGIN + plain, "mark")]
        margin, indent = "", _continuation(text)


def _mark(before: int, under: str, label: str, room: int) -> str:
    """The mark with its label at its right, or at its left where the page ends too soon."""
    if label and before + len(under) + 1 + len(label) <= room:
        return f"{' ' * before}{under} {label}"
    if label and len(label) + 1 <= before:
        return f"{label + ' ':>{before}}{under}"
    return " " * before + under


def _pieces(text: str, room: int) -> Iterator[tuple[int, int]]:
    """Where to break a line of the plan, at spaces, so that each piece fits; later pieces are indented."""
    begin = 0
    while begin < len(text):
        end = begin + fitting(text[begin:], room - (len(_continuation(text)) if begin else 0))
        if end < len(text) and text[begin:end].lstrip().count(" "):
            end = text.rindex(" ", begin, end) + 1
        yield begin, end
        begin = end


def _continuation(text: str) -> str:
    return " " * min(8, len(text) - len(text.lstrip()) + 2)
