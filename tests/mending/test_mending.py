"""Mending: what has a computed mend is gone afterwards, nothing bad is added, and only the values change."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from planlint.auditing import Audit, audit_source, audit_text, faults_of
from planlint.judge.finding import Finding
from planlint.mending import ways
from planlint.mending.changes import changed
from planlint.mending.mended import Mended
from planlint.mending.mending import mend
from planlint.mending.page import all_changes
from planlint.planting.kinds import KINDS
from planlint.planting.mistake import planted
from planlint.source import Source, Span
from tests.truth.table import Case, cases, sound_plans

ROOT = Path(__file__).parents[2]
FAULTY = sorted((ROOT / "samples" / "faulty").glob("*.plan"))
SOUND = sorted([*ROOT.glob("samples/sound/*.plan"), *ROOT.glob("tests/plans/sound/*.plan")])

BENCH = """plan "Bench"
  units in
  wood douglas-fir
  pilots everywhere
  seen back
{heading}buy
  2 of 4x4 @ 96
  2 of 2x4 @ 96
{buy}
parts
  post: 1 of 4x4 @ 16
  rail: 1 of 2x4 @ 24
  cap:  1 of 2x4 @ 24
place
  post: runs up, left at 0, front at 0, bottom at 0
  rail: runs left-right, face front, left at right of post, front at 0, top at top of post
  cap: runs left-right, face top, left at right of post, front at 0, bottom at top of rail
