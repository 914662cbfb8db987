"""The published sizes of openings that catch a head, tried on a whole bed at each size."""

from __future__ import annotations

import pytest

from planlint.auditing import audit_text

from .rows import Published, published


def bed(opening: float, other: float) -> str:
    """A guard of two posts and two rails with one opening between them, closed all round; in inches."""
    return f"""\
plan "Guard"
  units in
  piece bed
  wood douglas-fir
  users children
parts
  post: 2 of 2x4 @ 36
  rail: 2 of 2x4 @ {other}
place
  post as post-l: runs up, face left, left at 0, front at 0, bottom at 0
  post as post-r: like post-l, left at {other} + 1 1/2
  rail as low-rail: runs left-right, face front, between post-l and post-r, front at 0, bottom at 12
  rail as high-rail: like low-rail, bottom at top of low-rail + {opening}
step
  post to rail: 2 wood-screws #10 x 3 in and glue
"""


@pytest.mark.parametrize("row", published("openings"), ids=lambda row: row.id)
def test_an_opening_is_judged_as_published(row: Published) -> None:
    text = bed(float(row.inputs["opening"]), float(row.inputs.get("other", 24)))
    found = {finding.rule for finding in audit_text(text).verdict.findings}
    assert row.agrees(float("entrapment" in found)), found
