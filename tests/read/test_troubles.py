"""What cannot be read: where exactly, what would fit, the line mended; and the rest of the plan goes on."""

from __future__ import annotations

import re

import pytest

from planlint.read.notation import notation
from planlint.read.reader import read
from planlint.source import Source
from tests.read.texts import HEADING, plan_of, trouble_of, troubles_of

# section, line, the word that does not fit, the line corrected (None: no telling)
SLIPS = [
    ("parts", "leg: 4 of 4x4 16 1/2", "16", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg 4 of 4x4 @ 16 1/2", "4", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg 4 of 4x4 16 1/2", "4", None),
    ("parts", "leg: four of 4x4 @ 16 1/2", "four", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg: 4 off 4x4 @ 16 1/2", "off", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg: 4 4x4 @ 16 1/2", "4x4", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg: 4 of 4x4 @ 16 1/2,", "", "leg: 4 of 4x4 @ 16 1/2"),
    ("parts", "leg: 4 of 4x4 @ 16 1/2, ends mitrd 12", "mitrd", "leg: 4 of 4x4 @ 16 1/2, ends mitred 12"),
    ("parts", "leg_x: 4 of 4x4 @ 16 1/2", "leg_x", None),
    ("parts", "leg: 2 of 2x4x96", "2x4x96", None),
    ("buy", "5 2x4 @ 96", "2x4", "5 of 2x4 @ 96"),
    ("buy", "50 wood-screws #10 by 4 in", "by", "50 wood-screws #10 x 4 in"),
    ("buy", "50 wood-screws #10 x 4 in rusty", "rusty", None),
    ("place", "leg: top at 17 1/2 -3/4", "-3/4", "leg: top at 17 1/2 - 3/4"),
    ("place", "leg: top at top of rail-3/4", "rail-3/4", "leg: top at top of rail - 3/4"),
    ("place", "leg: runs up left at 0", "left", "leg: runs up, left at 0"),
    ("place", "leg: fornt at 0", "fornt", "leg: front at 0"),
    ("place", "leg: runs vertical", "vertical", "leg: runs up"),
    ("place", "leg: betwen a and b", "betwen", "leg: between a and b"),
    ("place", "leg: between back of post", "", None),
    ("step", "leg to rail: glue waterprof", "waterprof", "leg to rail: glue waterproof"),
    ("step", "leg rail: glue", "rail", "leg to rail: glue"),
    ("step", "leg to rail: 2 nails 2 in frm inside", "frm", "leg to rail: 2 nails 2 in from inside"),
    ("step", "leg to rail: 2 nails 2 in & glue", "&", "leg to rail: 2 nails 2 in and glue"),
    ("step", "leg to rail: 2 wood-screws #8 x 2 in zinc brass", "brass", None),
    ("carry", "doorway 30 by 78", "by", "doorway 30 x 78"),
    ("dimensions", "top of a to top of b 22", "22", "top of a to top of b = 22"),
    ("accept", "hole-in-view on leg", "", None),
    ("accept", 'hole-in-view on leg because "x', '"x', None),
    ("accept", 'hole-in-view on leg because " "', '" "', None),  # the reason is required
    ("plan", "unit in", "unit", None),
    ("plan", "pilots everwhere", "everwhere", "pilots everywhere"),
]  # fmt: skip


@pytest.mark.parametrize(("section", "line", "found", "corrected"), SLIPS, ids=[slip[1] for slip in SLIPS])
def test_a_slip_is_shown_at_its_word_with_the_line_mended(
    section: str, line: str, found: str, corrected: str | None
) -> None:
    trouble, words = troubles_of(f"{section}\n  {line}   -- a note\n")[0]
    assert (trouble.kind, words, trouble.values["found"]) == ("unreadable", found, found)
    assert trouble.values["section"] == section
    if corrected is None and line != "unit in":
        assert "corrected" not in trouble.values
    elif corrected is not None:
        assert trouble.values["corrected"] == corrected
        plan_of(f"{section}\n  {corrected}\n")


@pytest.mark.parametrize(("section", "line", "found", "corrected"), [slip for slip in SLIPS if slip[3]])
def test_the_edit_makes_the_text_readable_and_keeps_the_note(
    section: str, line: str, found: str, corrected: str
) -> None:
    text = HEADING + f"{section}\r\n\t{line}   -- a note\r\n"
    ((trouble, _),) = troubles_of(text)
    start, end, new = trouble.values["edit"]  # type: ignore[misc]
    mended = text[:start] + new + text[end:]
    plan_of(mended)
    assert "   -- a note\r\n" in mended


def test_all_bad_lines_and_all_bad_clauses_are_reported_each_on_its_own_line() -> None:
    text = HEADING + (
        "parts\n  leg 4 of 4x4\n  rail: 2 of 2x4 @ 41\n"
        "place\n  leg: runs upp, left at 0,\n    fornt at 0, top at 12 deg\n"
        "  rail: runs up\n  leg as a b: face lft\n"
    )
    plan, troubles = read(Source(text))
    lines = [Source(text).line_of(trouble.span.start) for trouble in troubles]
    assert lines == [4, 7, 8, 8, 10, 10]
    assert [part.name for part in plan.parts] == ["rail"]
    assert [str(placement.subject) for placement in plan.placements] == ["rail"]


def test_the_names_of_a_line_left_out_are_remembered() -> None:
    plan, _ = read(Source(HEADING + "parts\n  leg: 4 of 4x4 16\nplace\n  top as lid, door: runs sideways\n"))
    assert {"leg", "top", "lid", "door"} <= plan.unread_names
    assert "runs" not in plan.unread_names


def test_a_bad_line_changes_no_other_line() -> None:
    good = "parts\n  a: 1 of 2x4 @ 9\n  b: 1 of 2x4 @ 9\n"
    bad = good.replace("  b:", "  bad line here\n  b:")
    plan, troubles = read(Source(HEADING + bad))
    assert len(troubles) == 1 and [part.name for part in plan.parts] == ["a", "b"]


@pytest.mark.parametrize(
    ("section", "line", "name", "what", "nearest"),
    [
        ("plan", "piece benhc", "benhc", "piece", "bench"),
        ("plan", "piece sofa", "sofa", "piece", None),
        ("plan", "setting outdoor", "outdoor", "setting", "outdoors"),
        ("plan", "users childen", "childen", "user", "children"),
        ("prats", "a: 1 of 2x4 @ 9", "prats", "section", "parts"),
    ],
)
def test_words_of_a_closed_list_offer_the_nearest(
    section: str, line: str, name: str, what: str, nearest: str | None
) -> None:
    trouble, words = trouble_of(section, line)
    assert (trouble.kind, words) == ("unknown-name", name)
    assert trouble.values == {"name": name, "what": what, **({"nearest": nearest} if nearest else {})}


def test_a_misspelt_section_is_read_as_the_nearest() -> None:
    plan, troubles = read(Source(HEADING + "prats\n  a: 1 of 2x4 @ 9\n"))
    assert len(troubles) == 1 and plan.parts[0].name == "a"


def test_a_section_nobody_knows_is_one_trouble_not_one_a_line() -> None:
    plan, troubles = read(Source(HEADING + "introduction\n  this is\n  a letter\nparts\n  a: 1 of 2x4 @ 9\n"))
    assert [trouble.kind for trouble in troubles] == ["unreadable"]
    assert "buy, parts, place" in str(troubles[0].values["expected"])
    assert plan.parts[0].name == "a"


def test_a_colon_after_a_section_loses_nothing() -> None:
    plan, (trouble,) = (
        read(Source(HEADING + "parts:\n  a: 1 of 2x4 @ 9\nplace in back :\n  a: runs up\n"))[0],
        [trouble for trouble, _ in troubles_of(HEADING + "parts:\n  a: 1 of 2x4 @ 9\n")],
    )
    assert trouble.values["corrected"] == "parts"
    assert plan.parts[0].name == "a" and plan.placements[0].assembly


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("  a: 1 of 2x4 @ 9\n", 1, "in the first column"),
        (HEADING + "parts\na: 1 of 2x4 @ 9\n", 4, "indented"),
        (HEADING + " parts\n  a: 1 of 2x4 @ 9\n", 3, "without spaces"),
    ],
)
def test_wrong_indentation_is_explained(text: str, line: int, says: str) -> None:
    source = Source(text)
    said = {
        str(trouble.values["expected"]): source.line_of(trouble.span.start) for trouble in read(source)[1]
    }
    assert [at for expected, at in said.items() if says in expected] == [line]


