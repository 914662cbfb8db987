"""Tidying: one plain layout that means exactly what was meant, and that is its own tidying."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planlint.auditing import audit_text
from planlint.read.lines import content
from planlint.read.reader import read
from planlint.source import Source
from planlint.tidying.same import same_plan
from planlint.tidying.tidying import tidied, tidy

ROOT = Path(__file__).parents[2]
PATHS = sorted([*ROOT.glob("samples/*/*.plan"), *ROOT.glob("tests/plans/sound/*.plan")])
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in PATHS}
READABLE = sorted(name for name, text in TEXTS.items() if not read(Source(text))[1])


def tidied_text(text: str) -> str:
    return tidied(Source(text))


def notes_of(text: str) -> list[str]:
    """All notes, in order."""
    source = Source(text)
    rows = [source.line_text(number).removeprefix("\ufeff") for number in range(1, len(source.starts) + 1)]
    return [note for row in rows if (note := row[content(row) :].strip())]


def holds(text: str) -> str:
    """The tidied text, after what must be true of it whatever the text was."""
    new = tidied_text(text)
    assert same_plan(Source(text), Source(new))
    assert tidied_text(new) == new
    assert notes_of(new) == notes_of(text)
    return new


@pytest.mark.parametrize("name", TEXTS)
def test_a_plan_means_the_same_when_it_is_tidied(name: str) -> None:
    """Read and audited before and after: equal plans, equal findings; a second time changes nothing."""
    assert tidy(audit_text(TEXTS[name], name)).sound
    new = holds(TEXTS[name])
    assert not [row for row in new.splitlines() if row != row.rstrip()]


# --- one layout ------------------------------------------------------------------------------------

UNTIDY = """-- a bench for the yard

-- drawn in May
plan   "My  Bench"   -- first try
    units in
 wood Douglas-Fir
buy
 2 of 4x4 @ 96 in
 25 wood-screws #10 x 3-1/2
 1 of dowel-rod .75 @ 36" oak
parts
    leg : 4 of 4x4 @ 16.5    -- square
  long-rail: 12 of 1½ x 3 1/2 @ 3' 6 1/2"
  top: 1 of panel from 4 leg edge-glued


  -- what stands where
place
  leg: runs up,
     -- flush
     left at 0 in, front at 1-1/4",   -- from the front
     bottom at top of long-rail-3/4
  long-rail: runs up,
     -- flush

     left at 0 in, front at 1-1/4",   -- from the front
   bottom at 3  -  3/4
  long-rail: runs left-right , face front , left at 0 , front at 0 , bottom at 0 , leans 12° toward back ,
  right cut 30 deg
step "Frame"
  leg to long-rail: 2 wood-screws M6×70 counterbored 1 × 1/2 in, plugged,
   at 5/8 and 2.375 in from top, piloted 1/8 in, and glue
this is no line
"""

TIDY = """-- a bench for the yard

-- drawn in May
plan "My  Bench"  -- first try
  units in
  wood douglas-fir

buy
   2 of 4x4 @ 96
  25 wood-screws #10 x 3 1/2 in
   1 of dowel-rod 3/4 @ 36 oak

parts
  leg:        4 of 4x4           @ 16 1/2  -- square
  long-rail: 12 of 1 1/2 x 3 1/2 @ 3 ft 6 1/2 in
  top:        1 of panel from 4 leg edge-glued

  -- what stands where

place
  leg: runs up,
     -- flush
     left at 0 in, front at 1-1/4",   -- from the front
     bottom at top of long-rail-3/4
  long-rail: runs up,
    -- flush
    left at 0, front at 1 1/4,  -- from the front
    bottom at 3 - 3/4
  long-rail: runs left-right, face front, left at 0, front at 0, bottom at 0, leans 12 toward back,
    right cut 30

step "Frame"
  leg to long-rail: 2 wood-screws M6 x 70 counterbored 1 x 1/2, plugged, at 5/8 and 2 3/8 from top,
    piloted 1/8 and glue