step
  post to rail: 2 wood-screws #10 x {long} in counterbored 1 x 1 in and glue
  cap to rail: 4 wood-screws #10 x {cap} in and glue
{more}"""


def bench(buy: str, long: str = "3", cap: str = "3", heading: str = "", more: str = "") -> str:
    """A post, a rail it holds with screws, and a cap on the rail; a screw of 3 in stops short in the rail."""
    return BENCH.format(buy=buy, long=long, cap=cap, heading=heading, more=more)


def told(audit: Audit) -> Counter[tuple[int, str, str]]:
    """The open stops and checks by line."""
    return Counter(
        (audit.source.place(one.span).line, one.severity, one.rule)
        for one in audit.verdict.findings
        if one.severity != "hint" and one.accepted is None
    )


def hidden(audit: Audit) -> Counter[tuple[int, str]]:
    """All that is wrong at stop or check, also what an open finding hides."""
    return Counter(
        (audit.source.place(one.row.span).line, one.rule.id)
        for one in faults_of(audit)
        if one.severity != "hint"
    )


def with_edits(audit: Audit) -> list[Finding]:
    return [one for one in audit.verdict.findings if one.mend and one.mend.edits and one.accepted is None]


def only_values_changed(mended: Mended) -> None:
    """The new text is the old one with the changes that are told, line by line, and nothing else."""
    old, new = mended.before.source, mended.audit.source
    changes = all_changes(mended)
    assert changed(old.text, changes) == new.text
    assert len(old.starts) == len(new.starts)
    for change in changes:
        assert old.text[change.span.start : change.span.end] == change.was != change.now
        assert "\n" not in change.was + change.now and "--" not in change.was + change.now
    touched = {old.line_of(change.span.start) for change in changes}
    for line in range(1, len(old.starts) + 1):
        assert line in touched or old.line_text(line) == new.line_text(line)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_of_a_faulty_sample_every_finding_with_a_computed_mend_is_gone(path: Path) -> None:
    """What the issue asks for: mended, audited again, gone; nothing new at stop or check; only values changed."""
    mended = mend(audit_text(path.read_text(encoding="utf-8"), path.name))
    again = audit_text(mended.audit.source.text, path.name)
    assert mended.made
    assert with_edits(again) == []
    assert told(again) - told(mended.before) == Counter()
    only_values_changed(mended)


def differing(one: Any, other: Any, inside: Span) -> Iterator[Span]:
    """The words of the first plan around each value that differs in the second."""
    if isinstance(one, Span) or isinstance(other, Span):
        return
    if hasattr(one, "span"):
        inside = one.span
    if type(one) is not type(other) or not isinstance(one, (tuple, list)):
        if one != other:
            yield inside
    elif len(one) != len(other):
        yield inside
    else:
        for value, other_value in zip(one, other, strict=True):
            yield from differing(value, other_value, inside)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_mended_plan_reads_as_the_old_one_but_for_the_values(path: Path) -> None:
    """A mend that shifted a comma would change what is said elsewhere in the entry."""
    mended = mend(audit_text(path.read_text(encoding="utf-8"), path.name))
    old, new = mended.before.plan, mended.audit.plan
    changes = all_changes(mended)
    found = [
        span
        for name in ("purchases", "parts", "placements", "steps", "covers", "dimensions", "loads", "accepts")
        for span in differing(getattr(old, name), getattr(new, name), Span(0, 0))
    ]
    assert found
    for span in found:
        assert any(change.span.start <= span.end and span.start <= change.span.end for change in changes)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_mending_a_mended_plan_changes_nothing(path: Path) -> None:
    """Mends that undo each other would go to and fro for ever."""
    once = mend(audit_text(path.read_text(encoding="utf-8"), path.name)).audit
    assert mend(once).audit.source.text == once.source.text


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_plan_gets_no_worse(path: Path) -> None:
    """Mending a hint must not bring a stop or a check."""
    mended = mend(audit_text(path.read_text(encoding="utf-8"), path.name))
    assert told(mended.audit) == Counter()
    only_values_changed(mended)


def _sample(size: int, seed: int) -> list[Case]:
    """Planted mistakes, each kind once before any comes twice."""
    every = cases(sound_plans())
    random.Random(seed).shuffle(every)
    turn: Counter[str] = Counter()
    ranked = []
    for case in every:
        turn[case.kind.title] += 1
        ranked.append((turn[case.kind.title], case))
    return [case for _, case in sorted(ranked, key=lambda pair: pair[0])[:size]]


@pytest.fixture(scope="module")
def tried() -> list[tuple[Case, Audit, Mended]]:
    """Of every kind of mistake that planlint can plant, one: its audit, and what mending makes of it."""
    audits = [
        (case, audit_text(planted(case.sound.text, case.edit), case.plan))
        for case in _sample(len(KINDS), seed=4)
    ]
    return [(case, audit, mend(audit)) for case, audit in audits]


def test_planted_mistakes_are_mended_or_it_is_told_why_not(tried: list[tuple[Case, Audit, Mended]]) -> None:
    """A mend adds nothing bad, and none is passed in silence."""
    made = 0
    for case, audit, mended in tried:
        only_values_changed(mended)
        new = Counter((line, rule) for line, _, rule in (told(mended.audit) - told(audit)).elements())
        assert new - hidden(audit) == Counter(), case.kind.title
        left = {id(one.finding): one.why for one in mended.left}
        for finding in with_edits(mended.audit):
            assert left[id(finding)].startswith("Not made: "), case.kind.title
        assert len(left) == sum(one.accepted is None for one in mended.audit.verdict.findings)
        made += len(mended.made)
    assert made >= 15


def test_most_planted_mistakes_with_a_computed_mend_are_mended(
    tried: list[tuple[Case, Audit, Mended]],
) -> None:
    """A mend refused without need is as bad as one made in error."""
    had = [mended for _, audit, mended in tried if with_edits(audit)]
    kept = [mended for mended in had if not with_edits(mended.audit)]
    assert len(had) >= 12
    assert len(kept) >= 0.9 * len(had)


def test_the_line_of_the_shopping_list_goes_along() -> None:
    """A longer screw that is not bought is another finding."""
    mended = mend(
        audit_text(
            bench("  25 wood-screws #10 x 3 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue", cap="2 1/2")
        )
    )
    (made,) = mended.made
    assert made.finding.rule == "screw-embedment"
    assert [(one.was, one.now) for one in made.changes] == [("3 in", "4 in"), ("3 in", "4 in")]
    assert mended.left == ()


def test_a_length_that_the_list_has_is_taken_before_another() -> None:
    """The join says 3 in, the list 4 1/2: what is bought is long enough, so nothing else need be bought."""
    mended = mend(
        audit_text(
            bench("  25 wood-screws #10 x 4 1/2 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue", cap="2 1/2")
        )
    )
    assert [(one.was, one.now) for one in all_changes(mended)] == [("3 in", "4 1/2 in")]
    assert mended.left == ()


def test_a_box_that_two_joins_use_is_left_to_one_of_them() -> None:
    """The 4 in screws are on the list already: changing the other box would leave the cap without screws."""
    buy = "  25 wood-screws #10 x 3 in\n  25 wood-screws #10 x 4 in\n  1 glue"
    mended = mend(audit_text(bench(buy)))
    assert mended.left == ()
    source = mended.before.source
    assert [source.line_text(source.line_of(one.span.start)).strip()[:7] for one in all_changes(mended)] == [
        "post to"
    ]


def test_a_pilot_hole_is_put_in_after_the_size() -> None:
    """A clause in the wrong place is not read, or belongs to another fastening."""
    text = bench("  25 wood-screws #10 x 4 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue", "4", "2 1/2")
    mended = mend(audit_text(text.replace("  pilots everywhere\n", "")))
    assert [one.finding.rule for one in mended.made] == ["no-pilot"]
    assert "#10 x 4 in piloted 7/64 in counterbored" in mended.audit.source.text
    assert mended.left == ()


def test_a_finish_that_the_plan_leaves_out_is_put_in() -> None:
    """Outdoors the yard's bright screws would be taken: the box on the list says stainless then."""
    buy = "  25 wood-screws #10 x 4 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue waterproof"
    text = bench(buy, "4", "2 1/2", heading="  setting outdoors\n").replace("glue\n", "glue waterproof\n")
    mended = mend(audit_text(text))
    assert [one.finding.rule for one in mended.made] == ["rusting-fastener"]
    assert mended.audit.source.text.count(" stainless") == 4
    assert mended.left == ()


