"""The numbers that several rules share, `rules/tables/limits.yaml`: read only when the rules are read anew."""

from __future__ import annotations

from typing import NamedTuple

from planlint.judge.checking import Checked, check
from planlint.judge.entries import Entries
from planlint.judge.kinds import Kind, one
from planlint.judge.lesson import CONFIDENCES
from planlint.judge.rule import RuleFault
from planlint.judge.strict_yaml import Document, Keyed, Text


class SharedLimit(NamedTuple):
    """A shared number: its kind, and its value in base units in plans of inches and in metric plans."""

    kind: Kind
    inch: float
    metric: float


def read_limits(path: str, content: bytes) -> tuple[dict[str, SharedLimit], list[RuleFault]]:
    """The shared limits by `group.name`, and what is wrong in their file."""
    document = Document(path, content)
    entries = Entries(document)
    found: dict[str, SharedLimit] = {}
    if isinstance(document.root, Keyed):
        for group in document.root.items:
            block = entries.keyed(document.root, group)
            for name in block.items:
                limit = _limit(entries, entries.keyed(block, name))
                if limit is not None:
                    found[f"{group}.{name}"] = limit
    return found, document.faults


def _limit(entries: Entries, entry: Keyed) -> SharedLimit | None:
    values = ("is",) if "is" in entry.items else ("inch", "metric")
    entries.keys(entry, (*values, "means", "source", "confidence"))
    if entries.text(entry, "confidence") not in CONFIDENCES:
        entries.document.fault(entry.start, f"`confidence` is one of: {'; '.join(CONFIDENCES)}")
    amounts = [_amount(entries.document, entry.items.get(key)) for key in values]
    first, last = amounts[0], amounts[-1]
    if first is None or last is None:
        return None
    if first[0] != last[0]:
        entries.document.fault(entry.start, f"{one(first[0])} in inches but {one(last[0])} in metric plans")
    return SharedLimit(first[0], first[1], last[1])


def _amount(document: Document, item: object) -> tuple[Kind, float] | None:
    if not isinstance(item, Text):
        return None
    found = check(item.text, {})
    if isinstance(found, Checked) and found.code[0] == "constant" and isinstance(found.code[1], float):
        return found.kind or "", found.code[1]
    document.fault(item.start, "a number with its unit belongs here, such as 1/32 in")
    return None
