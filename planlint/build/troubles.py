"""What the build step could not take as written, each mistake told once."""

from __future__ import annotations

from collections.abc import Iterable

from planlint.read.near import nearest as nearest_of
from planlint.read.plan import Trouble
from planlint.source import Span


class Troubles:
    """Collects `Trouble`s. A name is unknown once at each place where it stands; one on an unreadable line never."""

    __slots__ = ("_told", "found", "unread")

    def __init__(self, found: list[Trouble], unread: set[str]) -> None:
        self.found = found
        self.unread = unread
        self._told: set[object] = set()

    def add(self, kind: str, span: Span, values: dict[str, object], once: object = None) -> None:
        """Add a trouble; `once` is what makes it the same as an earlier one (default: kind and span)."""
        key = (kind, span) if once is None else (kind, once)
        if key not in self._told:
            self._told.add(key)
            self.found.append(Trouble(kind, span, values))

    def unknown(
        self, name: str, what: str, span: Span, known: Iterable[str], nearest: str | None = None
    ) -> None:
        """A name nothing answers to; the nearest of the `known` ones is offered."""
        if name in self.unread or name.split(" of ")[0].split(".")[0] in self.unread:
            return
        near = nearest or nearest_of(name, known)
        values: dict[str, object] = {"name": name, "what": what}
        if near is not None:
            values["nearest"] = near
        self.add("unknown-name", span, values, (name, what, span))

    def missing(self, part: str, direction: str, span: Span, proposals: list[str]) -> dict[str, object]:
        """A position that nothing fixes. Returns its values: who depends on it (`parts`) is known later."""
        values: dict[str, object] = {"part": part, "parts": (part,), "direction": direction}
        for key, proposal in zip(("proposal", "other_proposal"), proposals, strict=False):
            values[key] = proposal
        self.add("position-missing", span, values, (part, direction))
        return values