def test_a_mend_that_changes_nothing_is_not_called_one() -> None:
    """The computed length is what the plan says, and the screw is wrong for another reason: told as left."""
    plans = [(name, sound) for name, sound in sound_plans() if name == "reading-chair"]
    kinds = [kind for kind in KINDS if "child's head" in kind.title]
    whys = set()
    for case in cases(plans, kinds):
        mended = mend(audit_text(planted(case.sound.text, case.edit), case.plan))
        whys |= {one.why for one in mended.left if one.finding.rule == "pocket-screw-length"}
    assert whys == {"Not made: the plan says so already, and that alone does not mend it."}


def test_an_accepted_finding_is_not_mended() -> None:
    """The builder has looked at it and lives with it."""
    text = bench(
        "  25 wood-screws #10 x 3 in\n  1 glue", more='accept\n  screw-embedment because "tried it"\n'
    )
    mended = mend(audit_text(text))
    assert mended.made == ()
    assert mended.audit.source.text == text


def test_a_mend_that_makes_an_accept_stale_is_not_made() -> None:
    """Two joins take zinc screws from one box. One of them is accepted: with a box of stainless it would be no more."""
    accept = 'accept\n  rusting-fastener on cap because "under the roof"\n'
    buy = "  25 wood-screws #10 x 2 1/2 in zinc\n  1 glue waterproof"
    text = bench(buy, "2 1/2", "2 1/2", heading="  setting outdoors\n", more=accept)
    for was, now in (
        ("1 x 1 in", "1 x 2 1/2 in"),
        ("#10 x 2 1/2 in counterbored", "#10 x 2 1/2 in zinc counterbored"),
        ("#10 x 2 1/2 in and", "#10 x 2 1/2 in zinc and"),
        ("and glue\n", "and glue waterproof\n"),
    ):
        text = text.replace(was, now)
    mended = mend(audit_text(text))
    assert [one.finding.rule for one in mended.left] == ["rusting-fastener"]
    assert mended.audit.source.text == text
    without = mend(audit_text(text.replace(accept, "")))
    assert [one.finding.rule for one in without.made] == ["rusting-fastener"]


def test_a_guess_at_a_name_that_brings_a_stop_is_not_kept() -> None:
    """`pots` is near `post`, but the place it stands in would put a second post where the first one is."""
    text = bench("  25 wood-screws #10 x 4 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue", "4", "2 1/2")
    text = text.replace("place\n", "place\n  pots: runs up, left at 1, front at 0, bottom at 0\n")
    mended = mend(audit_text(text))
    assert "pots" in mended.audit.source.text
    (left,) = [one for one in mended.left if one.finding.rule == "unknown-name"]
    assert "it would add" in left.why


def test_a_name_is_mended_wherever_it_stands() -> None:
    """The first place alone would leave the others wrong."""
    text = bench("  25 wood-screws #10 x 4 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue", "4", "2 1/2")
    spoilt = text.replace("right of post", "right of pest").replace("post to rail", "pest to rail")
    assert spoilt.count("pest") == 3
    assert mend(audit_text(spoilt)).audit.source.text == text


def test_a_bad_mend_does_not_hold_back_the_good_ones() -> None:
    """All together fail because of one: the others are made all the same."""
    buy = "  1 wood-screws #10 x 3 in\n  25 wood-screws #10 x 2 1/2 in\n  1 glue"
    text = bench(buy, cap="2 1/2").replace(
        "place\n", "place\n  pots: runs up, left at 1, front at 0, bottom at 0\n"
    )
    mended = mend(audit_text(text))
    assert {one.finding.rule for one in mended.made} >= {"screw-embedment"}
    assert [one.finding.rule for one in mended.left if one.why.startswith("Not made")] == ["unknown-name"]


