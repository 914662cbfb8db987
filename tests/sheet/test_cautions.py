"""The cautions: each has a plan that raises it and one that does not, and its numbers are the plan's."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.auditing import Audit, audit_text
from planlint.sheet.cautions import ASKED, Caution, cautions
from planlint.trade.cautions import caution_rows, is_dusty
from planlint.trade.tables import rows
from planlint.trade.woods import wood
from tests.drawing.plans import SAMPLES as PLANS
from tests.drawing.plans import audited

PLAIN = """plan "Two boards"
  units in
  wood pine
  setting indoors
buy
  2 of 3/4 x 3 1/2 @ 48
parts
  upper: 1 of 3/4 x 3 1/2 @ 24
  lower: 1 of 3/4 x 3 1/2 @ 24
place
  lower: runs left-right, face top, left at 0, front at 0, bottom at 0
  upper: runs left-right, face top, left at 0, front at 0, bottom at top of lower
step "Together"
  upper to lower: 2 dowels 3/8 x 1 in
"""


def plan(*changes: tuple[str, str]) -> Audit:
    text = PLAIN
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return audit_text(text)


DOWELS = "2 dowels 3/8 x 1 in"
TALL = (
    ("setting indoors", "setting indoors\n  piece shelf"),
    (
        "left-right, face top, left at 0, front at 0, bottom at 0",
        "up, face front, left at 0, front at 0, bottom at 0",
    ),
    (
        "left-right, face top, left at 0, front at 0, bottom at top of lower",
        "up, face front, left at 0, back at front of lower, bottom at 0",
    ),
    ("@ 24", "@ 40"),
)
# Each caution with what makes the plain plan raise it.
RAISED: dict[str, tuple[tuple[str, str], ...]] = {
    "narrow-cuts": (("upper: 1 of 3/4 x 3 1/2", "upper: 1 of 3/4 x 1 1/2"),),
    "short-cuts": (("upper: 1 of 3/4 x 3 1/2 @ 24", "upper: 1 of 3/4 x 3 1/2 @ 4"),),
    "large-bits": ((DOWELS, "2 wood-screws #8 x 1 in counterbored 1/2 x 1/4 in"),),
    "driving": ((DOWELS, "2 wood-screws #8 x 1 in"),),
    "nailing": ((DOWELS, "2 nails 1 1/4 in"),),
    "edge-tools": ((DOWELS, "housed 1/4 deep"),),
    "dust": (),
    "dust-woods": (("wood pine", "wood western-redcedar"),),
    "treated": (("wood pine", "wood southern-pine treated"),),
    "sheet-dust": (("wood pine", "wood birch-plywood"),),
    "glue": ((DOWELS, DOWELS + " and glue"),),
    "oily-rags": (("setting indoors", "setting outdoors"),),
    "lifting": (
        ("3/4 x 3 1/2", "4 x 11"),
        ("wood pine", "wood red-oak"),
        ("@ 24", "@ 60"),
        ("@ 48", "@ 120"),
    ),
    "lifting-boards": (("3/4 x 3 1/2 @ 48", "4 x 11 @ 96"), ("wood pine", "wood red-oak")),
    "children": (("  setting indoors", "  setting indoors\n  users children"),),
    "tipping": TALL,
    "wall": (*TALL, ("setting indoors", "setting indoors\n  fixed to wall")),
    "climbing": ((DOWELS, DOWELS + "\nload\n  upper: 1 person"),),
}


def names(audit: Audit) -> list[str]:
    return [one.name for one in cautions(audit)]


def told(name: str, audit: Audit) -> Caution:
    (found,) = [one for one in cautions(audit) if one.name == name]
    return found


def test_every_caution_of_the_table_is_asked_for_and_tested() -> None:
    """A row that nobody asks for is never told; a question without a row would fail on somebody's plan."""
    table = [row.name for row in caution_rows()]
    assert table == list(ASKED) == list(RAISED)


