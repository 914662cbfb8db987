"""The rulebook: every rule file, read once and kept in the user's cache.

Reading YAML and checking expressions takes a second; what comes of it is kept by marshal under a key made
from all that
it depends on. With a warm cache neither lark nor yaml is imported.
"""

from __future__ import annotations

import marshal
import sys
from collections.abc import Mapping, Sequence
from hashlib import sha256
from typing import Any

from planlint import resources
from planlint.judge.accepting import ACCEPTED
from planlint.judge.functions import FUNCTIONS
from planlint.judge.rule import Rule, RuleFault, packed, unpacked
from planlint.observe.facts import Table

_FORMAT = 2  # to be raised when the operations of checking.py or the shape of Rule change
_KEY = 32  # bytes of a sha256


class Rulebook:
    """The rules by id, causes before what they silence; the shared limits.

    And the faults of broken rule files.
    """

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
    """The rules of planlint and of further `folders`, checked against the fact tables. Never raises on a
    broken file.

    The trade's functions must be registered before (see `functions.py`).
    """
    files = _rule_files(folders)
    tables = {**tables, ACCEPTED.name: ACCEPTED}
    key = _key(files, tables)
    name = f"rulebook-{sys.implementation.cache_tag}-{sha256(repr(list(folders)).encode()).hexdigest()[:12]}"
    kept = _from_cache(name, key)
    if kept is None:
        kept = _read_anew(files, tables)
        content = marshal.dumps(kept)
        resources.write_cache(name, key + sha256(content).digest() + content)
    return _rulebook(kept)


def read_rulebook(tables: Mapping[str, Table], folders: Sequence[str] = ()) -> Rulebook:
    """The same, read anew without looking at the cache."""
    return _rulebook(_read_anew(_rule_files(folders), {**tables, ACCEPTED.name: ACCEPTED}))


def _rulebook(kept: Any) -> Rulebook:
    rules, limits, faults = kept
    return Rulebook([unpacked(rule) for rule in rules], limits, [RuleFault._make(fault) for fault in faults])


def _rule_files(folders: Sequence[str]) -> list[tuple[str, bytes]]:
    """Every YAML file of the rulebook by its path, `rules/fit/overlap.yaml`; tables are among them."""
    files = [(f"rules/{path}", content) for path, content in resources.files("rules", ".yaml")]
    for folder in folders:
        files += [(f"{folder}/{path}", content) for path, content in resources.files_below(folder, ".yaml")]
    return files


def _key(files: list[tuple[str, bytes]], tables: Mapping[str, Table]) -> bytes:
    """A digest of all that the cached rules depend on."""
    mixed = sha256(f"{_FORMAT} {sys.version}".encode())
    for path, content in files:
        mixed.update(f"\0{path}\0{len(content)}\0".encode())
        mixed.update(content)
    mixed.update(resources.data("grammar", "rule.lark"))
    mixed.update(resources.data("rules", "tables/units.txt"))
    for name, table in tables.items():
        columns = [f"{column}:{about.kind}" for column, about in table.columns.items()]
        mixed.update(f"\0{name}\0{columns}{list(table.spans)}".encode())
    for name, function in FUNCTIONS.items():
        mixed.update(f"\0{name}{function.takes}{function.gives}".encode())
    return mixed.digest()


def _from_cache(name: str, key: bytes) -> Any:
    """What was kept under this key; None when nothing was, or when the file is not what was written."""
    kept = resources.read_cache(name)
    if kept is None or kept[:_KEY] != key:
        return None
    content = kept[2 * _KEY :]
    # marshal must never see bytes that it did not write itself
    return marshal.loads(content) if sha256(content).digest() == kept[_KEY : 2 * _KEY] else None


def _read_anew(files: list[tuple[str, bytes]], tables: Mapping[str, Table]) -> Any:
    from planlint.judge.limits import read_limits
    from planlint.judge.rulefile import read_rule
    from planlint.judge.silencing import settled

    limits_path = "rules/tables/limits.yaml"
    limits, faults = read_limits(limits_path, dict(files)[limits_path])
    kinds = {name: limit.kind for name, limit in limits.items()}
    own = [(path, content) for path, content in files if not path.startswith("rules/tables/")]
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
