"""The trade tables: `rules/tables/*.yaml` as plain dicts, in base units.

A table holds groups; a group says where its rows come from (`source`, `confidence`), the unit of its fields
(`units`) and its `rows`. Lengths come out in mm, stresses in N/mm2; a value may carry its own unit (`3 mm`).
All tables together are kept in the user's cache folder, since YAML is slow to read.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from planlint.kept import kept
from planlint.resources import code_stamps, files, stamps
from planlint.units import simple_units

_NO_TABLE = "limits"  # the numbers that rules share: judge/limits.py reads them

Group = dict[str, Any]
Rows = dict[str, dict[str, Any]]


def rows(table: str, group: str) -> Rows:
    """The rows of a group by name, in base units. KeyError where there is no such group (our mistake)."""
    found: Rows = load(table)[group]["rows"]
    return found


def load(table: str) -> dict[str, Group]:
    """A whole table: its groups by name, their values in base units."""
    return tables()[table]


@cache
def tables() -> dict[str, dict[str, Group]]:
    """All tables by name, from the cache where they can be."""
    made_from = stamps("rules/tables", ".yaml", "units.txt"), code_stamps("trade/tables.py", "units.py")
    found: dict[str, dict[str, Group]] = kept("tables", made_from, _parsed)
    return found


def _parsed() -> dict[str, dict[str, Group]]:
    texts = {path.removesuffix(".yaml"): text for path, text in files("rules/tables", ".yaml")}
    return {name: parse(text) for name, text in texts.items() if name != _NO_TABLE}


def parse(text: bytes) -> dict[str, Group]:
    """A table from its YAML text. Raises where the table is wrong (our mistake, found by the tests)."""
    import yaml

    loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    groups: dict[str, Group] = yaml.load(text, Loader=loader)
    for group in groups.values():
        units = group.get("units", {})
        group["rows"] = {str(name): _in_base_units(row, units) for name, row in group["rows"].items()}
    return groups


def _in_base_units(row: dict[str, Any], units: dict[str, str]) -> dict[str, Any]:
    return {field: amount(value, units[field]) if field in units else value for field, value in row.items()}


def amount(value: Any, unit: str) -> Any:
    """`1 5/8`, `0.19` or `3 mm` in base units; a list gives a list. Raises ValueError for anything else."""
    if isinstance(value, list):
        return [amount(one, unit) for one in value]
    if isinstance(value, (int, float)):
        return value * _factor(unit)
    words = str(value).split()
    if words and words[-1] in simple_units():
        unit = words.pop()
    if not words:
        raise ValueError(f"no number in {value!r}")
    return sum(_number(word) for word in words) * _factor(unit)


def _factor(unit: str) -> float:
    """What one of this unit is in base units. The two of strength stand here: N/mm2 is no unit of a plan."""
    known = simple_units()
    if unit in ("psi", "Mpsi"):
        psi = known["lbf"].factor / known["in"].factor ** 2
        return psi if unit == "psi" else psi * 1e6
    return 1.0 if unit == "number" else known[unit].factor


def _number(word: str) -> float:
    over, slash, under = word.partition("/")
    return int(over) / int(under) if slash else float(word)
