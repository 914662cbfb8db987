"""Which part of each cut-list entry carries its name in a view, and where."""

from __future__ import annotations

from collections.abc import Sequence

from planlint.build.piece import Part
from planlint.drawing.callouts import Named
from planlint.drawing.picture import Picture, middle
from planlint.geometry.outline import area
from planlint.geometry.seen import Seen
from planlint.show.wrapping import printable

LEAST = 0.6  # mm² on paper of a part that a leader can still point at


def entry_names(parts: Sequence[Part]) -> dict[str, str]:
    """What each cut-list entry is called on a drawing: its name, with the count of its parts."""
    counts: dict[str, int] = {}
    for part in parts:
        counts[part.copy_of] = counts.get(part.copy_of, 0) + 1
    return {name: printable(name) + (f" ×{count}" if count > 1 else "") for name, count in counts.items()}


def names_in(picture: Picture, parts: Sequence[Part], wanted: Sequence[str]) -> list[Named]:
    """The wanted entries that are to be seen, each at the largest piece of its parts."""
    called = entry_names(parts)
    best: dict[str, tuple[float, tuple[float, float]]] = {}
    for surface in picture.seen.surfaces:
        name = parts[surface.of].copy_of
        for piece in surface.pieces:
            size = area(piece)
            if name not in best or size > best[name][0] * 1.001:
                best[name] = (size, middle(piece))
    members: dict[str, list[str]] = {}
    for part in parts:
        members.setdefault(part.copy_of, []).append(printable(part.name))
    return [
        Named(called[name], picture.at(best[name][1]), tuple(members[name]))
        for name in wanted
        if name in best and best[name][0] * picture.scale**2 >= LEAST
    ]


def visible_area(seen: Seen, parts: Sequence[Part]) -> dict[str, float]:
    """How much of each entry a view shows, mm²."""
    found: dict[str, float] = {}
    for surface in seen.surfaces:
        name = parts[surface.of].copy_of
        found[name] = found.get(name, 0.0) + sum([area(piece) for piece in surface.pieces])
    return found
