"""Facts of hand-worked plans: rows by table, their lengths in inches."""

from __future__ import annotations

from planlint.build.build import build
from planlint.observe.facts import Facts, Missing, Row
from planlint.observe.observe import observe
from planlint.read.reader import read
from planlint.source import Source

INCH = 25.4


def facts(text: str) -> Facts:
    """All facts of a plan; its lines below the title may be indented as they like to be."""
    plan, unread = read(Source(text))
    return observe(build(plan), unread)


def rows(text: str, table: str) -> list[Row]:
    return facts(text).rows.get(table, [])


def row(text: str, table: str) -> Row:
    found = rows(text, table)
    assert len(found) == 1, [one.values for one in found]
    return found[0]


def by_part(text: str, table: str) -> dict[object, Row]:
    return {one.values["part"]: one for one in rows(text, table)}


def inches(row: Row, column: str) -> float:
    value = row.values[column]
    assert isinstance(value, float), value
    return round(value / INCH, 4)


def known(row: Row, column: str) -> bool:
    return not isinstance(row.values[column], Missing)


def gaps(text: str, table: str) -> list[tuple[str, str]]:
    return [(gap.reason, gap.add) for gap in facts(text).gaps if gap.table == table]
