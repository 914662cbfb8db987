"""Plans for the drawing tests: all samples, hard cases, and a long one with many slats."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

from planlint.auditing import Audit, audit_source, audit_text
from planlint.drawing.drawing import Drawing
from planlint.read.files import read_file
from planlint.source import Source

ROOT = Path(__file__).parents[2]
SAMPLES = sorted([*ROOT.glob("samples/*/*.plan"), *ROOT.glob("tests/plans/sound/*.plan")])

SHELF = """plan "{title}"
  units {units}

parts
  {name}: 1 of 3/4 x 8 @ 30

place
  {name}: runs left-right, face top, left at 0, front at 0, bottom at 0
"""


@cache
def audited(path: Path) -> Audit:
    """The audit of a sample, once for all tests."""
    source = read_file(str(path))
    assert isinstance(source, Source)
    return audit_source(source)


@cache
def sheet(path: Path, draw: Callable[[Audit], Drawing]) -> Drawing:
    """A sample's drawing, made once for all tests."""
    return draw(audited(path))


def shelf(title: str = "Shelf", name: str = "shelf", units: str = "in") -> Audit:
    """A plan of one part."""
    return audit_text(SHELF.format(title=title, name=name, units=units))


def slatted(slats: int) -> Audit:
    """A long bench: a row of slats over two rails, a pair of legs every 48 slats."""
    long, pairs = slats * 60 + 40, max(2, slats // 48)
    legs = "".join(
        f"  leg as leg-f{i}, leg-b{i}: runs up, left at {40 + i * (long - 150) / (pairs - 1):.0f}, front at 20,\n"
        "    bottom at 0, mirrored front-back about 200\n"
        for i in range(pairs)
    )
    return audit_text(
        f"""plan "Long bench"
  units mm
  piece bench
  centre front-back at 200

parts
  slat: {slats} of 45 x 20 @ 400
  rail: 2 of 90 x 40 @ {long}
  leg: {2 * pairs} of 70 x 70 @ 400

place
  rail as front-rail, back-rail: runs left-right, face front, left at 0, front at 20, bottom at 400,
    mirrored front-back about 200
  slat: row of {slats} left-right from 0 to {long}, runs front-back, face top, front at 0, bottom at 490
{legs}
step "Frame"
  leg to rail: 2 wood-screws 5 x 70
  slat to rail: 1 wood-screws 5 x 50
"""
    )
