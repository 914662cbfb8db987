"""`accept`: which findings an entry covers, by every name that a piece answers to."""

import pytest

from planlint.auditing import Audit, audit_text

PLAN = """\
plan "Frame"
  units in
  wood douglas-fir
  pilots everywhere
parts
  post: 4 of 4x4 @ 16 1/2
  rail: 2 of 2x4 @ 24
place in end
  post as leg-l, leg-r: runs up, left at 0, front at 0, bottom at 0, mirrored left-right about 15 1/2
  rail: runs left-right, face front, between leg-l and leg-r, front at 1, bottom at 10
place
  end as near-end, far-end: left at 0, front at 0, bottom at 0, mirrored front-back about 20
step in end
  post to rail: 2 wood-screws #10 x 4 in
accept
"""
SHORT = "screw-embedment"


def accepting(*entries: str) -> Audit:
    return audit_text(PLAN + "".join(f"  {entry}\n" for entry in entries))


def stale(audit: Audit) -> list[int]:
    return [audit.source.place(one.span).line for one in audit.verdict.findings if one.rule == "stale-accept"]


def still_open(audit: Audit) -> set[str]:
    """The names of the findings of that rule that nothing accepts."""
    found = [one for one in audit.verdict.findings if one.rule == SHORT and one.accepted is None]
    return {name for one in found for name in one.names}


@pytest.mark.parametrize(
    ("on", "left"),
    [
        ("", 0),
        (" on post", 0),
        (" on end", 0),
        (" on near-end", 2),
        (" on leg-l", 2),
        (" on leg-l of near-end", 3),
        (" on rail of far-end", 2),
    ],
)
def test_an_entry_covers_all_that_its_name_stands_for(on: str, left: int) -> None:
    audit = accepting(f'{SHORT}{on} because "looked at"')
    assert len(still_open(audit)) == left
    assert stale(audit) == []


def test_two_entries_that_cover_the_same_are_both_of_use() -> None:
    """That there is no such finding would not be true."""
    assert stale(accepting(f'{SHORT} because "one"', f'{SHORT} on post because "two"')) == []


def test_a_misspelt_rule_is_told_with_the_nearest() -> None:
    audit = accepting('screw-embedmet on post because "looked at"')
    (found,) = [one for one in audit.verdict.findings if one.rule == "stale-accept"]
    assert found.values["nearest"].value == SHORT and len(still_open(audit)) == 4


def test_a_misspelt_name_is_told_once() -> None:
    """The unknown name explains why the entry covers nothing."""
    audit = accepting(f'{SHORT} on pots because "looked at"')
    assert [one.rule for one in audit.verdict.findings if one.rule in ("stale-accept", "unknown-name")] == [
        "unknown-name"
    ]
    (found,) = [one for one in audit.verdict.findings if one.rule == "unknown-name"]
    assert found.names == ("pots",) and found.consequences == 1
