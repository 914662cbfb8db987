"""What a list stands on: the mends that are counted in, and what stays open and may change it."""

from __future__ import annotations

from planlint.judge.finding import Finding
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
    return sorted({source.place(one.span).line for one in _still(mended, "stop")})


def _still(mended: Mended, severity: str) -> list[Finding]:
    """What stays open at this severity."""
    return [one for one in mended.audit.verdict.findings if one.severity == severity and one.accepted is None]


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
    stops, checks = _still(mended, "stop"), _still(mended, "check")
    found = [*stops, *checks]
    if not found:
        return ""
    what = numbered(len(stops or checks), "finding") + (" at stop" if stops else " to check")
    what += f" and {len(checks)} to check" if stops and checks else ""
    place = mended.audit.source.place
    lines = sorted({place(one.span).line for one in found})
    where = f"{'line' if len(lines) == 1 else 'lines'} {listed([str(line) for line in lines], LINES)}"
    stay = "stays" if len(found) == 1 else "stay"
    return f"{what} {stay} open and may change it ({where}): audit first, {then} after."
