"""Reads the rows of published figures. A row without source or confidence stops the tests."""

from __future__ import annotations

import csv
import io
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).parent
CONFIDENCE = ("confirmed", "one source", "from memory")
COLUMNS = (
    *("id", "what", "source", "edition", "table", "inputs"),
    *("published", "unit", "tolerance", "confidence", "note"),
)
MAY_BE_EMPTY = ("edition", "table", "note")


class Published(NamedTuple):
    """One published figure: what to compute from, what must come out, and how sure the figure is."""

    id: str
    what: str
    source: str
    edition: str
    table: str
    inputs: dict[str, str]
    published: float
    unit: str
    tolerance: float
    confidence: str
    note: str

    def agrees(self, computed: float | None) -> bool:
        """Whether the computed value lies within the tolerance; rounding of floats is let pass."""
        return computed is not None and abs(computed - self.published) <= self.tolerance + 1e-9


class RowError(ValueError):
    """A row that can't be used."""


def published(name: str) -> list[Published]:
    """The rows of one file."""
    return parse((HERE / f"{name}.csv").read_text(encoding="utf-8"))


def parse(text: str) -> list[Published]:
    """Rows from CSV text; raises RowError for a wrong header or an unusable row."""
    reader = csv.DictReader(io.StringIO(text))
    if tuple(reader.fieldnames or ()) != COLUMNS:
        raise RowError(f"the columns must be {COLUMNS}")
    return [_row(row) for row in reader]


def _row(row: dict[str, str]) -> Published:
    empty = [column for column in COLUMNS if column not in MAY_BE_EMPTY and not (row[column] or "").strip()]
    if empty:
        raise RowError(f"{row['id']}: nothing stands in {', '.join(empty)}")
    if row["confidence"] not in CONFIDENCE:
        raise RowError(f"{row['id']}: confidence {row['confidence']!r} is none of {CONFIDENCE}")
    return Published(
        id=row["id"],
        what=row["what"],
        source=row["source"],
        edition=row["edition"],
        table=row["table"],
        inputs=dict(pair.split("=") for pair in row["inputs"].split("; ")),
        published=float(row["published"]),
        unit=row["unit"],
        tolerance=float(row["tolerance"]),
        confidence=row["confidence"],
        note=row["note"],
    )
