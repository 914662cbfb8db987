"""A large piece is walked through instead of asking every two parts: the openings are the same, the work is not."""

from __future__ import annotations

from pathlib import Path

import pytest

from planlint.build.build import build
from planlint.build.piece import Piece
from planlint.geometry.shelves import Shelves
from planlint.observe import extents, facing
from planlint.observe.openings import openings
from planlint.read.reader import read
from planlint.source import Source
from tests.timing import timed

ROOT = Path(__file__).parents[2]
PLANS = sorted([*(ROOT / "samples").rglob("*.plan"), *(ROOT / "tests" / "plans" / "sound").glob("*.plan")])


def built(text: str) -> Piece:
    return build(read(Source(text))[0])


def slatted(slats: int) -> str:
    """Slats 1 1/2 in apart on three rails, one of them a hand's width above the rest and one standing askew."""
    return f"""
plan "Long rack"
  units in
parts
  rail: 3 of 2x6 @ {slats * 5}
  slat: {slats} of 2x4 @ 40
  loose: 1 of 2x4 @ 40
place
  rail: row of 3 front-back from 0 to 40, runs left-right, face front, left at 0, bottom at 14
  slat: row of {slats} left-right gap 1 1/2, runs front-back, face top, left at 0, front at 0, bottom at top of rail.1
  loose: runs front-back, face top, front at 0, left at {slats * 5 - 4}, bottom at top of rail.1
"""


def found(piece: Piece) -> set[tuple[frozenset[str], frozenset[str], float, float]]:
    return {
        (
            frozenset(part.name for part in one.sides),
            frozenset(part.name for part in one.ends),
            round(one.width, 6),
            round(one.length, 6),
        )
        for one in openings(piece)
    }


@pytest.mark.parametrize("text", [slatted(20), *[path.read_text("utf-8") for path in PLANS]])
def test_walking_finds_what_asking_every_two_finds(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    every_two = found(built(text))
    monkeypatch.setattr(facing, "FEW", 0)
    monkeypatch.setattr(extents, "FEW", 0)
    assert found(built(text)) == every_two


def test_twice_the_slats_take_about_twice_the_time() -> None:
    """Four times would be the square of the parts."""

    def seconds(slats: int) -> float:
        piece = built(slatted(slats))
        times = []
        for _ in range(3):
            piece.known.clear()
            found_now, seconds_now = timed(lambda: list(openings(piece)))
            assert len(found_now) >= 2 * (slats - 1)
            times.append(seconds_now)
        return min(times)

    assert seconds(400) < 3 * seconds(200)


def test_a_span_over_many_shelves_is_met_once_and_none_is_missed() -> None:
    spans = [(0.0, 100.0), *[(float(x), x + 1.0) for x in range(0, 100, 4)]]
    shelves = Shelves(spans)
    for low, high in ((0.0, 100.0), (3.5, 4.5), (50.0, 50.0), (-9.0, 2.0), (99.0, 300.0)):
        met = list(shelves.reaching(low, high))
        assert len(met) == len(set(met))
        assert {i for i, (a, b) in enumerate(spans) if a <= high and b >= low} <= set(met)
    assert list(shelves.reaching(400.0, 500.0)) == []