def test_an_indented_section_loses_nothing() -> None:
    plan, troubles = read(Source(HEADING + "buy\n  1 glue\n parts\n  a: 1 of 2x4 @ 9\n"))
    assert len(troubles) == 1 and plan.parts[0].name == "a"


def test_what_is_said_twice_shows_where_it_was_first() -> None:
    text = (
        HEADING
        + "  units mm\nparts\n  a: 1 of 2x4 @ 9\n  a: 2 of 2x4 @ 9\nplace\n  a: runs up\n  a: runs up\n"
    )
    units, part = read(Source(text))[1]
    assert (units.kind, units.values["first_line"]) == ("name-twice", 2)
    assert (part.values["name"], part.values["first_line"]) == ("a", 5)
    first = part.values["first"]
    assert text[slice(*first)] == "a"  # type: ignore[misc]


@pytest.mark.parametrize("name", ["each", "floor", "middle", "ends", "fit"])
def test_reserved_words_name_no_part(name: str) -> None:
    trouble, words = trouble_of("parts", f"{name}: 1 of 2x4 @ 9")
    assert (trouble.kind, words) == ("unreadable", name)


@pytest.mark.parametrize(
    "name", ["step", "seat", "top", "at", "of", "to", "and", "x", "x1", "m10", "in", "plan", "glue"]
)
def test_any_other_word_may_name_a_part(name: str) -> None:
    text = (
        f"parts\n  {name}: 1 of 2x4 @ 9\nplace\n  {name} as {name}-l, a: runs up, left at left of {name}\n"
        f"step\n  {name} to {name}: glue\nload\n  {name}: 2 people\n"
    )
    plan = plan_of(text)
    assert plan.parts[0].name == name and str(plan.placements[0].subject) == name
    assert str(plan.steps[0].joins[0].second) == name


