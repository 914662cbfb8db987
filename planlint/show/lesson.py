"""Lessons on a page: one rule's lesson with its limits and its two small plans, or the list of all rules.

Lessons go in, laid-out lines come out; `planlint lesson` writes them as it writes a report.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planlint.judge.finding import SEVERITIES
from planlint.judge.lesson import Excerpt, Lesson, Limit
from planlint.judge.nearest import nearest
from planlint.judge.rule import Rule
from planlint.show.layout import MARGIN, NARROWEST, WIDEST, Line, plan_line
from planlint.show.report import Quoted
from planlint.show.strokes import Strokes
from planlint.show.wrapping import columns, printable, wrapped

MARK = "--!"  # the note that marks the flagged line in a rule file
CHAPTERS = (
    "reading",
    "fit",
    "fastenings",
    "cover",
    "stock",
    "looks",
    "movement",
    "strength",
    "comfort",
    "home",
)


def lesson_page(lesson: Lesson, width: int, strokes: Strokes) -> list[Line]:
    """One rule's lesson."""
    width = min(max(width, NARROWEST), WIDEST)
    lines = [*_heading(lesson.title, lesson.rule, width), [(strokes.rule * width, "quiet")], []]
    lines += _paragraphs(lesson.lesson, width)
    if lesson.caution:
        lines += [[], [("Take care", "label")], *_paragraphs(lesson.caution, width, "  ")]
    if lesson.limits:
        lines += [[], [("What it decides by", "label")]]
        for limit in lesson.limits:
            lines += _limit(limit, width)
    for excerpt in lesson.excerpts[:2]:
        lines += [[], *_excerpt(excerpt, width, strokes)]
        if excerpt.flagged:
            lines += [[], [("What is said of it", "label")], *_said(lesson.text, width)]
    return lines


def lesson_list(rules: Iterable[Rule], width: int, strokes: Strokes) -> list[Line]:
    """All rules by chapter, in the order a plan is built; a chapter of the user's own comes last."""
    lines: list[Line] = []
    chapters: dict[str, list[Rule]] = {}
    for rule in sorted(rules, key=lambda rule: (_order(rule.chapter), rule.chapter, rule.id)):
        chapters.setdefault(rule.chapter, []).append(rule)
    longest = max((len(rule.id) for each in chapters.values() for rule in each), default=0)
    for chapter, members in chapters.items():
        lines += [[(chapter.capitalize(), "label")]]
        for rule in members:
            lines += _listed(rule, longest, min(max(width, NARROWEST), WIDEST))
        lines.append([])
    rule_line: Line = [(strokes.rule * min(max(width, NARROWEST), WIDEST), "quiet")]
    return [*lines[:-1], rule_line, [("planlint lesson RULE shows one of them.", "quiet")]]


def not_a_rule(written: str, rules: Mapping[str, Rule]) -> str:
    """What to say of a name that is no rule: the nearest names, or the chapter's."""
    alike = [name for name in sorted(rules) if written and written in name][:4]
    near = nearest(written, rules)
    if near and near not in alike:
        alike = [near, *alike][:4]
    if not alike:
        alike = [rule.id for rule in rules.values() if rule.chapter == written]
    known = f" Is it one of these: {', '.join(alike)}?" if alike else " planlint lesson lists them all."
    return f"There is no rule named “{printable(written)}”.{known}"


def _heading(title: str, rule: str, width: int) -> list[Line]:
    room = width - columns(title) - columns(rule)
    if room >= 2:
        return [[(title, "strong"), (" " * room + rule, "quiet")]]
    return [*([(text, "strong")] for text in wrapped(title, width)), [(rule, "quiet")]]


def _paragraphs(text: str, width: int, indent: str = "") -> list[Line]:
    """Wrapped anew; an empty line in the rule file begins a new paragraph."""
    lines: list[Line] = []
    for paragraph in text.strip().split("\n\n"):
        lines += [
            [],
            *([(indent + line, "")] for line in wrapped(" ".join(paragraph.split()), width - len(indent))),
        ]
    return lines[1:]


def _limit(limit: Limit, width: int) -> list[Line]:
    source = limit.confidence if limit.source in limit.confidence else f"{limit.source} ({limit.confidence})"
    first, *rest = wrapped(f"{limit.what}: {limit.value}", width - 4)
    return [
        [("  - " + first, "")],
        *([("    " + line, "")] for line in rest),
        *([("    " + line, "quiet")] for line in wrapped(f"Source: {source}.", width - 4)),
    ]


def _excerpt(excerpt: Excerpt, width: int, strokes: Strokes) -> list[Line]:
    lines: list[Line] = [
        [("A plan with the mistake" if excerpt.flagged else "The same plan without it", "label")]
    ]
    for number, line in enumerate(excerpt.plan.rstrip().split("\n"), 1):
        before, mark, _ = line.partition(MARK)
        text = before.rstrip()
        first = len(text) - len(text.lstrip()) + 1
        last = len(text) + 1 if mark else first
        lines += plan_line([Quoted(number, text, first, last, "here")], number, width, strokes)
    return lines


def _said(text: str, width: int) -> list[Line]:
    """The stored finding, each of its sentences wrapped anew."""
    return [[(" " * MARGIN + line, "")] for line in wrapped(text.rstrip(), width - MARGIN)]


def _order(chapter: str) -> int:
    return CHAPTERS.index(chapter) if chapter in CHAPTERS else len(CHAPTERS)


def _listed(rule: Rule, longest: int, width: int) -> list[Line]:
    used = {severity for severity, _ in rule.severities}
    severities = ", ".join(severity for severity in SEVERITIES if severity in used)
    first, *rest = wrapped(f"{rule.title} ({severities})", width - longest - 4)
    return [
        [("  " + rule.id.ljust(longest) + "  ", "strong"), (first, "")],
        *([(" " * (longest + 4) + line, "")] for line in rest),
    ]
