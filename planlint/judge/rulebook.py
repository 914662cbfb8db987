"""The rulebook: every rule file, read once and kept in the user's cache.

Reading YAML and checking expressions takes a second; what comes of it is kept under all that it depends on.
With a warm cache neither lark nor yaml is imported.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any
from zlib import crc32

from planlint.judge.accepting import ACCEPTED
from planlint.judge.functions import FUNCTIONS
from planlint.judge.rule import Rule, RuleFault, packed, unpacked
from planlint.kept import kept
from planlint.observe.facts import Table
from planlint.resources import code_stamps, files, files_below, stamps, stamps_below


class Rulebook:
    """The rules by id, causes before what they silence; the shared limits; the faults of broken rule files."""

    __slots__ = ("_limits", "faults", "ready", "rules")

    def __init__(
        self,
        rules: Sequence[Rule],
        limits: Mapping[str, tuple[float, float]],
        faults: Sequence[RuleFault] = (),
    ) -> None:
        self.rules = {rule.id: rule for rule in rules}
        self.faults = tuple(faults)
        self._limits = limits
        self.ready: dict[bool, list[Any]] = {}  # the engine's compiled rules, for inch and for metric plans

    def limits(self, metric: bool) -> dict[str, float]:
        """The shared limits in base units, as they are in plans of inches or in metric plans."""
        return {name: both[metric] for name, both in self._limits.items()}


def load_rulebook(tables: Mapping[str, Table], folders: Sequence[str] = ()) -> Rulebook:
    """The rules of planlint and of further `folders`, checked against the fact tables.

    Never raises on a broken file. The trade's functions must be registered before (see `functions.py`).
    """
    tables = {**tables, ACCEPTED.name: ACCEPTED}
    name = f"rulebook-{crc32(repr(list(folders)).encode()):08x}" if folders else "rulebook"
    return _rulebook(kept(name, _made_from(tables, folders), lambda: _read_anew(tables, folders)))


def read_rulebook(tables: Mapping[str, Table], folders: Sequence[str] = ()) -> Rulebook:
    """The same, read anew without looking at the cache."""
    return _rulebook(_read_anew({**tables, ACCEPTED.name: ACCEPTED}, folders))


def _rulebook(bare: Any) -> Rulebook:
    rules, limits, faults = bare
    return Rulebook([unpacked(rule) for rule in rules], limits, [RuleFault._make(fault) for fault in faults])


def _made_from(tables: Mapping[str, Table], folders: Sequence[str]) -> Any:
    """All that the checked rules depend on: the files, the code that reads them, and the names they may use."""
    return (
        [stamps("rules", ".yaml", "units.txt"), *[stamps_below(folder, ".yaml") for folder in folders]],
        [stamps("grammar", "rule.lark"), code_stamps("judge", "read/near.py", "units.py")],
        [
            (name, [(column, about.kind) for column, about in table.columns.items()], list(table.spans))
            for name, table in tables.items()
        ],
        [(name, function.takes, function.gives) for name, function in FUNCTIONS.items()],
    )


def _rule_files(folders: Sequence[str]) -> list[tuple[str, bytes]]:
    """Every YAML file of the rulebook by its path, `rules/fit/overlap.yaml`; tables are among them."""
    found = [(f"rules/{path}", content) for path, content in files("rules", ".yaml")]
    for folder in folders:
        found += [(f"{folder}/{path}", content) for path, content in files_below(folder, ".yaml")]
    return found


def _read_anew(tables: Mapping[str, Table], folders: Sequence[str]) -> Any:
    from planlint.judge.limits import read_limits
    from planlint.judge.rulefile import read_rule
    from planlint.judge.silencing import settled

    found = _rule_files(folders)
    limits_path = "rules/tables/limits.yaml"
    limits, faults = read_limits(limits_path, dict(found)[limits_path])
    kinds = {name: limit.kind for name, limit in limits.items()}
    own = [(path, content) for path, content in found if not path.startswith("rules/tables/")]
    chapters = {_id(path): path.split("/")[-2] for path, _ in own}
    read = [read_rule(path, content, tables, kinds, chapters) for path, content in own]
    for first, second in _twice([path for path, _ in own]):
        faults.append(RuleFault(second, 1, 1, f"the rule stands in {first} already"))
    rules, ring_faults = settled(read, tables)
    faults += [fault for file in read for fault in file.faults] + ring_faults
    values = {name: (limit.inch, limit.metric) for name, limit in limits.items()}
    return [packed(rule) for rule in rules], values, [tuple(fault) for fault in faults]


def _id(path: str) -> str:
    return path.rpartition("/")[2].removesuffix(".yaml")


def _twice(paths: list[str]) -> list[tuple[str, str]]:
    """Paths whose rule id stood in an earlier one."""
    first: dict[str, str] = {}
    return [(first[_id(path)], path) for path in paths if first.setdefault(_id(path), path) != path]
