"""A toy fact table, toy rules and a toy auditor: the judge step without any plan, geometry or trade."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planlint.judge.accepting import ACCEPTED
from planlint.judge.kinds import OF_COLUMN
from planlint.judge.limits import read_limits
from planlint.judge.rulebook import Rulebook
from planlint.judge.rulefile import read_rule
from planlint.judge.silencing import settled
from planlint.observe.facts import Column, Facts, Row, Table
from planlint.resources import data
from planlint.source import Source, Span
from tests.rules.excerpts import Heard

COLUMNS = {
    "length": ("embedment", "diameter", "held", "depth", "length"),
    "area": ("patch",),
    "angle": ("lean",),
    "mass": ("weight",),
    "force": ("load",),
    "moisture": ("swing",),
    "number": ("share",),
    "flag": ("threaded", "pocketed"),
    "word": ("name", "kind", "join"),
    "words": ("parts",),
}
FASTENER = Table(
    "fastener",
    "a screw in one pair of parts",
    {name: Column(kind, "a toy") for kind, names in COLUMNS.items() for name in names},
    {"length": "the length as written", "bought_length": "the same on the shopping list"},
)
BOARD = Table(
    "board",
    "a board",
    {"name": Column("word", ""), "piece": Column("word", ""), "thick": Column("length", "")},
)
TABLES = {"fastener": FASTENER, "board": BOARD, ACCEPTED.name: ACCEPTED}
KINDS = {name: OF_COLUMN[column.kind] for name, column in FASTENER.columns.items()}

INCH = 25.4
# A #10 x 3 in screw, counterbored 1 in in a 3 1/2 in leg: 1/2 in is left in the rail.
SCREW: dict[str, Any] = {
    "embedment": 0.5 * INCH,
    "diameter": 0.19 * INCH,
    "held": 2.5 * INCH,
    "depth": 24 * INCH,
    "length": 3 * INCH,
    "patch": 100.0,
    "lean": 30.0,
    "weight": 2.0,
    "load": 50.0,
    "swing": 5.0,
    "share": 0.25,
    "threaded": True,
    "pocketed": False,
    "name": "screw",
    "kind": "wood-screw",
    "join": "leg to rail",
    "parts": ("leg", "rail"),
}

RULE = """\
rule: too-short
title: A screw that stops short
about: fastener
where: threaded and not pocketed
let:
  needed: min(4 * diameter, depth / 2)
severity:
  stop: embedment < needed - tolerance.fastening
names: name
says: Only {embedment} is left in {name}; {needed} is needed.
why: Threads hold only where they are.
lesson: Threads hold only where they are.
limits: []
flagged: |
  screw: embedment 0.5 diameter 0.25 --! here
passes: |
  screw: embedment 1.5 diameter 0.25
text: x
"""


def rule(name: str, **keys: str | None) -> tuple[str, str]:
    """A rule file by this name, with some keys of `RULE` replaced, left out (None) or added."""
    blocks: dict[str, str] = {}
    for line in RULE.splitlines(keepends=True):
        key = line.partition(":")[0] if line[0] != " " else next(reversed(blocks))
        blocks[key] = blocks.get(key, "") + line
    blocks["rule"] = f"rule: {name}\n"
    for key, value in keys.items():
        if value is None:
            blocks.pop(key)
        else:
            blocks[key] = f"{key}: {value}\n"
    return name, "".join(blocks.values())


def book(*rules: tuple[str, str], chapters: Mapping[str, str] | None = None) -> Rulebook:
    """A rulebook of these rule files, all in the chapter `fastenings` unless said."""
    chapters = {name: (chapters or {}).get(name, "fastenings") for name, _ in rules}
    limits, faults = read_limits("rules/tables/limits.yaml", data("rules", "tables/limits.yaml"))
    kinds = {name: limit.kind for name, limit in limits.items()}
    files = [
        read_rule(f"rules/{chapters[name]}/{name}.yaml", text.encode(), TABLES, kinds, chapters)
        for name, text in rules
    ]
    sound, more = settled(files, TABLES)
    values = {name: (limit.inch, limit.metric) for name, limit in limits.items()}
    return Rulebook(sound, values, [*faults, *(fault for file in files for fault in file.faults), *more])


def screw(at: int = 0, **changes: Any) -> Row:
    """A row about a screw that stops short, at an offset of the plan."""
    return Row({**SCREW, **changes}, Span(at, at + 1), {"length": Span(at, at + 1)})


def facts(*rows: Row, table: Table = FASTENER) -> Facts:
    found = Facts()
    found.add(table, list(rows))
    return found


def toy_audit(plan: str, rulebook: Rulebook) -> Heard:
    """Each line of a toy plan, `screw: embedment 0.5 diameter 0.25`, is a row; lengths are in inches."""
    from planlint.judge.engine import judge

    rows, at = [], 0
    for line in plan.splitlines(keepends=True):
        words = line.partition("--")[0].partition(":")[2].split()
        lengths = {name: float(inches) * INCH for name, inches in zip(words[::2], words[1::2], strict=True)}
        rows.append(Row({**SCREW, **lengths}, Span(at, at + 1)))
        at += len(line)
    return Heard(Source(plan), judge(facts(*rows), rulebook), "in")
