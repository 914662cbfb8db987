"""The list of every plan at hand, whole and with a section missing, as the command makes it."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_source, audit_text
from planlint.buying.listing import shopping
from planlint.buying.page import page
from planlint.buying.shopping import Shopping
from planlint.buying.table import table
from planlint.read.files import read_file
from planlint.show.strokes import LINES
from planlint.source import Source

from .lists import line, total

ROOT = Path(__file__).parents[2]
SOUND = sorted([*(ROOT / "samples/sound").glob("*.plan"), *(ROOT / "tests/plans/sound").glob("*.plan")])
FAULTY = sorted((ROOT / "samples/faulty").glob("*.plan"))
SECTIONS = ("buy", "parts", "place", "step", "load", "plan")


def audit(path: Path) -> Audit:
    read = read_file(str(path))
    assert isinstance(read, Source)
    return audit_source(read)


def bought(path: Path) -> Shopping:
    found = audit(path)
    return shopping(found, found)


def without(text: str, section: str) -> str:
    """The text without every part that such a header begins."""
    kept, dropping = [], False
    for row in text.splitlines():
        if row and not row[0].isspace() and not row.startswith("--"):
            dropping = row.split()[0] == section
        if not dropping:
            kept.append(row)
    return "\n".join(kept) + "\n"


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_a_sound_plans_list_covers_what_it_needs(path: Path) -> None:
    """More of something, or something missing, would be a false alarm at the yard: the audit calls it sound."""
    found = bought(path)
    lines = [one for group in found.groups if group.key != "finish" for one in group.lines]
    wrong = [(one.what, one.difference) for one in lines if one.difference in ("more", "missing", "changed")]
    assert wrong == []
    assert sum(one.difference == "same" for one in lines) >= 0.7 * len(lines)


def test_the_herb_planter_by_hand() -> None:
    """Six long boards on two posts each and six end boards on two, two screws each: 48. Ledgers: 4 and 4."""
    found = bought(ROOT / "samples/sound/herb-planter.plan")
    counts = [(one.what, one.buy, one.difference) for group in found.groups[:2] for one in group.lines]
    assert counts == [
        ("45 x 45 mm, 1800 mm long, larch", 1, "same"),
        ("21 x 120 mm, 3000 mm long, larch", 4, "same"),
        ("21 x 45 mm, 1800 mm long, larch", 1, "same"),
        ("wood screws 4.5 x 50 mm, stainless", 50, "same"),
        ("wood screws 4 x 35 mm, stainless", 10, "same"),
    ]
    screws = line(found, "4.5 x 50")
    assert screws.needed is not None
    assert (screws.needed.low, screws.spare) == (48, 2)
    timber = total(found, "timber").amount
    assert timber is not None
    assert timber.low == pytest.approx(45 * 45 * 1800 + 4 * 21 * 120 * 3000 + 21 * 45 * 1800)


def test_the_allotment_bench_by_hand() -> None:
    """Two screws from each leg into the long rail; eight counterbores 1 x 1 in take 1 1/4 in of rod each."""
    found = bought(ROOT / "samples/sound/allotment-bench.plan")
    rod = line(found, "dowel rod")
    assert rod.needed is not None
    assert rod.needed.low == pytest.approx(8 * 1.25 * 25.4)
    assert line(found, "4x4").buy == 2
    feet = total(found, "board feet").amount
    assert feet is not None
    twos = line(found, "2x4").buy
    assert twos is not None
    assert feet.low == pytest.approx(2 * 16 / 12 * 4 + twos * 8 / 12 * 8)


@pytest.mark.parametrize("path", FAULTY, ids=lambda path: path.stem)
def test_a_faulty_plan_has_a_list_on_paper_and_in_a_table(path: Path) -> None:
    found = bought(path)
    assert found.groups
    assert page(found, "", 80, LINES)
    assert table(found).count("\r\n") > 3


@pytest.mark.parametrize("section", SECTIONS)
@pytest.mark.parametrize("path", [*FAULTY, *SOUND[:4]], ids=lambda path: path.stem)
def test_a_plan_without_a_section_still_has_a_list(path: Path, section: str) -> None:
    found = audit_text(without(path.read_text(encoding="utf-8"), section))
    made = shopping(found, found)
    assert page(made, "", 80, LINES)
    if section in ("parts", "step"):
        assert made.not_known
    if section == "buy":
        assert all(one.own is None for group in made.groups for one in group.lines)


@pytest.mark.parametrize("text", ["", "plan\n", "buy\n  x of y @ z\n", "\x00\n", "step\n  a to b: glue\n"])
def test_a_text_that_is_hardly_a_plan_has_an_empty_list(text: str) -> None:
    found = audit_text(text)
    made = shopping(found, found)
    assert made.not_known
    assert page(made, "", 80, LINES)


def test_what_holds_a_piece_to_the_wall_is_not_forgotten() -> None:
    # A bookcase "fixed to wall" had a whole shopping list, and nothing to fix it with.
    (case,) = [path for path in SOUND if path.stem == "hall-bookcase"]
    assert any("fix it to the wall" in one.what for one in bought(case).not_known)
    (planter,) = [path for path in SOUND if path.stem == "herb-planter"]
    assert not any("wall" in one.what for one in bought(planter).not_known)


def test_a_cut_list_that_cannot_be_read_is_not_said_to_be_missing() -> None:
    made = audit_text('plan "X"\n  units in\nparts\n  leg: 1000000 of 2x4 @ 10\n')
    assert "the plan has no cut list that can be read" in shopping(made, made).not_known[0].what


def test_oak_is_not_told_what_planing_takes_off_softwood() -> None:
    text = 'plan "X"\n  units in\n  wood {}\nbuy\n  1 of rough {} @ 96\nparts\n  s: 1 of 3/4 x 3 @ 40\n'
    pine, oak = (audit_text(text.format(*one)) for one in (("pine", "1x6"), ("red-oak", "4/4x6")))
    assert any("off softwood" in note for note in shopping(pine, pine).groups[0].notes)
    assert not any("off softwood" in note for note in shopping(oak, oak).groups[0].notes)


def test_boards_that_are_bought_unchecked_are_weighed_all_the_same() -> None:
    # Ten boards on the list, no part that could be read: "To load: no wood is on the list".
    made = audit_text('plan "X"\n  units in\n  wood pine\nbuy\n  10 of 2x4 @ 96\nparts\n  leg: x\n')
    found = shopping(made, made)
    assert line(found, "2x4").buy == 10
    measure, load = total(found, "board feet").amount, total(found, "weight").amount
    assert measure is not None and load is not None
    assert measure.low == pytest.approx(10 * 2 * 4 * 96 / 144)
    assert load.low > 30
