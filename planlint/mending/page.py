"""What mending did, for a reader: every changed line before and after, what that mends, and what is left to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from planlint.judge.finding import SEVERITIES, Finding
from planlint.judge.rule import Rule
from planlint.mending.before_after import changed_lines, shown
from planlint.mending.box import went_along
from planlint.mending.mended import Change, Left, Mended
from planlint.mending.reasons import ADVICE, NO_MEND
from planlint.show.layout import NARROWEST, WIDEST, Line, head, note
from planlint.show.quantities import LINES, listed, numbered
from planlint.show.strokes import Strokes
from planlint.show.wording import tally, word_finding
from planlint.show.wrapping import printable, wrapped

BY_HAND = "Left to you"


def mended_page(
    mended: Mended, rules: Mapping[str, Rule], written: bool, width: int, strokes: Strokes
) -> list[Line]:
    """The whole page; `written` says whether the plan's file holds the new text."""
    width = min(max(width, NARROWEST), WIDEST)
    before, after = mended.before, mended.audit
    lines = head(before.plan.heading.title, before.source.path, width, strokes)
    changes = all_changes(mended)
    for pair in changed_lines(changes, before.source, after.source):
        lines += [*shown(pair, width, strokes), []]
    if mended.made:
        lines += [*_heading("What this mends"), *_made(mended, rules, width), []]
    lines += _left(mended, rules, width)
    if changes:
        told = f"Audited again with these changes: {tally(after.verdict, after.source)}"
    else:
        told = f"planlint has nothing to change here. {tally(after.verdict, after.source)}"
    lines += _paragraph(told, width, "strong")
    return [*lines, *_paragraph(_kept(len(changes), written), width, "")]


def all_changes(mended: Mended) -> list[Change]:
    """Every change once, in the order of the text."""
    return sorted({change for made in mended.made for change in made.changes})


def _kept(count: int, written: bool) -> str:
    if not count:
        return "The file is as it was."
    if written:
        return f"The file is written, with {numbered(count, 'change')}."
    return f"Nothing is written. --write makes {'this change' if count == 1 else f'these {count} changes'}."


def _made(mended: Mended, rules: Mapping[str, Rule], width: int) -> Iterator[Line]:
    """Each mended finding with the lines that were changed for it, the gravest first."""
    source = mended.before.source
    for made in sorted(mended.made, key=lambda made: _order(made.finding)):
        worded = word_finding(made.finding, rules[made.finding.rule], source, _units(mended))
        lines = sorted({source.line_of(change.span.start) for change in made.changes})
        told = f"Line {worded.place.line}: {worded.title}"
        if lines != [worded.place.line]:
            told += f", by {_on_lines(lines)}"
        yield from note(made.finding.severity.upper(), told, width, made.finding.severity, "")
        also = sorted({source.line_of(join.span.start) for join in went_along(made, mended.before)})
        if also:
            yield from note("", _went_along(also), width)


def _went_along(lines: Sequence[int]) -> str:
    one = len(lines) == 1
    return (
        f"{_on_lines(lines).capitalize()} {'was' if one else 'were'} not at fault: "
        f"{'it takes the same box and goes' if one else 'they take the same box and go'} along. "
        f"To keep {'it' if one else 'them'} as written, list a box of each."
    )


def _left(mended: Mended, rules: Mapping[str, Rule], width: int) -> list[Line]:
    """What stays: what was tried and not made, what is advice only, what has no computed mend."""
    groups: dict[str, list[Left]] = {"": [], ADVICE: [], NO_MEND: []}
    for left in mended.left:
        groups[left.why if left.why in groups else ""].append(left)
    lines: list[Line] = []
    for why, of_group in groups.items():
        if of_group:
            lines += [*_heading(BY_HAND if not lines else ""), *_paragraph(why, width, "quiet")]
            for left in sorted(of_group, key=lambda left: _order(left.finding)):
                lines += _one_left(left, mended, rules, width, left.why if not why else "")
            lines.append([])
    return lines


def _one_left(left: Left, mended: Mended, rules: Mapping[str, Rule], width: int, why: str) -> Iterator[Line]:
    finding = left.finding
    worded = word_finding(finding, rules[finding.rule], mended.audit.source, _units(mended))
    yield from note(
        finding.severity.upper(), f"Line {worded.place.line}: {worded.title}", width, finding.severity, ""
    )
    for label, text in (("Mend", worded.fix), ("", why)):
        if text:
            yield from note(label, text, width)


def _units(mended: Mended) -> str:
    return mended.before.plan.heading.units


def _order(finding: Finding) -> tuple[int, int, str]:
    return SEVERITIES.index(finding.severity), finding.span.start, finding.rule


def _on_lines(lines: Sequence[int]) -> str:
    told = listed([str(line) for line in lines], LINES)
    return f"{'line' if len(lines) == 1 else 'lines'} {told}"


def _heading(text: str) -> list[Line]:
    return [[(text, "label")]] if text else []


def _paragraph(text: str, width: int, style: str) -> Iterable[Line]:
    return [[(line, style)] for line in wrapped(printable(text), width)] if text else []
