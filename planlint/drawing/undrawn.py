"""What a drawing cannot show, in words: parts without a place, and a plan without any."""

from __future__ import annotations

from planlint.build.piece import Piece
from planlint.drawing.drawing import Drawing
from planlint.drawing.letters import lines as broken
from planlint.show.wrapping import printable
from planlint.svg import words

WIDE, SIZE = 180.0, 4.0  # mm


def undrawn(piece: Piece) -> list[tuple[str, str]]:
    """Each name that has no place, with the reason."""
    if not piece.plan.placements:
        return []
    found = dict(piece.unplaced_names)
    lost = {name.partition(".")[0].partition(" of ")[0] for name in found}
    for listed in piece.listed:
        name = listed.entry.name
        if not listed.placed and not listed.used_in_panel and name not in lost:
            found.setdefault(name, "the place section does not name it")
    return [(printable(name), printable(reason)) for name, reason in found.items()]


def undrawn_notes(piece: Piece) -> list[str]:
    """One sentence for each reason: `Not drawn, the place section does not name it: shelf, ledge.`"""
    reasons: dict[str, list[str]] = {}
    for name, reason in undrawn(piece):
        reasons.setdefault(reason, []).append(name)
    return [f"Not drawn, {reason}: {', '.join(names)}." for reason, names in reasons.items()]


def nothing_drawn(name: str, title: str, piece: Piece) -> Drawing:
    """The drawing of a piece of which no part has a place: it says so, and what to add."""
    why = "Nothing can be drawn: the plan does not say where any of its parts goes."
    add = (
        "Add a place section: for each part its direction and where it sits, such as: "
        "leg: runs up, left at 0, front at 0, bottom at 0"
    )
    told = [why, *(undrawn_notes(piece)[:6] if piece.plan.placements else []), add]
    ink: list[str] = [words(printable(title), (8.0, 14.0), 6.0, "title")]
    y = 24.0
    for text in told:
        for one in broken(text, WIDE - 16.0, SIZE):
            ink.append(words(one, (8.0, y), SIZE))
            y += SIZE * 1.4
        y += 2.0
    return Drawing(name, title, " ".join(told), WIDE, y + 4.0, tuple(ink))
