"""Whatever is done to a plan's text, reading it never raises, and nonsense never passes in silence."""

from __future__ import annotations

import random
import time

from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.read.lines import logical_lines
from planlint.read.reader import read
from planlint.source import Source
from tests.read.texts import HEADING, plan_of, said, samples

PIECES = [
    "",
    " ",
    ",",
    ":",
    "@",
    "of",
    "x",
    "-",
    "1/2",
    "12",
    '"',
    "'",
    "--",
    "½",
    "zzz",
    "\t",
    "\0",
    "top",
    "#",
    "deg",
    "(",
    "é",
]
TEXTS = samples()


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False))
def test_a_changed_line_never_raises_and_every_trouble_shows_its_words(
    text: str, chance: random.Random
) -> None:
    """Every trouble points into the text, at the words it names."""
    rows = text.split("\n")
    at = chance.randrange(len(rows))
    words = rows[at].split(" ")
    words[chance.randrange(len(words))] = chance.choice(PIECES)
    rows[at] = " ".join(words)
    source = Source("\n".join(rows))
    plan, troubles = read(source)
    for trouble in troubles:
        assert 0 <= trouble.span.start <= trouble.span.end <= len(source.text)
        if trouble.kind == "unreadable" and trouble.values["found"]:
            assert source.text[slice(*trouble.span)] == trouble.values["found"]
    said(plan)  # every record is whole


@settings(max_examples=150, deadline=None)
@given(
    st.sampled_from(TEXTS), st.sampled_from(["%%", "zzz_y", ";", "3/0"]), st.randoms(use_true_random=False)
)
def test_nonsense_between_any_two_words_of_an_entry_is_reported_there(
    text: str, nonsense: str, chance: random.Random
) -> None:
    """A word that is skipped or taken for a name in silence would change what is built."""
    lines = [line for line in logical_lines(Source(text)) if line.indented and '"' not in line.text]
    line = chance.choice(lines)
    gaps = [0, len(line.text), *(at for at, letter in enumerate(line.text) if letter == " ")]
    # `-` and a number belong together: nonsense beside them may be read as one word with them
    at = line.base + chance.choice(gaps)
    source = Source(f"{text[:at]} {nonsense} {text[at:]}")
    if "--" in text[text.rfind("\n", 0, at) + 1 : at]:
        return  # in a note between two lines of an entry
    _, troubles = read(source)
    places = [trouble.span.start for trouble in troubles]
    assert any(line.base <= place <= line.base + len(line.text) + len(nonsense) + 2 for place in places)


@settings(max_examples=150, deadline=None)
@given(st.text(max_size=300))
def test_any_text_at_all_reads_without_raising(text: str) -> None:
    read(Source(text))
    read(Source(HEADING + "parts\n  " + text))
    read(Source(HEADING + "place\n  a: " + text))


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.sampled_from(
            [
                *PIECES,
                "runs",
                "left",
                "at",
                "between",
                "and",
                "a",
                "floor",
                "\n ",
                "\n",
                "step",
                "place",
                "plan",
            ]
        ),
        max_size=40,
    )
)
def test_any_words_of_the_notation_in_any_order_read_without_raising(words: list[str]) -> None:
    read(Source(HEADING + "place\n  a: " + " ".join(words)))
    read(Source(" ".join(words)))


@given(st.sampled_from(TEXTS))
@settings(max_examples=len(TEXTS), deadline=None)
def test_spans_point_at_what_was_written(text: str) -> None:
    """A mend writes at a span: one character off would spoil the plan."""
    plan, _ = read(Source(text))
    for part in plan.parts:
        assert text[slice(*part.name_span)].lower() == part.name
        assert int(text[slice(*part.pieces_span)]) == part.pieces
        assert text[slice(*part.span)].startswith(part.name)
    for purchase in plan.purchases:
        assert int(text[slice(*purchase.number_span)]) == purchase.number
        if purchase.wood:
            assert text[slice(*purchase.wood.span)].lower() == purchase.wood.text
    for placement in plan.placements:
        assert text[slice(*placement.subject.span)] == str(placement.subject)
        for clause in placement.clauses:
            first = text[slice(*clause.span)].split()[0]
            assert first in {
                "runs", "face", "left", "right", "front", "back", "bottom", "top", "middle", "centred",
                "leans", "rises", "turns", "ends", "row", "like", "between",
            }  # fmt: skip
    for step in plan.steps:
        for join in step.joins:
            assert text[slice(*join.first.span)] == str(join.first)
            for fastening in join.fastenings:
                if fastening.number_span:
                    assert int(text[slice(*fastening.number_span)]) == fastening.number


def test_reading_takes_time_in_proportion_to_the_text() -> None:
    """Ten times the text may take ten times as long, not a hundred times."""
    body = TEXTS[-1].partition("place\n")[2].partition("\ncover")[0]

    def seconds(times: int) -> float:
        source = Source(HEADING + "".join(f"place\n{body}\n" for _ in range(times)))
        least = 1e9
        for _ in range(3):
            start = time.process_time()
            assert read(source)[1] == []
            least = min(least, time.process_time() - start)
        return least

    seconds(2)
    assert seconds(40) < 25 * seconds(4)


def test_many_bad_lines_take_time_in_proportion_too() -> None:
    def seconds(times: int) -> float:
        source = Source(HEADING + "parts\n" + "  leg 4 of 4x4 16, shapedd, grian across\n" * times)
        start = time.process_time()
        assert len(read(source)[1]) == 3 * times
        return time.process_time() - start

    seconds(100)
    assert seconds(2000) < 25 * seconds(200)


def test_one_endless_entry_with_bad_clauses_takes_time_in_proportion() -> None:
    def seconds(times: int) -> float:
        source = Source(HEADING + "place\n  a: runs up" + ", lfet at 0, top at 3" * times)
        start = time.process_time()
        assert len(read(source)[1]) == times
        return time.process_time() - start

    seconds(100)
    assert seconds(2000) < 25 * seconds(200)


def test_the_rest_of_a_plan_means_the_same_with_a_bad_line_in_it() -> None:
    text = TEXTS[-1]
    wanted = said(plan_of(text))
    plan, troubles = read(Source(text.replace("\nparts\n", "\nparts\n  what: is this\n")))
    assert len(troubles) == 1 and said(plan) == wanted


def test_nothing_written_can_nest_or_pile_up_without_end() -> None:
    """Deep nesting ends later steps in a traceback, and piles copied at each step take minutes."""
    for many in (
        "  a: left at 1" + " + 1" * 10_000,
        "  a: left at top of a" + " of a" * 10_000,
        "  a as b" + ", b" * 10_000 + ": runs up",
        "  a: " + "runs up, " * 10_000,
        "  a: left at " + "- " * 10_000,
        "  " + '"' * 10_000,
    ):
        read(Source(HEADING + "place\n" + many))
    for many in (
        "  a to b: glue" + " waterproof" * 10_000,
        "  a to b: 2 nails at 1" + " and 1" * 10_000 + " from top",
    ):
        read(Source(HEADING + "step\n" + many))
    read(Source(HEADING + "parts\n" + "\n".join(f"  a{i}: 1 of 2x4 @ 9," for i in range(1_000))))
    read(Source("place\n" + "- " * 20_000 + "\n" * 20_000))
