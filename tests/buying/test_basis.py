"""What a list says it stands on: the mends counted in, and the findings that are open and may still change it."""

from __future__ import annotations

from planlint.auditing import audit_text
from planlint.buying.basis import basis, open_stops
from planlint.judge.finding import Finding
from planlint.mending.mended import Change, Made, Mended
from planlint.source import Span

from .lists import bench

SOUND = bench("20 wood-screws #8 x 2 in stainless\n  1 of 2x4 @ 96")
TEXT = SOUND.source.text


def changed(was: str, now: str) -> Change:
    start = TEXT.index(was) if was else TEXT.index("20 wood-screws")
    return Change(Span(start, start + len(was)), was, now)


def mended(*changes: Change) -> Mended:
    finding = Finding("hardware-short", "check", Span(0, 1), {}, None, 1, (), ())
    return Mended(SOUND, SOUND, (Made(finding, changes),) if changes else (), ())


def test_a_plan_that_needs_nothing_has_nothing_to_say() -> None:
    quiet = SOUND._replace(verdict=SOUND.verdict._replace(findings=()))
    assert basis(Mended(quiet, quiet, (), ())) == ""


def test_changes_are_told_by_the_line_they_stand_on_in_the_plan_as_written() -> None:
    line = SOUND.source.line_of(TEXT.index("20 wood-screws"))
    text = basis(mended(changed("20 wood", "25 wood"), changed("", "waterproof ")))
    assert text.startswith(f"This list counts in 2 mends of the plan (line {line}: ")
    assert "20 wood becomes 25 wood" in text
    assert "waterproof added" in text


def test_the_same_change_of_two_findings_is_one() -> None:
    change = changed("20 wood", "25 wood")
    twice = mended(change)
    assert "1 mend of" in basis(twice._replace(made=twice.made * 2))


def test_many_changes_are_told_by_their_lines() -> None:
    several = [changed(word, "x") for word in ("units in", "rail: 2", "slat: 4", "2x4 @ 40", "front-rail")]
    assert "lines" in basis(mended(*several))


def test_what_is_at_stop_or_to_check_and_not_accepted_is_open() -> None:
    """A hint does not change what to buy, and what the builder accepted is settled."""
    verdict = SOUND.verdict._replace(
        findings=tuple(
            Finding(
                "x", severity, Span(TEXT.index(word), TEXT.index(word) + 1), {}, None, 1, (), (), accepted=why
            )
            for word, severity, why in (
                ("units", "stop", None),
                ("setting", "check", None),
                ("wood", "hint", None),
                ("pilots", "stop", "it is only a model"),
            )
        )
    )
    audit = SOUND._replace(verdict=verdict)
    found = Mended(SOUND, audit, (), ())
    assert open_stops(found) == [2]
    # A check changes the list too: "2 x 4" for a 2x4 has a 6x6 bought to be sawn down.
    assert basis(found) == (
        "1 finding at stop and 1 to check stay open and may change it (lines 2 and 3): audit first, buy after."
    )


def test_a_plan_that_cannot_be_read_says_so_on_top() -> None:
    audit = audit_text('plan "X"\n  units in\nbuy\n  what is this\n')
    assert "at stop" in basis(Mended(audit, audit, (), ()))
