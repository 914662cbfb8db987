"""The list of parts: what each is, and the lines of the plan that speak of it. The page looks them up here too."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.build.piece import Part
from planlint.judge.finding import Value
from planlint.sheet.html import Html, element, joined, table, text
from planlint.show.quantities import word
from planlint.source import Span


def parts_table(audit: Audit) -> Html:
    """A row for each entry of the cut list, with its placed pieces; nothing without a cut list."""
    placed: dict[str, list[Part]] = {}
    for part in audit.piece.parts:
        placed.setdefault(part.copy_of, []).append(part)
    lines = _lines(audit)
    rows = []
    for entry in audit.plan.parts:
        own = placed.get(entry.name, [])
        line = audit.source.place(entry.span).line
        rows.append(
            [
                element(
                    "a",
                    {"href": f"#line-{line}", "data-parts": "|".join(part.name for part in own)},
                    text(entry.name),
                ),
                text(str(entry.pieces)),
                text(_size(own[0], audit.plan.heading.units) if own else "not placed"),
                joined((_piece(part, lines[part.name], audit) for part in own), ", "),
            ]
        )
    heads = ("In the cut list", "Pieces", "Size as sawn", "Where they stand: names in the drawings")
    return table("The parts", heads, rows, "parts") if rows else Html("")


def _piece(part: Part, lines: list[int], audit: Audit) -> Html:
    """A part's name; what is said when it is pointed at stands with it."""
    told = f"{part.name}: {_size(part, audit.plan.heading.units)}"
    return element(
        "span",
        {
            "class": "piece",
            "data-piece": part.name,
            "data-lines": " ".join(map(str, lines)),
            "data-told": told,
        },
        text(part.name),
    )


def _size(part: Part, units: str) -> str:
    """Length, width and thickness, or length and diameter."""
    size = part.size
    if size.diameter is not None:
        return f"{word(Value(size.diameter, 'length'), units)} round, {word(Value(size.length, 'length'), units)} long"
    return " x ".join(word(Value(x, "length"), units) for x in (size.thickness, size.width, size.length))


def _lines(audit: Audit) -> dict[str, list[int]]:
    """Where the plan lists, places and joins each part."""
    spans: dict[str, set[Span]] = {part.name: {part.entry.span, part.span} for part in audit.piece.parts}
    for meeting in audit.piece.meetings:
        for part in (meeting.first, meeting.second):
            spans[part.name].add(meeting.join.span)
    return {name: sorted({audit.source.place(span).line for span in own}) for name, own in spans.items()}
