"""The plan as it was written, with line numbers, its words at fault marked, in sections as a plan has them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planlint.judge.finding import SEVERITIES
from planlint.sheet.html import Html, element, joined, text
from planlint.sheet.marking import Mark, Stretch, stretches
from planlint.source import Source


def sections(source: Source) -> Iterator[range]:
    """The lines of each section, from 1: a word in the first column begins one, with the notes above it."""
    first, notes = 1, 0  # `notes`: where the blank lines and notes began that may belong to what follows
    total = len(source.starts)
    while total > 1 and not source.line_text(total).strip():
        total -= 1
    for line in range(1, total + 1):
        words = source.line_text(line)
        if not words.strip() or words.startswith("--"):
            notes = notes or line
        elif words[0].isspace():
            notes = 0
        else:
            begin = notes or line
            if begin > first:
                yield range(first, begin)
                first = begin
            notes = 0
    yield range(first, total + 1)


def listing(source: Source, lines: range, by_line: dict[int, list[Mark]]) -> Html:
    """A section's lines as a numbered list."""
    return element(
        "ol",
        {"class": "plan-text", "start": lines.start},
        *(_line(source.line_text(line), line, by_line.get(line, [])) for line in lines),
    )


def _line(words: str, line: int, on_line: Sequence[Mark]) -> Html:
    note = _note(words)
    numbers = sorted({mark.number for mark in on_line})
    content = [_stretch(stretch) for stretch in _with_note(stretches(words, on_line), note)]
    tags = [_tag(number) for number in numbers]
    head = "head" if words and not words[0].isspace() and note else ""
    label = element("span", {"class": "number"}, text(str(line)))
    told = element("span", {"class": "words"}, *content)
    after = element("span", {"class": "tags"}, text(" "), joined(tags, " ")) if tags else Html("")
    return element("li", {"id": f"line-{line}", "class": head, "data-line": line}, label, told, after)


def _tag(number: int) -> Html:
    """A finding's number beside a line. The Tab key passes it over, on its way to the finding itself."""
    return element("a", {"class": "tag", "href": f"#finding-{number}", "tabindex": -1}, text(str(number)))


def _note(words: str) -> int:
    """Where the note of a line begins, its length where it has none; `--` between quotes is none."""
    quoted = False
    for place, c in enumerate(words):
        if c == '"':
            quoted = not quoted
        elif not quoted and words.startswith("--", place) and (not place or words[place - 1].isspace()):
            return place
    return len(words)


def _with_note(told: Sequence[Stretch], note: int) -> Iterator[tuple[Stretch, bool]]:
    """Stretches with whether they are note, cut where it begins."""
    place = 0
    for stretch in told:
        end = place + len(stretch.text)
        if place < note < end:
            yield Stretch(stretch.text[: note - place], stretch.marks, ()), False
            yield Stretch(stretch.text[note - place :], stretch.marks, stretch.becomes), True
        else:
            yield stretch, place >= note
        place = end


def _stretch(told: tuple[Stretch, bool]) -> Html:
    stretch, note = told
    words = element("i", {}, text(stretch.text)) if note and stretch.text else text(stretch.text)
    if not stretch.marks:
        return words
    severity = next(s for s in SEVERITIES if any(mark.severity == s for mark in stretch.marks))
    numbers = " ".join(str(n) for n in sorted({mark.number for mark in stretch.marks}))
    missing = "" if stretch.text else " missing"
    marked = element("mark", {"class": severity + missing, "data-findings": numbers}, words)
    becomes = [element("span", {"class": "becomes"}, text(words)) for words in stretch.becomes if words]
    return joined([marked, *becomes])
