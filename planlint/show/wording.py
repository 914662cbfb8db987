"""Findings put into words: values in the plan's units, the plan's own lines quoted, counts spelt out.

A verdict goes in, a `Report` comes out; every printer takes its words from here. Knows no layout.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from planlint.judge.finding import SEVERITIES, Finding, Mend, NotChecked, Value, Verdict
from planlint.judge.rule import Rule
from planlint.judge.template import wording
from planlint.show.quantities import LINES, listed, numbered, word, word_all
from planlint.show.report import Quoted, Report, Unmade, Worded
from planlint.source import Source, Span

MANY = 5  # more findings of one rule than this are cut down to …
SHOWN = 3
NAMES = 6
PAIRED = " + "  # between the names of two parts that are joined
QUOTED = 3  # lines of one entry
QUOTES = 5  # places of one finding
ELSEWHERE = 2  # of them, what is neither flagged nor changed


def word_plan(source: Source, title: str, units: str, verdict: Verdict, rules: Mapping[str, Rule]) -> Report:
    """The whole report on one plan."""
    open_findings = [finding for finding in verdict.findings if finding.accepted is None]
    shown, more = _cut_down([word_finding(f, rules[f.rule], source, units) for f in open_findings])
    return Report(
        source.path,
        title,
        units,
        tuple(shown),
        more,
        tuple(_accepted(f, rules[f.rule], source) for f in verdict.findings if f.accepted is not None),
        unmade(verdict.not_checked, rules, source),
        tally(verdict, source),
    )


def word_finding(finding: Finding, rule: Rule, source: Source, units: str) -> Worded:
    """One finding in words."""
    texts = wording(rule, finding)
    says, why, fix = _sentences((texts.says, texts.why, texts.fix), finding, units)
    needed = finding.values.get("needed")
    quoted = tuple(_quotes(finding, source, units))
    lines = tuple(sorted({source.place(span).line for span in (finding.span, *finding.spans)}))
    return Worded(
        finding,
        texts.title,
        source.place(finding.span),
        quoted,
        says,
        why,
        fix or _plain_fix(finding, units),
        texts.caution,
        _others(finding, set(lines) - {quote.line for quote in quoted}, lines),
        _consequences(finding.consequences),
        lines,
        float(needed.value) if needed and isinstance(needed.value, (int, float)) else None,
    )


def _sentences(texts: Sequence[Sequence[str | Value]], finding: Finding, units: str) -> list[str]:
    """The pieces joined, all values worded together: two that differ never read the same."""
    values = {
        f"{t}.{p}": piece
        for t, text in enumerate(texts)
        for p, piece in enumerate(text)
        if not isinstance(piece, str)
    }
    words = word_all(values, units)
    return [
        "".join(piece if isinstance(piece, str) else words[f"{t}.{p}"] for p, piece in enumerate(text))
        for t, text in enumerate(texts)
    ]


def _plain_fix(finding: Finding, units: str) -> str:
    """What to do, where the rule has a computed mend and no words of its own for it."""
    mend = finding.mend
    if mend is None:
        return ""
    if mend.was is None:
        return f"Make the {mend.change} {word(mend.to, units)}."
    words = word_all({"was": mend.was, "to": mend.to}, units)
    return f"Change the {mend.change} from {words['was']} to {words['to']}."


def _others(finding: Finding, unquoted: set[int], lines: tuple[int, ...]) -> str:
    """The equal faults a finding stands for, and their lines if not all are quoted, unless its text tells them."""
    if finding.rows < 2 or "rows" in finding.values:
        return ""
    alike = f"{finding.rows} alike"
    if unquoted:
        alike += f" ({_on_lines(lines)})"
    if not finding.names or "names" in finding.values:
        return f"{alike}."
    return f"{alike}{_among(finding)} {listed(finding.names, NAMES)}."


def _among(finding: Finding) -> str:
    """What leads over to the names: they may be fewer than the faults, four screws in two joints."""
    if len(finding.names) == finding.rows:
        return ":"
    joints = all(PAIRED in name for name in finding.names)
    return f", in {numbered(len(finding.names), 'joint')}:" if joints else ", on"


def _on_lines(lines: Iterable[int]) -> str:
    told = [str(line) for line in lines]
    return f"{'line' if len(told) == 1 else 'lines'} {listed(told, LINES)}"


def _consequences(count: int) -> str:
    if not count:
        return ""
    return f"{numbered(count, 'more finding')} may change when this is mended."


def _accepted(finding: Finding, rule: Rule, source: Source) -> str:
    return f"Line {source.place(finding.span).line}: {rule.title}, because “{finding.accepted}”"


# --- the plan's own lines --------------------------------------------------------------------------


def _quotes(finding: Finding, source: Source, units: str) -> list[Quoted]:
    """The words to change with what they become, else the words that are flagged; the own line first."""

    def line(span: Span) -> int:
        return source.place(span).line

    own = line(finding.span)
    places = _changes(finding.mend, source, units) if finding.mend else []
    if own not in {line(span) for span, _ in places}:
        places = [(finding.span, "here"), *places]
    if finding.mend is None:
        told = {line(span) for span, _ in places}
        related = [(span, name.replace("_", " ")) for name, span in finding.related if line(span) not in told]
        places += related[:ELSEWHERE]
    quotes = [quote for span, label in places for quote in _quote(span, label, source)]
    quotes.sort(key=lambda quote: (quote.line != own, quote.line, quote.first))
    return quotes[:QUOTES]


def _changes(mend: Mend, source: Source, units: str) -> list[tuple[Span, str]]:
    """The words each edit replaces, and what it does to them."""
    from planlint.show.rewriting import edited  # seldom needed: not worth its milliseconds at every start

    changes = []
    for edit in mend.edits:
        text = edited(edit, source, units)
        does = "add" if edit.span.start == edit.span.end else "make it" if text else "take out"
        changes.append((edit.span, f"{does} {text.strip()}".strip()))
    return changes


def _quote(span: Span, label: str, source: Source) -> list[Quoted]:
    """The span line by line, the label at its last line."""
    place = source.place(span)
    last = min(place.end_line, place.line + QUOTED - 1)
    quotes = []
    for line in range(place.line, last + 1):
        text = source.line_text(line)
        start = place.column if line == place.line else len(text) - len(text.lstrip()) + 1
        end = place.end_column if line == place.end_line else len(text) + 1
        if span.start == span.end:  # something is to be added here
            text, end = text.ljust(start), start + 1
        quotes.append(Quoted(line, text, start, end, label if line == last else ""))
    return quotes


# --- many ------------------------------------------------------------------------------------------


def _cut_down(worded: list[Worded]) -> tuple[list[Worded], dict[int, str]]:
    """More than five of one rule: three, and after them a count with the lines of the others."""
    by_rule: dict[str, list[Worded]] = {}
    for each in worded:
        by_rule.setdefault(each.finding.rule, []).append(each)
    shown: list[Worded] = []
    more: dict[int, str] = {}
    seen: dict[str, int] = {}
    for each in worded:
        rule = each.finding.rule
        seen[rule] = seen.get(rule, 0) + 1
        too_many = len(by_rule[rule]) > MANY
        if not too_many or seen[rule] <= SHOWN:
            shown.append(each)
        if too_many and seen[rule] == SHOWN:
            more[len(shown) - 1] = _more(by_rule[rule][SHOWN:])
    return shown, more


def _more(rest: list[Worded]) -> str:
    lines = sorted({each.place.line for each in rest})
    return f"{len(rest)} more of “{rest[0].title}”, {_on_lines(lines)}."


def unmade(
    not_checked: Iterable[NotChecked], rules: Mapping[str, Rule], source: Source
) -> tuple[Unmade, ...]:
    """Checks that could not be made, put together by what stood in the way."""
    grouped: dict[tuple[str, str], dict[str, set[int]]] = {}
    for each in not_checked:
        by_rule = grouped.setdefault((each.reason, each.add), {})
        lines = by_rule.setdefault(each.rule, set())
        if each.span is not None:
            lines.add(source.place(each.span).line)
    return tuple(
        Unmade(
            reason,
            add,
            tuple(rules[rule].title for rule in by_rule),
            tuple(sorted(set().union(*by_rule.values()))),
        )
        for (reason, add), by_rule in grouped.items()
    )


def tally(verdict: Verdict, source: Source) -> str:
    """`2 stop (lines 5 and 8), 1 to check, 3 hints; 4 rules not checked in full.`"""
    still = [finding for finding in verdict.findings if finding.accepted is None]
    accepted = len(verdict.findings) - len(still)
    unchecked = len({each.rule for each in verdict.not_checked})
    parts = [_counted(still, source) or "Nothing found"]
    if accepted:
        parts.append(f"{accepted} accepted")
    if unchecked:
        parts.append(f"{numbered(unchecked, 'rule')} not checked in full")
    return "; ".join(parts) + "."


def _counted(findings: Sequence[Finding], source: Source) -> str:
    """How many of each severity; what stops the work with its lines, since the end of a page is read first."""
    by = {severity: [one for one in findings if one.severity == severity] for severity in SEVERITIES}
    counts = []
    if by["stop"]:
        lines = sorted({source.place(one.span).line for one in by["stop"]})
        counts.append(f"{len(by['stop'])} stop ({_on_lines(lines)})")
    if by["check"]:
        counts.append(f"{len(by['check'])} to check")
    if by["hint"]:
        counts.append(numbered(len(by["hint"]), "hint"))
    return ", ".join(counts)