def test_two_mends_of_one_line_are_told_apart() -> None:
    """The screw's length and its finish stand side by side: each finding names its own change."""
    text = bench(
        "  25 wood-screws #10 x 3 in zinc\n  1 glue waterproof", heading="  setting outdoors\n", cap="2 1/2"
    )
    text = text.replace("3 in counter", "3 in zinc counter").replace("glue\n", "glue waterproof\n")
    text = text.replace("2 1/2 in and", "2 1/2 in stainless and")
    mended = mend(audit_text(text))
    by_rule = {one.finding.rule: {(change.was, change.now) for change in one.changes} for one in mended.made}
    assert by_rule["screw-embedment"] == {("3 in", "4 in")}
    assert by_rule["rusting-fastener"] == {("zinc", "stainless")}


def test_two_findings_about_the_same_screws_are_told_apart() -> None:
    """Zinc screws in oak stain it, in fir they rust: two findings, one word. Once both claimed all faults, and neither
    was ever gone."""
    buy = "  25 wood-screws #10 x 4 in zinc\n  25 wood-screws #10 x 2 1/2 in stainless\n  1 glue waterproof"
    text = bench(buy, "4", "2 1/2", heading="  setting outdoors\n").replace(
        "and glue\n", "and glue waterproof\n"
    )
    text = text.replace("rail: 1 of 2x4 @ 24", "rail: 1 of 2x4 @ 24 white-oak").replace(
        "2x4 @ 96", "2x4 @ 96 white-oak"
    )
    text = text.replace("4 in counter", "4 in zinc counter").replace("2 1/2 in and", "2 1/2 in stainless and")
    audit = audit_text(text)
    assert [one.rule for one in audit.verdict.findings].count("rusting-fastener") == 2
    after = mend(audit).audit
    assert after.source.text == text.replace("zinc", "stainless")
    assert "rusting-fastener" not in {one.rule for one in after.verdict.findings}


def test_many_mends_are_not_audited_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """A plan of hundreds of parts takes a second an audit: 40 mends, some of which bring others to light, must not
    take 40."""
    text = 'plan "Many"\n  units in\n  wood douglas-fir\n  pilots everywhere\n  seen back\nbuy\n'
    text += "  500 wood-screws #10 x 3 in\n  500 wood-screws #10 x 4 in\n  1 glue\nparts\n"
    text += "".join(f"  post-{n}: 1 of 4x4 @ 16\n  rail-{n}: 1 of 2x4 @ 24\n" for n in range(40))
    text += "place\n"
    for n in range(40):
        text += f"  post-{n}: runs up, left at {n * 40}, front at 0, bottom at 0\n"
        text += (
            f"  rail-{n}: runs left-right, face front, left at right of post-{n}, front at 0, bottom at 12\n"
        )
    text += "step\n"
    for n in range(40):
        long, side = 3 if n % 3 else 4, "front" if n % 4 else "left"
        text += f"  post-{n} to rail-{n}: 2 wood-screws #10 x {long} in counterbored 1 x 1 in from {side} and glue\n"
    audits = []

    def counted(source: Source) -> Audit:
        audits.append(source)
        return audit_source(source)

    monkeypatch.setattr(ways, "audit_source", counted)
    mended = mend(audit_text(text))
    assert len(mended.made) >= 31
    assert with_edits(mended.audit) == []
    assert len(audits) <= 12


def test_made_findings_stand_where_they_stood_in_the_old_text() -> None:
    """A finding met only after other mends is still told by the old text's words."""
    path = ROOT / "samples" / "faulty" / "yard-workbench.plan"
    mended = mend(audit_source(Source(path.read_text(encoding="utf-8"), path.name)))
    text = mended.before.source.text
    for made in mended.made:
        assert made.changes
        assert text[made.finding.span.start : made.finding.span.end].strip()
        assert made.finding.mend is not None
        for edit in made.finding.mend.edits:
            assert any(edit.span == change.span for change in made.changes)


@pytest.mark.parametrize("ends", ["\r\n", "\r"])
def test_line_ends_and_the_byte_order_mark_stay(ends: str) -> None:
    """An editor on another machine would show every line as changed."""
    text = "\ufeff" + bench("  25 wood-screws #10 x 3 in\n  1 glue", cap="2 1/2").replace("\n", ends)
    new = mend(audit_text(text)).audit.source.text
    assert new.startswith("\ufeff") and new.count(ends) == text.count(ends)
    assert new.replace("4 in", "3 in") == text


@pytest.mark.parametrize(
    "text", ["", "\ufeff", "plan", 'plan "T"\n', "parts\n  leg: 1 of", "\x00", "no plan at all\n" * 3]
)
def test_no_plan_at_all_is_left_as_it_is(text: str) -> None:
    """Bad input never ends in a traceback."""
    assert mend(audit_text(text)).audit.source.text == text
