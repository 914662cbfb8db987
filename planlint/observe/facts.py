"""Facts: flat tables of rows, each row with the words of the plan it came from.

A `Table` declares its columns once, each with its kind and meaning; the rule language, the rule
author's manual and the tests all read that declaration. A value nobody can know is a `Missing` with
the reason and what to add: a rule that meets it is reported as not checked, never as passed.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from planlint.observe.picture import Picture
from planlint.source import Span

# What a column can hold. Values are floats in base units (mm, mm2, mm3, degrees, kg, N, points of
# moisture, plain numbers), bools, strings, or tuples of strings for `words`.
KINDS = ("length", "area", "volume", "angle", "mass", "force", "moisture", "number", "flag", "word", "words")


class Column(NamedTuple):
    """One column: its kind (see `KINDS`) and what it means, in a sentence a rule author understands."""

    kind: str
    means: str


class Table(NamedTuple):
    """A fact table: what one row is, and its columns.

    `spans` names the further words of the plan a row points to (for marking and for mends), with their
    meaning; the row's own span is always there.
    """

    name: str
    one_row_is: str
    columns: dict[str, Column]
    spans: Mapping[str, str] = MappingProxyType({})


class Missing(NamedTuple):
    """A value that is not known: why, and what the plan would have to add."""

    reason: str
    add: str


class Row:
    """One fact row: `values` by column name, the span it came from, further spans by name, and what to draw."""

    __slots__ = ("picture", "span", "spans", "values")

    def __init__(
        self,
        values: dict[str, object],
        span: Span,
        spans: dict[str, Span] | None = None,
        picture: Picture | None = None,
    ) -> None:
        self.values = values
        self.span = span
        self.spans = spans or {}
        self.picture = picture


class Gap(NamedTuple):
    """Rows that could not be made at all: the table, why, what to add, and where it shows."""

    table: str
    reason: str
    add: str
    span: Span


class Facts:
    """All that was observed: rows by table name, and what could not be observed."""

    __slots__ = ("gaps", "rows")

    def __init__(self) -> None:
        self.rows: dict[str, list[Row]] = {}
        self.gaps: list[Gap] = []

    def add(self, table: Table, rows: list[Row]) -> None:
        self.rows.setdefault(table.name, []).extend(rows)
