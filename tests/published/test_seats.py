"""The accessible-design figures: what the rules take from the standard, tried on whole plans at each limit."""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text

from .rows import Published, published

STEP = 0.25  # in


def says(rule: str, height: float, depth: float, knees: float) -> bool:
    """Whether a rule speaks about an accessible bench, or a table, of these measures in inches."""
    if rule == "knee-room":
        return rule in rules(table(knees))
    return rule in rules(bench(height, depth))


def rules(text: str) -> set[str]:
    return {finding.rule for finding in audit_text(text).verdict.findings}


def bench(height: float, depth: float) -> str:
    return f"""\
plan "Bench"
  units in
  piece bench
  users accessible
  wood douglas-fir
parts
  side: 2 of 1 1/2 x {depth} @ {height - 1.5}
  seat: 1 of 1 1/2 x {depth} @ 48
place
  side as left-side, right-side: runs up, face left, left at 3, front at 0, bottom at 0, mirrored left-right about 24
  seat: runs left-right, face top, left at 0, front at 0, bottom at top of left-side
"""


def table(knees: float) -> str:
    return f"""\
plan "Table"
  units in
  piece table
  users accessible
  wood douglas-fir
parts
  side: 2 of 1 1/2 x 30 @ {knees + 3.5}
  apron: 2 of 1 1/2 x 3 1/2 @ 51
  top: 1 of 1 x 30 @ 60
place
  side as left-side, right-side: runs up, face left, left at 3, front at 0, bottom at 0, mirrored left-right about 30
  apron as front-apron, back-apron: runs left-right, face front, left at right of left-side, front at 1,
    top at top of left-side, mirrored front-back about 15
  top: runs left-right, face top, left at 0, front at 0, bottom at top of left-side
"""


@pytest.mark.parametrize("row", published("seats"), ids=lambda row: row.id)
def test_the_limit_is_where_the_standard_has_it(row: Published) -> None:
    rule, figure = row.inputs["rule"], row.inputs["figure"]
    sound = {"seat-height": 18.0, "seat-depth": 21.0, "knee-room": 27.0}
    past = STEP if figure == "most" else -STEP
    for limit, spoken in ((row.published, False), (row.published + past, True)):
        given = {**sound, rule: limit}
        assert says(rule, given["seat-height"], given["seat-depth"], given["knee-room"]) is spoken, limit
