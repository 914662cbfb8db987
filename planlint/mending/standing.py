"""How a plan stands: each single fault by what it is about, so that two audits can be held against each other.

Findings will not do for this: they stand for several faults, which another text may group another way, and an open
finding hides those that follow from it. A fault that was only hidden is not caused by the mend that uncovers it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from planlint.auditing import Audit, faults_of
from planlint.judge.engine import Fault
from planlint.judge.finding import Finding
from planlint.judge.grouping import groups_of
from planlint.observe.facts import Missing


class Key(NamedTuple):
    """What makes a fault the same in both texts: its rule, where its words stood at first, and its names."""

    rule: str
    start: int
    names: tuple[object, ...]


Counts = dict[Key, dict[str, int]]  # how many at each severity


class Standing:
    """All faults of one audit by key: how many there are, and how many a reader is told at each severity."""

    __slots__ = ("_keys", "all", "by_severity", "shown")

    def __init__(self, audit: Audit, back: Callable[[int], int]) -> None:
        """`back` gives the place in the first text of an offset in this one."""
        faults = faults_of(audit)
        keys = {id(fault): _key(fault, back) for fault in faults}
        self.all = Counter(keys.values())
        self.by_severity = _counted((fault, keys[id(fault)]) for fault in faults)
        self.shown = _counted((fault, keys[id(fault)]) for fault in faults if is_open(fault))
        # Judged again, the same facts give the same findings in the same order.
        self._keys = {
            id(finding): Counter([keys[id(fault)] for fault in group])
            for finding, group in zip(audit.verdict.findings, groups_of(faults), strict=True)
        }

    def keys_of(self, finding: Finding) -> Counter[Key]:
        """The faults that a finding of this audit stands for."""
        return self._keys[id(finding)]

    def worse_than(self, before: Counts, renamed: Mapping[str, str]) -> list[Key]:
        """What is told here at stop or check and was not so bad before, in the order of the text.

        `before` is what there was, or what was told; `renamed` gives what became of words of the text, of which
        some are names.
        """
        was = {_renamed(key, renamed): counts for key, counts in before.items()}
        return sorted(
            (key for key, now in self.shown.items() if _is_worse(now, was.get(key, {}))),
            key=lambda key: (key.start, key.rule),
        )


def is_open(fault: Fault) -> bool:
    """Whether a reader is told of it."""
    return fault.root is None and fault.accepted is None


def _key(fault: Fault, back: Callable[[int], int]) -> Key:
    names = tuple([fault.row.values[column] for column in fault.rule.names])
    return Key(fault.rule.id, back(fault.row.span.start), tuple([_plain(name) for name in names]))


def _renamed(key: Key, renamed: Mapping[str, str]) -> Key:
    return key._replace(names=tuple([_new_name(name, renamed) for name in key.names]))


def _new_name(name: object, renamed: Mapping[str, str]) -> object:
    if isinstance(name, tuple):
        return tuple([_new_name(one, renamed) for one in name])
    return renamed.get(name, name) if isinstance(name, str) else name


def _plain(name: object) -> object:
    return "" if isinstance(name, Missing) else name


def _counted(faults: Iterable[tuple[Fault, Key]]) -> Counts:
    counts: Counts = {}
    for fault, key in faults:
        of_key = counts.setdefault(key, {})
        of_key[fault.severity] = of_key.get(fault.severity, 0) + 1
    return counts


def _is_worse(now: Mapping[str, int], before: Mapping[str, int]) -> bool:
    """More stops than before, or more stops and checks together."""
    stops, old_stops = now.get("stop", 0), before.get("stop", 0)
    return stops > old_stops or stops + now.get("check", 0) > old_stops + before.get("check", 0)
