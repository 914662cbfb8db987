"""What of a plan could not be read: the troubles, and the names that stand on those lines."""

from __future__ import annotations

import re

from planlint.read.explaining import Edit, corrected, example, unreadable
from planlint.read.lines import Line
from planlint.read.notation import notation
from planlint.read.parser import Misfit
from planlint.read.plan import Trouble
from planlint.source import Span

_NAME = re.compile(r"[^\W\d_][^\W_]*(?:-[^\W_]+)*")


class Unread:
    """Gathers as the reader goes on."""

    def __init__(self) -> None:
        self.troubles: list[Trouble] = []
        self.names: set[str] = set()
        self._corrections_left: int = notation().words["most_corrections"]

    def keep_names(self, line: Line) -> None:
        """Remember the names of a line that is left out; its first word is one even if it is a keyword."""
        words = _NAME.findall(line.text)
        self.names.update(words[:1])
        self.names.update(word for word in words if word not in notation().keywords)

    def refuse(self, line: Line, section: str, start: str, error: Misfit | None) -> list[Trouble]:
        """Report a line that the grammar refuses (`error`), or that reads but cannot be so."""
        # Of words that do not fit one is enough to find the slip; values of a wrong kind are all said.
        misfits = [trouble for trouble in line.troubles if trouble.kind == "unreadable"]
        found = [trouble for trouble in line.troubles if trouble.kind != "unreadable"]
        found += [_with_example(trouble, line, section) for trouble in misfits[:1]]
        if error is not None:
            refused = unreadable(line, error, section, start, self._corrections_left > 0)
            self._corrections_left -= 1
            # What was read before the misfit may be nonsense by itself: the first trouble is the one to say.
            found = [min([refused, *found], key=lambda trouble: trouble.span.start)]
        self.troubles += found
        return found

    def misfit(self, span: Span, found: str, phrase: str, section: str, sound: str) -> Trouble:
        """Report words that cannot stand there; `phrase` is listed in phrases.yaml, `sound` is an example."""
        expected = notation().words["phrases"][phrase]
        values: dict[str, object] = {
            "found": found,
            "expected": expected,
            "example": sound,
            "section": section,
        }
        trouble = Trouble("unreadable", span, values)
        self.troubles.append(trouble)
        return trouble

    def forgotten_comma(self, line: Line, section: str) -> None:
        """Report an entry that goes on in the next line and does not end in a comma."""
        end = line.base + len(line.text)
        trouble = self.misfit(Span(end, end), "", "comma", section, example(section, "", ""))
        trouble.values.update(corrected(line, (len(line.text), len(line.text), ",")))

    def misplaced(self, line: Line, phrase: str, section: str, edit: Edit | None = None) -> None:
        """Report a line that stands where it cannot: by its first word."""
        last = len(line.text.partition(" ")[0])
        span = Span(line.base, line.base + last)
        trouble = self.misfit(span, line.written(*span), phrase, section, example(section, "", ""))
        if edit is not None:
            trouble.values.update(corrected(line, edit))


def _with_example(trouble: Trouble, line: Line, section: str) -> Trouble:
    if trouble.kind == "unreadable":
        before = line.text[: trouble.span.start - line.base]
        trouble.values.update(section=section, example=example(section, before, str(trouble.values["found"])))
    return trouble