@pytest.mark.parametrize("name", RAISED)
def test_a_plan_raises_it(name: str) -> None:
    assert name in names(plan(*RAISED[name]))


@pytest.mark.parametrize("name", RAISED)
def test_a_plan_does_not_raise_it(name: str) -> None:
    """Cautions that fit nothing are not read, and then the one that fits is not read either."""
    without = audit_text('plan "List"\n  units in\n') if name == "dust" else plan()
    assert name not in names(without)


def test_fixed_to_a_wall_it_cannot_tip() -> None:
    changes = tuple(
        (old, new.replace("piece shelf", "piece shelf\n  fixed to wall")) for old, new in RAISED["tipping"]
    )
    assert "tipping" not in names(plan(*changes))


def test_the_numbers_are_those_of_the_plan_in_its_own_units() -> None:
    assert "1 1/2 in" in told("narrow-cuts", plan(*RAISED["narrow-cuts"])).says[0]
    assert "4 in" in told("short-cuts", plan(*RAISED["short-cuts"])).says[0]
    assert "1/2 in wide" in told("large-bits", plan(*RAISED["large-bits"])).says[0]
    assert "40 in tall on 1 1/2 in" in told("tipping", plan(*RAISED["tipping"])).says[0]
    assert told("dust-woods", plan(*RAISED["dust-woods"])).title == "Dust of western redcedar"


def test_weights_are_volume_times_density() -> None:
    """4 x 11 x 60 in of red oak, twice: 5280 cu in; G 0.63 at 12 % moisture (Wood Handbook) is 44.0 lb a cubic foot."""
    says = told("lifting", plan(*RAISED["lifting"])).says
    pounds = 2 * 4 * 11 * 60 / 1728 * 62.4 * 0.63 * 1.12
    assert f"about {pounds:.0f} lb" in says[0]
    assert "51 lb" in says[0]  # 23 kg, the load constant of the lifting equation
    assert "takes 3 to carry it" in says[1]
    board = told("lifting-boards", plan(*RAISED["lifting-boards"])).says[0]
    assert f"about {4 * 11 * 96 / 1728 * 62.4 * 0.63 * 1.12:.0f} lb (4 in x 11 in x 96 in)" in board


def test_a_metric_plan_is_told_in_mm_and_kg() -> None:
    text = PLAIN.replace("units in", "units mm").replace("3/4 x 3 1/2", "100 x 280").replace("@ 24", "@ 1500")
    text = (
        text.replace("@ 48", "@ 3200").replace("wood pine", "wood red-oak").replace("3/8 x 1 in", "10 x 30")
    )
    says = " ".join(told("lifting", audit_text(text)).says)
    assert "23 kg" in says
    assert "lb" not in says


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_all_plans_have_their_cautions_in_the_table_s_order_and_filled_in(path: Path) -> None:
    order = [row.name for row in caution_rows()]
    found = cautions(audited(path))
    assert [one.name for one in found] == sorted((one.name for one in found), key=order.index)
    for one in found:
        assert one.source
        assert one.confidence
        for text in (one.title, *one.says):
            assert "{" not in text
            assert text


def test_a_name_with_braces_is_only_a_name() -> None:
    """What is filled in must not be filled in again."""
    text = PLAIN.replace("upper: 1 of 3/4 x 3 1/2", "{short}: 1 of 3/4 x 1 1/2")
    for one in cautions(audit_text(text)):
        assert one.says


def test_no_plan_at_all_has_no_cautions() -> None:
    assert cautions(audit_text("")) == ()


@pytest.mark.parametrize("name", rows("cautions", "dusty"))
def test_the_dusty_woods_are_woods_that_plans_can_name(name: str) -> None:
    known = wood(name)
    assert known is not None
    assert known.name == name
    assert is_dusty(name)


def test_sentences_are_short() -> None:
    """Beginners read them."""
    for row in caution_rows():
        for text in row.says:
            for sentence in text.replace(": ", ". ").split(". "):
                assert len(sentence.split()) <= 32, sentence
