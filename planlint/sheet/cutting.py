"""The cutting layout: each board drawn with its pieces and cuts in order, the pieces to count, the saw's cautions."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.drawing.boards import pictures
from planlint.sawing import telling
from planlint.sawing.alike import Alike, alike, kept_whole, left_by, steps
from planlint.sawing.layout import Boards, Entry, Layout
from planlint.sawing.numbers import counted
from planlint.sawing.order import RIP
from planlint.sheet.drawings import figure
from planlint.sheet.html import Chapter, Html, chapter, element, items, joined, paragraph, text

Told = Sequence[tuple[Boards, Sequence[Alike]]]  # the boards of each size, those cut alike once


def cutting(layout: Layout, units: str) -> Chapter:
    """All boards of a plan, what is cut from each and in which order, and the pieces that no board holds."""
    told = [(boards, alike(boards, layout.kerf)) for boards in layout.boards]
    if not any(groups for _, groups in told):
        nothing = paragraph("There is nothing to cut that this plan tells of.")
        return chapter("cut", "How to cut it", nothing, _uncut(told), _unheld(layout))
    return chapter(
        "cut",
        "How to cut it",
        paragraph(telling.how(layout, units)),
        *(paragraph(words, "care") for words in telling.cautions(told, units)),
        *(figure(drawing) for drawing in pictures(layout, units)),
        _uncut(told),
        _in_words(told, units),
        _pieces(layout, told, units),
        _unheld(layout),
    )


def _uncut(told: Told) -> Html:
    """Sizes of which nothing is cut, and why: they have no drawing."""
    said = [
        text(f"{telling.titled(boards)}: {telling.against_list(boards) or telling.number_of(boards)}.")
        for boards, groups in told
        if not groups
    ]
    return items(said, "uncut")


def _in_words(told: Told, units: str) -> Html:
    """The cuts for who cannot see the drawings, or has a small screen; folded away for everyone else."""
    said = []
    for boards, groups in told:
        for one in groups:
            title = f"{telling.titled(boards)}: {telling.which(one, boards)}"
            cuts = [text(f"{name}, as it is") for name in kept_whole(one.sawn)]
            cuts += [text(words) for words in _cuts(one, units)]
            said += [element("h3", {}, text(title)), items(cuts, "cuts")]
    summary = element("summary", {}, text("The cuts in words"))
    return element("details", {"class": "on-screen"}, summary, *said)


def _cuts(one: Alike, units: str) -> list[str]:
    told = []
    for step in steps(one.sawn):
        rest = [name for number in range(step.first, step.last + 1) for name in left_by(one.sawn, number)]
        size = telling.measured(step.size, units) + (" wide" if step.way == RIP else "")
        told.append(f"{telling.numbers(step)}. {step.way} {size}: {telling.sentence(step, rest)}")
    tight = telling.tight(one, units)
    return [*told, tight] if tight else told


def _pieces(layout: Layout, told: Told, units: str) -> Html:
    """Every piece to count when all is cut, with what is still to be done to it."""
    cut = counted(told)
    entries: list[Html] = []
    for entry, boards in telling.sources(layout, told):
        for length, number in sorted(cut.get(entry.name, {}).items(), reverse=True):
            name = f"piece-{len(entries) + 1}"
            size = f"{_section(entry, units)} x {telling.measured(length, units)}"
            words = "; ".join([size, *telling.remarks(entry, boards, units)])
            tick = element("input", {"type": "checkbox", "id": name, "autocomplete": "off"})
            label = element("b", {}, text(f"{number} {entry.name}"))
            entries.append(joined([tick, element("label", {"for": name}, label, text(f": {words}"))]))
    if not entries:
        return Html("")
    then = items([text(f"{words}.") for words in telling.panels(layout, units)])
    return joined([element("h3", {}, text("Count the pieces")), items(entries, "tick counted"), then])


def _section(entry: Entry, units: str) -> str:
    if entry.diameter is not None:
        return f"{telling.length(entry.diameter, units)} round"
    return f"{telling.length(entry.thickness, units)} x {telling.length(entry.width, units)}"


def _unheld(layout: Layout) -> Html:
    if not layout.unheld:
        return Html("")
    told = items([text(f"{name}: {why}.") for name, why in layout.unheld])
    return joined([element("h3", {}, text("No board holds these")), told])
