"""What a list stands on: the mends that are counted in, and what stays open and may change it."""

from __future__ import annotations

from planlint.mending.mended import Change, Mended
from planlint.show.quantities import LINES, listed, numbered

_MENDS = 3  # so many changes are written out


def basis(mended: Mended, what: str = "list", then: str = "buy") -> str:
    """In one or two sentences; empty where nothing was mended and nothing is open. `what` stands on it."""
    told = [_counted_in(mended, what), _open(mended, then)]
    return " ".join([one for one in told if one])


def open_stops(mended: Mended) -> list[int]:
    """The lines of the findings at stop that stay open, each once, in order."""
    source = mended.audit.source
    return sorted(
        {
            source.place(finding.span).line
            for finding in mended.audit.verdict.findings
            if finding.severity == "stop" and finding.accepted is None
        }
    )


def _counted_in(mended: Mended, what: str) -> str:
    changes = sorted({change for made in mended.made for change in made.changes})
    if not changes:
        return ""
    place = mended.before.source.place
    if len(changes) <= _MENDS:
        told = [f"line {place(one.span).line}: {_words(one)}" for one in changes]
    else:
        lines = sorted({place(one.span).line for one in changes})
        told = [f"lines {listed([str(line) for line in lines], LINES)}"]
    return f"This {what} counts in {numbered(len(changes), 'mend')} of the plan ({'; '.join(told)})."


def _words(change: Change) -> str:
    was, now = change.was.strip(), change.now.strip()
    if not was or not now:
        return f"{now} added" if now else f"{was} left out"
    return f"{was} becomes {now}"


def _open(mended: Mended, then: str) -> str:
    lines = open_stops(mended)
    if not lines:
        return ""
    count = sum(one.severity == "stop" and one.accepted is None for one in mended.audit.verdict.findings)
    where = f"{'line' if len(lines) == 1 else 'lines'} {listed([str(line) for line in lines], LINES)}"
    stays = "stays" if count == 1 else "stay"
    return f"{numbered(count, 'finding')} at stop {stays} open and may change it ({where}): audit first, {then} after."
