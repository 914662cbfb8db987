"""Labels in the pieces of a board: the fullest that fits its piece, so that none leaves it or meets another. Mm."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planlint.drawing.letters import width
from planlint.svg import element, group, words

SIZE, SMALL = 2.5, 1.9  # of the letters
RADIUS = 1.75  # of the ring round a cut's number
_GAP, _AIR = 0.9, 0.35  # from ring to name; to the piece's edges
_RING_ROW, _ROW = 2 * RADIUS + 0.1, 3.0
_BOLD = 1.07
_DROP = 0.36  # of the size: from a line's middle to its baseline


class Box(NamedTuple):
    """A rectangle on paper."""

    x: float
    y: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its centre."""
        return self.x + self.width / 2, self.y + self.height / 2


class _Way(NamedTuple):
    """Rows of a label; the first may begin with the ring."""

    ring: bool
    rows: tuple[str, ...]
    wide: float
    high: float


def label(number: int, name: str, length: str, box: Box) -> str | None:
    """The label drawn, upright or turned; None where not even the number fits."""
    for way in _ways(number, name, length):
        if way.wide + 2 * _AIR <= box.width and way.high + 2 * _AIR <= box.height:
            return _drawn(way, number, box.middle)
        if way.wide + 2 * _AIR <= box.height and way.high + 2 * _AIR <= box.width:
            x, y = box.middle
            turn = {"transform": f"rotate(-90 {x:.2f} {y:.2f})"}
            return group(turn, [_drawn(way, number, (x, y))])
    text = str(number) if number else ""
    if text and width(text, SMALL) + 0.3 <= box.width and box.height >= SMALL * 0.76 + 0.3:
        x, y = box.middle
        return words(text, (x, y + SMALL * _DROP), SMALL, "", "middle")
    return None


def ring(number: int, middle: tuple[float, float]) -> str:
    """A cut's number in a ring."""
    x, y = middle
    circle = element("circle", {"class": "cut-ring", "cx": x, "cy": y, "r": RADIUS})
    size = SIZE if number < 10 else SMALL if number < 100 else SMALL * 0.75
    return circle + words(str(number), (x, y + size * _DROP), size, "cut-number", "middle")


def _ways(number: int, name: str, length: str) -> Iterator[_Way]:
    ring = number > 0
    before = 2 * RADIUS if ring else 0.0
    first = _RING_ROW if ring else _ROW

    def way(*rows: str) -> _Way:
        head = before + (_GAP if ring and rows[0] else 0.0) + _bold(rows[0])
        wide = max([head, *(width(row, SIZE) for row in rows[1:])])
        return _Way(ring, rows, wide, first + _ROW * (len(rows) - 1))

    yield way(name, length)
    yield way(f"{name}  {length}")
    yield way(name)
    if ring:
        yield way("", length)
        yield way(length)
        yield way("")


def _bold(text: str) -> float:
    """How wide a name is: bold letters are wider."""
    return width(text, SIZE) * _BOLD


def _drawn(way: _Way, number: int, middle: tuple[float, float]) -> str:
    x, y = middle
    top = y - way.high / 2
    first = _RING_ROW if way.ring else _ROW
    drawn = []
    text = _bold(way.rows[0])
    before = 2 * RADIUS + (_GAP if way.rows[0] else 0.0) if way.ring else 0.0
    left = x - (before + text) / 2
    line = top + first / 2
    if way.ring:
        drawn.append(ring(number, (left + RADIUS, line)))
    if way.rows[0]:
        drawn.append(words(way.rows[0], (left + before, line + SIZE * _DROP), SIZE, "piece-name"))
    for index, row in enumerate(way.rows[1:]):
        below = top + first + _ROW * (index + 0.5)
        drawn.append(words(row, (x, below + SIZE * _DROP), SIZE, "", "middle"))
    return "".join(drawn)
