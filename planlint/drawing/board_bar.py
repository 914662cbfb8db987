"""One board to scale: its pieces with their labels, the kerfs between them, its off-cuts hatched. Mm on paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from planlint.drawing.board_labels import RADIUS, SIZE, Box, label, ring
from planlint.drawing.letters import width
from planlint.sawing.order import Area, Freed, Sawn
from planlint.svg import Point, element, group, line, number, rectangle, words

_HATCH = 2.4  # from line to line
_THINNEST = 0.25  # a kerf is drawn no thinner
_BESIDE = 2 * RADIUS + 0.6  # from one number beneath the board to the next
_UNDER = 2.2  # how far beneath it they begin
_ADJOINING = 3.0  # an off-cut that begins no further under a piece lies beside it: a kerf is between

Words = Callable[[float], str]


class Scale(NamedTuple):
    """Paper over wood: along the board, and across it where that is drawn larger."""

    along: float
    across: float


class Bar(NamedTuple):
    """A board drawn, and how high it is with the numbers beneath it."""

    content: tuple[str, ...]
    height: float


def bar(one: Sawn, corner: tuple[float, float], scale: Scale, length: Words) -> Bar:
    """The board with its top left corner there; `length` writes a length."""
    board = one.board
    whole = _box(Area(0.0, 0.0, board.length, board.width), corner, scale)
    pieces: list[str] = []
    small: list[tuple[Freed, Box]] = []
    for piece in one.pieces:
        box = _box(piece.area, corner, scale)
        told = label(piece.number, piece.name, length(piece.length), box)
        if told is None and piece.number:
            small.append((piece, box))
        edge = rectangle((box.x, box.y), box.width, box.height, "piece")
        pieces.append(group({"data-entry": piece.name}, [edge, told or ""]))
    left = [_box(area, corner, scale) for area in one.offcuts]
    beside, free = _beside(small, left)
    beneath = [one for one in small if one[0] not in [piece for piece, _, _ in beside]]
    drawn = [rectangle(corner, whole.width, whole.height, "wood")]
    for area, box, room in zip(one.offcuts, left, free, strict=True):
        drawn.append(_offcut(area, box, room, one, length))
    drawn += [_kerf(cut.kerf, corner, scale) for cut in one.cuts]
    drawn += [*pieces, rectangle(corner, whole.width, whole.height, "outline")]
    for piece, middle, at in beside:
        drawn += [line(middle, at, "leader"), ring(piece.number, at)]
    drawn += _beneath(beneath, whole)
    height = whole.height + (_UNDER + 2 * RADIUS if beneath else 0.0)
    return Bar(tuple(drawn), height)


def _beside(
    small: Sequence[tuple[Freed, Box]], left: Sequence[Box]
) -> tuple[list[tuple[Freed, Point, Point]], list[Box]]:
    """Numbers that have no room in their pieces, in the off-cut under the piece where there is one: the piece, its
    middle, the number's place. And what room that leaves in each off-cut.
    """
    found: list[tuple[Freed, Point, Point]] = []
    free = list(left)
    taken: dict[int, list[float]] = {}
    for piece, box in small:
        for index, under in enumerate(left):
            x, y = box.middle[0], under.y + RADIUS + 0.8
            near = 0.0 <= under.y - (box.y + box.height) < _ADJOINING
            fits = under.x + RADIUS < x < under.x + under.width - RADIUS and under.height > 2 * RADIUS + 1.4
            clear = all(abs(x - other) >= _BESIDE for other in taken.get(index, []))
            if near and fits and clear:
                found.append((piece, box.middle, (x, y)))
                taken.setdefault(index, []).append(x)
                top = y + RADIUS + 0.4
                free[index] = Box(under.x, top, under.width, max(0.0, under.y + under.height - top))
                break
    return found, free


def _box(area: Area, corner: tuple[float, float], scale: Scale) -> Box:
    return Box(
        corner[0] + area.along * scale.along,
        corner[1] + area.across * scale.across,
        area.length * scale.along,
        area.width * scale.across,
    )


def _kerf(area: Area, corner: tuple[float, float], scale: Scale) -> str:
    box = _box(area, corner, scale)
    if area.length < area.width:
        wide = max(box.width, _THINNEST)
        return rectangle((box.x - (wide - box.width) / 2, box.y), wide, box.height, "kerf")
    high = max(box.height, _THINNEST)
    return rectangle((box.x, box.y - (high - box.height) / 2), box.width, high, "kerf")


def _offcut(area: Area, box: Box, room: Box, one: Sawn, length: Words) -> str:
    drawn = [rectangle((box.x, box.y), box.width, box.height, "offcut"), _hatched(box)]
    ripped = one.sheet or area.width < one.board.width - 0.01
    for text in (f"{length(area.width)} x {length(area.length)}" if ripped else "", length(area.length)):
        wide, high = width(text, SIZE) + 1.6, SIZE + 0.8
        if text and wide <= room.width and high <= room.height:
            x, y = room.middle
            drawn.append(rectangle((x - wide / 2, y - high / 2), wide, high, "offcut"))
            drawn.append(words(text, (x, y + SIZE * 0.36), SIZE, "", "middle"))
            break
    return group({"class": "left-over"}, drawn)


def _hatched(box: Box) -> str:
    """Lines at 45 degrees, cut off at the rectangle's edges."""
    path = []
    at = _HATCH - box.height
    while at < box.width:
        begin, end = max(0.0, -at), min(box.height, box.width - at)
        if end > begin:
            path.append(
                f"M{number(box.x + at + begin)} {number(box.y + box.height - begin)}"
                f"L{number(box.x + at + end)} {number(box.y + box.height - end)}"
            )
        at += _HATCH
    return element("path", {"class": "hatch", "d": "".join(path)}) if path else ""


def _beneath(pieces: Sequence[tuple[Freed, Box]], whole: Box) -> list[str]:
    """Numbers that have no room in their pieces: in a row under the board, each with a line to its piece."""
    drawn: list[str] = []
    ordered = sorted(pieces, key=lambda one: one[1].middle)
    places = _spread([box.middle[0] for _, box in ordered], whole.x, whole.x + whole.width)
    y = whole.y + whole.height + _UNDER + RADIUS
    for (piece, box), x in zip(ordered, places, strict=True):
        drawn.append(line(box.middle, (x, y - RADIUS), "leader"))
        drawn.append(ring(piece.number, (x, y)))
    return drawn


def _spread(wanted: Sequence[float], low: float, high: float) -> list[float]:
    """Places in this order, no two nearer than a ring is wide, as near to the wanted ones as a row allows."""
    places: list[float] = []
    for place in wanted:
        places.append(max(place, places[-1] + _BESIDE) if places else max(place, low))
    reach = high
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], reach)
        reach = places[index] - _BESIDE
    return places