this is no line
"""


def test_the_plain_layout() -> None:
    """Heads in the first column with a blank line before, columns, one way to write a number, notes in their places.

    `long-rail-3/4` is no subtraction, so that entry cannot be read: it stays word for word.
    """
    assert holds(UNTIDY) == TIDY


@pytest.mark.parametrize(
    ("units", "was", "now"),
    [
        ("in", "left at 3-1/2", "left at 3 1/2"),
        ("in", "left at 3½″", "left at 3 1/2"),
        ("in", "left at .75", "left at 3/4"),
        ("in", "left at 0.015625 in", "left at 1/64"),
        ("in", "left at 0.33", "left at 0.33"),
        ("in", "left at 2 1/3", "left at 2 1/3"),
        ("in", "left at 89.0 mm", "left at 89 mm"),
        ("in", "left at 3'", "left at 3 ft"),
        ("in", "left at 3'-6\"", "left at 3 ft 6 in"),
        ("in", "left at -3/4 inches", "left at -3/4"),
        ("in", "left at 3  -  1/2", "left at 3 - 1/2"),
        ("in", "left at 3+1/2", "left at 3 + 1/2"),
        ("mm", "left at 12.50 mm", "left at 12.5"),
        ("mm", "left at 1/2", "left at 0.5"),
        ("mm", "left at 1/3", "left at 1/3"),
        ("mm", "left at 3 1/2 in", "left at 3 1/2 in"),
        ("cm", "left at 1.20 m", "left at 1.2 m"),
        ("ft", "left at 1.5 ft", "left at 1 1/2"),
        ("in", "leans 12.50 degrees toward back", "leans 12.5 toward back"),
        ("in", "leans 7 1/2 toward back", "leans 7.5 toward back"),
    ],
)
def test_a_number_is_written_in_one_way(units: str, was: str, now: str) -> None:
    """Written another way it must be worth exactly the same, in the unit that was meant."""
    text = f'plan "T"\n  units {units}\n\nparts\n  leg: 1 of 2x2 @ 9\n\nplace\n  leg: runs up, {was}\n'
    assert holds(text) == text.replace(was, now)


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("25 wood-screws #10 x 3", "25 wood-screws #10 x 3 in"),
        ('25 wood-screws #10x3"', "25 wood-screws #10 x 3 in"),
        ("25 carriage-bolts M10 x 110", "25 carriage-bolts M10 x 110"),
        ("25 wood-screws 5 x 70", "25 wood-screws 5 x 70"),
        ("25 carriage-bolts 1/4 x 3 in", "25 carriage-bolts 1/4 x 3 in"),
        ("24 1/2 in dowels", "24 1/2 in dowels"),
        ("24 .5 in dowels", "24 1/2 in dowels"),
        ("25 of 2x4 @ 96 costing 6.40 each", "25 of 2x4 @ 96 costing 6.40 each"),
    ],
)
def test_a_line_for_the_shop_keeps_its_units(was: str, now: str) -> None:
    """`5 x 70` is millimetres in every plan, a price is no length, and a screw's length is asked for with its unit."""
    assert holds(f'plan "T"\n  units in\n\nbuy\n  {was}\n') == f'plan "T"\n  units in\n\nbuy\n  {now}\n'


def test_long_entries_are_broken_at_commas() -> None:
    """No row wider than a page, unless one clause alone is."""
    for text in TEXTS.values():
        for row in tidied_text(text).splitlines():
            code = row[: content(row)]
            assert len(code) <= 100 or "," not in code[4:-1]


# --- what it must not touch --------------------------------------------------------------------------


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("last", [True, False])
def test_line_ends_and_byte_order_mark_stay(ends: str, mark: str, last: bool) -> None:
    """Another machine's editor would show the whole file as changed."""
    text = TEXTS["shoe-rack"].rstrip("\n") + ("\n" if last else "")
    assert tidied_text(mark + text.replace("\n", ends)) == mark + tidied_text(text).replace("\n", ends)


def test_titles_and_reasons_are_kept_as_written() -> None:
    """Capitals, blanks and quotes in a text are the writer's."""
    text = 'plan   “My “Big”  Bench”\n  units in\n\naccept\n   hole-in-view   because "It  stands, by the   Wall"\n'
    new = holds(text)
    assert "“My “Big”  Bench”" in new
    assert '  hole-in-view because "It  stands, by the   Wall"\n' in new


SEEDS = st.integers(0, 10**6)  # of chance: what is drawn from it needs no shrinking

JUNK = st.sampled_from(
    [
        "  what is this",
        "  leg",
        "  leg: 4 off 4x4 @ 9",
        "nonsense",
        "  leg: runs up,,",
        "  : ,",
        '  "',
        "  @ 3 in  ",
        "\t§§",
        "  rail: 2 of 2x4 @ 9 lb,",
    ]
)


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(TEXTS)), st.lists(JUNK, min_size=1, max_size=3), SEEDS)
def test_lines_that_cannot_be_read_stay_word_for_word(name: str, junk: list[str], seed: int) -> None:
    """Whoever mends a line must find it as they wrote it."""
    chance, rows = random.Random(seed), TEXTS[name].split("\n")
    for line in junk:
        rows.insert(chance.randrange(1, len(rows)), line)
    new = holds("\n".join(rows))
    for line in junk:
        assert line in new.split("\n")


# --- any plan, however it is written ------------------------------------------------------------------


