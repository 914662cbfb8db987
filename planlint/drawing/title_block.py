"""What stands at the foot of a sheet: the findings by number, and the title block with the scale to measure by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planlint.drawing.arranging import BLOCK
from planlint.drawing.letters import lines as broken
from planlint.drawing.letters import shortened, width
from planlint.drawing.rings import RADIUS, ring
from planlint.geometry.vector import NOISE
from planlint.show.quantities import IMPERIAL, INCH, bare, scale_of
from planlint.svg import line, rectangle, words

SIZE, ROW = 2.4, 4.3  # mm: letters; one finding under another
COLUMN = 62.0  # mm: of findings

_INCH_SCALES = (
    1.0,
    2.0,
    4.0,
    6.0,
    8.0,
    12.0,
    16.0,
    24.0,
    32.0,
    48.0,
    96.0,
    192.0,
    384.0,
)  # as rules are divided
_METRIC_SCALES = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0)
_INCH_BARS = (1.0, 2.0, 4.0, 6.0, 12.0, 24.0, 48.0, 96.0, 240.0, 480.0)
_METRIC_BARS = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10000.0)
_BAR_LEAST = 24.0  # mm on paper


class Item(NamedTuple):
    """A finding in the list: its number and what it says."""

    number: int
    text: str


def scales(units: str) -> tuple[float, ...]:
    """What one mm on paper may stand for, in mm of the piece: round scales, the largest drawing first."""
    return _INCH_SCALES if units in IMPERIAL else _METRIC_SCALES


def listed_high(count: int, wide: float) -> float:
    """How high the list of so many findings is in this width."""
    across = max(1, int(wide // COLUMN))
    return ROW * -(-count // across) + (ROW if count else 0.0)


def findings_list(
    items: Sequence[Item], notes: Sequence[str], left: float, top: float, wide: float
) -> list[str]:
    """The findings in columns, then the notes, each on its own line."""
    across = max(1, int(wide // COLUMN))
    rows = -(-len(items) // across)
    ink: list[str] = []
    for i, item in enumerate(items):
        x, y = left + (i // rows) * wide / across, top + (i % rows) * ROW
        ink.append(ring(item.number, (x + RADIUS, y + ROW / 2.0)))
        text = shortened(item.text, wide / across - 2.0 * RADIUS - 3.0, SIZE)
        ink.append(words(text, (x + 2.0 * RADIUS + 1.2, y + ROW / 2.0 + SIZE * 0.36), SIZE))
    y = top + rows * ROW + SIZE + 0.8
    for note in notes:
        ink.append(words(note, (left, y), SIZE, "caption"))
        y += SIZE * 1.35
    return ink


def title_block(
    title: str,
    told: Sequence[str],
    units: str,
    scale: float,
    right: float,
    bottom: float,
    high: float = BLOCK[1],
) -> list[str]:
    """The block in its corner: the plan's title, what is to be known of the sheet, a bar to measure by (`scale`: mm on
    paper for a mm of the piece; 0 for a sheet that is not to scale).
    """
    left, top = right - BLOCK[0], bottom - high
    ink = [
        rectangle((left, top), BLOCK[0], high, "frame"),
        line((left, top + 7.2), (right, top + 7.2), "thin"),
    ]
    size = 4.2
    while width(title, size) > BLOCK[0] - 5.0 and size > 2.8:
        size -= 0.2
    ink.append(words(shortened(title, BLOCK[0] - 5.0, size), (left + 2.5, top + 5.2), size, "title"))
    y = top + 10.6
    for text in told:
        ink.append(words(shortened(text, BLOCK[0] - 5.0, SIZE), (left + 2.5, y), SIZE))
        y += 3.2
    return ink + (scale_bar(units, scale, left + 2.5, bottom - 4.4) if scale else [])


def scale_bar(units: str, scale: float, left: float, top: float) -> list[str]:
    """A bar in four fields; `scale`: mm on paper for a mm of the piece."""
    inches = units in IMPERIAL
    known = [length * INCH for length in _INCH_BARS] if inches else list(_METRIC_BARS)
    long = next((length for length in known if length * scale >= _BAR_LEAST - NOISE), known[-1])
    field = long * scale / 4.0
    ink = [
        rectangle((left + field * i, top), field, 1.1, "bar dark" if i % 2 == 0 else "bar") for i in range(4)
    ]
    for part in (0, 2, 4):
        text = bare(long * part / 4.0, scale_of("length", units)) if part else "0"
        if part == 4:
            text += " in" if inches else " mm"
        anchor = "start" if part == 0 else "middle"
        ink.append(words(text, (left + field * part, top + 1.1 + SIZE * 0.95), SIZE * 0.9, "", anchor))
    return ink


def wrapped(text: str, wide: float) -> list[str]:
    """A note in lines."""
    return broken(text, wide, SIZE)
