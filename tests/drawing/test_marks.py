"""The findings' numbers, parts and spots."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.drawing.marks import Numbered, numbered

from .plans import SAMPLES, audited

every_sample = pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
BENCH = next(path for path in SAMPLES if path.stem == "balcony-bench")


def of_rule(rule: str) -> Numbered:
    return next(mark for mark in numbered(audited(BENCH)) if mark.finding.rule == rule)


@every_sample
def test_numbers_follow_the_report(path: Path) -> None:
    """A ring that means another finding than the one the report prints there."""
    audit = audited(path)
    still = [finding for finding in audit.verdict.findings if finding.accepted is None]
    marks = numbered(audit)
    assert [mark.number for mark in marks] == list(range(1, len(still) + 1))
    assert all(mark.finding is finding for mark, finding in zip(marks, still, strict=True))


@every_sample
def test_spots_lie_in_the_piece_and_parts_exist(path: Path) -> None:
    """A ring in the air beside the piece."""
    audit = audited(path)
    names = {part.name for part in audit.piece.parts}
    for mark in numbered(audit):
        assert set(mark.parts) <= names
        if mark.spot is not None:
            for i in range(3):
                low = min(part.solid.low[i] for part in audit.piece.parts)
                high = max(part.solid.high[i] for part in audit.piece.parts)
                assert low - 200.0 <= mark.spot[i] <= high + 200.0


def test_a_fastener_is_marked_where_the_parts_meet() -> None:
    """The screw of another joint marked."""
    mark = of_rule("screw-embedment")
    assert mark.spot == pytest.approx((88.9, 44.45, 403.2), abs=0.1)
    assert {"leg-fl", "front-rail"} <= set(mark.parts)


def test_a_gap_is_marked_in_the_gap() -> None:
    """The last slat marked, which is sound, and not the gap behind it."""
    mark = of_rule("gap-too-wide")
    assert mark.spot is not None
    slat = next(part for part in audited(BENCH).piece.parts if part.name == "seat-slat.3")
    assert mark.spot[1] > slat.solid.high[1]


def test_what_is_bought_has_no_spot() -> None:
    """A ring on a slat because the boards on the list are too few."""
    path = next(path for path in SAMPLES if path.stem == "porch-chair")
    mark = next(mark for mark in numbered(audited(path)) if mark.finding.rule == "not-enough-boards")
    assert mark.spot is None
    assert mark.parts


def test_the_numbers_of_one_audit_are_not_told_for_another_of_the_same_piece() -> None:
    """They are kept on the piece, and a page may show it with another verdict."""
    audit = audited(BENCH)
    assert numbered(audit) is numbered(audit)
    fewer = audit._replace(verdict=audit.verdict._replace(findings=audit.verdict.findings[:2]))
    assert len(numbered(fewer)) == 2
    assert len(numbered(audit)) == len(audit.verdict.findings)
