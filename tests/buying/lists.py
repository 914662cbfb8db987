"""Lists made for a test: an audit of a few lines of plan, boards laid out by hand, one line found by its words."""

from __future__ import annotations

from planlint.auditing import Audit, audit_text
from planlint.buying.listing import shopping_for
from planlint.buying.shopping import Group, Line, Shopping, Total
from planlint.cutting import CutBoard
from planlint.read.plan import Purchase
from planlint.sawing.layout import Boards, Layout

INCH, FOOT, POUND = 25.4, 304.8, 0.45359237
NOTHING = Layout((), 3.175, ())

BENCH = """plan "Bench"
  units in
  setting outdoors
  wood western-redcedar
  pilots everywhere
{buy}
parts
  rail: 2 of 2x4 @ 40
  slat: 4 of 1x4 @ 16
place
  rail as front-rail, back-rail: runs left-right, face front, left at 0, front at 0, bottom at 0,
    mirrored front-back about 8
  slat: row of 4 left-right from 0 to 40, runs front-back, face top, front at 0, bottom at top of front-rail
step
  slat to rail: {fastening}
"""


def bench(buy: str = "", fastening: str = "2 wood-screws #8 x 2 in stainless") -> Audit:
    """Four slats on two rails: whatever joins a slat to the rails is counted eight times."""
    return audit_text(BENCH.format(buy=f"buy\n  {buy}" if buy else "", fastening=fastening))


def listed(audit: Audit, own: Audit | None = None, layout: Layout = NOTHING) -> Shopping:
    """The list, with no wood laid out unless a layout is given."""
    return shopping_for(audit, own or audit, layout)


def group(shopping: Shopping, key: str) -> Group:
    return next(one for one in shopping.groups if one.key == key)


def line(shopping: Shopping, words: str) -> Line:
    """The one line whose words hold these."""
    found = [one for each in shopping.groups for one in each.lines if words in one.what]
    assert len(found) == 1, [one.what for each in shopping.groups for one in each.lines]
    return found[0]


def total(shopping: Shopping, key: str) -> Total:
    return next(one for one in shopping.totals if one.key == key)


def boards(
    words: str,
    number: int,
    section: tuple[float, float],
    length: float,
    *,
    purchase: Purchase | None = None,
    kind: str = "board",
    wood: str | None = "western-redcedar",
    rough: tuple[float, float] | None = None,
    proved: bool = True,
    why: str = "",
    cut: tuple[CutBoard, ...] | None = None,
) -> Boards:
    """Boards in inches, as a cutting layout has them; by default each is cut into nothing that matters here."""
    thickness, width = section[0] * INCH, section[1] * INCH
    whole = CutBoard("0", thickness, width, length * INCH, ())
    return Boards(
        words=words,
        kind=kind,
        purchase=purchase,
        thickness=thickness,
        width=width,
        length=length * INCH,
        rough=None if rough is None else (rough[0] * INCH, rough[1] * INCH),
        wood=wood,
        treated=False,
        own=0 if purchase is None else purchase.number,
        number=number,
        least=number,
        proved=proved,
        cut=(whole,) * number if cut is None else cut,
        why=why,
    )