@pytest.mark.parametrize("line", ["3 from right", "3 at 2 in", "2 of 2x4 @ 96 from"])
def test_a_keyword_is_never_silently_a_name(line: str) -> None:
    assert all(trouble.kind == "unreadable" for trouble, _ in troubles_of(f"buy\n  {line}\n"))
    assert troubles_of(f"buy\n  {line}\n")


def test_a_binary_text_is_one_trouble() -> None:
    plan, (trouble,) = read(Source('plan "x"\n\0\0\1\n  units in\n'))
    assert trouble.span.start == 9 and "plain text" in str(trouble.values["expected"])
    assert plan.parts == []


def test_every_example_fits_its_section() -> None:
    """An example that is wrong would teach the slip it should mend."""
    for section, kinds in notation().words["examples"].items():
        for line in kinds.values():
            if section in ("", "head"):
                plan_of(line if line.startswith("plan") else HEADING + line)
            else:
                plan_of(HEADING + f"{section}\n  {line}\n" if section != "plan" else f'plan "x"\n  {line}\n')


def test_no_expectation_shows_the_grammars_own_names() -> None:
    """A builder does not know what a QUANTITY is. Every word is tried at every place of every section."""
    tried = ["zzz", "12", "2x4", ",", ":", "of", "@", "3/0", '"x"']
    places = {
        "parts": "a : 1 of 2x4 @ 9 oak treated , ends mitred 12 and 13",
        "place": "a as b , c : runs up , left of a at top of b + 3 , row of 4 up from floor to 3",
        "buy": "5 wood-screws #8 x 2 in zinc costing 3 each",
        "step": "a to b : 2 nails 2 in from inside at 1 and 3 from top and glue middle 3 and housed 3 deep",
        "dimensions": "top of a to middle up of b at 24 up = 3",
        "cover": "a : b from floor to 3 , gap 1 to 3",
        "load": "a : 2 people",
        "carry": "load-space 3 x 3 x 3",
        "accept": 'a on b because "c"',
        "plan": "seen left , right",
    }  # fmt: skip
    seen = set()
    for section, line in places.items():
        words = line.split(" ")
        for at in range(len(words) + 1):
            for word in tried:
                for trouble, _ in troubles_of(f"{section}\n  {' '.join([*words[:at], word])}\n"):
                    seen.add(str(trouble.values.get("expected", "")))
    assert len(seen) > 40
    for said in seen:
        assert not re.search(r"[A-Z]{2,}|__|\$", said), said
        assert said == said.strip() and ",," not in said and "  " not in said


@pytest.mark.parametrize(
    ("section", "first", "second"),
    [
        ("place", "leg as leg-l, leg-r: runs up, left at 0", "mirrored left-right about 24"),
        ("step", "leg to rail: 2 wood-screws #8 x 2 in", "and glue"),
        ("parts", "leg: 4 of 4x4 @ 16 1/2", "ends mitred 12"),
    ],
)
def test_a_forgotten_comma_is_told_once_at_the_end_of_its_line(section: str, first: str, second: str) -> None:
    """The second half was called nonsense, and the first half was built without it."""
    text = f"{HEADING}{section}\n  {first}  -- a note\n    {second}\n"
    plan, troubles = read(Source(text))
    assert [(one.kind, text[: one.span.start].rpartition("\n")[2]) for one in troubles] == [
        ("unreadable", f"  {first}")
    ]
    assert troubles[0].values["corrected"] == f"{first},"
    assert not [*plan.parts, *plan.placements, *(join for step in plan.steps for join in step.joins)]
    assert "leg" in plan.unread_names


def test_a_word_that_says_something_new_is_never_put_in() -> None:
    """`plugged and glue` was proposed for a slip that has nothing to do with plugs."""
    (trouble, _), *_ = troubles_of("step\n  leg to rail: 2 wood-screws #8 x 2 in glue\n")
    assert trouble.values.get("corrected") in (None, "leg to rail: 2 wood-screws #8 x 2 in and glue")
