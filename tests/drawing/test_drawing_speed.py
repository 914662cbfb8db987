"""Large plans: 500 parts drawn in time, and twice the parts in about twice the time."""

from __future__ import annotations

from planlint.auditing import Audit
from planlint.drawing.exploded import exploded
from planlint.drawing.marks import numbered
from planlint.drawing.views import views
from tests.drawing.plans import slatted
from tests.timing import timed


def seconds(audit: Audit) -> float:
    """Of processor time: the machine may be busy with something else."""
    return min(timed(lambda: (views(audit), exploded(audit), numbered(audit)))[1] for _ in range(2))


def test_five_hundred_parts_in_time_and_not_by_their_square() -> None:
    """Every edge tried against every part: a deck would take minutes."""
    half, whole = slatted(240), slatted(480)
    assert len(whole.piece.parts) >= 500
    seconds(slatted(24))  # what is loaded once
    short = seconds(half)
    long = seconds(whole)
    assert long < 5.0
    assert long < 3.0 * short
