"""How the views share a sheet: one round scale for the flat ones, and the turned one in the largest room left.

The top view stands over the front, the right side beside it, as on a printed plan: edges line up from view to view.
The list of findings and the title block stand at the foot, or in the column to the right of tall pieces.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from planlint.drawing.picture import Extent
from planlint.drawing.placing import Box

SHEETS = (
    (250.0, 178.0),
    (384.0, 264.0),
    (552.0, 384.0),
)  # mm: what A4 and Letter, A3 and Tabloid, A2 and C hold
PAD = 4.0  # mm round the sheet
BLOCK = (84.0, 23.0)  # mm: the title block
DIMENSIONS = 15.0  # mm: the band of a chain and the overall line
ROWS = 8.0  # mm: the band of a row's line
TITLE = 5.5  # mm: a view's name over it
BETWEEN = 9.0  # mm between two views
THIN = 0.9  # mm on paper that a usual board is thick at least
TURNED = 0.55  # of the flat views' scale: what the turned view has at least
LARGEST = 1.6  # … and at most
FOOT = 0.4  # of the sheet's height: what the list takes at most
# Of the sheet's width or height: what the flat views fill, else the next sheet is taken.
FILLED = (0.26, 0.38)


class Wanted(NamedTuple):
    """What a sheet must hold: the flat views and which have rows, the turned view with its columns of names."""

    front: Extent
    side: Extent
    top: Extent
    turned: Extent
    rows_above: tuple[bool, bool]  # of the top; of the front or side
    rows_beside: tuple[bool, bool]  # of the front or top; of the side
    columns: tuple[float, float]  # mm: the names to the left and the right of the turned view
    thin: float  # mm: how thick a usual board is
    listed: Callable[[float], float]  # how high the list is, for a width


class Arranged(NamedTuple):
    """The sheet: its size, the flat views' scale (mm on paper for a mm) and corners, and the rooms for the rest."""

    width: float
    height: float
    scale: float
    front: tuple[float, float]
    side: tuple[float, float]
    top: tuple[float, float]
    turned: Box
    turned_scale: float
    list_room: Box
    drawn_above: float  # y: over the list and the block, or the whole sheet beside them


def arranged(wanted: Wanted, scales: Sequence[float]) -> Arranged:
    """The smallest sheet on which boards are thick enough to be seen, its views as large as may be."""
    found: Arranged | None = None
    for width, height in SHEETS:
        for scale in scales:
            tried = list(_tried(wanted, 1.0 / scale, width, height))
            found = max(tried, key=lambda one: one.turned_scale) if tried else found
            if tried and found is not None and found.turned_scale >= TURNED * found.scale:
                break
        if found is not None and found.scale * wanted.thin >= THIN and _fills(wanted, found):
            return found
    return found or _squeezed(wanted)


def _fills(wanted: Wanted, found: Arranged) -> bool:
    wide = wanted.front.wide * found.scale / found.width
    high = (wanted.front.high + wanted.top.high) * found.scale / found.height
    return wide >= FILLED[0] or high >= FILLED[1]


def _tried(wanted: Wanted, scale: float, width: float, height: float) -> Iterator[Arranged]:
    """The ways to lay out a sheet at this scale; none where the flat views have no room."""
    across = wanted.listed(width - 2.0 * PAD - BLOCK[0] - 4.0)
    foot = height - PAD - max(across, BLOCK[1]) - 2.0
    if across <= FOOT * height:
        room = Box(PAD, foot + 2.0, width - PAD - BLOCK[0] - 4.0, height - PAD)
        yield from _laid(wanted, scale, width, height, foot, foot, room)
    beyond = _beyond(wanted, scale)
    wide = width - PAD - beyond
    if wide >= BLOCK[0]:
        top = height - PAD - BLOCK[1] - 3.0 - wanted.listed(wide)
        yield from _laid(
            wanted, scale, width, height, height - PAD, top - 2.0, Box(beyond, top, width - PAD, height)
        )


def _laid(
    wanted: Wanted, scale: float, width: float, height: float, bottom: float, room_bottom: float, listed: Box
) -> Iterator[Arranged]:
    """The flat views down to `bottom`; the turned view over `room_bottom`, beside them all, beside the top view, or
    under them.
    """
    above_top, above_front = [ROWS if there else 0.0 for there in wanted.rows_above]
    beside_front, beside_side = [ROWS if there else 0.0 for there in wanted.rows_beside]
    left = PAD + DIMENSIONS
    first = PAD + TITLE + above_top
    second = first + wanted.top.high * scale + DIMENSIONS + TITLE + above_front
    after = left + wanted.front.wide * scale + beside_front + BETWEEN
    side = after + beside_side
    beyond = _beyond(wanted, scale)
    spare = bottom - second - max(wanted.front.high, wanted.side.high) * scale - DIMENSIONS
    if spare < 0.0 or beyond - BETWEEN > width - PAD:
        return
    lifted = min(spare * 0.4, 14.0)
    flats_end = bottom - spare
    beside_all = Box(beyond, PAD, width - PAD, room_bottom)
    row_end = min(second + spare - TITLE - above_front - 2.0, room_bottom)
    beside_top = Box(after, PAD, width - PAD, row_end)
    under = Box(PAD, flats_end + lifted, width - PAD, room_bottom)
    for room in (beside_all, beside_top, under):
        fitting = min(_turned_scale(wanted, room), LARGEST * scale)
        if fitting <= 0.0:
            continue
        down = lifted
        if room is beside_top:
            needed = wanted.turned.high * fitting + TITLE + 2.0
            down = min(max(lifted, needed - (row_end - spare - PAD)), spare)
            room = room._replace(bottom=row_end - spare + down)
        second_row = second + down
        yield Arranged(
            width, height, scale, (left, second_row), (side, second_row), (left, first), room, fitting,
            listed, bottom,
        )  # fmt: skip


def _beyond(wanted: Wanted, scale: float) -> float:
    """Where the paper is free to the right of the side view."""
    beside_front, beside_side = [ROWS if there else 0.0 for there in wanted.rows_beside]
    left = PAD + DIMENSIONS + wanted.front.wide * scale + beside_front + BETWEEN
    return left + beside_side + wanted.side.wide * scale + DIMENSIONS + BETWEEN


def _turned_scale(wanted: Wanted, room: Box) -> float:
    wide = room.right - room.left - sum(wanted.columns) - 10.0
    high = room.bottom - room.top - TITLE - 2.0
    if wide <= 0.0 or high <= 0.0:
        return 0.0
    return min(wide / max(wanted.turned.wide, 1.0), high / max(wanted.turned.high, 1.0))


def _squeezed(wanted: Wanted) -> Arranged:
    """A piece so large that no round scale brings it on the largest sheet: a scale that does."""
    width, height = SHEETS[-1]
    scale = 1e-3
    while True:
        for one in _tried(wanted._replace(listed=lambda wide: 0.0), scale, width, height):
            return one
        scale /= 2.0