def mangled(text: str, chance: random.Random) -> str:
    """The same plan in another hand: blanks, tabs, capitals, rows broken elsewhere, notes, units and signs."""
    rows = []
    for row in text.split("\n"):
        code, note = row[: content(row)], row[content(row) :].strip()
        if '"' not in code:
            code = re.sub(r" ", lambda _: chance.choice([" ", " ", "  ", "\t", "\u00a0"]), code)
            if chance.random() < 0.2:
                code = code.upper()
            if chance.random() < 0.3:
                code = code.replace("1/2", "½").replace(" x ", " × ")
            if code.startswith((" ", "\t", "\u00a0")) and chance.random() < 0.5:
                head, *rest = code.split(",")
                code = head + "".join(
                    (",\n      " if chance.random() < 0.5 else " ,") + piece for piece in rest
                )
        if chance.random() < 0.1:
            note = note or f"-- note {chance.randrange(99)}, and more"
        rows.append(f"{code}{' ' * chance.randrange(4) if code else ''}{note}")
        if chance.random() < 0.1:
            rows.append(chance.choice(["", "  ", "-- a note", "    -- another"]))
    return "\n".join(rows)


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(TEXTS)), SEEDS)
def test_another_hand_is_tidied_to_the_same_meaning(name: str, seed: int) -> None:
    """Blanks, breaks and notes in any place."""
    holds(mangled(TEXTS[name], random.Random(seed)))


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(READABLE), SEEDS)
def test_blanks_and_capitals_do_not_show_in_the_tidied_plan(name: str, seed: int) -> None:
    """One plain layout: who wrote it with other blanks gets the same text."""
    chance, rows = random.Random(seed), TEXTS[name].split("\n")
    other = [
        row if '"' in row or "--" in row else re.sub(" ", lambda _: " " * chance.randint(1, 3), row).upper()
        for row in rows
    ]
    assert tidied_text("\n".join(other)) == tidied_text(TEXTS[name])


PIECES = st.sampled_from(
    [
        " ",
        "\t",
        "\n",
        "\r\n",
        ",",
        ":",
        "--",
        '"',
        "x",
        "@",
        "-",
        "and",
        "3/4",
        "½",
        "\ufeff",
        "\n  ",
        "\nbuy\n",
        "×",
        "\x00",
        "\u2028",
    ]
)


@settings(max_examples=25, deadline=None)
@given(
    st.sampled_from(sorted(TEXTS)),
    st.lists(st.tuples(st.floats(0, 1), PIECES, st.integers(0, 3)), min_size=1, max_size=5),
)
def test_a_spoilt_plan_is_tidied_without_harm(name: str, spoils: list[tuple[float, str, int]]) -> None:
    """Whatever the text, nothing is lost that can be read, and nothing is touched that cannot."""
    text = TEXTS[name]
    for where, piece, cut in spoils:
        at = round(where * len(text))
        text = text[:at] + piece + text[at + cut :]
    new = tidied_text(text)
    assert same_plan(Source(text), Source(new))
    assert tidied_text(new) == new


@pytest.mark.parametrize(
    ("was", "now"),
    [
        ("@ 41", "@ 41.000001"),
        ("@ 41", "@ 41 mm"),
        ("2 of 2x4", "3 of 2x4"),
        ("rail:", "rails:"),
        ("shaped", "grain across"),
        ("  rail: 2 of 2x4 @ 41, shaped\n", ""),
        ("parts", "partz"),
        ('"T"', '"t"'),
        ("units in", "units ft"),
    ],
)
def test_another_meaning_is_told_apart(was: str, now: str) -> None:
    """What guards the plan: a value, a unit, a name, an entry or a trouble more or less is not the same plan."""
    text = 'plan "T"\n  units in\nparts\n  leg: 4 of 4x4 @ 16\n  rail: 2 of 2x4 @ 41, shaped\n'
    assert text.count(was) == 1
    assert not same_plan(Source(text), Source(text.replace(was, now)))


@pytest.mark.parametrize("text", ["", "\ufeff", "\n\n", "plan", "parts", "-- only a note", "\x00", "\r", " "])
def test_hardly_a_plan(text: str) -> None:
    """Bad input never ends in a traceback."""
    new = tidied_text(text)
    assert same_plan(Source(text), Source(new))
    assert tidied_text(new) == new


def test_names_too_long_for_a_column_are_not_lost() -> None:
    # Where every name was longer than a column, the names were left out, and tidying refused the whole plan.
    name = "left-hind-leg-below-the-armrest"
    text = f'plan "X"\n  units in\n\nparts\n  {name}:  4 of 2x4 @ 10\n'
    assert f"  {name}: 4 of 2x4 @ 10\n" in holds(text)


def test_a_first_line_that_ends_otherwise_than_the_rest_settles_it_for_all() -> None:
    # Lines that cannot be read kept their own line end; a second tidying then took that for the file's.
    new = holds('\r\n- no entry\nplan "X"\n  units in\n')
    assert new.count("\r\n") == new.count("\n")
